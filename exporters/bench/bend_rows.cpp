#include "exporters/bench/bend_rows.h"

#include <algorithm>
#include <cmath>

#include "exporters/bench/mark_words.h"
#include "geometry/base/tolerances.h"
#include "geometry/bending/clock.h"
#include "geometry/bending/turn_words.h"
#include "geometry/rules/bench_errors.h"
#include "geometry/words/cautions.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

bool same_angle(Angle a, double degrees) { return std::abs(a.degrees() - degrees) <= kSameDirection_deg; }

std::string bend_name(int number) { return "bend " + std::to_string(number); }

void write_clock(const Run& run, const Bend& bend, BendRow& row) {
  const std::vector<ClockReading> readings = clock_readings(run, bend.made);
  row.clock = readings.empty() ? "-" : "";
  for (const ClockReading& reading : readings) {
    const auto words = points_in_words(run.bender->stands, reading.clockwise);
    const std::string place = bend_name(reading.bend) + " " + reading.text();
    row.clock += (row.clock.empty() ? "" : "; ") + place;
    row.clock_text +=
        row.clock_text.empty() ? "Seen along the tube from the hook, the new bend swinging to 12: " : "; ";
    row.clock_text += bend_name(reading.bend) + "'s leg lies " + reading.text();
    row.clock_text += reading.behind_hook ? ", behind the hook" : ", on the lever side";
    if (words) {
      row.clock_text += ", and points " + *words;
      if (row.points.empty()) row.points = *words;
    }
    const double off_plane = std::remainder(reading.clockwise.degrees(), 180);
    row.turned = row.turned || std::abs(off_plane) > kSameDirection_deg;
  }
  if (!row.clock_text.empty()) row.clock_text += ".";
}

// A U: two 90s that turn the same way with nothing straight between.
bool one_pull(const Run& run, int index) {
  if (index < 0 || index + 1 >= static_cast<int>(run.bends.size())) return false;
  const Bend& first = run.bends[index];
  const Bend& second = run.bends[index + 1];
  return same_angle(first.angle, 90) && same_angle(second.angle, 90) && same_angle(second.rotation, 0) &&
         second.straight_before_mm <= kStraightSlack_mm;
}

// Where a bend is one of two that may be one pull: said before anything else on the card of the one made first.
std::string one_pull_remark(const Run& run, const Bend& bend) {
  for (const int index : {bend.number - 1, bend.number - 2}) {
    if (!one_pull(run, index)) continue;
    const Bend& low = run.bends[index];
    const Bend& high = run.bends[index + 1];
    const Bend& other = low.number == bend.number ? high : low;
    const Angle set = run.bender->set_angle(Angle::degrees(180));
    if (bend.made > other.made)
      return "Where " + bend_name(other.number) + " was one pull of 180°, this bend is made already: leave it out.";
    std::string text = "May be one pull of 180° with " + bend_name(other.number);
    const bool reaches = !run.bender->most_angle || set <= *run.bender->most_angle;
    if (!reaches) return text + ", in a bender that pulls to " + shown_angle(set) + ": this one does not.";
    if (low.hook != high.hook) return text + ".";
    const Bend& start = low.hook == End::datum ? low : high;
    return text + ": then hold the mark of " + bend_name(start.number) + ", pull to " + shown_angle(set) +
           " and leave " + bend_name(other.number) + " out.";
  }
  return "";
}

// The setting of the folding rule that the reader has: 600 mm long, or 24 in.
void write_rule(const Bend& bend, LengthUnit unit, BendRow& row) {
  const bool inch = unit == LengthUnit::inch;
  const double by = inch ? 24 * 25.4 / 600 : 1;
  row.rule = inch ? "24 in rule" : "600 mm rule";
  row.rule_hinge = inch ? "12 in" : "300 mm";
  row.rule_while_pulling = shown_length(by * bend.rule_points_set_mm, unit);
  row.rule_after = shown_length(by * bend.rule_points_mm, unit);
}

std::string signed_angle(Angle angle) { return (angle.degrees() > 0 ? "+" : "") + shown_angle(angle); }

std::string reading_text(const CheckDimension& reading, LengthUnit unit) {
  return reading.text + ": " + shown_length(std::abs(reading.mm), unit) + ", within " +
         shown_length(reading.tolerance_mm, unit) + ".";
}

// The readings beside the first, a sentence each, and what no tape shows.
std::string further_checks(const Bend& bend, LengthUnit unit) {
  std::string text;
  for (std::size_t i = 1; i < bend.checks.size(); ++i)
    text += (text.empty() ? "Check too: " : " ") + reading_text(bend.checks[i].dimension, unit);
  if (!bend.by_gauge.empty()) text += (text.empty() ? "" : " ") + bend.by_gauge;
  return text;
}

BendRow row_of(const Plan& plan, const Run& run, const Bend& bend, const std::string& failure) {
  const LengthUnit unit = plan.unit;
  BendRow row;
  row.number = bend.number;
  row.made = bend.made;
  const bool may_be_made = failure.empty();
  if (may_be_made) {
    const MarkWords words = mark_words(run, bend, unit);
    row.mark = shown_length_bare(words.mm, unit);
    row.mark_from = words.from;
    row.mark_from_end = words.from_end;
    row.mark_text = words.sentence;
    row.held_to = run.bender->line_up;
    row.held_text = row.held_to.empty() ? "The job does not say what the mark is held to: find it by a trial bend."
                                        : "Hold the mark to: " + row.held_to + ".";
  } else {
    row.mark = "NOT TO BE MADE";
    row.mark_text = failure;
  }
  row.hook = end_word(bend.hook);
  row.hook_text = std::string("Hook the ") + (bend.hook == End::datum ? "start" : "far") + " end.";
  row.angle = shown_angle(bend.angle);
  row.set_angle = shown_angle(bend.set_angle);
  write_rule(bend, unit, row);
  row.rotation = bend.number == 1 ? "-" : signed_angle(bend.rotation);
  write_clock(run, bend, row);
  row.check = "-";
  if (!may_be_made) return row;
  row.check = shown_length_bare(bend.check.mm, unit) + " ±" + shown_length_bare(bend.check.tolerance_mm, unit);
  row.check_text = "Check: " + reading_text(bend.check, unit);
  row.further_checks = further_checks(bend, unit);
  row.turn_text = turn_words(run, bend, unit);
  row.remark = one_pull_remark(run, bend);
  return row;
}

std::string tube_text(const Run& run, LengthUnit unit) {
  const Tube& tube = *run.tube;
  std::string text = "Tube: " + tube.name;
  if (!tube.standard.empty()) text += ", " + tube.standard + " " + tube.size;
  if (!tube.temper.empty() && tube.standard != "ASTM B88") text += ", " + tube.temper;
  return text + ", outside diameter " + shown_length(tube.outside_diameter_mm, unit) + ".";
}

std::string bender_text(const Run& run, LengthUnit unit) {
  const Bender& bender = *run.bender;
  return "Bender: " + bender.name + ", centre-line radius " + shown_length(bender.former_radius_mm, unit) +
         (bender.radius_measured ? " as measured." : ", not measured.");
}

std::vector<std::string> about(const Plan& plan, const Run& run) {
  std::vector<std::string> lines = {tube_text(run, plan.unit), bender_text(run, plan.unit)};
  if (run.service != Service::none) lines.push_back(std::string("Service: ") + service_word(run.service) + ".");
  const std::vector<int> alike = pieces_alike(plan, run);
  if (alike.size() > 1 || plan.sets > 1) {
    std::string text = std::to_string(alike.size() * plan.sets) + " pieces alike: ";
    for (size_t i = 0; i < alike.size(); ++i) text += (i > 0 ? ", " : "") + plan.runs[alike[i]]->name;
    if (plan.sets > 1) text += "; " + std::to_string(plan.sets) + " sets";
    lines.push_back(text + ".");
  }
  return lines;
}

std::string blank_text(const Run& run, LengthUnit unit, bool may_be_made) {
  if (!may_be_made) return "Do not cut: this is not to be made.";
  std::string text = "Cut the blank ";
  text += shown_length(run.blank_length_mm, unit) + " long";
  std::vector<std::string> parts;
  const auto add = [&](double mm, const char* what) {
    if (mm > 0) parts.push_back(shown_length(mm, unit) + what);
  };
  add(run.spare_datum_mm, " spare at the start end");
  add(run.spare_free_mm, " spare at the far end");
  add(run.datum_insertion_mm(), " in the fitting at the start end");
  add(run.free_insertion_mm(), " in the fitting at the far end");
  for (size_t i = 0; i < parts.size(); ++i)
    text += (i == 0 ? ", of which " : i + 1 == parts.size() ? " and " : ", ") + parts[i];
  return text + ".";
}

std::string trim_text(const Run& run, LengthUnit unit) {
  if (run.spare_datum_mm <= 0 && run.spare_free_mm <= 0) return "";
  std::string text = "Last, trim the spare: ";
  if (run.spare_datum_mm > 0) text += shown_length(run.spare_datum_mm, unit) + " off the start end";
  if (run.spare_datum_mm > 0 && run.spare_free_mm > 0) text += " and ";
  if (run.spare_free_mm > 0) text += shown_length(run.spare_free_mm, unit) + " off the far end";
  return text + ", square, and take off the burr.";
}

std::vector<std::string> before_bending(const Run& run, const std::vector<BendRow>& rows) {
  if (rows.empty()) return {"A straight piece: nothing is bent."};
  std::vector<std::string> lines;
  lines.push_back(run.marking == Marking::all
                      ? "Lay every mark on the straight tube, each from the start end with the tape held there."
                      : "Lay each mark when the bend before it is made, from where its line says. The back of a leg "
                        "is its side on the outside of the bend. Drawings and templates give the same marks from the "
                        "start end of the straight tube.");
  lines.push_back("Ring the tube at each mark in pencil or felt pen; never scribe it.");
  const bool turned = std::any_of(rows.begin(), rows.end(), [](const BendRow& row) { return row.turned; });
  if (turned) lines.push_back("Draw a line along the tube before each turned bend, to turn it by.");
  return lines;
}

// A piece that lies flat and its mirror image are one piece, turned over.
bool one_turned_over(const Run& a, const Run& b) {
  const auto flat = [](const Bend& bend) {
    return std::abs(std::remainder(bend.rotation.degrees(), 180)) < kSameDirection_deg;
  };
  const auto same_bend = [&](const Bend& x, const Bend& y) {
    return flat(x) && flat(y) && std::abs(x.angle.degrees() - y.angle.degrees()) < 1e-6 &&
           std::abs(std::remainder(x.rotation.degrees() - y.rotation.degrees(), 360)) < 1e-6 &&
           std::abs(x.straight_before_mm - y.straight_before_mm) < 1e-6;
  };
  return a.family == b.family && std::abs(a.straight_after_mm - b.straight_after_mm) < 1e-6 &&
         std::equal(a.bends.begin(), a.bends.end(), b.bends.begin(), b.bends.end(), same_bend);
}

// One shape, and bent the same way out of the same blank.
bool same_papers(const Run& a, const Run& b) {
  const auto same_way = [](const Bend& x, const Bend& y) { return x.made == y.made && x.hook == y.hook; };
  return (a.same_as == b.same_as || one_turned_over(a, b)) && *a.tube == *b.tube && *a.bender == *b.bender &&
         a.marking == b.marking && a.spare_datum_mm == b.spare_datum_mm && a.spare_free_mm == b.spare_free_mm &&
         a.datum_insertion_mm() == b.datum_insertion_mm() && a.free_insertion_mm() == b.free_insertion_mm() &&
         std::equal(a.bends.begin(), a.bends.end(), b.bends.begin(), b.bends.end(), same_way);
}

std::vector<std::string> leans(const Run& run, LengthUnit unit) {
  std::vector<std::string> lines;
  for (const OffsetRow& offset : run.offsets) {
    if (offset.second_word.empty()) continue;
    lines.push_back("Bends " + std::to_string(offset.first_bend) + " and " + std::to_string(offset.first_bend + 1) +
                    " are a rolling offset of " + shown_length(offset.true_mm, unit) + " true: its plane leans " +
                    shown_angle(offset.lean) + " from " + offset.first_word + " towards " + offset.second_word + ".");
  }
  return lines;
}

std::string likely_error_text(const Plan& plan, const Run& run) {
  if (run.bends.empty()) return "";
  const LengthUnit unit = plan.unit;
  const EndError error = likely_error(run, plan.rules);
  return "Likely error: with each bend checked as it is made, the far end may still come out " +
         shown_length(error.total_mm(), unit) + " from where it belongs (angles and spring-back " +
         shown_length(std::hypot(error.angles_mm, error.spring_back_mm), unit) + ", turns " +
         shown_length(error.rotations_mm, unit) + ", marks " +
         shown_length(std::hypot(error.marks_mm, error.mark_offset_mm), unit) + ", radius " +
         shown_length(error.radius_mm, unit) + ").";
}

}  // namespace

const char* const kBenchCaution =
    "Keep fingers clear of former, guide and lever; wear eye protection; take off burrs; never bend back and forth "
    "what "
    "is overbent.";

double likely_error_mm(const Plan& plan, const Run& run) { return likely_error(run, plan.rules).total_mm(); }

const char* end_word(End end) { return end == End::datum ? "datum" : "free"; }

std::vector<int> pieces_alike(const Plan& plan, const Run& run) {
  std::vector<int> alike;
  const bool fails = plan.failure_of(run) != nullptr;
  for (int i = 0; i < static_cast<int>(plan.runs.size()); ++i) {
    const Run& other = *plan.runs[i];
    if (same_papers(run, other) && (plan.failure_of(other) != nullptr) == fails) alike.push_back(i);
  }
  return alike;
}

BendTableText bend_table_rows(const Plan& plan, const Run& run) {
  BendTableText table;
  table.heading = "Bend table: " + run.name;
  table.not_to_be_made = not_to_be_made(plan, run);
  const bool may_be_made = table.not_to_be_made.empty();
  table.about = about(plan, run);
  table.tube_and_bender = table.about[0] + " " + table.about[1];
  table.blank = shown_length_bare(run.blank_length_mm, plan.unit);
  table.blank_text = blank_text(run, plan.unit, may_be_made);
  const std::string failure = not_to_be_made_in_short(plan, run);
  for (const Bend* bend : run.bends_as_made()) table.rows.push_back(row_of(plan, run, *bend, failure));
  if (may_be_made) table.before = before_bending(run, table.rows);
  table.after = leans(run, plan.unit);
  if (may_be_made) table.trim_text = trim_text(run, plan.unit);
  table.likely_error = likely_error_text(plan, run);
  std::vector<std::string> mind = cautions(plan, run);
  // Before the last, which defers to the local codes.
  if (!run.bends.empty())
    mind.insert(mind.end() - 1, "Never bend back and forth what is overbent: it hardens and collapses.");
  table.cautions = caution_paragraph(mind);
  return table;
}

}  // namespace halfhard
