#include "geometry/bending/bender_body.h"

#include <algorithm>

#include "geometry/bending/clock.h"

namespace halfhard {
namespace {

constexpr double kBenchTop_mm = 30;  // how thick it is
constexpr double kAir_mm = 0.5;      // that the bender leaves about a tube lying true in it

Body still(Shape shape) { return {std::move(shape), {}}; }

Box box_between(const Vec3& least, const Vec3& most) {
  return {(least + most) / 2, Mat3::Identity(), (most - least) / 2};
}

// From the person's axes into the bender's frame.
Box carried(Box box, const Mat3& seen) {
  box.centre = seen.transpose() * box.centre;
  box.axes = seen.transpose() * box.axes;
  return box;
}

// The bench as a person walks round it stands under the tube only where the tube lies over it and the lever does not
// swing down past it.
bool over_a_bench(const Mat3& seen) { return std::abs(seen.col(0).z()) < 0.5 && seen.col(1).z() > -0.5; }

}  // namespace

const char* bender_part_word(BenderPart part) {
  switch (part) {
    case BenderPart::former:
      return "the former";
    case BenderPart::hook:
      return "the hook";
    case BenderPart::guide:
      return "the guide";
    case BenderPart::lever:
      return "the lever";
    case BenderPart::bench:
      return "the bench";
    case BenderPart::floor:
      return "the floor";
    case BenderPart::wall:
      return "the wall";
  }
  return "";
}

BenderFigures usual_figures(const Run& run) {
  const double diameter = run.tube->outside_diameter_mm;
  const Bender& bender = *run.bender;
  const double hook = std::min(2 * diameter, std::max(1.0, bender.shortest_between_mm.value_or(2 * diameter)));
  const double guide = std::min(3 * diameter, std::max(1.0, bender.shortest_lever_mm.value_or(3 * diameter)));
  return {1.5 * diameter, hook, guide, 6 * run.line.radius_mm(), 180, 1200, 600, 1080};
}

BenderFigures figures_of(const Run& run) {
  const BenderFigures usual = usual_figures(run);
  const BenderBody& own = run.bender->body;
  return {
      own.former_thickness_mm.value_or(usual.former_thickness_mm), own.hook_length_mm.value_or(usual.hook_length_mm),
      own.guide_length_mm.value_or(usual.guide_length_mm),         own.lever_length_mm.value_or(usual.lever_length_mm),
      own.above_bench_mm.value_or(usual.above_bench_mm),           own.bench_length_mm.value_or(usual.bench_length_mm),
      own.bench_depth_mm.value_or(usual.bench_depth_mm),           own.above_floor_mm.value_or(usual.above_floor_mm)};
}

Mat3 seen_by_the_person(const Run& run, bool turned_over) {
  Mat3 seen = stands_as_seen(run.bender->stands).value_or(*stands_as_seen({"left", "towards you"}));
  if (!turned_over) return seen;
  // The hook stays where it is and the lever swings to the other side.
  seen.col(1) = -seen.col(1);
  seen.col(2) = -seen.col(2);
  return seen;
}

std::vector<PlacedPart> bender_parts(const Run& run, bool turned_over) {
  const BenderFigures figures = figures_of(run);
  const BenderBody& own = run.bender->body;
  const double radius = run.line.radius_mm(), tube = run.tube->outside_radius_mm();
  const double inner = std::max(1.0, radius - tube - kAir_mm), half = figures.former_thickness_mm / 2;
  const double outer = -tube - kAir_mm, thick = 0.9 * tube, high = 1.3 * tube;
  const Vec3 axis(0, radius, 0);
  std::vector<PlacedPart> parts;
  parts.push_back({BenderPart::former, still(Cylinder{axis - half * Vec3::UnitZ(), axis + half * Vec3::UnitZ(), inner}),
                   false, !own.former_thickness_mm});
  parts.push_back({BenderPart::hook,
                   still(box_between({-figures.hook_length_mm, outer - thick, -high}, {0, outer, high})), false,
                   !own.hook_length_mm});
  parts.push_back({BenderPart::guide,
                   still(box_between({0, outer - thick, -high}, {figures.guide_length_mm, outer, high})), true,
                   !own.guide_length_mm});
  const double bar = std::min(0.6 * tube + 4, 12.0), lever_from = figures.guide_length_mm;
  if (figures.lever_length_mm > lever_from) {
    const double beside = outer - thick - bar;
    parts.push_back({BenderPart::lever,
                     still(Cylinder{Vec3(lever_from, beside, 0), Vec3(figures.lever_length_mm, beside, 0), bar}), true,
                     !own.lever_length_mm});
  }
  const Mat3 seen = seen_by_the_person(run, turned_over);
  const bool guessed = !stands_as_seen(run.bender->stands);
  if (over_a_bench(seen)) {
    const double top = -figures.above_bench_mm, right = figures.bench_length_mm / 2, back = figures.bench_depth_mm / 2;
    parts.push_back({BenderPart::bench,
                     still(carried(box_between({-right, -back, top - kBenchTop_mm}, {right, back, top}), seen)), false,
                     guessed || !own.above_bench_mm || !own.bench_length_mm || !own.bench_depth_mm});
    const Vec3 up = seen.transpose() * Vec3::UnitZ();
    parts.push_back(
        {BenderPart::floor, still(HalfSpace{-figures.above_floor_mm * up, up}), false, guessed || !own.above_floor_mm});
  }
  if (own.wall_behind_mm) {
    const Vec3 away = seen.transpose() * Vec3::UnitY();
    parts.push_back({BenderPart::wall, still(HalfSpace{*own.wall_behind_mm * away, -away}), false, guessed});
  }
  return parts;
}

}  // namespace halfhard
