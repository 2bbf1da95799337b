// { "offset": { word: d, ... }, "angle": a }: two equal and opposite bends that shift the line sideways.
// true = root of the sum of squares; along the line it uses true / tan(a) (Dibble, Elements of Plumbing, 1918).
#include <cmath>

#include "geometry/base/tolerances.h"
#include "geometry/bending/bend_table.h"
#include "geometry/curve/centreline.h"
#include "geometry/words/shown.h"
#include "modeller/steps/site_words.h"
#include "modeller/steps/walker.h"

namespace halfhard {
namespace {

constexpr double kNoShift_mm = 1e-9;

Vec3 taped_shift(const OffsetStep& step, const Walker& walker) {
  Vec3 shift = Vec3::Zero();
  for (const WordShift& part : step.shift) shift += part.by_mm * *direction_of_word(part.word);
  return step.to_connection ? walker.unknowns().shift : shift;
}

// The tape over both outsides reads one outside diameter more, between the insides one less.
double tape_excess(const OffsetStep& step, const Walker& walker) {
  const double od = walker.context().outside_diameter_mm;
  return step.measured == OffsetTape::outside ? od : step.measured == OffsetTape::inside ? -od : 0.0;
}

bool square_to_travel(const OffsetStep& step, Walker& walker) {
  for (const WordShift& part : step.shift) {
    const double angle = angle_between(*direction_of_word(part.word), *walker.direction()).degrees();
    if (std::abs(angle - 90) < kSameDirection_deg) continue;
    walker.problem(
        step.pointer + "/offset/" + part.word,
        "a shift " + part.word + " that is not square to the travel (" + shown_number(angle, 2) + " degrees)",
        "site words square to the legs before and after");
    return false;
  }
  return true;
}

}  // namespace

OffsetGeometry offset_geometry(const OffsetStep& step, const Walker& walker) {
  OffsetGeometry offset;
  offset.shift = taped_shift(step, walker);
  const double taped = offset.shift.norm();
  if (taped <= kNoShift_mm) {
    offset.shift.setZero();
    return offset;
  }
  offset.true_mm = step.to_connection ? taped : taped - tape_excess(step, walker);
  if (offset.true_mm <= 0) return offset;  // refused by walk_step
  offset.shift *= offset.true_mm / taped;
  if (const auto* advance = std::get_if<Advance>(&step.steepness)) {
    offset.advance_mm = advance->mm;
    offset.angle = Angle::radians(std::atan2(offset.true_mm, advance->mm));
    return offset;
  }
  const auto* angle = std::get_if<Angle>(&step.steepness);
  offset.angle = angle ? *angle : rule_angle(std::min(offset.true_mm, kLargestByRule_mm));
  // tan 90 is not infinite in doubles.
  offset.advance_mm = offset.angle.degrees() == 90 ? 0 : offset.true_mm / offset.angle.tan();
  return offset;
}

void walk_step(const OffsetStep& step, Walker& walker) {
  if (!walker.between_legs("an offset", step.pointer) || !square_to_travel(step, walker)) return;
  const Vec3 travel = *walker.direction();
  if (step.to_connection) walker.offset_to_direction = travel;
  const OffsetGeometry offset = offset_geometry(step, walker);
  if (offset.shift.isZero(0)) {
    walker.end_shift(travel);
    walker.note("no-bend", "an offset of nothing is no bend: it is left out", step.pointer);
    return;
  }
  if (offset.true_mm <= 0) {
    walker.problem(step.pointer + "/measured",
                   "an offset of " + shown_number(offset.true_mm, 3) + " mm once the tube's diameter is taken off",
                   "more than 0");
    return;
  }
  if (std::holds_alternative<RuleSetting>(step.steepness) && offset.true_mm >= kLargestByRule_mm) {
    walker.problem(step.pointer + "/angle",
                   "the rule setting for an offset of " + shown_number(offset.true_mm, 3) + " mm",
                   "an offset below " + shown_number(kLargestByRule_mm, 1) + " mm");
    return;
  }
  walker.lay_offset({static_cast<int>(walker.points().size()) - 1, offset.true_mm, offset.advance_mm, offset.angle,
                     step.to_connection ? words_of(offset.shift) : step.shift, step.pointer});
  const Vec3 way = offset.shift + offset.advance_mm * travel;
  walker.leg(way.normalized(), way.norm(), step.pointer);
  walker.end_shift(travel);
}

}  // namespace halfhard
