#include <cmath>

#include "geometry/words/shown.h"
#include "modeller/bench/correct.h"
#include "modeller/steps/site_words.h"

namespace halfhard {
namespace {

// "4.9 mm from where it belongs (0.5 right, 4.5 down), turned by 2°".
std::string miss_text(const EndMiss& miss, LengthUnit unit) {
  std::string parts;
  for (const WordShift& part : words_of(miss.by)) {
    if (part.by_mm < 0.25) continue;  // would be shown as 0
    parts += (parts.empty() ? "" : ", ") + shown_length(part.by_mm, unit) + " " + part.word;
  }
  std::string text = shown_length(miss.by.norm(), unit) + " from where it belongs";
  if (!parts.empty()) text += " (" + parts + ")";
  return text + ", turned by " + shown_angle(miss.turned);
}

std::string change_text(const BendChange& change) {
  const Angle by = change.opens() ? change.from - change.to : change.to - change.from;
  std::string text = "  bend " + std::to_string(change.number) + ": " + (change.opens() ? "open" : "close") +
                     " it by " + shown_angle(by) + ", from " + shown_angle(change.from) + " to " +
                     shown_angle(change.to);
  if (!change.opens()) text += "; pull to " + shown_angle(change.pull_to);
  return text + "\n";
}

std::string correction_lines(const Correction& correction, LengthUnit unit) {
  std::string text;
  for (const BendChange& change : correction.changes) text += change_text(change);
  return text + "  Then the free end is " + miss_text(correction.left, unit) + ".\n";
}

const char* const kCautions =
    "Correct once, and little: copper hardens where it is bent, and bent to and fro it flattens, creases or cracks.\n"
    "A bend closes readily but hardly opens: the former cannot hold it, and the tube goes out of round. Where a bend "
    "is\n"
    "more than a few degrees too far, or the tube shows a crease, cut a new piece. Check each bend again before "
    "fitting.\n";

}  // namespace

std::string correction_text(const Run& run, const Plan& plan, const MeasuredPiece& piece, const CorrectionPlan& made) {
  const LengthUnit unit = plan.unit;
  const std::string allowed =
      shown_length(plan.tolerance.length_mm, unit) + " and " + shown_angle(plan.tolerance.angle);
  std::string text = run.name + ", as measured, its datum end where it belongs:\n  The free end is " +
                     miss_text(made.now, unit) + "; allowed " + allowed + ".\n";
  if (made.ends_apart_mm) {
    const double out = *piece.ends_apart_mm - *made.ends_apart_mm;
    text += "  Ends apart: measured " + shown_length(*piece.ends_apart_mm, unit) + ", these readings give " +
            shown_length(*made.ends_apart_mm, unit) + ".\n";
    if (std::abs(out) > plan.tolerance.length_mm) {
      text += "  They do not agree: measure again before anything is bent.\n";
    }
  }
  if (made.good_as_it_is) return text + "Leave it as it is.\n";
  if (!made.fewest) {
    return text + "No few bends bring it in: at best the free end would be " + miss_text(made.best, unit) +
           ". Cut a new piece, or look for a leg that is too long or too short.\n";
  }
  text += made.fewest->changes.size() == 1 ? "One bend to correct:\n" : "Bends to correct:\n";
  text += correction_lines(*made.fewest, unit);
  if (made.closing) text += "Or, closing bends only:\n" + correction_lines(*made.closing, unit);
  return text + kCautions;
}

}  // namespace halfhard
