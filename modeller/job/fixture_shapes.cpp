// Turning bodies, and where the file of a `solid` may lie.
#include <filesystem>

#include "modeller/job/parts.h"

namespace halfhard {
namespace {

namespace fs = std::filesystem;

bool lies_beneath(const fs::path& file, const fs::path& folder) {
  auto part = file.begin();
  for (auto wanted = folder.begin(); wanted != folder.end(); ++wanted) {
    if (wanted->empty()) continue;  // a trailing slash
    if (part == file.end() || *part != *wanted) return false;
    ++part;
  }
  return true;
}

// With every symbolic link followed, so that none can lead out of a folder unseen.
fs::path real_path(const fs::path& path) {
  std::error_code error;
  const fs::path absolute = fs::absolute(path.empty() ? fs::path(".") : path, error);
  const fs::path real = fs::weakly_canonical(absolute, error);
  return error ? absolute.lexically_normal() : real;
}

struct Turner {
  const Eigen::Affine3d& turn;

  Shape operator()(const Box& box) const { return Box{turn * box.centre, turn.linear() * box.axes, box.half}; }
  Shape operator()(const Cylinder& bar) const { return Cylinder{turn * bar.from, turn * bar.to, bar.radius}; }
  Shape operator()(const HalfSpace& space) const { return HalfSpace{turn * space.at, turn.linear() * space.facing}; }
  Shape operator()(const std::shared_ptr<const TriangleBody>& body) const {
    if (!body) return body;
    auto moved = std::make_shared<TriangleBody>(*body);
    for (Vec3& vertex : moved->vertices) vertex = turn * vertex;
    return std::shared_ptr<const TriangleBody>(std::move(moved));
  }
};

}  // namespace

Eigen::Affine3d turn_about(const Vec3& at, const Vec3& axis, Angle by) {
  return Eigen::Translation3d(at) * Eigen::AngleAxisd(by.radians(), axis) * Eigen::Translation3d(-at);
}

Shape turned(const Shape& shape, const Eigen::Affine3d& turn) { return std::visit(Turner{turn}, shape); }

std::optional<fs::path> allowed_file(Reading& reading, JsonValue at, const FilePlaces& places) {
  const auto written = reading.name(at);
  if (!written) return std::nullopt;
  const fs::path named(*written);
  const fs::path file = real_path(named.is_absolute() ? named : places.job_folder / named);
  bool beneath = lies_beneath(file, real_path(places.job_folder));
  for (const fs::path& folder : places.allowed) beneath |= lies_beneath(file, real_path(folder));
  if (!beneath) {
    reading.problem(at, "the file " + in_quotes(*written) + " outside the job's folder",
                    "a file beneath the job's own folder, or in a folder given by --allow");
    return std::nullopt;
  }
  std::error_code error;
  const fs::file_status status = fs::status(file, error);
  if (!fs::exists(status)) {
    reading.problem(at, "the file " + in_quotes(*written) + ", which is not there", "a STEP file that can be read", "",
                    3);
    return std::nullopt;
  }
  if (!fs::is_regular_file(status)) {
    reading.problem(at, in_quotes(*written) + ", which is no file", "a STEP file that can be read", "", 3);
    return std::nullopt;
  }
  return file;
}

}  // namespace halfhard
