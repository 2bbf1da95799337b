// A job as its author wrote it, with every expression worked out: lengths mm, angles degrees, names not yet resolved
// into shapes. The reader (read_job.h) makes it from text; the planner turns it into a Plan.
// Each part carries the JSON pointer of where it stands, for messages.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "geometry/base/vec.h"
#include "geometry/plan/bender.h"
#include "geometry/plan/fixture.h"
#include "geometry/plan/plan.h"
#include "geometry/plan/tube.h"

namespace halfhard {

// A direction word with its unit vector, in the order that the job lists them.
struct WordShift {
  std::string word;  // one of the six site words
  double by_mm = 0;  // as written, sign kept
  friend bool operator==(const WordShift&, const WordShift&) = default;
};

// Where a point of a connection was taped from a wall (a plane fixture).
enum class TubeFace { near, centre, far };
struct TapedOff {
  std::string plane;  // name of a plane fixture
  double by_mm = 0;
  TubeFace until = TubeFace::centre;
  std::string pointer;
  friend bool operator==(const TapedOff&, const TapedOff&) = default;
};
using JobPoint = std::variant<Vec3, std::array<TapedOff, 3>>;

struct JobConnection {
  Connection base;  // `at` is set by the planner where `at` below is taped
  JobPoint at;
  friend bool operator==(const JobConnection&, const JobConnection&) = default;
};
// An end of a run: a named connection or one written inline (or a bare point/direction pair).
using JobEnd = std::variant<std::string, JobConnection>;

// A length, or what the `to` connection leaves.
struct Rest {
  friend bool operator==(Rest, Rest) = default;
};
using LegLength = std::variant<double, Rest>;

// What a tape touched at an end of a measured leg.
enum class TapeTouch { centre, outside, inside };
struct Measured {
  TapeTouch from = TapeTouch::centre, until = TapeTouch::centre;
  friend bool operator==(const Measured&, const Measured&) = default;
};

struct GoStep {
  Vec3 direction = Vec3::Zero();  // unit
  LegLength by;
  Measured measured;
  std::string pointer;
  friend bool operator==(const GoStep&, const GoStep&) = default;
};
struct ToStep {
  std::variant<std::string, JobPoint> to;  // a connection's name, or a point
  std::string pointer;
  friend bool operator==(const ToStep&, const ToStep&) = default;
};
struct BendStep {
  Angle angle, roll;
  LegLength by;
  Measured measured;
  std::string pointer;
  friend bool operator==(const BendStep&, const BendStep&) = default;
};
// How steep an offset is: by angle, by how much line it uses, or by the 600 mm rule setting.
struct RuleSetting {
  friend bool operator==(RuleSetting, RuleSetting) = default;
};
struct Advance {
  double mm = 0;
  friend bool operator==(const Advance&, const Advance&) = default;
};
enum class OffsetTape { centre, outside, inside };
struct OffsetStep {
  bool to_connection = false;    // "offset": "to"
  std::vector<WordShift> shift;  // else these
  std::variant<Angle, Advance, RuleSetting> steepness;
  OffsetTape measured = OffsetTape::centre;
  std::string pointer;
  friend bool operator==(const OffsetStep&, const OffsetStep&) = default;
};
struct PassoverStep {
  WordShift shift;
  Angle angle;
  std::optional<double> flat_mm;
  bool height_to_crown = false;
  std::string pointer;
  friend bool operator==(const PassoverStep&, const PassoverStep&) = default;
};
using PathStep = std::variant<GoStep, ToStep, BendStep, OffsetStep, PassoverStep>;

struct JobRun {
  std::string name;
  std::string tube, bender;  // names, known to exist
  Service service = Service::none;
  double lagging_mm = 0, keep_clear_mm = 0;
  double spare_datum_mm = 0, spare_free_mm = 0;
  std::optional<Marking> marking;  // default: `each` where the bender is not calibrated, else `all`
  std::optional<double> drill_clearance_mm;
  JobEnd from;
  std::optional<JobEnd> to;
  std::variant<End, std::vector<End>> hook = End::datum;
  std::vector<int> order;  // empty: 1..n
  bool has_path = false;   // a run with `from` and `to` and none is for `suggest`
  std::vector<PathStep> path;
  std::string pointer;
  friend bool operator==(const JobRun&, const JobRun&) = default;
};

struct JobBank {
  std::string of;
  int count = 1;
  Vec3 step = Vec3::Zero();
  bool equal_gaps = false;        // match "gaps"
  bool mirror = false;            // match "mirror": every second piece is the mirror image of the first across `step`
  std::vector<Service> services;  // one a piece in place of the run's; empty: the run's
  std::string pointer;
  friend bool operator==(const JobBank&, const JobBank&) = default;
};

struct JobSiteCheck {
  std::variant<Vec3, std::string> from, to;  // a point, or a connection's name
  double measured_mm = 0, within_mm = 0;
  std::string pointer;
  friend bool operator==(const JobSiteCheck&, const JobSiteCheck&) = default;
};

struct Job {
  std::string title, origin, surface;
  LengthUnit unit = LengthUnit::mm;
  Tolerance tolerance;
  std::map<std::string, double> values;  // worked out, as plain numbers: in the job's unit where a length uses them
  double list_clearances_within_mm = 250;
  double drill_clearance_mm = 2;
  int sets = 1;
  Stock stock;
  TitleBlock title_block;
  Rules rules;  // the usual limits, the job's own in place of them

  std::vector<Tube> tubes;
  std::vector<Bender> benders;
  std::vector<Fixture> fixtures;  // turned and sliding or swinging; STEP bodies read
  std::vector<JobConnection> connections;
  std::vector<JobSiteCheck> site_checks;
  std::vector<JobRun> runs;
  std::vector<JobBank> banks;

  std::string stem;    // file name without folder and ending
  std::string digest;  // of the text, hex
};

}  // namespace halfhard
