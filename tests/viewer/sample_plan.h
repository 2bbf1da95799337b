// A plan made by hand with one of everything that is drawn: pipes, a failing pair, a wall, a drawer, a bar,
// connections.
#pragma once

#include "tests/support/plans.h"

namespace halfhard::support {

inline std::shared_ptr<Fixture> fixture(std::string name, FixtureKind kind, Shape shape) {
  auto made = std::make_shared<Fixture>();
  made->name = std::move(name);
  made->kind = kind;
  made->body.shape = std::move(shape);
  return made;
}

inline Plan furnished_plan() {
  auto hot = run_through("hot tail", {{300, 460, 350}, {300, 460, 500}, {370, 460, 570}, {370, 460, 780}});
  auto cold =
      run_through("cold tail", {{230, 460, 350}, {230, 460, 480}, {150, 460, 560}, {150, 300, 560}, {150, 300, 760}});
  Plan plan = plan_of({hot, cold});
  auto wall = fixture("wall", FixtureKind::plane, HalfSpace{{0, 600, 0}, -Vec3::UnitY()});
  auto trap = fixture("trap", FixtureKind::cylinder, Cylinder{{300, 390, 500}, {300, 390, 620}, 37.5});
  auto panel = fixture("back panel", FixtureKind::box, Box{{300, 489, 450}, Mat3::Identity(), {300, 9, 350}});
  panel->may_drill = true;
  auto drawer = fixture("drawer", FixtureKind::box, Box{{300, 210, 210}, Mat3::Identity(), {280, 170, 90}});
  drawer->body.motion = Slide{{0, -400, 0}};
  plan.fixtures = {wall, trap, panel, drawer};
  auto tap = std::make_shared<Connection>();
  tap->name = "hot tap";
  tap->at = {370, 460, 780};
  tap->towards = -Vec3::UnitZ();
  tap->insertion_mm = 15;
  auto stub = std::make_shared<Connection>();
  stub->name = "cold stub";
  stub->at = {230, 460, 350};
  plan.connections = {tap, stub};
  Clearance tight;
  tight.first = "hot tail";
  tight.second = "trap";
  tight.distance_mm = 4;
  tight.required_mm = 10;
  tight.at_first = {300, 452.5, 520};
  tight.at_second = {300, 427.5, 520};
  Clearance wide;
  wide.first = "cold tail";
  wide.second = "wall";
  wide.distance_mm = 132.5;
  wide.at_first = {230, 467.5, 400};
  wide.at_second = {230, 600, 400};
  plan.clearances = {tight, wide};
  plan.findings = {
      {"clearance", Severity::fail, "hot tail", "4 mm from trap, 10 mm is needed", 4, 10, "mm", "", "/runs/0"},
      {"short-end", Severity::warn, "cold tail", "less tube than usual on the hook side", 90, 120, "mm", "",
       "/runs/1"}};
  return plan;
}

}  // namespace halfhard::support
