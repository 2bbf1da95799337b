#include "geometry/rules/separation_rules.h"

namespace halfhard {

double service_separation_mm(Service a, Service b, const Rules& rules) {
  const bool gas_and_cable =
      (a == Service::gas && b == Service::electric) || (a == Service::electric && b == Service::gas);
  return gas_and_cable ? rules.gas_from_cable.value : 0;
}

}  // namespace halfhard
