// One pipe, resolved: its centre line and its bend table. All plain numbers, immutable once built.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "geometry/curve/centreline.h"
#include "geometry/plan/bender.h"
#include "geometry/plan/fixture.h"
#include "geometry/plan/tube.h"

namespace halfhard {

// The datum end is `from`, where travel starts; the free end is where it stops.
enum class End { datum, free };

// How marks are laid: all on the straight tube, or each after the bend before it is made.
enum class Marking { all, each };

// A dimension that proves a bend with a tape alone.
struct CheckDimension {
  std::string text;  // which two points, which faces
  double mm = 0;
  double tolerance_mm = 0;
  friend bool operator==(const CheckDimension&, const CheckDimension&) = default;
};

// How a reading proves the bend just made: over two outsides, along a leg, straight between two places, or how high an end
// stands off two legs that lie flat.
enum class CheckKind { outsides, along, straight, height };

// One of the readings that prove a bend, with what a degree more of its angle, or of its turn, moves it by.
struct BendCheck {
  CheckKind kind = CheckKind::straight;
  CheckDimension dimension;
  int first_leg = 0, second_leg = 0;  // of a height: the legs of the finished run, numbered from 1, that lie flat
  End of = End::free;                 // of a height: whose end face stands off them
  double per_degree_angle_mm = 0, per_degree_turn_mm = 0;
  friend bool operator==(const BendCheck&, const BendCheck&) = default;
};

// A row of the bend table; lengths along the blank count from its datum end as loaded, spare and insertion included.
struct Bend {
  int number = 0;  // 1-based from the datum end
  int made = 0;    // 1-based place in the order made
  Angle angle, set_angle;
  Angle rotation;  // (-180, 180], from the plane of bend number - 1; 0 for bend 1
  double radius_mm = 0;
  End hook = End::datum;
  double straight_before_mm = 0;                                 // insertion included for bend 1, spare not
  double start_of_bend_mm = 0, end_of_bend_mm = 0, mark_mm = 0;  // along the blank from its datum end
  double mark_from_outside_mm = 0;
  int mark_from_bend =
      0;  // number of the bend that mark_from_outside_mm is taken from; 0: the tube's end on the hook side
  double rule_points_mm = 0, rule_points_set_mm = 0;
  CheckDimension check;           // the first of `checks`
  std::vector<BendCheck> checks;  // all that prove it, the tube beyond it still straight
  std::string by_gauge;           // what no tape can show, and what does; empty where tapes show all
  // With the tube in the bender: how far the end of the formed part lies off the plane of this bend, positive towards 3 on
  // the clock seen along the tube from the hook (hook to lever x swing), and off the tube's line along the swing.
  double turn_height_mm = 0, turn_across_mm = 0;
  End turn_of = End::datum;  // whose end face that is
  std::string pointer;       // the path step that made it
};

struct OffsetRow {
  int first_bend = 0;
  double true_mm = 0, travel_mm = 0, advance_mm = 0;
  Angle lean;
  std::string first_word, second_word;  // site words of the shift; second empty for a plain offset
};

struct Run {
  std::string name;    // "hot tail 1"
  std::string family;  // as written in the job: "hot tail"
  int piece = 0;       // 1-based within its bank; 0 where not banked
  int bank = -1;       // index into Plan::banks
  std::shared_ptr<const Tube> tube;
  std::shared_ptr<const Bender> bender;
  Service service = Service::none;
  double lagging_mm = 0, keep_clear_mm = 0;
  double spare_datum_mm = 0, spare_free_mm = 0;
  Marking marking = Marking::all;
  std::optional<double> drill_clearance_mm;
  Connection from;
  std::optional<Connection> to;

  CentreLine line;
  double cut_length_mm = 0, blank_length_mm = 0, metal_volume_mm3 = 0, mass_kg = 0, contents_l = 0;
  std::vector<Bend> bends;  // by number
  double straight_after_mm = 0;
  std::vector<OffsetRow> offsets;

  // The first run of identical shape (an index into Plan::runs, this run's own where it is the first), and how far
  // this one is slid from it. STEP instances and matched sheets come from these.
  int same_as = 0;
  Vec3 slid_mm = Vec3::Zero();
  std::string pointer;

  // What clearances are measured to.
  double outside_radius_mm() const { return tube->outside_radius_mm() + lagging_mm; }
  double datum_insertion_mm() const { return from.insertion_mm; }
  double free_insertion_mm() const { return to ? to->insertion_mm : 0.0; }
  // Whether an end of it joins that fixture, which is then never called its nearest.
  bool joins(const std::string& fixture) const;
  // Bends in the order made.
  std::vector<const Bend*> bends_as_made() const;
};

}  // namespace halfhard
