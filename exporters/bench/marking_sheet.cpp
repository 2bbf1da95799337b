#include "exporters/bench/marking_sheet.h"

#include <algorithm>
#include <cmath>

#include "exporters/bench/flat_stretch.h"
#include "exporters/bench/not_to_be_made.h"
#include "exporters/sheet/frame.h"
#include "exporters/sheet/text_metrics.h"
#include "geometry/base/tolerances.h"
#include "geometry/words/cautions.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

// ASME B31.1 Table 102.4.5, from a secondary copy: a bend may be out of round by 8 %.
constexpr double kMostOvality = 0.08;
constexpr double kWhat_mm = 78;

std::string within(double mm, LengthUnit unit) { return "±" + shown_length(mm, unit); }

void add_offsets(const Plan& plan, const Run& run, std::vector<MarkingLine>& lines) {
  const double tolerance = plan.tolerance.length_mm;
  for (const OffsetRow& offset : run.offsets) {
    const Angle angle = run.bends[offset.first_bend - 1].angle;
    const std::string bends =
        "bends " + std::to_string(offset.first_bend) + " and " + std::to_string(offset.first_bend + 1);
    const std::string target = shown_length(offset.true_mm + run.tube->outside_diameter_mm, plan.unit);
    lines.push_back(
        {"offset of " + bends + ", over both outsides, near the bend", target, within(tolerance, plan.unit)});
    lines.push_back({"the same at the far end of the leg", target, within(tolerance, plan.unit)});
    lines.push_back(
        {"legs parallel: difference of those two", shown_length(0, plan.unit), within(tolerance, plan.unit)});
    lines.push_back({"(an angle " + shown_angle(angle_that_uses_up(offset.true_mm, angle, tolerance)) +
                         " out in both uses the offset's tolerance up)",
                     "", ""});
  }
}

void add_angles(const Plan& plan, const Run& run, std::vector<MarkingLine>& lines) {
  for (const Bend& bend : run.bends)
    lines.push_back({"angle of bend " + std::to_string(bend.number), shown_angle(bend.angle),
                     "±" + shown_angle(plan.tolerance.angle)});
}

// Taped along the leg, from the tube's end or from where the outside lines of two legs meet: at a 90 the back of the next
// leg, at other angles where straight edges along both backs cross.
void add_legs(const Plan& plan, const Run& run, std::vector<MarkingLine>& lines) {
  const int legs = run.line.leg_count();
  bool all_square = true;
  for (int leg = 0; leg < legs; ++leg) {
    double length = run.line.leg_length_mm(leg), beyond = 0;
    if (leg == 0) length += run.datum_insertion_mm();
    if (leg + 1 == legs) length += run.free_insertion_mm();
    for (const int bend : {leg - 1, leg}) {
      if (bend < 0 || bend + 1 >= legs) continue;
      const Angle angle = run.bends[bend].angle;
      beyond += run.tube->outside_radius_mm() * angle.tan_of_half();
      all_square = all_square && std::abs(angle.degrees() - 90) <= kSameDirection_deg;
    }
    const std::string centre = " (" + shown_length(length, plan.unit);
    std::string what = "leg between bends " + std::to_string(leg) + " and " + std::to_string(leg + 1) +
                       ", over both backs" + centre + " centre to centre)";
    if (leg == 0) what = "leg from the start end to bend 1, over its back" + centre + " to the centre)";
    if (leg + 1 == legs)
      what = "leg from bend " + std::to_string(leg) + ", over its back, to the far end" + centre + " from the centre)";
    lines.push_back({what, shown_length(length + beyond, plan.unit), within(plan.tolerance.length_mm, plan.unit)});
  }
  if (!all_square)
    lines.push_back({"(at a bend other than 90° the leg ends where straight edges along both backs cross)", "", ""});
}

void add_twist(const Plan& plan, const Run& run, std::vector<MarkingLine>& lines) {
  for (const FlatStretch& stretch : flat_stretches(run)) {
    if (stretch.first_bend == stretch.last_bend) continue;
    lines.push_back({"twist: bends " + std::to_string(stretch.first_bend) + " to " + std::to_string(stretch.last_bend) +
                         " laid flat on the bench, largest gap under the tube",
                     shown_length(0, plan.unit), within(plan.tolerance.length_mm, plan.unit)});
  }
}

// Between the outsides of the first legs of this piece and the next of its bank.
void add_gap(const Plan& plan, const Run& run, std::vector<MarkingLine>& lines) {
  if (run.bank < 0 || run.bank >= static_cast<int>(plan.banks.size())) return;
  const Bank& bank = plan.banks[run.bank];
  if (run.piece >= bank.count) return;
  const Vec3 along = run.line.leg_direction(0);
  const double apart = (bank.step - bank.step.dot(along) * along).norm() - run.tube->outside_diameter_mm;
  lines.push_back({"gap to the next piece, between the tubes, when laid as fitted", shown_length(apart, plan.unit),
                   within(plan.tolerance.length_mm, plan.unit)});
}

void add_shape(const Plan& plan, const Run& run, std::vector<MarkingLine>& lines) {
  const double diameter = run.tube->outside_diameter_mm;
  const double round_enough = diameter * (1 - kMostOvality);
  const std::string least =
      plan.unit == LengthUnit::mm ? shown_number(round_enough, 1) + " mm" : shown_length(round_enough, plan.unit);
  lines.push_back(
      {"flattening: least diameter across any bend", shown_length(diameter, plan.unit), "at least " + least});
  lines.push_back({"ripple inside the bends: none to be felt with a finger", "none", ""});
}

// A4 sheets filled from the top down with tables.
class Sheets {
 public:
  explicit Sheets(const Plan& plan) : plan_(plan) {}

  // Of a piece that is not to be made, why.
  void add_table(const std::string& heading, const std::string& failure, const std::vector<MarkingLine>& lines) {
    Table table;
    table.text_height_mm = 2.5;
    table.columns = {
        {kWhat_mm, AnchorX::left}, {22, AnchorX::left}, {33, AnchorX::left}, {26, AnchorX::left}, {15, AnchorX::left}};
    // Kept together where a fresh sheet would hold it.
    table.rows = {header()};
    for (const MarkingLine& line : lines) table.rows.push_back(cells(line));
    if (sheets_.empty() || height_mm(table) + kHeading_mm > y_ - foot_) begin_sheet();
    size_t next = 0;
    if (!failure.empty()) {
      write(heading, 3.5);
      write(failure, 2.5);
      return;
    }
    while (next < lines.size()) {
      if (next > 0) begin_sheet();
      write(heading + (next > 0 ? " (continued)" : "") + "    measured by: ____________________", 3.5);
      table.rows = {header()};
      const size_t first = next;
      while (next < lines.size()) {
        table.rows.push_back(cells(lines[next]));
        if (height_mm(table) > y_ - foot_ && next > first) {  // one line a sheet at least, however long the finding
          table.rows.pop_back();
          break;
        }
        ++next;
      }
      table.top_left = {left_, y_};
      sheets_.back().add(table);
      y_ -= height_mm(table) + 6;
    }
  }

  std::vector<Sheet> finished() {
    for (size_t i = 0; i < sheets_.size(); ++i) {
      TitleFields fields = title_fields(plan_, "finished pieces", "Check sheet");
      fields.shows_projection = false;
      fields.sheet = static_cast<int>(i) + 1;
      fields.sheets = static_cast<int>(sheets_.size());
      sheets_[i].add(frame(sheets_[i].size, fields).entities);
    }
    return std::move(sheets_);
  }

 private:
  static constexpr double kHeading_mm = 14;

  static std::vector<std::string> header() { return {"what to measure", "target", "tolerance", "measured", "pass"}; }

  static std::vector<std::string> cells(const MarkingLine& line) {
    std::string what;
    for (const std::string& part : wrapped(line.what, kWhat_mm - 4, 2.5)) what += (what.empty() ? "" : "\n") + part;
    return {what, line.target, line.tolerance, "", ""};
  }

  void begin_sheet() {
    Sheet sheet;
    sheet.size = kA4Upright;
    sheet.unit = plan_.unit;
    sheet.title = "Check sheet " + std::to_string(sheets_.size() + 1);
    const Framed framed = frame(sheet.size, title_fields(plan_, "finished pieces", "Check sheet"));
    left_ = framed.border.left + 3;
    foot_ = framed.border.bottom + framed.block_height_mm + 4;
    y_ = framed.border.top - 4;
    width_ = framed.border.width() - 6;
    sheets_.push_back(std::move(sheet));
    write_cautions();
  }

  // At the foot, the tables above them.
  void write_cautions() {
    const std::string text = caution_paragraph(cautions(plan_));
    const double height = paragraph(text, {left_, foot_}, width_, 1.8).height_mm;
    sheets_.back().add(paragraph(text, {left_, foot_ + height}, width_, 1.8).texts);
    foot_ += height + 4;
  }

  void write(const std::string& text, double height) {
    Paragraph block = paragraph(text, {left_, y_}, width_, height, true);
    sheets_.back().add(std::move(block.texts));
    y_ -= block.height_mm + 0.7 * height;
  }

  const Plan& plan_;
  std::vector<Sheet> sheets_;
  double left_ = 0, width_ = 0, y_ = 0, foot_ = 0;
};

}  // namespace

Angle angle_that_uses_up(double true_mm, Angle angle, double tolerance_mm) {
  const double travel = true_mm / angle.sin();
  const auto angle_of = [&](double offset_mm) {
    return Angle::radians(std::asin(std::clamp(offset_mm / travel, -1.0, 1.0)));
  };
  Angle nearest = Angle::degrees(90);
  if (true_mm - tolerance_mm > -travel) nearest = std::min(nearest, angle - angle_of(true_mm - tolerance_mm));
  if (true_mm + tolerance_mm < travel) nearest = std::min(nearest, angle_of(true_mm + tolerance_mm) - angle);
  return nearest;
}

std::vector<MarkingLine> marking_lines(const Plan& plan, const Run& run) {
  std::vector<MarkingLine> lines;
  add_offsets(plan, run, lines);
  add_angles(plan, run, lines);
  add_legs(plan, run, lines);
  add_twist(plan, run, lines);
  add_gap(plan, run, lines);
  add_shape(plan, run, lines);
  return lines;
}

std::vector<Sheet> marking_sheets(const Plan& plan) {
  Sheets sheets(plan);
  for (int set = 1; set <= plan.sets; ++set) {
    for (const auto& run : plan.runs) {
      if (run->bends.empty()) continue;
      const std::string name = plan.sets > 1 ? run->name + ", set " + std::to_string(set) : run->name;
      sheets.add_table(name, not_to_be_made(plan, *run), marking_lines(plan, *run));
    }
  }
  return sheets.finished();
}

}  // namespace halfhard
