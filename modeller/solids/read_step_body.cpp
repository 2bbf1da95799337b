#include "modeller/solids/read_step_body.h"

#include "modeller/solids/triangle_stream.h"
#include "modeller/system/child.h"

namespace halfhard {
namespace {

// A sentence of one line, without the child's line end.
std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

}  // namespace

std::variant<TriangleBody, std::string> read_step_body(const std::filesystem::path& file) {
  std::error_code error;
  const std::filesystem::path here = std::filesystem::read_symlink("/proc/self/exe", error);
  if (error) return std::string("the program cannot tell where it stands, to find halfhard-solids beside it");
  return read_step_body(file, here.parent_path() / "halfhard-solids", {});
}

std::variant<TriangleBody, std::string> read_step_body(const std::filesystem::path& file,
                                                       const std::filesystem::path& child,
                                                       const StepBodyLimits& limits) {
  const ChildResult result =
      run_limited({child.string(), "triangles", file.string()}, {limits.seconds, limits.megabytes});
  switch (result.ending) {
    case ChildResult::Ending::not_started:
      return "halfhard-solids, which reads STEP files, cannot be started: " + child.string();
    case ChildResult::Ending::out_of_time:
      return "reading it took longer than " + std::to_string(limits.seconds) + " s";
    case ChildResult::Ending::signalled:
      return "it cannot be read as STEP: the reader broke off (signal " + std::to_string(result.code) + ")";
    case ChildResult::Ending::exited:
      break;
  }
  if (result.code != 0) {
    return result.error.empty() ? std::string("it cannot be read as STEP") : first_line(result.error);
  }
  if (std::optional<TriangleBody> body = read_triangles(result.output)) return std::move(*body);
  return std::string("halfhard-solids and this program do not understand one another: are they of one build?");
}

}  // namespace halfhard
