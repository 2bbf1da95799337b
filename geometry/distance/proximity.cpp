#include "geometry/distance/proximity.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <queue>

namespace halfhard {
namespace {

constexpr int kLeaf = 4;

bool finite(const Bounds& box) { return box.low.allFinite() && box.high.allFinite(); }

}  // namespace

Proximity::Proximity(std::vector<Bounds> boxes) : boxes_(std::move(boxes)) {
  for (int i = 0; i < count(); ++i) {
    if (boxes_[i].empty()) continue;
    (finite(boxes_[i]) ? order_ : infinite_).push_back(i);
  }
  nodes_.reserve(order_.size());
  if (!order_.empty()) build(0, static_cast<int>(order_.size()));
}

int Proximity::build(int first, int count) {
  const int index = static_cast<int>(nodes_.size());
  nodes_.emplace_back();
  Bounds box, spread;
  for (int i = first; i < first + count; ++i) {
    const Bounds& item = boxes_[order_[i]];
    box.add(item);
    spread.add((item.low + item.high) / 2);
  }
  nodes_[index].box = box;
  if (count <= kLeaf) {
    nodes_[index].first = first;
    nodes_[index].count = count;
    return index;
  }
  int axis = 0;
  (spread.high - spread.low).maxCoeff(&axis);
  const auto middle = [&](int item) { return boxes_[item].low[axis] + boxes_[item].high[axis]; };
  const auto begin = order_.begin() + first;
  std::nth_element(begin, begin + count / 2, begin + count, [&](int a, int b) {
    const double at_a = middle(a), at_b = middle(b);
    return at_a != at_b ? at_a < at_b : a < b;
  });
  const int left = build(first, count / 2);
  const int right = build(first + count / 2, count - count / 2);
  nodes_[index].left = left;
  nodes_[index].right = right;
  return index;
}

void Proximity::each_near(const Bounds& box, double limit_mm, const std::function<void(int)>& call) const {
  const double squared = limit_mm * limit_mm;
  for (const int item : infinite_) {
    if (boxes_[item].squared_distance(box) <= squared) call(item);
  }
  if (nodes_.empty()) return;
  std::vector<int> stack{0};
  while (!stack.empty()) {
    const Node& node = nodes_[stack.back()];
    stack.pop_back();
    if (node.box.squared_distance(box) > squared) continue;
    if (node.left >= 0) {
      stack.push_back(node.right);
      stack.push_back(node.left);
      continue;
    }
    for (int i = node.first; i < node.first + node.count; ++i) {
      if (boxes_[order_[i]].squared_distance(box) <= squared) call(order_[i]);
    }
  }
}

void Proximity::each_by_distance(const Bounds& box, const std::function<bool(int, double)>& call) const {
  // A queue of nodes and items; equal distances go by item so that the order is always the same.
  struct Entry {
    double squared;
    int node, item;
    bool operator<(const Entry& other) const {
      if (squared != other.squared) return squared > other.squared;
      return item > other.item;
    }
  };
  std::priority_queue<Entry> queue;
  for (const int item : infinite_) queue.push({boxes_[item].squared_distance(box), -1, item});
  if (!nodes_.empty()) queue.push({nodes_[0].box.squared_distance(box), 0, -1});
  while (!queue.empty()) {
    const Entry top = queue.top();
    queue.pop();
    if (top.node < 0) {
      if (!call(top.item, std::sqrt(top.squared))) return;
      continue;
    }
    const Node& node = nodes_[top.node];
    if (node.left >= 0) {
      for (const int child : {node.left, node.right}) queue.push({nodes_[child].box.squared_distance(box), child, -1});
      continue;
    }
    for (int i = node.first; i < node.first + node.count; ++i) {
      queue.push({boxes_[order_[i]].squared_distance(box), -1, order_[i]});
    }
  }
}

void Proximity::pairs_between(int one, int other, double squared, std::vector<std::pair<int, int>>& out) const {
  const Node &a = nodes_[one], &b = nodes_[other];
  if (a.box.squared_distance(b.box) > squared) return;
  if (a.left < 0 && b.left < 0) {
    for (int i = a.first; i < a.first + a.count; ++i) {
      for (int j = b.first; j < b.first + b.count; ++j) {
        if (boxes_[order_[i]].squared_distance(boxes_[order_[j]]) <= squared) {
          out.emplace_back(std::minmax(order_[i], order_[j]));
        }
      }
    }
    return;
  }
  const bool open_a = b.left < 0 || (a.left >= 0 && (a.box.high - a.box.low).sum() >= (b.box.high - b.box.low).sum());
  if (open_a) {
    pairs_between(a.left, other, squared, out);
    pairs_between(a.right, other, squared, out);
  } else {
    pairs_between(one, b.left, squared, out);
    pairs_between(one, b.right, squared, out);
  }
}

void Proximity::pairs_within(int index, double squared, std::vector<std::pair<int, int>>& out) const {
  const Node& node = nodes_[index];
  if (node.left >= 0) {
    pairs_within(node.left, squared, out);
    pairs_within(node.right, squared, out);
    pairs_between(node.left, node.right, squared, out);
    return;
  }
  for (int i = node.first; i < node.first + node.count; ++i) {
    for (int j = i + 1; j < node.first + node.count; ++j) {
      if (boxes_[order_[i]].squared_distance(boxes_[order_[j]]) <= squared) {
        out.emplace_back(std::minmax(order_[i], order_[j]));
      }
    }
  }
}

std::vector<std::pair<int, int>> Proximity::pairs_near(double limit_mm) const {
  const double squared = limit_mm * limit_mm;
  std::vector<std::pair<int, int>> pairs;
  if (!nodes_.empty()) pairs_within(0, squared, pairs);
  for (std::size_t k = 0; k < infinite_.size(); ++k) {
    for (int item = 0; item < count(); ++item) {
      const bool later = !finite(boxes_[item]) && item <= infinite_[k];
      if (boxes_[item].empty() || later) continue;
      if (boxes_[infinite_[k]].squared_distance(boxes_[item]) <= squared) {
        pairs.emplace_back(std::minmax(infinite_[k], item));
      }
    }
  }
  std::sort(pairs.begin(), pairs.end());
  return pairs;
}

namespace {

Proximity tree_of(std::span<const TubeBody> tubes) {
  std::vector<Bounds> boxes;
  boxes.reserve(tubes.size());
  for (const TubeBody& tube : tubes) boxes.push_back(tube.bounds());
  return Proximity(std::move(boxes));
}

}  // namespace

std::vector<NearPair> pairs_nearer_than(double limit_mm, std::span<const TubeBody> tubes) {
  std::vector<NearPair> result;
  for (const auto& [first, second] : tree_of(tubes).pairs_near(std::max(0.0, limit_mm))) {
    if (auto found = distance_nearer_than(limit_mm, tubes[first], tubes[second])) {
      result.push_back({first, second, *found});
    }
  }
  return result;
}

std::vector<NearPair> nearest_others(std::span<const TubeBody> tubes) {
  const Proximity tree = tree_of(tubes);
  std::vector<NearPair> result;
  for (int i = 0; i < static_cast<int>(tubes.size()); ++i) {
    NearPair nearest{i, -1, {}};
    nearest.separation.distance_mm = kAnyDistance;
    tree.each_by_distance(tubes[i].bounds(), [&](int other, double bound) {
      if (bound > 0 && bound >= nearest.separation.distance_mm) return false;
      if (other == i) return true;
      const auto found = distance_nearer_than(nearest.separation.distance_mm, tubes[i], tubes[other]);
      if (found && found->distance_mm < nearest.separation.distance_mm) nearest = {i, other, *found};
      return true;
    });
    result.push_back(nearest);
  }
  return result;
}

}  // namespace halfhard
