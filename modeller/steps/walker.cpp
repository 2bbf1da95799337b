#include "modeller/steps/walker.h"

#include "geometry/base/tolerances.h"
#include "geometry/curve/centreline.h"
#include "geometry/words/shown.h"

namespace halfhard {

Walker::Walker(const PathContext& context, const std::vector<PathStep>& steps, const Unknowns& unknowns)
    : context_(context), steps_(steps), unknowns_(unknowns), points_{context.start}, pointers_{""} {}

void Walker::walk() {
  for (index_ = 0; index_ < steps_.size(); ++index_) {
    before_step_.push_back(at());
    std::visit([this](const auto& step) { walk_step(step, *this); }, steps_[index_]);
  }
  before_step_.push_back(at());
}

void Walker::problem(const std::string& pointer, std::string found, std::string allowed) {
  problems_.push_back({pointer, std::move(found), std::move(allowed)});
}

void Walker::note(std::string id, std::string message, const std::string& pointer) {
  notes_.push_back({std::move(id), std::move(message), pointer});
}

void Walker::leg(const Vec3& direction, double length_mm, const std::string& pointer) {
  turn_here_ = Angle();
  if (direction_) {
    const Angle turned = angle_between(*direction_, direction);
    if (turned.degrees() > 180 - kSameDirection_deg) {
      problem(pointer, "a leg that turns straight back", "a leg that turns by less than 180 degrees");
    } else if (turned.degrees() >= kSameDirection_deg) {
      turn_here_ = turned;
      normal_ = direction_->cross(direction).normalized();
    }
  }
  pointers_.back() = pointer;
  points_.push_back(at() + length_mm * direction);
  pointers_.push_back("");
  direction_ = direction;
}

Angle Walker::turn_after(const Vec3& direction) const {
  const PathStep* next = step_after();
  if (!next) return Angle();
  if (const auto* go = std::get_if<GoStep>(next)) return angle_between(direction, go->direction);
  if (const auto* bend = std::get_if<BendStep>(next)) return bend->angle;
  if (const auto* offset = std::get_if<OffsetStep>(next)) return offset_geometry(*offset, *this).angle;
  if (const auto* passover = std::get_if<PassoverStep>(next)) return passover->angle;
  return Angle();  // a `to` step: refused in from_tape
}

double Walker::rest_leg(const Measured& measured, const Vec3& direction, const std::string& pointer) {
  if (measured != Measured{})
    note("tape-on-rest", "what a tape touched says nothing of a leg that takes the rest: it is left out", pointer);
  rest_direction = direction;
  return unknowns_.rest_mm;
}

double Walker::from_tape(double taped_mm, const Measured& measured, const Vec3& direction, const std::string& pointer) {
  const auto beyond = [&](TapeTouch touch, Angle turned, const char* which) {
    if (touch == TapeTouch::centre) return 0.0;
    if (turned.degrees() < kSameDirection_deg) {
      note("tape-without-bend",
           std::string("the tape's ") + which + " is at no bend: outside, inside and centre are the same there",
           pointer);
      return 0.0;
    }
    const double reach = context_.outside_diameter_mm / 2 * turned.tan_of_half();
    return touch == TapeTouch::outside ? reach : -reach;
  };
  const PathStep* next = step_after();
  if (next && std::holds_alternative<ToStep>(*next) && measured.until != TapeTouch::centre) {
    problem(pointer + "/measured", "a taped leg before a \"to\" step, whose turn depends on this leg",
            "\"until\": \"centre\", or a \"go\" step next");
    return taped_mm;
  }
  const Angle before = direction_ ? angle_between(*direction_, direction) : Angle();
  const double length =
      taped_mm - beyond(measured.from, before, "from") - beyond(measured.until, turn_after(direction), "until");
  if (length <= 0) {
    problem(pointer + "/by", "a taped leg that leaves " + shown_number(length, 3) + " mm between centre lines",
            "more than 0");
  }
  return length;
}

bool is_leg(const PathStep& step) {
  return std::holds_alternative<GoStep>(step) || std::holds_alternative<ToStep>(step) ||
         std::holds_alternative<BendStep>(step);
}

bool Walker::between_legs(const char* what, const std::string& pointer) {
  const std::string allowed = "a leg before and a leg after, both in one and the same direction";
  if (!step_before() || !is_leg(*step_before())) {
    problem(pointer, std::string(what) + " with no leg before it", allowed);
    return false;
  }
  const PathStep* next = step_after();
  if (!next || !is_leg(*next)) {
    problem(pointer, std::string(what) + " with no leg after it", allowed);
    return false;
  }
  if (const auto* bend = std::get_if<BendStep>(next)) {
    problem(bend->pointer, std::string("a bend straight after ") + what, allowed);
    return false;
  }
  if (const auto* go = std::get_if<GoStep>(next);
      go && angle_between(*direction_, go->direction).degrees() >= kSameDirection_deg) {
    problem(go->pointer,
            std::string("a leg after ") + what + " turned " +
                shown_angle_bare(angle_between(*direction_, go->direction)) + " degrees from the leg before it",
            allowed);
    return false;
  }
  return true;
}

}  // namespace halfhard
