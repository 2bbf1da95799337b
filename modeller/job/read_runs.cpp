#include <algorithm>
#include <array>

#include "modeller/job/parts.h"

namespace halfhard {
namespace {

constexpr std::array<std::string_view, 2> kEndWords = {"datum", "free"};
constexpr std::array<End, 2> kEnds = {End::datum, End::free};
constexpr int kMostBends = 100000;

std::optional<JobEnd> read_end(Reading& reading, JsonValue at) {
  if (at.kind() == JsonKind::text) {
    auto name = reading.known_name(at, reading.known.connections, "a connection");
    if (!name) return std::nullopt;
    return JobEnd(*std::move(name));
  }
  if (at.kind() != JsonKind::group) {
    reading.wrong_kind(at, "the name of a connection, or a group with \"at\" and \"towards\"");
    return std::nullopt;
  }
  auto connection = read_connection(reading, at, "");
  if (!connection) return std::nullopt;
  return JobEnd(*std::move(connection));
}

void read_hook(Reading& reading, JsonValue at, JobRun& run) {
  const auto side = [&](JsonValue each) -> std::optional<End> {
    const auto place = reading.word(each, kEndWords);
    if (!place) return std::nullopt;
    return kEnds[*place];
  };
  if (at.kind() != JsonKind::list) {
    if (const auto end = side(at)) run.hook = *end;
    return;
  }
  std::vector<End> sides;
  for (JsonValue member = at.first(); member; member = member.next())
    sides.push_back(side(member).value_or(End::datum));
  run.hook = std::move(sides);
}

void read_order(Reading& reading, JsonValue at, JobRun& run) {
  const std::size_t before = reading.problem_count();
  for (const JsonValue member : members_of_list(reading, at, "a list of bend numbers")) {
    if (const auto number = reading.whole(member, 1, kMostBends)) run.order.push_back(*number);
  }
  if (reading.problem_count() != before) return;
  std::vector<int> sorted = run.order;
  std::ranges::sort(sorted);
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    if (sorted[i] == static_cast<int>(i) + 1) continue;
    reading.problem(at,
                    i > 0 && sorted[i] == sorted[i - 1] ? "bend " + std::to_string(sorted[i]) + " twice"
                                                        : "a list without bend " + std::to_string(i + 1),
                    "each bend from 1 to " + std::to_string(sorted.size()) + " once");
    return;
  }
}

// The former must be larger than the tube: the throat would cross itself.
void check_radius(Reading& reading, JsonValue at, const JobRun& run, const Job& job) {
  const auto tube = std::ranges::find(job.tubes, run.tube, &Tube::name);
  const auto bender = std::ranges::find(job.benders, run.bender, &Bender::name);
  if (tube == job.tubes.end() || bender == job.benders.end()) return;
  const double least = tube->outside_radius_mm();
  if (bender->former_radius_mm <= 0 || least <= 0 || bender->former_radius_mm > least) return;
  reading.problem(
      at, in_quotes(run.bender) + " with a former_radius of " + number_text(bender->former_radius_mm) + " mm",
      "a former_radius above half the outside diameter of " + in_quotes(run.tube) + ", " + number_text(least) + " mm");
}

JobRun read_run(Reading& reading, JsonValue at, const Job& job) {
  static constexpr std::array<std::string_view, 2> kMarkingWords = {"all", "each"};
  static constexpr std::array<Marking, 2> kMarkings = {Marking::all, Marking::each};
  JobRun run;
  run.pointer = at.pointer();
  Fields fields(reading, at, keys_of(JobPart::run));
  if (!fields.ok()) return run;
  if (const JsonValue name = fields.needed("name")) run.name = reading.name(name).value_or("");
  if (const JsonValue tube = fields.needed("tube")) {
    run.tube = reading.known_name(tube, reading.known.tubes, "a tube").value_or("");
  }
  const JsonValue bender = fields.needed("bender");
  if (bender) run.bender = reading.known_name(bender, reading.known.benders, "a bender").value_or("");
  fields.service("service", run.service);
  fields.length("lagging", run.lagging_mm, kLength0);
  fields.length("keep_clear", run.keep_clear_mm, kLength0);
  if (const JsonValue spare = fields["spare"]) {
    Fields ends(reading, spare, keys_of(JobPart::spare));
    ends.length("datum", run.spare_datum_mm, kLength0);
    ends.length("free", run.spare_free_mm, kLength0);
  }
  if (const JsonValue marking = fields["marking"]) {
    if (const auto place = reading.word(marking, kMarkingWords)) run.marking = kMarkings[*place];
  }
  run.drill_clearance_mm = read_drill_clearance(reading, fields["drill_clearance"]);
  if (const JsonValue from = fields.needed("from")) {
    if (auto end = read_end(reading, from)) run.from = *std::move(end);
  }
  const JsonValue to = fields["to"], path = fields["path"];
  if (to) run.to = read_end(reading, to);
  if (const JsonValue hook = fields["hook"]) read_hook(reading, hook, run);
  if (const JsonValue order = fields["order"]) read_order(reading, order, run);
  run.has_path = static_cast<bool>(path);
  if (path) run.path = read_path(reading, path, static_cast<bool>(to));
  if (!path && !to)
    reading.problem(at, "neither \"path\" nor \"to\"", "a path, or a \"to\" for suggest to find one to");
  if (bender) check_radius(reading, bender, run, job);
  return run;
}

}  // namespace

void read_runs(Reading& reading, JsonValue at, Job& job) {
  const std::size_t before = reading.problem_count();
  const auto members = members_of_list(reading, at, "a list of runs");
  for (const JsonValue member : members) job.runs.push_back(read_run(reading, member, job));
  if (at && members.empty() && reading.problem_count() == before) {
    reading.problem(at, "an empty list", "at least one run");
  }
}

}  // namespace halfhard
