#include "modeller/window/document/move_part.h"

#include <cmath>
#include <vector>

#include "modeller/job/json_patch.h"
#include "modeller/job/problem.h"

namespace halfhard {
namespace {

constexpr const char* kAxes[] = {"right", "back", "up"};

class Mover {
 public:
  Mover(const JsonTree& tree, const std::array<double, 3>& by) : tree_(tree), by_(by) {}

  void move_place(const JsonValue& place) {
    if (!place || place.kind() != JsonKind::list || place.size() != 3) return;
    int axis = 0;
    for (JsonValue figure = place.first(); figure; figure = figure.next(), ++axis) {
      if (by_[axis] == 0) continue;
      if (figure.kind() == JsonKind::number)
        changes_.push_back({figure.start(), figure.end(), number_text(rounded(figure.number() + by_[axis]))});
      else if (figure.kind() == JsonKind::group)
        refuse(std::string(kAxes[axis]) + " is taped from a plane: change the tape in its field");
      else
        refuse(std::string(kAxes[axis]) + " is " + in_quotes(figure.text()) +
               ", not a plain number: change it in its field");
    }
  }
  // A place that may be left out, and then is the job's origin.
  void move_place_of(const JsonValue& group) {
    if (!group || group.kind() != JsonKind::group) return;
    if (const JsonValue at = group.find("at")) return move_place(at);
    std::string json = "[";
    for (const double by : by_) json += (json.size() > 1 ? ", " : "") + number_text(rounded(by));
    const std::string changed = *with_member(tree_, group.pointer(), "at", json + "]");
    // Only what was added, at the end of the group.
    const std::size_t added = changed.size() - tree_.text().size();
    std::size_t from = group.start();
    while (changed[from] == tree_.text()[from]) ++from;
    changes_.push_back({from, from, changed.substr(from, added)});
  }
  MovedText result() {
    if (!why_not_.empty()) return {"", why_not_};
    return {with_spans(tree_, std::move(changes_)), ""};
  }

 private:
  static double rounded(double value) { return std::round(value * 1e6) / 1e6; }
  void refuse(const std::string& why) {
    if (why_not_.empty()) why_not_ = why;
  }
  const JsonTree& tree_;
  std::array<double, 3> by_;
  std::vector<ChangedSpan> changes_;
  std::string why_not_;
};

void move_fixture(Mover& mover, const JsonValue& fixture) {
  for (const char* body : {"box", "cylinder", "joist"}) {
    const JsonValue ends = fixture.find(body);
    if (!ends || ends.kind() != JsonKind::group) continue;
    mover.move_place(ends.find("from"));
    mover.move_place(ends.find("to"));
  }
  if (const JsonValue plane = fixture.find("plane")) mover.move_place_of(plane);
  if (const JsonValue solid = fixture.find("solid")) mover.move_place_of(solid);
  if (const JsonValue swing = fixture.find("swing")) mover.move_place_of(swing);
  const JsonValue turn = fixture.find("turn");
  if (turn && turn.kind() == JsonKind::list)
    for (JsonValue each = turn.first(); each; each = each.next()) mover.move_place_of(each);
  else
    mover.move_place_of(turn);
}

}  // namespace

bool can_be_moved(const JsonTree& tree, const std::string& pointer) {
  const JsonValue part = tree.at(pointer);
  if (!part || part.kind() != JsonKind::group || !part.parent() || !part.parent().parent()) return false;
  if (part.parent().parent().parent()) return false;
  return part.parent().key() == "connections" || part.parent().key() == "fixtures";
}

MovedText moved_part(const JsonTree& tree, const std::string& pointer, const std::array<double, 3>& by) {
  if (!can_be_moved(tree, pointer)) return {"", "only connections and fixtures can be moved so"};
  const JsonValue part = tree.at(pointer);
  Mover mover(tree, by);
  if (part.parent().key() == "connections")
    mover.move_place(part.find("at"));
  else
    move_fixture(mover, part);
  return mover.result();
}

}  // namespace halfhard
