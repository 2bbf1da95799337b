#include <cmath>

#include "geometry/words/shown.h"
#include "modeller/bench/correct.h"
#include "modeller/steps/site_words.h"

namespace halfhard {
namespace {

std::string end_in_words(End end) { return end == End::datum ? "start end" : "far end"; }

// "4.9 mm off (0.5 right, 4.5 down), turned by 2°".
std::string miss_text(const EndMiss& miss, LengthUnit unit) {
  std::string parts;
  for (const WordShift& part : words_of(miss.by)) {
    if (part.by_mm < 0.25) continue;  // would be shown as 0
    parts += (parts.empty() ? "" : ", ") + shown_length(part.by_mm, unit) + " " + part.word;
  }
  std::string text = shown_length(miss.mm(), unit) + " off";
  if (!parts.empty()) text += " (" + parts + ")";
  return text + ", turned by " + shown_angle(miss.turned);
}

std::string known_text(const KnownWithin& known) {
  return shown_number(known.value, 1) + "\u00B0, within " + shown_number(known.within, 1) + "\u00B0";
}

std::string as_made_text(const PieceFit& fit, const Run& run) {
  std::string text;
  for (std::size_t i = 0; i < fit.angles_deg.size(); ++i) {
    const auto &angle = fit.angles_deg[i], &turn = fit.turns_deg[i];
    if (!angle && !turn) continue;
    text += "  Bend " + std::to_string(i + 1) + ": ";
    if (angle) text += known_text(*angle) + " (planned " + shown_angle(run.bends[i].angle) + ")";
    if (turn) text += std::string(angle ? "; " : "") + "turn " + known_text(*turn);
    text += "\n";
  }
  return text;
}

std::string change_text(const BendChange& change) {
  const Angle by = change.opens() ? change.from - change.to : change.to - change.from;
  std::string text = "  Bend " + std::to_string(change.number) + ": " + (change.opens() ? "open" : "close") +
                     " it by " + shown_angle(by) + ", from " + shown_angle(change.from) + " to " +
                     shown_angle(change.to);
  if (change.opens()) return text + ", by hand, once\n";
  return text + "; back on the former at the same mark, pull to " + shown_angle(*change.pull_to) + "\n";
}

std::string next_text(const NextBend& next, LengthUnit unit) {
  std::string text = "  Bend " + std::to_string(next.number) + ": hook the " + end_in_words(next.hook) + ", mark at " +
                     shown_length(next.mark_mm, unit) + " from the start end";
  if (std::abs(next.mark_moved_mm) >= 0.25) {
    text += " (" + shown_length(std::abs(next.mark_moved_mm), unit) + " nearer the " +
            (next.mark_moved_mm > 0 ? "far" : "start") + " end than planned)";
  }
  text += ", " + shown_length(next.mark_from_outside_mm, unit) + " from ";
  text += next.mark_from_bend ? "the outside of bend " + std::to_string(next.mark_from_bend)
                              : "the " + end_in_words(next.hook);
  if (next.number > 1) text += "; turn " + shown_angle(next.rotation);
  return text + "; pull to " + shown_angle(next.set_angle) + ", finished angle " + shown_angle(next.angle) + "\n";
}

const char* const kCautions =
    "Correct once, and little: copper hardens where it is bent, and bent to and fro it flattens, creases or cracks.\n"
    "Keep fingers out of the bender's pinch points. Check each bend again before fitting.\n";

}  // namespace

std::string correction_text(const Run& run, const Plan& plan, const MeasuredPiece& piece, const CorrectionPlan& made) {
  const LengthUnit unit = plan.unit;
  std::string text = run.name + ", as measured, its start end where it belongs:\n" + as_made_text(made.fit, run);
  if (made.end_known) {
    text += std::string("  The far end ") + (piece.bends_made && made.turned == std::nullopt ? "would be " : "is ") +
            miss_text(made.now, unit);
    if (made.end_within_mm > 0) text += ", within " + shown_length(made.end_within_mm, unit) + " of that";
    text += "; allowed " + shown_length(plan.tolerance.length_mm, unit) + " and " + shown_angle(plan.tolerance.angle) +
            ".\n";
    if (made.turned && made.turned->miss.mm() < made.now.mm() - 0.25) {
      text += "  With the whole piece turned by " + shown_angle(Angle::degrees(std::abs(made.turned->by.degrees()))) +
              " about its first leg it is " + shown_length(made.turned->miss.mm(), unit) + " off.\n";
    }
  }
  for (const std::string& reason : made.reasons) text += reason + "\n";
  for (const BendChange& change : made.changes) text += change_text(change);
  for (const NextBend& next : made.still_to_bend) text += next_text(next, unit);
  if (made.after && (!made.changes.empty() || !made.still_to_bend.empty()))
    text += "  Then the far end is " + miss_text(*made.after, unit) + ".\n";
  return made.changes.empty() && made.still_to_bend.empty() ? text : text + kCautions;
}

}  // namespace halfhard
