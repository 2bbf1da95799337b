#include "geometry/rules/clip_spacing.h"

#include <array>

namespace halfhard {
namespace {

struct SizeRow {
  double outside_diameter_mm, level_mm, upright_mm;
};
constexpr const char* kEuropean = "BS EN 806-4 / BS 8558, from memory";
constexpr const char* kAmerican = "IRC P2605";
constexpr std::array kRows = {SizeRow{0, 1200, 1800}, SizeRow{22, 1800, 2400}, SizeRow{35, 2400, 3000}};
constexpr SizeRow kAmericanRow = {0, 6 * 304.8, 10 * 304.8};
constexpr double kSizeSlack_mm = 0.3;

ClipSpacing published(const Tube& tube) {
  if (tube.standard == "ASTM B88") return {kAmericanRow.level_mm, kAmericanRow.upright_mm, kAmerican, ""};
  const SizeRow* row = &kRows.front();
  for (const SizeRow& candidate : kRows) {
    if (tube.outside_diameter_mm >= candidate.outside_diameter_mm - kSizeSlack_mm) row = &candidate;
  }
  return {row->level_mm, row->upright_mm, kEuropean, ""};
}

}  // namespace

ClipSpacing clip_spacing(const Tube& tube, const Rules& rules) {
  ClipSpacing spacing = published(tube);
  const Rule &level = rules.clip_level, &upright = rules.clip_upright;
  if (level.value > 0) spacing.level_mm = level.value;
  if (upright.value > 0) spacing.upright_mm = upright.value;
  if (level.value > 0 || upright.value > 0) {
    spacing.source = level.value > 0 ? level.source : upright.source;
    spacing.remark = level.value > 0 ? level.remark : upright.remark;
  }
  return spacing;
}

}  // namespace halfhard
