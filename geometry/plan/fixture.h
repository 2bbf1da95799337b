// What stands on site: bodies to keep clear of, and the fittings that a tube ends in.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/distance/body.h"

namespace halfhard {

enum class Service { none, cold, hot, heating_flow, heating_return, gas, vent, discharge, waste, electric, other };

// The job file's word: "heating flow"; "" for none.
const char* service_word(Service service);
std::optional<Service> service_from_word(const std::string& word);

enum class FixtureKind { box, cylinder, plane, joist, solid };

// A joist as timber rules see it; its body is a box.
struct Joist {
  Vec3 from, to;                            // axis, support to support, turned with the fixture
  Vec3 depth_direction, breadth_direction;  // unit
  double breadth_mm = 0, depth_mm = 0;
  friend bool operator==(const Joist&, const Joist&) = default;
};

struct Fixture {
  std::string name;
  FixtureKind kind = FixtureKind::box;
  Body body;
  std::optional<Joist> joist;
  double keep_clear_mm = 0;
  bool may_drill = false;
  std::optional<double> drill_clearance_mm;
  Service service = Service::none;
  std::string file;  // the STEP file of a `solid`, as the job writes it
  std::string pointer;
  friend bool operator==(const Fixture&, const Fixture&) = default;
};

// The mouth of a fitting. Also used for ends written inline in a run (then `name` is empty).
struct Connection {
  std::string name;
  Vec3 at = Vec3::Zero();
  Vec3 towards = Vec3::UnitZ();        // unit, out of the fitting into the tube
  double insertion_mm = 0;             // tube inside the fitting, added to the cut length
  std::vector<std::string> joins;      // fixtures not compared with this end of the tube
  std::optional<double> joins_for_mm;  // how much of the tube; one outside diameter where not set
  double straight_needed_mm = 0;       // mouth to first curve
  double loose_mm = 0;                 // how far the fitting can move along its axis
  std::string pointer;
  friend bool operator==(const Connection&, const Connection&) = default;
};

}  // namespace halfhard
