#include "geometry/views/settle.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace halfhard::views {
namespace {

// On its own wall the sight line only grazes, so the question is asked this far off it.
constexpr double kLift_mm = 1e-4;
// Another body's outline right behind this one's counts as hidden: two pipes in line are drawn once.
constexpr double kGrown_mm = 2e-4;
// A body that ends flush with this one is not before it.
constexpr double kRaised_mm = 0.01;
constexpr double kFinest_mm = 0.25;  // half of the shortest stretch looked for
constexpr double kTurn_mm = 2e-4;    // a turn is found within this

using Pointers = std::vector<const Cover*>;

Hiding ask(const Outline& outline, const Cover& cover, const Vec3& point, const Vec3& lifted) {
  // Its own piece and the two next to it continue its own wall.
  const bool own_wall = cover.owner == outline.owner && std::abs(cover.piece - outline.piece) <= 1;
  const Vec3 from = own_wall ? lifted : Vec3(point + kRaised_mm * Vec3::UnitZ());
  const double grown = own_wall ? 0.0 : kGrown_mm;
  if (const auto* straight = std::get_if<StraightCover>(&cover.body)) return straight->hiding(from, grown);
  if (const auto* arc = std::get_if<ArcCover>(&cover.body)) return arc->hiding(from, grown);
  if (const auto* shadow = std::get_if<ShadowCover>(&cover.body)) return shadow->hiding(point);
  return std::get<std::shared_ptr<const MeshCover>>(cover.body)->hiding(point, outline.corners);
}

struct Leaf {
  double from, to;
  bool hidden;
};

class Search {
 public:
  Search(const Outline& outline, Pointers covers) : outline_(outline), covers_(std::move(covers)) {}

  std::vector<Stretch> run() {
    const std::vector<double> nodes = nodes_of(outline_);
    for (size_t i = 1; i < nodes.size(); ++i) look(nodes[i - 1], nodes[i], covers_, 0);
    std::vector<Stretch> stretches;
    for (size_t i = 0; i < leaves_.size(); ++i) {
      const bool visible = !leaves_[i].hidden;
      if (stretches.empty()) {
        stretches.push_back({leaves_[i].from, leaves_[i].to, visible});
      } else if (stretches.back().visible == visible) {
        stretches.back().to = leaves_[i].to;
      } else {
        const double turn = turn_between(leaves_[i - 1], leaves_[i]);
        stretches.back().to = turn;
        stretches.push_back({turn, leaves_[i].to, visible});
      }
    }
    return stretches;
  }

 private:
  void look(double from, double to, const Pointers& open, int depth) {
    const double middle = (from + to) / 2;
    const Vec3 point = outline_.point(middle), lifted = point + kLift_mm * outline_.lift_at(middle);
    const double reach = 1.1 * std::max((outline_.point(from) - point).norm(), (outline_.point(to) - point).norm());
    Pointers still_open;
    bool hidden = false;
    for (const Cover* cover : open) {
      const Hiding hiding = ask(outline_, *cover, point, lifted);
      if (hiding.settled_mm > reach) {
        if (hiding.hidden) {
          leaves_.push_back({from, to, true});
          return;
        }
        continue;
      }
      hidden = hidden || hiding.hidden;
      still_open.push_back(cover);
    }
    if (still_open.empty() || reach < kFinest_mm || depth > 40) {
      leaves_.push_back({from, to, hidden});
      return;
    }
    look(from, middle, still_open, depth + 1);
    look(middle, to, still_open, depth + 1);
  }

  bool hidden_at(double t) const {
    const Vec3 point = outline_.point(t), lifted = point + kLift_mm * outline_.lift_at(t);
    return std::any_of(covers_.begin(), covers_.end(),
                       [&](const Cover* cover) { return ask(outline_, *cover, point, lifted).hidden; });
  }

  double turn_between(const Leaf& a, const Leaf& b) const {
    double low = (a.from + a.to) / 2, high = (b.from + b.to) / 2;
    // A leaf settled as a whole is so up to its end, which saves most of the halving.
    if (hidden_at(a.to) == a.hidden)
      low = a.to;
    else
      high = a.to;
    for (int i = 0; i < 60 && (outline_.point(high) - outline_.point(low)).norm() > kTurn_mm; ++i) {
      const double middle = (low + high) / 2;
      (hidden_at(middle) == a.hidden ? low : high) = middle;
    }
    return (low + high) / 2;
  }

  const Outline& outline_;
  Pointers covers_;
  std::vector<Leaf> leaves_;
};

}  // namespace

std::vector<Stretch> settle(const Outline& outline, const std::vector<Cover>& covers) {
  if (outline.surely_hidden) return {{outline.from, outline.to, false}};
  Vec3 low = outline.point(outline.from), high = low;
  double bow = 1e-3;
  const std::vector<double> nodes = nodes_of(outline);
  for (const double t : nodes) {
    const Vec3 p = outline.point(t);
    low = low.cwiseMin(p);
    high = high.cwiseMax(p);
  }
  // Between its nodes an arc bows by less than this.
  if (const auto* arc = std::get_if<Arc3>(&outline.curve))
    bow += 0.01 * arc->a.norm();
  else if (std::holds_alternative<Flank>(outline.curve))
    bow += 0.1;
  Pointers candidates;
  for (const Cover& cover : covers) {
    if (cover.owner == outline.owner &&
        (outline.skip_own_body || (outline.skip_own_piece && cover.piece == outline.piece)))
      continue;
    if (cover.top < low.z() - bow || cover.high.x() < low.x() - bow || cover.low.x() > high.x() + bow ||
        cover.high.y() < low.y() - bow || cover.low.y() > high.y() + bow)
      continue;
    candidates.push_back(&cover);
  }
  if (candidates.empty()) return {{outline.from, outline.to, true}};
  return Search(outline, std::move(candidates)).run();
}

}  // namespace halfhard::views
