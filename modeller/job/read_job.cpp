#include "modeller/job/read_job.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <sstream>

#include "modeller/job/parts.h"

namespace halfhard {
namespace {

constexpr const char* kFormat = "halfhard-job/1";
constexpr std::string_view kFamily = "halfhard-job/";

// Whether the rest is worth reading: a newer job may mean other things by the same words.
bool check_format(Reading& reading, JsonValue root) {
  const JsonValue at = root.find("format");
  if (!at) {
    reading.problem(root, "no \"format\"", "\"format\": " + in_quotes(kFormat));
    return true;
  }
  if (at.kind() != JsonKind::text) {
    reading.wrong_kind(at, in_quotes(kFormat));
    return true;
  }
  if (at.text() == kFormat) return true;
  const bool newer = at.text().starts_with(kFamily) && at.text().size() > kFamily.size() &&
                     std::ranges::all_of(at.text().substr(kFamily.size()), [](char c) { return c >= '0' && c <= '9'; });
  const std::string allowed = in_quotes(kFormat) + (newer ? ", the only format known to this program" : "");
  const std::array<std::string_view, 1> known = {kFormat};
  reading.problem(at, in_quotes(at.text()), allowed, newer ? "" : nearest_name(at.text(), known));
  return false;
}

LengthUnit unit_of(JsonValue root) {
  const JsonValue at = root.find("length_unit");
  const bool inch = at && at.kind() == JsonKind::text && at.text() == "in";
  return inch ? LengthUnit::inch : LengthUnit::mm;
}

// A STEP file as it was read.
struct SolidRead {
  std::filesystem::file_time_type written;
  std::variant<TriangleBody, std::string> body;
};

std::filesystem::file_time_type written_at(const std::filesystem::path& file) {
  std::error_code error;
  const auto time = std::filesystem::last_write_time(file, error);
  return error ? std::filesystem::file_time_type::min() : time;
}

}  // namespace

struct JobSource::Kept {
  ReadOptions options;
  std::vector<JobProblem> parse_problems;
  std::shared_ptr<const JsonTree> tree;
  std::string stem, digest;
  LengthUnit unit = LengthUnit::mm;
  std::unique_ptr<Values> values;
  std::vector<JobProblem> value_problems;
  KnownNames known;
  std::unordered_map<std::uint32_t, Expression> expressions;
  std::map<std::filesystem::path, std::shared_ptr<const SolidRead>> solids;
  struct Placed {
    Eigen::Affine3d motion;
    std::shared_ptr<const TriangleBody> body;
  };
  std::map<std::pair<std::size_t, std::filesystem::path>, Placed> placed;  // by fixture and file, as last asked for

  void read_solids(Reading& reading, const std::vector<SolidToRead>& wanted, Job& job);
};

// The same body in the same place is the same object, so that nobody downstream rebuilds what rests on it.
void JobSource::Kept::read_solids(Reading& reading, const std::vector<SolidToRead>& wanted, Job& job) {
  for (const SolidToRead& solid : wanted) {
    auto found = solids.find(solid.file);
    if (found == solids.end()) {
      SolidRead read{written_at(solid.file), std::string("this program cannot read STEP files")};
      if (options.read_solid) read.body = options.read_solid(solid.file);
      found = solids.emplace(solid.file, std::make_shared<const SolidRead>(std::move(read))).first;
    }
    if (const auto* why = std::get_if<std::string>(&found->second->body)) {
      reading.problem(solid.file_at, "the file " + in_quotes(solid.file_at.text()) + ": " + printable(*why),
                      "a STEP file that can be read", "", 3);
      continue;
    }
    Eigen::Affine3d motion(Eigen::Translation3d(solid.at));
    for (const Eigen::Affine3d& turn : solid.turns) motion = turn * motion;
    Placed& last = placed[{solid.fixture, solid.file}];
    if (!last.body || last.motion.matrix() != motion.matrix()) {
      auto body = std::make_shared<TriangleBody>(std::get<TriangleBody>(found->second->body));
      for (Vec3& vertex : body->vertices) vertex = motion * vertex;
      last = {motion, std::move(body)};
    }
    job.fixtures[solid.fixture].body.shape = last.body;
  }
}

JobSource::JobSource(std::string text, ReadOptions options) : kept_(std::make_unique<Kept>()) {
  Kept& kept = *kept_;
  kept.options = std::move(options);
  kept.digest = digest_of(text);
  kept.stem = std::filesystem::path(kept.options.file).stem().string();
  kept.tree = JsonTree::parse(std::move(text), kept.options.file, kept.parse_problems);
  const JsonValue root = kept.tree->root();
  if (!root) return;
  kept.unit = unit_of(root);
  kept.values = std::make_unique<Values>(root.find("values"), kept.unit, kept.options.file, kept.value_problems);
  kept.known = names_in(root);
}

JobSource::~JobSource() = default;
JobSource::JobSource(JobSource&&) noexcept = default;
JobSource& JobSource::operator=(JobSource&&) noexcept = default;

const JsonTree& JobSource::tree() const { return *kept_->tree; }

JobProblem JobSource::problem_at(const std::string& pointer, std::string found, std::string allowed) const {
  JobProblem problem{kept_->options.file, 0, 0, pointer, std::move(found), std::move(allowed), "", 2};
  if (const JsonValue at = kept_->tree->at(pointer)) {
    problem.line = at.place().line;
    problem.column = at.place().column;
  }
  return problem;
}

void JobSource::take_solids_from(const JobSource& before) {
  for (const auto& [file, read] : before.kept_->solids)
    if (read->written == written_at(file)) kept_->solids.emplace(file, read);
  for (const auto& [where, placed] : before.kept_->placed)
    if (kept_->solids.contains(where.second)) kept_->placed.emplace(where, placed);
}

JobReading JobSource::read() { return read(kept_->options.set); }

JobReading JobSource::read(const std::map<std::string, std::string>& set) {
  Kept& kept = *kept_;
  JobReading result;
  std::vector<JobProblem>& problems = result.problems;
  problems = kept.parse_problems;
  const JsonValue root = kept.tree->root();
  if (!root) return result;
  std::vector<JobProblem> value_problems = kept.value_problems;
  kept.values->work_out(set, kept.options.file, value_problems);
  Reading reading(*kept.tree, kept.options.file, *kept.values, kept.unit, kept.expressions, problems, result.figures);
  reading.known = kept.known;
  if (root.kind() != JsonKind::group) {
    reading.wrong_kind(root, "a job, a group { } with \"format\" and \"runs\"");
    return result;
  }
  if (!check_format(reading, root)) return result;
  problems.insert(problems.end(), value_problems.begin(), value_problems.end());

  static constexpr std::array<std::string_view, 2> kUnits = {"mm", "in"};
  static constexpr std::array<LengthUnit, 2> kMeanings = {LengthUnit::mm, LengthUnit::inch};
  Job job;
  Fields top(reading, root, keys_of(JobPart::job));
  top.word<LengthUnit>("length_unit", job.unit, kUnits, kMeanings);
  members_of_group(reading, top["values"], "a group of values by name");
  const auto names = kept.values->names();
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (kept.values->good(static_cast<int>(i))) job.values[names[i]] = kept.values->numbers()[i];
  }
  std::vector<SolidToRead> solids;
  read_settings(reading, top, job);
  read_tubes(reading, top["tubes"], job);
  read_benders(reading, top["benders"], job);
  read_fixtures(reading, top["fixtures"], {kept.options.job_folder, kept.options.allow}, job, solids);
  read_connections(reading, top["connections"], job);
  read_site_checks(reading, top["site_checks"], job);
  read_runs(reading, top.needed("runs"), job);
  read_banks(reading, top["banks"], job);
  check_names_are_unique(reading, root, job);
  if (problems.empty()) kept.read_solids(reading, solids, job);
  in_order_of_the_file(problems);
  if (!problems.empty()) return result;
  job.stem = kept.stem;
  job.digest = kept.digest;
  result.job = std::move(job);
  return result;
}

JobReading read_job(std::string text, const ReadOptions& options) { return JobSource(std::move(text), options).read(); }

KnownNames names_in(JsonValue root) {
  KnownNames known;
  const auto keys = [&](const char* part, std::vector<std::string>& names) {
    const JsonValue group = root.find(part);
    if (!group || group.kind() != JsonKind::group) return;
    for (JsonValue member = group.first(); member; member = member.next()) names.emplace_back(member.key());
  };
  const auto list = [&](const char* part, std::vector<std::string>& names, const char* with) {
    const JsonValue members = root.find(part);
    if (!members || members.kind() != JsonKind::list) return;
    for (JsonValue member = members.first(); member; member = member.next()) {
      const JsonValue name = member.find("name");
      const bool wanted = name && name.kind() == JsonKind::text && (!with || member.find(with));
      if (wanted && !name.text().empty()) names.emplace_back(name.text());
    }
  };
  keys("tubes", known.tubes);
  keys("benders", known.benders);
  keys("connections", known.connections);
  list("fixtures", known.fixtures, nullptr);
  list("fixtures", known.planes, "plane");
  list("runs", known.runs, nullptr);
  return known;
}

}  // namespace halfhard
