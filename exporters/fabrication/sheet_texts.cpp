#include "exporters/fabrication/sheet_texts.h"

#include <algorithm>

#include "exporters/bench/bend_rows.h"
#include "exporters/bench/marking_sheet.h"
#include "exporters/fabrication/crowns.h"
#include "exporters/fabrication/point_labels.h"
#include "exporters/sheet/text_metrics.h"
#include "geometry/words/cautions.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

constexpr double kPad_mm = 4;
const Colour kRed{0.8, 0, 0};

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += (text.empty() ? "" : " ") + line;
  return text;
}

Table bend_table_of(const BendTableText& text, double width) {
  Table table;
  table.columns.assign(9, {20, AnchorX::centre});
  table.rows = {{"made", "bend", "mark", "from", "hook", "angle", "set to", "formed part, from hook", "check"}};
  for (const BendRow& row : text.rows)
    table.rows.push_back({std::to_string(row.made), std::to_string(row.number),
                          text.not_to_be_made.empty() ? row.mark : "none", row.mark_from, row.hook, row.angle,
                          row.set_angle, row.clock, text.not_to_be_made.empty() ? row.check : "none"});
  for (const double height : {2.5, 1.8}) {
    table.text_height_mm = height;
    table = fitted(table);
    if (width_mm(table) <= width) break;
  }
  return table;
}

Table leg_table_of(const Plan& plan, const Run& run) {
  Table table;
  table.columns.assign(5, {20, AnchorX::right});
  table.rows = {{"leg, centre to centre", "length", "right", "back", "up"}};
  for (int leg = 0; leg < run.line.leg_count(); ++leg) {
    const Vec3 way = run.line.points()[leg + 1] - run.line.points()[leg];
    const std::string from = leg == 0 ? end_name(run, End::datum) : "bend " + std::to_string(leg);
    const std::string to =
        leg + 1 == run.line.leg_count() ? end_name(run, End::free) : "bend " + std::to_string(leg + 1);
    table.rows.push_back({from + " to " + to, shown_length_bare(way.norm(), plan.unit),
                          shown_length_bare(way.x(), plan.unit), shown_length_bare(way.y(), plan.unit),
                          shown_length_bare(way.z(), plan.unit)});
  }
  return fitted(table);
}

// Marks start at the tube's own end, views and legs at the mouth of the fitting.
std::string datum_text(const Plan& plan, const Run& run) {
  const double before = run.datum_insertion_mm() + run.spare_datum_mm;
  const double after = run.free_insertion_mm() + run.spare_free_mm;
  if (before <= 0 && after <= 0) return "";
  const auto parts = [&](double inserted, double spare) {
    std::string text = shown_length(inserted + spare, plan.unit);
    if (spare > 0) text += inserted > 0 ? " (" + shown_length(spare, plan.unit) + " of it spare)" : " (spare)";
    return text;
  };
  std::string text = "Views and legs are from mouth to mouth of the fittings.";
  if (before > 0)
    text += " Marks are from the tube's cut end, " + parts(run.datum_insertion_mm(), run.spare_datum_mm) +
            " beyond the mouth.";
  if (after > 0)
    text += " At the far end the blank goes on " + parts(run.free_insertion_mm(), run.spare_free_mm) + " beyond it.";
  return text;
}

std::string tolerance_text(const Plan& plan, const Run& run) {
  std::string text = "Tolerance: lengths ±" + shown_length(plan.tolerance.length_mm, plan.unit) + ", angles ±" +
                     shown_angle(plan.tolerance.angle) + ".";
  for (const OffsetRow& offset : run.offsets) {
    const Angle angle = run.bends[offset.first_bend - 1].angle;
    text += " An offset of " + shown_length(offset.true_mm, plan.unit) + " at " + shown_angle(angle) +
            " uses up its length tolerance at " +
            shown_angle(angle_that_uses_up(offset.true_mm, angle, plan.tolerance.length_mm)) + " of error.";
  }
  return text;
}

std::string status_text(const Plan& plan, const Run& run) {
  std::string text;
  for (const Finding& finding : plan.findings)
    // The likely error has a paragraph of its own.
    if (finding.severity == Severity::warn && !finding.where.empty() && finding.concerns(run.name) &&
        finding.id != "free-end")
      text += (text.empty() ? "Checks: none fails. Mind: " : " ") + finding.message;
  return text.empty() ? "Checks: none fails." : text;
}

}  // namespace

void TextColumns::write(const std::string& text, double height, bool bold, std::optional<Colour> colour) {
  if (text.empty()) return;
  const auto laid = [&] { return paragraph(text, {box().low.x(), y_}, box().size().x(), height, bold); };
  Paragraph block = laid();
  if (y_ - block.height_mm < box().low.y() && y_ < box().high.y()) {
    turn();
    block = laid();
  }
  for (Entity& entity : block.texts) {
    std::get<Text>(entity).colour = colour;
    sheets_.back().add(std::move(entity));
  }
  y_ -= block.height_mm + 2;
}

void TextColumns::lay(Table table) {
  const std::size_t header = static_cast<std::size_t>(table.header_rows);
  too_narrow_ = too_narrow_ || width_mm(table) > narrowest() + 0.5;
  // Whole in the next column rather than cut in two.
  const bool fits_next = at_ + 1 < boxes_.size() && height_mm(table) <= boxes_[at_ + 1].size().y();
  if (height_mm(table) > y_ - box().low.y() && fits_next) turn();
  while (table.rows.size() > header) {
    Table part = table;
    part.rows.resize(header);
    std::size_t next = header;
    while (next < table.rows.size()) {
      part.rows.push_back(table.rows[next]);
      if (y_ - height_mm(part) < box().low.y()) {
        part.rows.pop_back();
        break;
      }
      ++next;
    }
    if (next == header) {
      turn();
      continue;
    }
    part.top_left = {box().low.x(), y_};
    y_ -= height_mm(part) + kPad_mm;
    sheets_.back().add(part);
    table.rows.erase(table.rows.begin() + static_cast<long>(header), table.rows.begin() + static_cast<long>(next));
    if (table.rows.size() > header) turn();
  }
}

void TextColumns::write_failure() {
  if (failure_.empty()) return;
  write("NOT TO BE MADE", 7, true, kRed);
  write(failure_, 3.5, true, kRed);
}

void TextColumns::start_sheet() {
  sheets_.push_back(empty_);
  boxes_ = later_;
  at_ = 0;
  y_ = box().high.y();
  write_failure();
}

void TextColumns::turn() {
  if (at_ + 1 == boxes_.size()) return start_sheet();
  ++at_;
  y_ = box().high.y();
}

SheetBox TextColumns::room() const { return {box().low, {box().high.x(), std::max(box().low.y(), y_)}}; }

double TextColumns::narrowest() const {
  double width = 1e300;
  for (const auto* boxes : {&boxes_, &later_})
    for (const SheetBox& each : *boxes) width = std::min(width, each.size().x());
  return width;
}

void write_sheet_texts(TextColumns& columns, const Plan& plan, const Run& run) {
  const BendTableText text = bend_table_rows(plan, run);
  columns.write_failure();
  if (text.not_to_be_made.empty()) columns.write(status_text(plan, run), 2.5, false);
  columns.write(joined(text.about), 2.5, false);
  const bool trimmed = run.blank_length_mm > run.cut_length_mm;
  columns.write(
      text.blank_text + (trimmed ? " Finished, it is " + shown_length(run.cut_length_mm, plan.unit) + "." : ""), 2.5,
      true);
  columns.write(joined(text.before), 2.5, false);
  columns.write(datum_text(plan, run), 2.5, true);
  if (!text.rows.empty()) columns.lay(bend_table_of(text, columns.narrowest()));
  columns.lay(leg_table_of(plan, run));
  for (const Crown& crown : crowns(run)) columns.write(crown_text(run, crown, plan.unit), 2.5, false);
  columns.write(joined(text.after), 2.5, false);
  columns.write(text.trim_text, 2.5, false);
  columns.write(tolerance_text(plan, run), 2.5, false);
  columns.write(text.likely_error, 2.5, false);
  columns.write(caution_paragraph(cautions(plan, run)), 2.5, true);
}

}  // namespace halfhard
