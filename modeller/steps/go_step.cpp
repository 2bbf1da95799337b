// { "go": direction, "by": L }: a leg.
#include "modeller/steps/walker.h"

namespace halfhard {

void walk_step(const GoStep& step, Walker& walker) {
  double length = 0;
  if (const auto* by = std::get_if<double>(&step.by)) {
    length = walker.from_tape(*by, step.measured, step.direction, step.pointer);
  } else {
    length = walker.rest_leg(step.measured, step.direction, step.pointer);
  }
  walker.leg(step.direction, length, step.pointer);
}

}  // namespace halfhard
