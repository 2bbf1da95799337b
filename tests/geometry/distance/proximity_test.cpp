#include "geometry/distance/proximity.h"

#include <gtest/gtest.h>

#include "tests/geometry/distance/random_tubes.h"

namespace halfhard {
namespace {

std::vector<TubeBody> crowd(unsigned number, int count) {
  testing::Dice dice(number);
  std::vector<TubeBody> tubes;
  for (int i = 0; i < count; ++i) tubes.emplace_back(testing::random_line(dice, 3, 40, 600), 7.5);
  return tubes;
}

TEST(Proximity, FindsThePairsThatLookingAtAllFinds) {
  for (unsigned number = 1; number < 4; ++number) {
    SCOPED_TRACE(number);
    const std::vector<TubeBody> tubes = crowd(number, 80);
    const std::vector<NearPair> found = pairs_nearer_than(60, tubes);
    std::size_t next = 0;
    for (int i = 0; i < 80; ++i) {
      for (int j = i + 1; j < 80; ++j) {
        const double value = distance(tubes[i], tubes[j]).distance_mm;
        if (value >= 60) continue;
        ASSERT_LT(next, found.size());
        EXPECT_EQ(found[next].first, i);
        EXPECT_EQ(found[next].second, j);
        EXPECT_NEAR(found[next].separation.distance_mm, value, 1e-7);
        ++next;
      }
    }
    EXPECT_EQ(next, found.size());
    EXPECT_GT(next, 10u);
  }
}

TEST(Proximity, FindsTheNearestOtherOfEach) {
  const std::vector<TubeBody> tubes = crowd(9, 60);
  const std::vector<NearPair> found = nearest_others(tubes);
  ASSERT_EQ(found.size(), 60u);
  for (int i = 0; i < 60; ++i) {
    double least = kAnyDistance;
    for (int j = 0; j < 60; ++j) {
      if (j != i) least = std::min(least, distance(tubes[i], tubes[j]).distance_mm);
    }
    EXPECT_NEAR(found[i].separation.distance_mm, least, 1e-7);
  }
}

TEST(Proximity, OneTubeHasNoOther) {
  const std::vector<TubeBody> one = crowd(1, 1);
  EXPECT_EQ(nearest_others(one)[0].second, -1);
  EXPECT_TRUE(pairs_nearer_than(100, one).empty());
}

TEST(Proximity, WallsWithoutEndAreNearEverything) {
  std::vector<Bounds> boxes{{{0, 0, 0}, {1, 1, 1}}, Bounds::everything(), {{50, 0, 0}, {51, 1, 1}}, Bounds()};
  const Proximity tree(boxes);
  std::vector<int> near;
  tree.each_near(Bounds{{0, 0, 0}, {2, 2, 2}}, 5, [&](int item) { near.push_back(item); });
  std::sort(near.begin(), near.end());
  EXPECT_EQ(near, (std::vector<int>{0, 1}));
  EXPECT_EQ(tree.pairs_near(5), (std::vector<std::pair<int, int>>{{0, 1}, {1, 2}}));
}

}  // namespace
}  // namespace halfhard
