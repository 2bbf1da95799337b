#include "exporters/arrangement/lists.h"

#include <algorithm>
#include <array>

#include "exporters/sheet/text_metrics.h"
#include "geometry/shown.h"

namespace halfhard {
namespace {

constexpr double kWidestText_mm = 62;

std::string lines_of(const std::string& content, double width) {
  std::string text;
  for (const std::string& line : wrapped(content, width, 2.5)) text += (text.empty() ? "" : "\n") + line;
  return text;
}

std::string unit_word(const Plan& plan) { return plan.unit == LengthUnit::mm ? "mm" : "in"; }

std::string bare(const Plan& plan, double mm) { return shown_length_bare(mm, plan.unit); }

// Clearances to a tenth: a half millimetre too little must show.
std::string gap(const Plan& plan, double mm) {
  return plan.unit == LengthUnit::mm ? shown_number(mm, 1) : shown_length_bare(mm, plan.unit);
}

Table table_of(std::vector<std::string> header, size_t left_columns) {
  Table table;
  for (size_t i = 0; i < header.size(); ++i)
    table.columns.push_back({20, i < left_columns ? AnchorX::left : AnchorX::right});
  table.rows.push_back(std::move(header));
  return table;
}

std::string number_of(const Plan& plan, const std::string& run) {
  for (size_t i = 0; i < plan.runs.size(); ++i)
    if (plan.runs[i]->name == run) return std::to_string(i + 1);
  return "";
}

std::string status_of(const Plan& plan, const Run& run) {
  if (const Finding* failure = plan.failure_of(run))
    return lines_of("NOT TO BE MADE: " + failure->message, kWidestText_mm);
  const auto doubts = std::count_if(plan.findings.begin(), plan.findings.end(), [&](const Finding& finding) {
    return finding.severity == Severity::warn && (finding.where == run.name || finding.where.empty());
  });
  if (doubts == 0) return "checks passed";
  return "passed, " + std::to_string(doubts) + (doubts == 1 ? " warning" : " warnings");
}

// "up"; else the vector.
std::string way(const Vec3& unit) {
  constexpr std::array kWords = {"right", "left", "back", "front", "up", "down"};
  for (int axis = 0; axis < 3; ++axis)
    for (const int side : {0, 1})
      if (unit[axis] * (side == 0 ? 1 : -1) > 1 - 1e-8) return kWords[static_cast<size_t>(2 * axis + side)];
  return shown_number(unit.x(), 3) + ", " + shown_number(unit.y(), 3) + ", " + shown_number(unit.z(), 3);
}

void add_end(const Plan& plan, Table& table, size_t run, const char* end, const std::string& fitting, const Vec3& at,
             const Vec3& towards, double insertion) {
  table.rows.push_back({std::to_string(run + 1), end, lines_of(fitting, 45), bare(plan, at.x()), bare(plan, at.y()),
                        bare(plan, at.z()), way(towards), bare(plan, insertion)});
}

}  // namespace

TableBlock list_of_pipes(const Plan& plan) {
  const std::string unit = unit_word(plan);
  Table table = table_of({"no.", "pipe", "tube", "service", "cut, " + unit, "bends", "status"}, 4);
  table.columns.back().align = AnchorX::left;
  for (size_t i = 0; i < plan.runs.size(); ++i) {
    const Run& run = *plan.runs[i];
    table.rows.push_back({std::to_string(i + 1), lines_of(run.name, 45), lines_of(run.tube->name, 30),
                          service_word(run.service), bare(plan, run.cut_length_mm), std::to_string(run.bends.size()),
                          status_of(plan, run)});
  }
  std::string note = "Lengths in " + unit + ". Cut length is without spare; bend marks are on the bench cards.";
  const bool lagged =
      std::any_of(plan.runs.begin(), plan.runs.end(), [](const auto& run) { return run->lagging_mm > 0; });
  if (lagged) note += " Pipes are drawn bare; clearances are to the outside of the lagging.";
  if (plan.sets > 1) note += " The job is made " + std::to_string(plan.sets) + " times: this sheet shows one.";
  return {"List of pipes", std::move(table), note};
}

TableBlock list_of_clearances(const Plan& plan, const std::vector<Callout>& callouts) {
  Table table = table_of({"", "between", "and", "gap", "needs", "alike"}, 3);
  for (const Callout& callout : callouts) {
    const Clearance& c = *callout.clearance;
    table.rows.push_back({callout.letter, lines_of(c.first, 45),
                          c.second == c.first ? "itself" : lines_of(c.second, 45), gap(plan, c.distance_mm),
                          gap(plan, c.required_mm), callout.alike > 1 ? std::to_string(callout.alike) : ""});
  }
  return {"Tightest clearances", std::move(table),
          "Between outsides, in " + unit_word(plan) +
              ". Below 0 the two run into each other. Measure these places once the pipes are up."};
}

TableBlock list_of_connections(const Plan& plan) {
  Table table = table_of({"pipe", "end", "fitting", "x", "y", "z", "tube leaves", "tube inside"}, 3);
  table.columns[6].align = AnchorX::left;
  for (size_t i = 0; i < plan.runs.size(); ++i) {
    const Run& run = *plan.runs[i];
    add_end(plan, table, i, "datum", run.from.name, run.from.at, run.from.towards, run.from.insertion_mm);
    if (run.to)
      add_end(plan, table, i, "free", run.to->name, run.to->at, run.to->towards, run.to->insertion_mm);
    else
      add_end(plan, table, i, "free", "open end", run.line.points().back(),
              -run.line.leg_direction(run.line.leg_count() - 1), 0);
  }
  const std::string origin = plan.origin.empty() ? "the job's origin" : "the origin: " + plan.origin;
  return {"Connections", std::move(table),
          "Mouths of the fittings in " + unit_word(plan) + ", from " + origin +
              (plan.surface.empty() ? "" : " (" + plan.surface + " surfaces)") +
              ". x right, y back, z up. Check these on site before bending."};
}

TableBlock list_of_clips(const Plan& plan) {
  Table table = table_of({"pipe", "along", "x", "y", "z"}, 1);
  for (const Clip& clip : plan.clips)
    table.rows.push_back({number_of(plan, clip.run), bare(plan, clip.along_mm), bare(plan, clip.at.x()),
                          bare(plan, clip.at.y()), bare(plan, clip.at.z())});
  return {"Clips", std::move(table),
          "Middle of the tube at the clip, in " + unit_word(plan) + "; along: on the centre line from the datum end."};
}

TableBlock list_of_holes(const Plan& plan) {
  Table table = table_of({"hole", "through", "pipe", "drill from", "x", "y", "z", "dia.", "deep"}, 4);
  for (size_t i = 0; i < plan.drillings.size(); ++i) {
    const Drilling& hole = plan.drillings[i];
    table.rows.push_back({"H" + std::to_string(i + 1), lines_of(hole.fixture, 45), number_of(plan, hole.run),
                          way(-hole.direction), bare(plan, hole.centre.x()), bare(plan, hole.centre.y()),
                          bare(plan, hole.centre.z()), bare(plan, hole.diameter_mm), bare(plan, hole.depth_mm)});
  }
  return {"Holes to drill", std::move(table),
          "Find cables and pipes in the wall, floor or panel before drilling. Centres in " + unit_word(plan) +
              " where the pipe goes in; the drilling sheets dimension them from edges."};
}

TableBlock list_of_site_checks(const Plan& plan) {
  Table table = table_of({"from", "to", "as designed", "as taped", "within"}, 2);
  for (const SiteCheck& check : plan.site_checks)
    table.rows.push_back({lines_of(check.from_text, 45), lines_of(check.to_text, 45), bare(plan, check.computed_mm),
                          bare(plan, check.measured_mm), bare(plan, check.within_mm)});
  return {"Site checks", std::move(table), ""};
}

}  // namespace halfhard
