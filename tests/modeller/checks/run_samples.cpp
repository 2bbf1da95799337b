#include "tests/modeller/checks/samples.h"

namespace halfhard {
namespace {

using support::bench;
using support::offset_points;
using support::run_through;
using support::RunOptions;

RunOptions quiet() {
  RunOptions options;
  options.service = Service::none;
  options.datum_insertion_mm = 0;
  return options;
}

// A run that is right but for one thing.
Checked changed(const std::function<void(Run&)>& change) {
  auto run = good_offset();
  change(*run);
  return checked(*run);
}

// A run without `to` whose last step leads to a connection or a point.
Checked ends_at(std::variant<std::string, JobPoint> where) {
  auto run = good_offset();
  run->to.reset();
  run->family = run->name;
  Checked made = checked(*run);
  JobRun written;
  written.name = run->family;
  written.path = {ToStep{std::move(where), "/runs/0/path/0"}};
  made.job.runs.push_back(std::move(written));
  return made;
}

// A single 90 whose first curve starts at `end` from the tube's end; the far leg leaves `lever` straight.
Checked elbow(double end_mm, double lever_mm, RunOptions options = quiet()) {
  const double r = options.bender.former_radius_mm;
  return checked(*run_through("elbow", {{0, 0, 0}, {0, 0, end_mm + r}, {lever_mm + r, 0, end_mm + r}}, options));
}

// A flat S or U of two bends with this straight between, turning `roll` from one to the other.
Checked two_bends(double between_mm, Angle roll, RunOptions options = quiet()) {
  const Angle right = Angle::degrees(90);
  return checked(
      *run_through("pair",
                   points_from_rows({{200, Angle(), right}, {between_mm, roll, right}, {200, Angle(), Angle()}},
                                    options.bender.former_radius_mm, Vec3::Zero(), Vec3::UnitX(), Vec3::UnitZ()),
                   options));
}

Checked bent_by(double angle_deg, double set_per_got, double most_deg) {
  RunOptions options = quiet();
  options.bender.most_angle = Angle::degrees(most_deg);
  options.bender.spring_back = {{Angle::degrees(90 * set_per_got), Angle::degrees(90)}};
  return checked(*run_through("hook",
                              points_from_rows({{200, Angle(), Angle::degrees(angle_deg)}, {200, Angle(), Angle()}}, 55,
                                               Vec3::Zero(), Vec3::UnitX(), Vec3::UnitZ()),
                              options));
}

Checked in_tube(double outside_diameter_mm, double radius_mm, double fits_mm, std::string standard = "EN 1057") {
  RunOptions options = quiet();
  options.tube.outside_diameter_mm = outside_diameter_mm;
  options.tube.standard = std::move(standard);
  options.bender = bench(radius_mm, fits_mm);
  return checked(*run_through("elbow", {{0, 0, 0}, {0, 0, 600}, {600, 0, 600}}, options));
}

Checked going(Service service, std::vector<Vec3> points) { return checked(*with_service(service, std::move(points))); }

// From down in the corner up, along by 400 with this rise, and up again.
std::vector<Vec3> stairs(double rise) { return {{0, 0, 0}, {0, 0, 300}, {400, 0, 300 + rise}, {400, 0, 700}}; }

// A hot run fixed at both ends: 4 m along, then a leg that can give.
Checked long_hot(double giving_mm, double loose_mm = 0) {
  RunOptions options;
  options.free_insertion_mm = 15;
  options.bender.spring_back = {{Angle::degrees(90), Angle::degrees(90)}};
  auto run = run_through("flow", {{0, 0, 0}, {4000, 0, 0}, {4000, giving_mm, 0}}, options);
  run->to->loose_mm = loose_mm;
  Checked made = checked(*run);
  made.job.stock.lengths_mm = {6000};
  made.job.tolerance.length_mm = 50;
  return made;
}

Checked offset_by_rule(Angle angle, double true_mm) {
  auto run = run_through("tail", offset_points(300, true_mm, angle, 300), quiet());
  run->offsets = {{1, true_mm, true_mm / angle.sin(), true_mm / angle.tan(), Angle(), "right", ""}};
  return checked(*run);
}

Checked straight_of(double length_mm) { return checked(*run_through("rail", {{0, 0, 0}, {length_mm, 0, 0}}, quiet())); }

// A run to a fitting whose far end may miss by some mm.
Checked fitted(double tolerance_mm) {
  RunOptions options = quiet();
  options.free_insertion_mm = 15;
  Checked made = checked(*run_through("tail", offset_points(300, 70, Angle::degrees(45), 300), options));
  made.job.tolerance.length_mm = tolerance_mm;
  return made;
}

// An offset between two sockets of 15 that face each other; the far one can move out of the way by so much.
Checked between_sockets(double loose_mm) {
  RunOptions options = quiet();
  options.datum_insertion_mm = options.free_insertion_mm = 15;
  auto run = run_through("tail", offset_points(300, 70, Angle::degrees(45), 300), options);
  run->to->loose_mm = loose_mm;
  return checked(*run);
}

// Bends so near each other for so long that no straight takes a clip.
Checked coil(int bends) {
  RunOptions options = quiet();
  options.bender.shortest_between_mm = 0;
  std::vector<ShapeRow> rows = {{200, Angle(), Angle::degrees(60)}};
  for (int i = 1; i < bends; ++i) {
    rows.push_back({16, Angle::degrees(i % 2 == 0 ? 90 : -90), Angle::degrees(60)});
  }
  rows.push_back({200, Angle(), Angle()});
  return checked(*run_through("coil", points_from_rows(rows, 55, Vec3::Zero(), Vec3::UnitX(), Vec3::UnitZ()), options));
}

// A spiral in one plane; its last straight swings through its first leg unless the inner bends are made first.
Checked spiral(std::vector<int> order) {
  RunOptions options = quiet();
  options.order = std::move(order);
  return checked(*run_through(
      "spiral", {{0, 0, 0}, {0, 0, 600}, {400, 0, 600}, {400, 0, 200}, {150, 0, 200}, {150, 0, 420}}, options));
}

// A long leg behind the hook that the lever swings round to, when it is as long as usual.
Checked lever_swings_to_the_leg(std::optional<double> lever_length_mm) {
  RunOptions options = quiet();
  options.bender.body.lever_length_mm = lever_length_mm;
  return checked(*run_through(
      "hook",
      points_from_rows(
          {{500, Angle(), Angle::degrees(90)}, {150, Angle(), Angle::degrees(135)}, {70, Angle(), Angle()}}, 55,
          Vec3::Zero(), Vec3::UnitX(), Vec3::UnitZ()),
      options));
}

// Two bends out of plane: the first leg hangs down to the bench, or stands up from it, while the second is made.
Checked leg_hangs(double turn_deg, std::optional<double> above_bench_mm = std::nullopt) {
  RunOptions options = quiet();
  options.bender.body.above_bench_mm = above_bench_mm;
  if (above_bench_mm) options.bender.body.bench_length_mm = options.bender.body.bench_depth_mm = 800;
  return checked(*run_through("hanging",
                              points_from_rows({{400, Angle(), Angle::degrees(90)},
                                                {150, Angle::degrees(turn_deg), Angle::degrees(90)},
                                                {200, Angle(), Angle()}},
                                               55, Vec3::Zero(), Vec3::UnitX(), Vec3::UnitZ()),
                              options));
}

}  // namespace

std::vector<CheckSample> run_samples() {
  const Angle none;
  const auto datum_off = [](double mm) { return [mm] { return changed([=](Run& run) { run.from.at.x() += mm; }); }; };
  const auto datum_turned = [](double deg) {
    return [deg] {
      return changed([=](Run& run) {
        run.from.towards = Eigen::AngleAxisd(Angle::degrees(deg).radians(), Vec3::UnitX()) * Vec3::UnitZ();
      });
    };
  };
  const auto needs_straight = [](double mm) {
    return [mm] { return changed([=](Run& run) { run.from.straight_needed_mm = mm; }); };
  };
  const double first_straight = 300 - 55 * Angle::degrees(45).tan_of_half();
  return {
      {"connection", Severity::fail, datum_off(0.501), datum_off(0.499)},
      {"connection", Severity::fail, datum_turned(0.501), datum_turned(0.499)},
      {"end-not-named", Severity::warn, [] { return ends_at(std::string("tap")); },
       [] { return ends_at(JobPoint(Vec3(0, 0, 900))); }},
      {"end-too-short", Severity::fail, [] { return elbow(79.99, 200); }, [] { return elbow(80, 200); }},
      {"end-shorter-than-usual", Severity::warn, [] { return elbow(119.99, 200); }, [] { return elbow(120, 200); }},
      {"lever-too-short", Severity::fail, [] { return elbow(200, 59.99); }, [] { return elbow(200, 60); }},
      {"meets-itself-in-bender", Severity::fail,
       [] {
         return spiral({1, 2, 3, 4});
       },
       [] {
         return spiral({1, 2, 4, 3});
       }},
      {"meets-bender", Severity::warn, [] { return lever_swings_to_the_leg(std::nullopt); },
       [] { return lever_swings_to_the_leg(120); }},
      {"meets-bench", Severity::warn, [] { return leg_hangs(-90); }, [] { return leg_hangs(90); }},
      {"meets-bench", Severity::fail, [] { return leg_hangs(-90, 180); }, [] { return leg_hangs(-90, 500); }},
      {"straight-between", Severity::fail, [=] { return two_bends(19.99, none); }, [=] { return two_bends(20, none); }},
      {"one-pull", Severity::note, [=] { return two_bends(0, none); }, [=] { return two_bends(20, none); }},
      {"straight-at-fitting", Severity::fail, needs_straight(first_straight + 0.01), needs_straight(first_straight)},
      {"beyond-bender", Severity::fail, [] { return bent_by(90, 1.05, 94.4); }, [] { return bent_by(90, 1.05, 94.5); }},
      {"former-does-not-fit", Severity::fail, [] { return in_tube(15, 55, 15.31); },
       [] { return in_tube(15, 55, 15.29); }},
      {"radius-too-tight",
       Severity::fail,
       [] { return in_tube(15, 44.99, 15); },
       [] { return in_tube(15, 45, 15); },
       {"radius-below-standard", "wall-thinning"}},
      // DIN EN 1057 table, IKZ-Praxis 2/2000 p. 8: 15 mm 55.
      {"radius-below-standard", Severity::warn, [] { return in_tube(15, 54.99, 15); },
       [] { return in_tube(15, 55, 15); }},
      // Copper Tube Handbook, bending guide: 1/2 in drawn 2 1/2 in.
      {"radius-below-standard", Severity::warn, [] { return in_tube(15.875, 63.49, 15.875, "ASTM B88"); },
       [] { return in_tube(15.875, 63.5, 15.875, "ASTM B88"); }},
      {"radius-not-published", Severity::note, [] { return in_tube(20, 100, 20); },
       [] { return in_tube(22, 100, 22); }},
      // IKZ-Praxis 4/2000: cold up to 28 mm.
      {"tube-too-large",
       Severity::warn,
       [] { return in_tube(35, 200, 35); },
       [] { return in_tube(28, 200, 28); },
       {"radius-not-published"}},
      {"wall-thinning",
       Severity::warn,
       [] { return in_tube(20, 59.9, 20); },
       [] { return in_tube(20, 60, 20); },
       {"radius-not-published", "radius-too-tight"}},
      {"ovality",
       Severity::warn,
       [] { return in_tube(20, 49.9, 20); },
       [] { return in_tube(20, 50, 20); },
       {"radius-not-published", "radius-too-tight", "wall-thinning"}},
      {"vent-does-not-rise",
       Severity::fail,
       [] { return going(Service::vent, stairs(0)); },
       [] { return going(Service::vent, stairs(0.1)); },
       {"registered-person"}},
      {"discharge-does-not-fall",
       Severity::fail,
       [] { return going(Service::discharge, stairs(-1)); },
       [] { return going(Service::discharge, stairs(2)); },
       {"registered-person"}},
      {"discharge-does-not-fall",
       Severity::warn,
       [] { return going(Service::discharge, stairs(1.99)); },
       [] { return going(Service::discharge, stairs(2)); },
       {"registered-person"}},
      {"high-point", Severity::warn,
       [] {
         return going(Service::heating_flow, {{0, 0, 0}, {0, 0, 300}, {400, 0, 300}, {400, 0, 0}});
       },
       [] { return going(Service::heating_flow, stairs(0)); }},
      {"low-point", Severity::note,
       [] {
         return going(Service::cold, {{0, 0, 300}, {0, 0, 0}, {400, 0, 0}, {400, 0, 300}});
       },
       [] { return going(Service::cold, stairs(0)); }},
      // 4 m by 60 K grows 4.03 mm: a leg of 88.8 * sqrt(15 * 4.032) = 690.6.
      {"expansion",
       Severity::warn,
       [] { return long_hot(690.5); },
       [] { return long_hot(690.7); },
       {"cannot-be-entered"}},
      {"cannot-be-entered",
       Severity::warn,
       [] { return between_sockets(14.9); },
       [] { return between_sockets(15); },
       {"free-end"}},
      {"stock-length", Severity::warn, [] { return straight_of(3000.01); }, [] { return straight_of(3000); }},
      {"rule-angle", Severity::warn, [] { return offset_by_rule(Angle::degrees(30), 30); },
       [] { return offset_by_rule(Angle::degrees(30), 33); }},
      {"rule-angle", Severity::note, [] { return offset_by_rule(rule_angle(50), 50); },
       [] { return offset_by_rule(Angle::degrees(45), 50); }},
      {"clips", Severity::note, [] { return elbow(200, 200); }, [] { return Checked(); }},
      {"clip-spacing",
       Severity::warn,
       [] { return coil(20); },
       [] { return coil(10); },
       {"meets-itself-in-bender", "meets-bender", "meets-bench"}},
      {"free-end", Severity::warn, [] { return fitted(3); }, [] { return fitted(10); }},
      {"registered-person", Severity::note, [] { return going(Service::gas, stairs(0)); },
       [] { return going(Service::other, stairs(0)); }},
  };
}

}  // namespace halfhard
