#include "modeller/checks/other_ways.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>

#include "geometry/bending/bender_sweep.h"
#include "modeller/checks/loading.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

bool can_be_bent(const Run& run) {
  return !first_contact(run) &&
         std::ranges::all_of(run.bends, [&](const Bend& bend) { return can_be_made(run, bend.number, bend.hook); });
}

// How a way differs from the run's own: what the search keeps least.
int differs(const Run& run, const WayToBend& way) {
  int count = 0;
  for (std::size_t place = 0; place < way.order.size(); ++place) {
    const Bend& bend = run.bends[static_cast<std::size_t>(way.order[place] - 1)];
    count += bend.made != static_cast<int>(place) + 1;
    count += bend.hook != way.hook[static_cast<std::size_t>(way.order[place] - 1)];
  }
  return count;
}

// Every order with every choice of hooks tried one by one: the way found is clear and as near as any, and none is found
// only where there is none.
TEST(OtherWays, TheOneFoundIsTheNearestOfAll) {
  const unsigned seed = 3;
  std::cout << "seed " << seed << "\n";
  std::mt19937 engine(seed);
  int found = 0, none = 0;
  for (int i = 0; i < 60; ++i) {
    const auto run = support::run_through("piece", support::random_points(engine, 3));
    const auto way = clear_way(*run);
    int nearest = -1;
    std::vector<int> order = {1, 2, 3};
    do {
      for (unsigned hooks = 0; hooks < 8; ++hooks) {
        WayToBend each{{}, order};
        for (unsigned bend = 0; bend < 3; ++bend) each.hook.push_back(hooks >> bend & 1 ? End::free : End::datum);
        if (!can_be_bent(bent_that_way(*run, each))) continue;
        if (const int by = differs(*run, each); nearest < 0 || by < nearest) nearest = by;
      }
    } while (std::ranges::next_permutation(order).found);
    ASSERT_EQ(way.has_value(), nearest >= 0) << i;
    if (!way) {
      ++none;
      continue;
    }
    ++found;
    EXPECT_TRUE(can_be_bent(bent_that_way(*run, *way))) << i;
    EXPECT_EQ(differs(*run, *way), nearest) << i;
  }
  EXPECT_GT(found, 10);
  EXPECT_GT(none, 2);
}

TEST(OtherWays, ASpiralIsBentFromItsInside) {
  const auto run = support::run_through(
      "spiral", {{0, 0, 0}, {0, 0, 700}, {400, 0, 700}, {400, 0, 200}, {140, 0, 200}, {140, 0, 500}, {270, 0, 500}});
  const auto contact = first_contact(*run);
  ASSERT_TRUE(contact);
  EXPECT_TRUE(contact->itself);
  EXPECT_EQ(contact->made, 3);
  const auto way = clear_way(*run);
  ASSERT_TRUE(way);
  EXPECT_FALSE(first_contact(bent_that_way(*run, *way)));
}

TEST(OtherWays, ALongPieceIsNotLookedThrough) {
  std::mt19937 engine(1);
  EXPECT_FALSE(clear_way(*support::run_through("long", support::random_points(engine, kMostBendsReordered + 1))));
}

}  // namespace
}  // namespace halfhard
