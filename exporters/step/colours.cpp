#include "exporters/step/colours.h"

namespace halfhard {

PartColour tube_colour(Service service) {
  switch (service) {
    case Service::cold:
      return {0.40, 0.55, 0.74};
    case Service::hot:
      return {0.80, 0.33, 0.24};
    case Service::heating_flow:
      return {0.85, 0.50, 0.20};
    case Service::heating_return:
      return {0.55, 0.42, 0.62};
    case Service::gas:
      return {0.85, 0.72, 0.25};
    case Service::vent:
      return {0.60, 0.70, 0.62};
    case Service::discharge:
      return {0.62, 0.45, 0.42};
    case Service::waste:
      return {0.48, 0.46, 0.42};
    case Service::electric:
      return {0.25, 0.25, 0.25};
    case Service::none:
    case Service::other:
      break;
  }
  return {0.78, 0.47, 0.30};
}

PartColour lagging_colour() { return {0.30, 0.30, 0.32, 0.6}; }

PartColour fixture_colour(FixtureKind kind) {
  switch (kind) {
    case FixtureKind::joist:
      return {0.76, 0.62, 0.42};
    case FixtureKind::plane:
      return {0.80, 0.80, 0.78, 0.7};
    case FixtureKind::box:
    case FixtureKind::cylinder:
    case FixtureKind::solid:
      break;
  }
  return {0.68, 0.70, 0.72};
}

}  // namespace halfhard
