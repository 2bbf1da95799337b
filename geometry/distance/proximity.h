// What is near what, without looking at every pair. Site frame, mm.
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "geometry/base/bounds.h"
#include "geometry/distance/distance.h"

namespace halfhard {

// A tree of boxes. Items are known by their place in the list given; boxes may be infinite (walls); empty boxes are
// near nothing.
class Proximity {
 public:
  explicit Proximity(std::vector<Bounds> boxes);

  int count() const { return static_cast<int>(boxes_.size()); }
  // Every item whose box is `limit_mm` or less from the box, in no particular order.
  void each_near(const Bounds& box, double limit_mm, const std::function<void(int)>& call) const;
  // Items by the distance of their boxes, nearest first, until `call` says no more (false). The second argument is that
  // distance, never more than the distance of what is in the boxes.
  void each_by_distance(const Bounds& box, const std::function<bool(int, double)>& call) const;
  // Pairs of items whose boxes are `limit_mm` or less from each other, first < second, in order.
  std::vector<std::pair<int, int>> pairs_near(double limit_mm) const;

 private:
  struct Node {
    Bounds box;
    int first = 0, count = 0;
    int left = -1, right = -1;
  };
  int build(int first, int count);
  void pairs_within(int node, double squared, std::vector<std::pair<int, int>>& out) const;
  void pairs_between(int one, int other, double squared, std::vector<std::pair<int, int>>& out) const;

  std::vector<Bounds> boxes_;
  std::vector<int> order_;     // finite items, as the leaves hold them
  std::vector<int> infinite_;  // items that no tree can sort
  std::vector<Node> nodes_;
};

struct NearPair {
  int first = 0, second = 0;
  Separation separation;
};

// All pairs of tubes nearer than the limit, first < second, in order. The tree is built here.
std::vector<NearPair> pairs_nearer_than(double limit_mm, std::span<const TubeBody> tubes);
// For each tube its nearest other; `second` is -1 where there is no other.
std::vector<NearPair> nearest_others(std::span<const TubeBody> tubes);

}  // namespace halfhard
