#include "viewer/label_layout.h"

#include <gtest/gtest.h>

#include <random>

namespace halfhard {
namespace {

TEST(LabelLayout, NoTwoLabelsCoverEachOtherAndAllLieInThePicture) {
  std::mt19937 engine(7);
  for (int picture = 0; picture < 50; ++picture) {
    std::vector<LabelWanted> labels;
    for (int i = 0; i < 60; ++i) {
      LabelWanted label;
      label.x = engine() % 800;
      label.y = engine() % 600;
      label.width = 20 + engine() % 120;
      label.height = 20;
      label.importance = static_cast<int>(engine() % 8);
      label.on_place = engine() % 2;
      labels.push_back(label);
    }
    const auto placed = lay_out_labels(labels, 800, 600);
    for (size_t i = 0; i < placed.size(); ++i) {
      if (!placed[i].shown) continue;
      EXPECT_GE(placed[i].x, 0);
      EXPECT_LE(placed[i].x + labels[i].width, 800);
      EXPECT_GE(placed[i].y, 0);
      EXPECT_LE(placed[i].y + labels[i].height, 600);
      for (size_t j = 0; j < i; ++j) {
        if (!placed[j].shown) continue;
        const bool apart =
            placed[i].x + labels[i].width <= placed[j].x || placed[j].x + labels[j].width <= placed[i].x ||
            placed[i].y + labels[i].height <= placed[j].y || placed[j].y + labels[j].height <= placed[i].y;
        EXPECT_TRUE(apart) << i << " covers " << j;
      }
    }
  }
}

TEST(LabelLayout, AFailureIsShownWhereOrdinaryLabelsHaveNoRoomLeft) {
  std::vector<LabelWanted> labels(40, {400, 300, 100, 20, 1, 6, true, false});
  labels.push_back({400, 300, 200, 20, importance_of(LabelKind::failing), reach_of(LabelKind::failing), true, false});
  EXPECT_TRUE(lay_out_labels(labels, 800, 600).back().shown);
}

TEST(LabelLayout, LabelsKeepOffPipesWhereThereIsRoomBesideThem) {
  const KeptClear upright{400, -5000, 400, 90000, 20}, sloping{0, 0, 800, 600, 12};
  std::vector<LabelWanted> labels;
  for (int i = 0; i < 12; ++i) labels.push_back({400, 60.0 + 40 * i, 90, 20, 1, 6, true, i % 2 == 0});
  const auto placed = lay_out_labels(labels, 800, 600, {upright, sloping});
  for (size_t i = 0; i < placed.size(); ++i) {
    ASSERT_TRUE(placed[i].shown);
    EXPECT_TRUE(placed[i].x >= 420 || placed[i].x + labels[i].width <= 380) << i;
  }
  const KeptClear everything{0, 300, 800, 300, 1000};
  EXPECT_TRUE(lay_out_labels({labels[0]}, 800, 600, {everything})[0].shown) << "rather on it than not at all";
  labels[0].may_cover = false;
  EXPECT_FALSE(lay_out_labels({labels[0]}, 800, 600, {everything})[0].shown);
}

}  // namespace
}  // namespace halfhard
