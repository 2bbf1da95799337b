#include <algorithm>
#include <set>

#include "geometry/words/shown.h"
#include "viewer/draw_plan.h"
#include "viewer/solids.h"

namespace halfhard {
namespace {

struct Stretch {
  double from_mm = 0, to_mm = 0;
};

bool starts_with(const std::string& text, const std::string& start) {
  return !start.empty() && text.compare(0, start.size(), start) == 0;
}

double along_line(const Run& run, double along_blank_mm) {
  return along_blank_mm - run.spare_datum_mm - run.datum_insertion_mm();
}

double nearest_along(const Run& run, const Vec3& place) {
  double best = 0, least = 1e300;
  const int steps = std::max(1, static_cast<int>(run.line.length_mm() / 2));
  for (int i = 0; i <= steps; ++i) {
    const double at = run.line.length_mm() * i / steps;
    const double distance = (run.line.point_at(at) - place).squaredNorm();
    if (distance < least) least = distance, best = at;
  }
  return best;
}

Stretch stretch_about(const Run& run, double along_mm) {
  const double half = 2.5 * run.tube->outside_diameter_mm;
  return {std::max(0.0, along_mm - half), std::min(run.line.length_mm(), along_mm + half)};
}

// Where on the run a finding is: about its place, a bend whole; else the whole run.
Stretch stretch_of(const Finding& finding, const Run& run) {
  if (!finding.at) return {0, run.line.length_mm()};
  const double along = nearest_along(run, *finding.at);
  for (const Bend& bend : run.bends) {
    const Stretch whole{along_line(run, bend.start_of_bend_mm), along_line(run, bend.end_of_bend_mm)};
    if (whole.from_mm < along && along < whole.to_mm) return whole;
  }
  return stretch_about(run, along);
}

Part bands(const Run& run, const Stretch& stretch) {
  Part part{PartKind::failing, run.name, {}};
  Layer dark{Paint::hazard_dark, {}, {}}, bright{Paint::hazard_bright, {}, {}};
  const double band = std::max(6.0, 0.7 * run.tube->outside_diameter_mm);
  const double radius = run.tube->outside_radius_mm() + 0.5;
  bool is_dark = true;
  for (double at = stretch.from_mm; at < stretch.to_mm; at += band, is_dark = !is_dark)
    append((is_dark ? dark : bright).mesh, sleeve(run.line, at, std::min(at + band, stretch.to_mm), radius));
  part.layers = {std::move(dark), std::move(bright)};
  return part;
}

bool about(const Finding& finding, const Run& run) {
  return finding.where == run.name || finding.also == run.name || (!run.family.empty() && finding.where == run.family);
}

// A finding's sentence as a label beside its pipe: without the pipe's own name in front, its first part only, on lines
// that can be read at a glance. The panel and the papers have the whole.
std::string label_of(const Finding& finding) {
  std::string text = finding.message;
  for (const std::string& lead : {"'" + finding.where + "': ", "'" + finding.where + "' "})
    if (starts_with(text, lead)) text.erase(0, lead.size());
  for (const char* end : {": ", "; ", " ("})
    if (const size_t at = text.find(end); at != std::string::npos && at > 12) text.resize(at);
  if (!text.empty() && text.back() == '.') text.pop_back();
  constexpr size_t kMostLine = 40, kLines = 3;
  // Lines of about the same length.
  const size_t needed = std::clamp<size_t>((text.size() + kMostLine - 1) / kMostLine, 1, kLines);
  const size_t most_line = needed == 1 ? kMostLine : std::min(kMostLine, text.size() / needed + 6);
  std::string lines;
  for (size_t line = 0; !text.empty(); ++line) {
    if (line == kLines) return lines + " ...";
    size_t cut = text.size() <= most_line ? text.size() : text.rfind(' ', most_line);
    if (cut == std::string::npos || cut == 0) cut = text.find(' ');  // one long word: never inside a character
    if (cut == std::string::npos) cut = text.size();
    lines += (line ? "\n" : "") + text.substr(0, cut);
    text.erase(0, cut + (cut < text.size()));
  }
  return lines;
}

bool fails(const Clearance& clearance) { return clearance.distance_mm < clearance.required_mm - 1e-3; }

const Run* named(const std::vector<const Run*>& runs, const std::string& name) {
  for (const Run* run : runs)
    if (run->name == name) return run;
  return nullptr;
}

void add_clearance(Failures& all, const Clearance& clearance, const std::vector<const Run*>& runs, LengthUnit unit) {
  const bool failing = fails(clearance);
  if (clearance.distance_mm > 0.05) all.dimensions.push_back({clearance.at_first, clearance.at_second, failing});
  const Vec3 middle = (clearance.at_first + clearance.at_second) / 2;
  std::string text = shown_clearance(clearance.distance_mm, unit);
  if (failing && clearance.distance_mm <= 0)
    text = clearance.first + " meets " + clearance.second;
  else if (failing)
    text = clearance.first + " to " + clearance.second + "\n" + text + ", needs " +
           shown_length_bare(clearance.required_mm, unit);
  all.labels.push_back({failing ? LabelKind::failing : LabelKind::clearance, text, middle});
  if (!failing) return;
  for (const auto& [name, place] :
       {std::pair{clearance.first, clearance.at_first}, {clearance.second, clearance.at_second}}) {
    const Run* run = named(runs, name);
    if (!run) continue;
    all.bands.push_back(bands(*run, stretch_about(*run, nearest_along(*run, place))));
  }
}

}  // namespace

Failures draw_failures(const Plan& plan, const std::vector<const Run*>& runs, int clearances) {
  Failures all;
  std::vector<const Clearance*> shown;
  for (const Clearance& clearance : plan.clearances)
    if (const Run* run = named(runs, clearance.first); run || named(runs, clearance.second))
      if (fails(clearance) || !run || !run->joins(clearance.second)) shown.push_back(&clearance);
  std::stable_sort(shown.begin(), shown.end(), [](const Clearance* a, const Clearance* b) {
    return a->distance_mm - a->required_mm < b->distance_mm - b->required_mm;
  });
  constexpr double kNear_mm = 150;  // what is farther off is nothing to mind
  int room = clearances;
  std::set<std::string> said;  // equal gaps once
  for (const Clearance* clearance : shown)
    if (fails(*clearance) || (room > 0 && clearance->distance_mm < kNear_mm &&
                              said.insert(shown_clearance(clearance->distance_mm, plan.unit)).second)) {
      add_clearance(all, *clearance, runs, plan.unit);
      room -= !fails(*clearance);
    }
  for (const Finding& finding : plan.findings) {
    if (finding.severity == Severity::note || finding.id == "clearance") continue;
    const bool failing = finding.severity == Severity::fail;
    for (const Run* run : runs) {
      if (!about(finding, *run)) continue;
      const Stretch stretch = stretch_of(finding, *run);
      if (failing) all.bands.push_back(bands(*run, stretch));
      const bool whole = stretch.to_mm - stretch.from_mm >= run->line.length_mm() - 1e-6;
      if (failing || !whole)
        all.labels.push_back({failing ? LabelKind::failing : LabelKind::warning, label_of(finding),
                              finding.at.value_or(run->line.point_at(run->line.length_mm() / 2))});
    }
  }
  return all;
}

}  // namespace halfhard
