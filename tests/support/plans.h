// Plans made by hand for tests of papers and checks: a run from its points, with an ordinary tube and bender.
#pragma once

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>
#include <numeric>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "geometry/base/require.h"
#include "geometry/bending/bend_table.h"
#include "geometry/plan/plan.h"

namespace halfhard::support {

inline Tube tube_15() { return {"15 mm", 15, 0.7, "EN 1057", "15 x 0.7", "R250", ""}; }
inline Tube tube_22() { return {"22 mm", 22, 0.9, "EN 1057", "22 x 0.9", "R250", ""}; }

// A bender measured and calibrated; radius 55 is that of 15 mm tube, 77 of 22 mm.
inline Bender bench(double radius_mm = 55, double fits_mm = 15) {
  Bender bender;
  bender.name = "bench";
  bender.former_radius_mm = radius_mm;
  bender.radius_measured = true;
  bender.fits_mm = fits_mm;
  bender.shortest_end_mm = 80;
  bender.usual_end_mm = 120;
  bender.shortest_lever_mm = 60;
  bender.shortest_between_mm = 20;
  bender.most_angle = Angle::degrees(180);
  bender.mark_offset_mm = 0;
  bender.line_up = "square to the front edge of the former";
  bender.stands = {"left", "towards you"};
  bender.spring_back = {{Angle::degrees(92), Angle::degrees(90)}};
  bender.calibrated_with = "15 mm";
  return bender;
}

// How a run differs from the ordinary one.
struct RunOptions {
  Tube tube = tube_15();
  Bender bender = bench();
  Service service = Service::hot;
  double datum_insertion_mm = 15, free_insertion_mm = 0;
  double datum_spare_mm = 0, free_spare_mm = 0;
  std::vector<End> hook;   // empty: datum for all
  std::vector<int> order;  // empty: 1..n
};

// Points as CentreLine::through wants them. Offsets are not filled in; check dimensions are left to forming.h.
inline std::shared_ptr<Run> run_through(std::string name, std::vector<Vec3> points, RunOptions options = {}) {
  auto run = std::make_shared<Run>();
  run->name = run->family = std::move(name);
  run->tube = std::make_shared<Tube>(options.tube);
  run->bender = std::make_shared<Bender>(options.bender);
  run->service = options.service;
  run->line = CentreLine::through(std::move(points), options.bender.former_radius_mm);
  const int bends = run->line.bend_count();
  run->from.at = run->line.points().front();
  run->from.towards = run->line.leg_direction(0);
  run->from.insertion_mm = options.datum_insertion_mm;
  if (options.free_insertion_mm > 0) {
    run->to = Connection{};
    run->to->name = "far fitting";
    run->to->at = run->line.points().back();
    run->to->towards = -run->line.leg_direction(bends);
    run->to->insertion_mm = options.free_insertion_mm;
  }
  run->spare_datum_mm = options.datum_spare_mm;
  run->spare_free_mm = options.free_spare_mm;
  if (options.hook.empty()) options.hook.assign(bends, End::datum);
  if (options.order.empty()) {
    options.order.resize(bends);
    std::iota(options.order.begin(), options.order.end(), 1);
  }
  run->bends = bend_table(run->line, *run->tube, *run->bender,
                          {options.hook, options.order, options.datum_insertion_mm, options.free_insertion_mm,
                           options.datum_spare_mm, options.free_spare_mm});
  run->cut_length_mm = run->line.length_mm() + options.datum_insertion_mm + options.free_insertion_mm;
  run->blank_length_mm = run->cut_length_mm + options.datum_spare_mm + options.free_spare_mm;
  run->straight_after_mm = run->line.straight_mm(bends) + options.free_insertion_mm;
  run->metal_volume_mm3 = run->tube->metal_area_mm2() * run->cut_length_mm;
  run->mass_kg = run->metal_volume_mm3 * kCopperDensity_g_per_cm3 * 1e-6;
  run->contents_l = run->tube->bore_area_mm2() * run->cut_length_mm * 1e-6;
  return run;
}

// A plan of these runs alone; its title block is filled in.
inline Plan plan_of(std::vector<std::shared_ptr<const Run>> runs) {
  Plan plan;
  plan.title = "Basin tails, studio flat";
  plan.origin = "left end of the finished wall, finished floor";
  plan.surface = "finished";
  plan.stem = "basin-tails";
  plan.digest = "9f86d081884c7d65";
  plan.title_block = {"Example Heating", "HH-001", "A", "2026-01-15", "A. Fitter", "", false};
  plan.runs = std::move(runs);
  for (int i = 0; i < static_cast<int>(plan.runs.size()); ++i) {
    auto copy = std::make_shared<Run>(*plan.runs[i]);
    copy->same_as = i;
    plan.runs[i] = copy;
  }
  return plan;
}

// Ready shapes. Offset of `d` to the right at `angle`, between two legs upwards.
inline std::vector<Vec3> offset_points(double before, double d, Angle angle, double after) {
  const double advance = d / angle.tan();
  return {{0, 0, 0}, {0, 0, before}, {d, 0, before + advance}, {d, 0, before + advance + after}};
}
inline std::vector<Vec3> single_bend_points() { return {{0, 0, 0}, {0, 0, 300}, {400, 0, 300}}; }
// Four bends out of one plane.
inline std::vector<Vec3> multi_plane_points() {
  return {{0, 0, 0}, {0, 0, 250}, {200, 0, 250}, {200, 180, 250}, {300, 180, 400}, {300, 400, 400}};
}

// A random run of `bends` bends whose straights suit the radius: legs along random directions, turns 15 to 135
// degrees, half of them square so that ordinary runs are met too. Same `engine` state, same points.
inline std::vector<Vec3> random_points(std::mt19937& engine, int bends, double radius_mm = 55) {
  // std:: distributions differ between libraries; these do not.
  const auto unit = [&engine] { return engine() / 4294967296.0; };
  const auto between = [&unit](double low, double high) { return low + (high - low) * unit(); };
  std::vector<ShapeRow> rows;
  for (int i = 0; i < bends; ++i) {
    const bool square = unit() < 0.5;
    ShapeRow row;
    row.straight_mm = between(25, 250);
    row.angle = Angle::degrees(square ? (unit() < 0.5 ? 90 : 45) : between(15, 135));
    if (i > 0) row.rotation = Angle::degrees(square ? 90 * std::floor(between(-1, 3)) : between(-179, 180));
    rows.push_back(row);
  }
  rows.push_back({between(60, 300), Angle(), Angle()});
  const Vec3 directions[] = {Vec3::UnitX(), Vec3::UnitY(), Vec3::UnitZ(), Vec3(1, 2, 2).normalized()};
  const Vec3 direction = directions[engine() % 4];
  Vec3 normal = any_square_to(direction);
  return points_from_rows(rows, radius_mm, Vec3(between(0, 500), between(0, 500), between(0, 500)), direction, normal);
}

}  // namespace halfhard::support
