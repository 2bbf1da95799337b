// { "passover": { word: d }, "angle": a, "flat": f, "height": h }: over an obstacle and back to the line.
// With a flat: bends a, -a, -a, a; without: a, -2a, a.
#include <cmath>

#include "geometry/base/tolerances.h"
#include "geometry/curve/centreline.h"
#include "geometry/words/shown.h"
#include "modeller/steps/site_words.h"
#include "modeller/steps/walker.h"

namespace halfhard {

void walk_step(const PassoverStep& step, Walker& walker) {
  if (!walker.between_legs("a passover", step.pointer)) return;
  const Vec3 travel = *walker.direction();
  const Vec3 word = *direction_of_word(step.shift.word);
  const double off_square = angle_between(word, travel).degrees();
  if (std::abs(off_square - 90) >= kSameDirection_deg) {
    walker.problem(step.pointer + "/passover/" + step.shift.word,
                   "a passover " + step.shift.word + " that is not square to the travel (" +
                       shown_number(off_square, 2) + " degrees)",
                   "a site word square to the legs before and after");
    return;
  }
  double height = std::abs(step.shift.by_mm);
  const Vec3 side = step.shift.by_mm < 0 ? Vec3(-word) : word;
  if (step.height_to_crown && !step.flat_mm) {
    // The middle bend of 2a rounds its intersection off by R * (sec a - 1).
    height += walker.context().radius_mm * (1 / step.angle.cos() - 1);
  }
  const double along = height / step.angle.tan();
  const Vec3 rise = height * side + along * travel;
  const Vec3 fall = -height * side + along * travel;
  walker.leg(rise.normalized(), rise.norm(), step.pointer);
  if (step.flat_mm) walker.leg(travel, *step.flat_mm, step.pointer);
  walker.leg(fall.normalized(), fall.norm(), step.pointer);
  walker.end_shift(travel);
}

}  // namespace halfhard
