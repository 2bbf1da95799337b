// What sets and shows a turn by tape, against a second way to work it out: a chain of moves along the tube, straight by
// straight and arc by arc, instead of corners.
#include "geometry/bending/bend_checks.h"

#include <gtest/gtest.h>

#include "geometry/bending/bend_table.h"
#include "geometry/bending/forming.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

constexpr unsigned kSeed = 20261127;

using Move = Eigen::Isometry3d;

Move along(double mm) { return Move(Eigen::Translation3d(mm, 0, 0)); }
Move rolled(Angle by) { return Move(Eigen::AngleAxisd(by.radians(), Vec3::UnitX())); }
// Along an arc that turns towards +y.
Move bent(double radius_mm, Angle by) {
  return Move(Eigen::Translation3d(radius_mm * by.sin(), radius_mm * (1 - by.cos()), 0)) *
         Move(Eigen::AngleAxisd(by.radians(), Vec3::UnitZ()));
}

// What came out of the bender instead of what was wanted.
struct Wrong {
  Angle angle, turn;
  bool other_hand = false;
};

// The blank with the first `made` bends of the order made, the last of them a little wrong: the frame at the start of each
// bend's curve, and at both ends.
struct Chain {
  std::vector<Move> before_bend;  // at the start of the curve, rolled into its plane; by number from 1
  std::vector<Move> leg;          // finished legs, from 0: somewhere on each, travel along x
  Move end;
};

Chain chain_of(const Run& run, int made, const Wrong& wrong = {}, bool last_is_straight = false) {
  Chain chain;
  const std::vector<ShapeRow> rows = shape_rows(run.line);
  Move at = Move::Identity();
  const double first_more = run.spare_datum_mm + run.datum_insertion_mm();
  chain.before_bend.resize(run.bends.size() + 1);
  double given_back = 0;  // of an arc that is bent less than wanted, where its hook is on the far side
  Angle turned_back;
  for (const Bend& bend : run.bends) {
    const ShapeRow& row = rows[bend.number - 1];
    const double arc = run.line.radius_mm() * row.angle.radians();
    const bool last = bend.made == made;
    Angle angle = bend.made <= made && !(last && last_is_straight) ? row.angle : Angle();
    double less = 0;  // of the arc, that stays straight
    if (last && angle.degrees() > 0) {
      less = -run.line.radius_mm() * wrong.angle.radians();
      angle = angle + wrong.angle;
    }
    Angle roll = (wrong.other_hand ? -1.0 : 1.0) * row.rotation - turned_back;
    turned_back = Angle();
    if (last) roll = roll + wrong.turn, turned_back = wrong.turn;
    const double unbent = angle.degrees() > 0 ? less : arc;
    at = at * along(row.straight_mm + (bend.number == 1 ? first_more : 0) + given_back);
    given_back = 0;
    chain.leg.push_back(at);
    at = at * rolled(roll);
    if (bend.hook == End::free) at = at * along(unbent);
    chain.before_bend[bend.number] = at;
    if (angle.degrees() > 0) at = at * bent(run.line.radius_mm(), angle);
    if (bend.hook == End::datum) at = at * along(unbent);
  }
  at = at * along(rows.back().straight_mm + run.spare_free_mm + run.free_insertion_mm());
  chain.leg.push_back(at);
  chain.end = at;
  return chain;
}

double height_of(const Chain& chain, const BendCheck& check) {
  const Move &first = chain.leg[check.first_leg - 1], &second = chain.leg[check.second_leg - 1];
  const Vec3 normal = (first.linear() * Vec3::UnitX()).cross(second.linear() * Vec3::UnitX()).normalized();
  const Vec3 end = check.of == End::datum ? Vec3::Zero() : Vec3(chain.end.translation());
  return (end - first.translation()).dot(normal);
}

std::shared_ptr<Run> any_run(std::mt19937& engine) {
  const int bends = 2 + static_cast<int>(engine() % 4);
  support::RunOptions options;
  options.datum_spare_mm = engine() % 2 * 40.0;
  options.free_spare_mm = engine() % 2 * 60.0;
  options.free_insertion_mm = engine() % 2 * 18.0;
  for (int i = 0; i < bends; ++i) options.hook.push_back(engine() % 2 == 0 ? End::datum : End::free);
  options.order.resize(bends);
  std::iota(options.order.begin(), options.order.end(), 1);
  for (int i = bends - 1; i > 0; --i) std::swap(options.order[i], options.order[engine() % (i + 1)]);
  const auto run = support::run_through("pipe", support::random_points(engine, bends), options);
  fill_checks(*run, 3);
  return run;
}

TEST(BendChecks, AHeightIsWhatTheChainOfMovesComesTo) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed);
  int heights = 0;
  for (int i = 0; i < 300; ++i) {
    const auto run = any_run(engine);
    for (const Bend& bend : run->bends) {
      ASSERT_FALSE(bend.checks.empty());
      EXPECT_EQ(bend.check, bend.checks.front().dimension);
      const Chain chain = chain_of(*run, bend.made);
      int of_this = 0;
      for (const BendCheck& check : bend.checks) {
        if (check.kind != CheckKind::height) continue;
        ++of_this, ++heights;
        EXPECT_NEAR(height_of(chain, check), check.dimension.mm, 1e-6) << i << ", bend " << bend.number;
        const double step = 0.01;
        const Chain more = chain_of(*run, bend.made, {Angle(), Angle::degrees(step), false});
        EXPECT_NEAR((height_of(more, check) - height_of(chain, check)) / step, check.per_degree_turn_mm, 0.01);
        const Chain less = chain_of(*run, bend.made, {Angle::degrees(-step), Angle(), false});
        EXPECT_NEAR((height_of(chain, check) - height_of(less, check)) / step, check.per_degree_angle_mm, 0.01);
      }
      EXPECT_EQ(of_this > 0, bend.made > 1) << "every bend after the first shows its turn";
    }
  }
  EXPECT_GT(heights, 500);
}

TEST(BendChecks, TheTurnHeightIsWhereTheFormedEndStandsInTheBender) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed + 1);
  int off_the_plane = 0;
  for (int i = 0; i < 300; ++i) {
    const auto run = any_run(engine);
    for (const Bend& bend : run->bends) {
      const Chain chain = chain_of(*run, bend.made, {}, true);
      if (bend.made == 1) {
        EXPECT_EQ(bend.turn_height_mm, 0);
        continue;
      }
      const Move frame = chain.before_bend[bend.number];
      const Vec3 start = frame.inverse() * Vec3::Zero(), end = frame.inverse() * Vec3(chain.end.translation());
      const auto formed = [&](bool lower) {
        return std::any_of(run->bends.begin(), run->bends.end(), [&](const Bend& other) {
          return other.made < bend.made && (lower ? other.number < bend.number : other.number > bend.number);
        });
      };
      // From the far end the tube is seen the other way, and 3 on the clock with it.
      const double side = bend.hook == End::datum ? 1 : -1;
      const bool hook_is_lower = bend.hook == End::datum;
      const Vec3 &hook_end = hook_is_lower ? start : end, &lever_end = hook_is_lower ? end : start;
      const bool hook_formed = formed(hook_is_lower), lever_formed = formed(!hook_is_lower);
      const bool by_lever = lever_formed && (!hook_formed || std::abs(hook_end.z()) < 1e-6);
      const Vec3& chosen = by_lever && (!hook_formed || std::abs(lever_end.z()) >= 1e-6) ? lever_end : hook_end;
      EXPECT_NEAR(bend.turn_height_mm, side * chosen.z(), 1e-6) << i << ", bend " << bend.number;
      EXPECT_NEAR(bend.turn_across_mm, chosen.y(), 1e-6) << i << ", bend " << bend.number;
      off_the_plane += std::abs(bend.turn_height_mm) > 1;
    }
  }
  EXPECT_GT(off_the_plane, 200);
}

// Each single error just beyond tolerance, and the mirrored piece, fails a reading; or the paper says that no tape shows it.
TEST(BendChecks, AnErrorBeyondToleranceFailsAReading) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed + 2);
  int turns = 0, hands = 0, said = 0, angles = 0, unshown = 0;
  for (int i = 0; i < 300; ++i) {
    const auto run = any_run(engine);
    for (const Bend& bend : run->bends) {
      const auto angle_shown = std::any_of(bend.checks.begin(), bend.checks.end(), [](const BendCheck& check) {
        return check.kind != CheckKind::along && check.kind != CheckKind::height &&
               3.5 * std::abs(check.per_degree_angle_mm) > check.dimension.tolerance_mm;
      });
      // By what a degree moves: a reading near its turning point moves by more than that.
      ++angles;
      unshown += !angle_shown && bend.by_gauge.empty();
      if (bend.made == 1) continue;
      for (const double sign : {-1.0, 1.0}) {
        const Chain wrong = chain_of(*run, bend.made, {Angle(), Angle::degrees(3.5 * sign), false});
        bool fails = false;
        for (const BendCheck& check : bend.checks) {
          if (check.kind == CheckKind::height)
            fails = fails || std::abs(height_of(wrong, check) - check.dimension.mm) > check.dimension.tolerance_mm;
          else
            fails = fails || 3.5 * std::abs(check.per_degree_turn_mm) > check.dimension.tolerance_mm;
        }
        EXPECT_TRUE(fails || !bend.by_gauge.empty()) << i << ", bend " << bend.number << ", turn " << 3.5 * sign;
        said += !fails;
        ++turns;
      }
      const Chain mirrored = chain_of(*run, bend.made, {Angle(), Angle(), true});
      for (const BendCheck& check : bend.checks) {
        if (check.kind != CheckKind::height || 2 * std::abs(check.dimension.mm) <= check.dimension.tolerance_mm)
          continue;
        EXPECT_GT(std::abs(height_of(mirrored, check) - check.dimension.mm), check.dimension.tolerance_mm);
        ++hands;
        break;
      }
    }
  }
  EXPECT_LT(unshown, angles / 100);
  EXPECT_GT(turns, 1000);
  EXPECT_GT(hands, 300);
  EXPECT_LT(said, turns / 10);
}

TEST(BendChecks, ToleranceIsWhatTheAngleToleranceMovesAndNeverFinerThanATape) {
  SCOPED_TRACE(::testing::Message() << "seed " << kSeed);
  std::mt19937 engine(kSeed + 3);
  for (int i = 0; i < 100; ++i) {
    const auto run = any_run(engine);
    for (const Bend& bend : run->bends) {
      for (const BendCheck& check : bend.checks) {
        EXPECT_LE(check.dimension.tolerance_mm, 3);
        EXPECT_GE(check.dimension.tolerance_mm, 0.5);
        if (check.kind != CheckKind::height) continue;
        double moved = 1e9;
        for (const double turn : {-3.0, 3.0}) {
          const Chain wrong = chain_of(*run, bend.made, {Angle(), Angle::degrees(turn), false});
          moved = std::min(moved, std::abs(height_of(wrong, check) - check.dimension.mm));
        }
        EXPECT_NEAR(check.dimension.tolerance_mm, std::clamp(moved, 0.5, 3.0), 1e-6);
      }
    }
  }
}

}  // namespace
}  // namespace halfhard
