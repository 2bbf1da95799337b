#include "exporters/arrangement/lists.h"

#include <algorithm>

#include "exporters/layout/drilled_face.h"
#include "exporters/sheet/text_metrics.h"
#include "geometry/words/shown.h"

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
    return finding.severity == Severity::warn && finding.concerns(run.name);
  });
  if (doubts == 0) return "checks passed";
  return "passed, " + std::to_string(doubts) + " to mind";
}

void add_end(const Plan& plan, Table& table, size_t run, const char* end, const std::string& fitting, const Vec3& at,
             const Vec3& towards, double insertion) {
  table.rows.push_back({std::to_string(run + 1), end, lines_of(fitting, 45), bare(plan, at.x()), bare(plan, at.y()),
                        bare(plan, at.z()), shown_way(towards), bare(plan, insertion)});
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
                          c.second == c.first ? "itself" : lines_of(c.second, 45),
                          shown_clearance_bare(c.distance_mm, plan.unit), shown_least_bare(c.required_mm, plan.unit),
                          callout.alike > 1 ? std::to_string(callout.alike) : ""});
  }
  return {"Tightest clearances", std::move(table),
          "Between outsides, in " + unit_word(plan) +
              ", rounded down; what is needed, up. Below 0 the two run into each other. Measure these places once the "
              "pipes are up."};
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
          "Middle of the tube at the clip, in " + unit_word(plan) +
              "; along: on the centre line from the mouth of the "
              "fitting at the start end, what stands in the fitting left out."};
}

TableBlock list_of_holes(const Plan& plan) {
  Table table = table_of({"hole", "through", "pipe", "drill from", "across", "up", "dia.", "deep"}, 6);
  const std::vector<DrilledFace> faces = drilled_faces(plan);
  // "2100 from back support"; of an endless face "700 right of the origin".
  const auto place = [&](const DrilledFace& face, const DrilledHole& hole, int axis) {
    const std::string from = face.zero == FaceZero::edges ? " from " : " ";
    return bare(plan, hole.at[axis]) + from + measured_from(face, axis);
  };
  for (size_t i = 0; i < plan.drillings.size(); ++i) {
    const Drilling& drilling = plan.drillings[i];
    for (const DrilledFace& face : faces)
      for (const DrilledHole& hole : face.holes) {
        if (hole.drilling != static_cast<int>(i)) continue;
        table.rows.push_back({"H" + std::to_string(i + 1), lines_of(drilling.fixture, 45),
                              number_of(plan, drilling.run), "from " + face.seen_from, place(face, hole, 0),
                              place(face, hole, 1), bare(plan, drilling.diameter_mm), bare(plan, drilling.depth_mm)});
      }
  }
  return {"Holes to drill", std::move(table),
          "Find cables and pipes in the wall, floor or panel before drilling. Centres in " + unit_word(plan) +
              ", on the face that is drilled, as the drilling sheets show them; the face with more room before it is "
              "drilled."};
}

TableBlock list_of_site_checks(const Plan& plan) {
  Table table = table_of({"from", "to", "as designed", "as taped", "within"}, 2);
  for (const SiteCheck& check : plan.site_checks)
    table.rows.push_back({lines_of(check.from_text, 45), lines_of(check.to_text, 45), bare(plan, check.computed_mm),
                          bare(plan, check.measured_mm), bare(plan, check.within_mm)});
  return {"Site checks", std::move(table), ""};
}

}  // namespace halfhard
