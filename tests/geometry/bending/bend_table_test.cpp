#include "geometry/bending/bend_table.h"

#include <gtest/gtest.h>

namespace halfhard {
namespace {

// Textbook: Plumbing Book 1 (Hodder 2019) pp. 136-137: alcove run, four 90s; C at R = 50.1: 2979.99.
TEST(BendTable, AlcoveRunOfFour90sIsCutAt2980) {
  const std::vector<Vec3> points = {{0, 0, 0},      {888, 0, 0},     {888, 890, 0},
                                    {1238, 890, 0}, {1238, 1340, 0}, {750, 1340, 0}};
  EXPECT_NEAR(CentreLine::through(points, 50.1).length_mm(), 2979.99, 0.01);
  EXPECT_NEAR(CentreLine::through(points, 55).length_mm(), 2971.58, 0.01);
}

}  // namespace
}  // namespace halfhard
