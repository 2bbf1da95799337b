#include "modeller/job/job_keys.h"

#include <array>
#include <vector>

#include "modeller/job/job_key_rows.h"

namespace halfhard {
namespace {

constexpr auto kParts = std::to_array<JobPartRow>({
    {JobPart::job, "The job file", "the whole file"},
    {JobPart::tolerance, "What is near enough", "`tolerance`"},
    {JobPart::stock, "Tube to cut from", "`stock`"},
    {JobPart::limit, "A limit of the checks", "each of `limits`, by its name (`halfhard limits` lists them)"},
    {JobPart::sheet, "The title block", "`sheet`"},
    {JobPart::tube, "A tube", "each of `tubes`, by its name"},
    {JobPart::bender, "A bender", "each of `benders`, by its name"},
    {JobPart::stands, "How a bender stands", "`stands` of a bender"},
    {JobPart::spring_back, "A trial bend", "each of `spring_back` of a bender"},
    {JobPart::fixture, "A fixture: anything that pipes keep clear of", "each of `fixtures`"},
    {JobPart::box, "A box", "`box` of a fixture"},
    {JobPart::cylinder, "A round body", "`cylinder` of a fixture"},
    {JobPart::plane, "A wall, floor or ceiling", "`plane` of a fixture"},
    {JobPart::joist, "A joist", "`joist` of a fixture"},
    {JobPart::solid, "A body from a STEP file", "`solid` of a fixture"},
    {JobPart::turn, "A turn", "`turn` of a fixture (or each of a list of turns, in order), and `swing` of a door"},
    {JobPart::connection, "A fitting that a pipe starts or ends at",
     "each of `connections`, by its name; also written in place at `from` or `to` of a pipe"},
    {JobPart::taped, "A place taped off a wall", "each of three at `at` of a connection, in place of coordinates"},
    {JobPart::two_points, "A direction between two taped points", "wherever a direction may stand"},
    {JobPart::site_check, "A distance taped on site, to prove the figures", "each of `site_checks`"},
    {JobPart::run, "A pipe", "each of `runs`"},
    {JobPart::spare, "Spare tube", "`spare` of a pipe"},
    {JobPart::go, "Path step: a straight leg", "in `path` of a pipe"},
    {JobPart::leg_measured, "What the tape touched", "`measured` of a `go` or `bend` step"},
    {JobPart::to, "Path step: a leg to a place", "in `path` of a pipe"},
    {JobPart::bend, "Path step: a bend and the leg after it", "in `path` of a pipe, after a leg"},
    {JobPart::offset, "Path step: an offset", "in `path` of a pipe, between two legs in one direction"},
    {JobPart::passover, "Path step: a passover", "in `path` of a pipe, between two legs in one direction"},
    {JobPart::bank, "A bank: one pipe several times", "each of `banks`"},
});

std::string row_text(const JobKey& key) {
  std::string text = "- `" + std::string(key.key) + "` (" + std::string(key.kind);
  if (!key.allowed.empty()) text += ": " + std::string(key.allowed);
  text += key.left_out.empty() ? "; must be there" : "; left out: " + std::string(key.left_out);
  return text + "): " + std::string(key.tells) + ". Example: `" + std::string(key.example) + "`\n";
}

}  // namespace

std::span<const JobPartRow> job_parts() { return kParts; }

std::span<const JobKey> job_keys() {
  static const std::vector<JobKey> all = [] {
    std::vector<JobKey> keys;
    for (const auto rows : {keys_of_tools(), keys_of_site(), keys_of_pipes()})
      keys.insert(keys.end(), rows.begin(), rows.end());
    return keys;
  }();
  return all;
}

std::span<const std::string_view> keys_of(JobPart part) {
  static const std::array<std::vector<std::string_view>, kParts.size()> by_part = [] {
    std::array<std::vector<std::string_view>, kParts.size()> lists;
    for (const JobKey& key : job_keys()) lists[static_cast<std::size_t>(key.part)].push_back(key.key);
    return lists;
  }();
  return by_part[static_cast<std::size_t>(part)];
}

std::string job_keys_page() {
  std::string text =
      "# What a job file may hold\n\n"
      "A length, an angle or a number may be written as a number or as a text: a value's name, a sum, a length with "
      "its\n"
      "own unit (`\"pitch + 12.5 mm\"`, `\"11-3/4 in\"`, `\"1' 2 1/2\\\"\"`). Angles are degrees. A point is `[right, "
      "back, up]`;\n"
      "a direction is one of the site words `right`, `left`, `back`, `front`, `up`, `down`, a list of three numbers, "
      "or\n"
      "two taped points. Keys that are not listed are refused.\n";
  for (const JobPartRow& part : kParts) {
    text += "\n## " + std::string(part.title) + "\n\nStands at: " + std::string(part.where) + ".\n\n";
    for (const JobKey& key : job_keys())
      if (key.part == part.part) text += row_text(key);
  }
  return text;
}

}  // namespace halfhard
