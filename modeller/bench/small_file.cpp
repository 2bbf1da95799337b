#include "modeller/bench/small_file.h"

#include <array>

namespace halfhard {

SmallFile::SmallFile(std::string text, const std::string& file, const char* format) {
  tree_ = JsonTree::parse(std::move(text), file, problems_);
  const JsonValue root = tree_->root();
  if (!root) return;
  const bool group = root.kind() == JsonKind::group;
  const JsonValue unit = root.find("length_unit");
  if (unit && unit.kind() == JsonKind::text && unit.text() == "in") unit_ = LengthUnit::inch;
  values_ = std::make_unique<Values>(root.find("values"), unit_, file, problems_);
  values_->work_out({}, file, problems_);
  reading_ = std::make_unique<Reading>(*tree_, file, *values_, unit_, expressions_, problems_, figures_);
  const std::array<std::string_view, 1> known = {format};
  const JsonValue at = root.find("format");
  if (!group) {
    reading_->wrong_kind(root, "a group { } with \"format\": " + in_quotes(format));
  } else if (!at) {
    reading_->problem(root, "no \"format\"", "\"format\": " + in_quotes(format));
  } else if (!reading_->word(at, known)) {
    return;
  } else {
    static constexpr std::array<std::string_view, 2> kUnits = {"mm", "in"};
    if (unit) reading_->word(unit, kUnits);
    root_ = root;
  }
}

}  // namespace halfhard
