// A small site by hand: a bank of tails through a panel, past traps, below a joist.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "tests/support/plans.h"

namespace halfhard::support {

inline std::shared_ptr<const Fixture> fixture(const std::string& name, Shape shape,
                                              FixtureKind kind = FixtureKind::box) {
  Fixture made;
  made.name = name;
  made.kind = kind;
  made.body.shape = std::move(shape);
  return std::make_shared<const Fixture>(made);
}

// 3 m between supports, 150 deep, 47 wide, along y at x = 400.
inline std::shared_ptr<const Fixture> joist() {
  Fixture made;
  made.name = "joist";
  made.kind = FixtureKind::joist;
  made.body.shape = Box{{400, 1500, 2400}, Mat3::Identity(), {23.5, 1500, 75}};
  made.joist = Joist{{400, 0, 2400}, {400, 3000, 2400}, Vec3::UnitZ(), Vec3::UnitX(), 47, 150};
  made.may_drill = true;
  return std::make_shared<const Fixture>(made);
}

// `count` tails 100 apart that go back through a panel of 18 mm at y = 100 to 118.
inline Plan bank_plan(int count) {
  std::vector<std::shared_ptr<const Run>> runs;
  for (int i = 0; i < count; ++i) {
    const Vec3 at(100.0 * i, 0, 0);
    auto run = run_through("tail " + std::to_string(i + 1),
                           {at, at + Vec3(0, 0, 250), at + Vec3(0, 250, 250), at + Vec3(0, 250, 500)});
    run->family = "tail";
    run->piece = i + 1;
    runs.push_back(run);
  }
  Plan plan = plan_of(runs);
  plan.fixtures.push_back(fixture("panel", Box{{350, 109, 250}, Mat3::Identity(), {450, 9, 300}}));
  plan.fixtures.push_back(fixture("wall", HalfSpace{{0, 320, 0}, -Vec3::UnitY()}, FixtureKind::plane));
  for (int i = 0; i < count; ++i) {
    const Vec3 foot(100.0 * i + 50, -60, 100);
    plan.fixtures.push_back(
        fixture("trap " + std::to_string(i + 1), Cylinder{foot, foot + Vec3(0, 0, 120), 25}, FixtureKind::cylinder));
    plan.drillings.push_back({"tail " + std::to_string(i + 1), "panel", {100.0 * i, 100, 250}, Vec3::UnitY(), 19, 18});
    plan.clearances.push_back({"tail " + std::to_string(i + 1),
                               "trap " + std::to_string(i + 1),
                               17.5 + 0.001 * i,
                               10,
                               0,
                               {100.0 * i, 0, 150},
                               {100.0 * i + 30, -45, 150}});
    plan.clearances.push_back(
        {"tail " + std::to_string(i + 1), "wall", 62.5, 2, 0, {100.0 * i, 257.5, 400}, {100.0 * i, 320, 400}});
    plan.clips.push_back({"tail " + std::to_string(i + 1), 100, {100.0 * i, 0, 100}, Vec3::UnitZ()});
  }
  return plan;
}

}  // namespace halfhard::support
