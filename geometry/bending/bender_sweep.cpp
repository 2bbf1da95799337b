#include "geometry/bending/bender_sweep.h"

#include <algorithm>
#include <cmath>

#include "geometry/bending/forming.h"
#include "geometry/distance/distance.h"

namespace halfhard {
namespace {

constexpr double kLookAhead_rad = 0.25;  // a step of the pull is no longer than this
constexpr double kLongest_mm = 12000;    // of tube on one side of the hook: nobody swings a longer one whole
constexpr int kBoxes = 32;               // at which what rolls is boxed in
constexpr int kHalvings = 10;            // of the pull, to find the moment of a swung or slid touch

// A stretch of the piece, from..until along its line as it lies before the pull.
struct Stretch {
  double from = 0, until = 0;
  bool none() const { return until - from < 1e-6; }
};

class Sweep {
 public:
  Sweep(const Run& run, int made, bool turned_over)
      : run_(run), made_(made), piece_(before_bend(run, made)), parts_(bender_parts(run, turned_over)) {
    const Bend& bend = *run.bends_as_made()[static_cast<std::size_t>(made - 1)];
    full_rad_ = bend.set_angle.radians();
    datum_behind_ = bend.hook == End::datum;
    radius_ = run.line.radius_mm();
    cut_up();
  }

  std::optional<BenderContact> first() {
    against_itself();
    against_parts();
    return best_;
  }
  bool any() {
    any_will_do_ = true;
    return first().has_value();
  }

 private:
  // Behind the hook: `groove` next to it and what is formed beyond; the same on the lever's side.
  void cut_up() {
    const double hook = piece_.hook_at_mm, whole = piece_.line.length_mm();
    double left = 0, right = whole;
    for (const Piece& piece : piece_.line.pieces()) {
      if (!std::holds_alternative<Arc>(piece.shape)) continue;
      const double from = piece.starts_at_mm, until = from + piece.length_mm;
      if (until <= hook + 1e-6) left = std::max(left, until);
      if (from >= hook - 1e-6) right = std::min(right, from);
    }
    left = std::max(left, hook - kLongest_mm);
    right = std::min(right, hook + kLongest_mm);
    const double wound = radius_ * full_rad_, first = std::max(0.0, hook - kLongest_mm);
    const double last = std::min(whole, hook + kLongest_mm);
    if (datum_behind_) {
      behind_ = {first, left};
      in_hook_ = {left, hook};
      in_lever_ = {std::min(hook + wound, right), right};
      beyond_ = {right, last};
    } else {
      behind_ = {right, last};
      in_hook_ = {hook, right};
      in_lever_ = {left, std::max(hook - wound, left)};
      beyond_ = {first, left};
    }
  }

  TubeBody tube(const Stretch& stretch) const {
    return TubeBody(piece_.line, run_.tube->outside_radius_mm(), stretch.from, stretch.until);
  }

  bool earlier(double pulled_rad) const { return !best_ || (!any_will_do_ && pulled_rad < best_->pulled.radians()); }

  void found(double pulled_rad, const Separation& touch, const Stretch& of, bool hook_side) {
    if (!earlier(pulled_rad)) return;
    BenderContact contact;
    contact.made = made_;
    contact.pulled = Angle::radians(pulled_rad);
    contact.hook_side = hook_side;
    contact.along_mm = std::clamp(of.from + touch.along_first_mm, of.from, of.until);
    contact.at = piece_.line.point_at(contact.along_mm);
    best_ = contact;
    fresh_ = true;
  }

  void name_part(const PlacedPart& part) {
    if (!fresh_) return;
    best_->part = part.part;
    best_->by_default = part.by_default;
    fresh_ = false;
  }

  void against_parts() {
    for (const PlacedPart& part : parts_) {
      const bool bender = part.part <= BenderPart::lever;
      std::vector<Stretch> still = {behind_}, moving = {beyond_};
      if (!bender) {
        still.push_back(in_hook_);
        moving.push_back(in_lever_);
      }
      for (const Stretch& stretch : still) {
        if (stretch.none()) continue;
        part.swings ? swung(part, stretch) : resting(part, stretch, true);
        name_part(part);
      }
      for (const Stretch& stretch : moving) {
        if (stretch.none()) continue;
        if (part.swings) {
          slid(part, stretch);
        } else if (can_reach(stretch, part.body)) {
          rolled(Obstacle(part.body), stretch);
        }
        name_part(part);
      }
    }
  }

  // Every position of what rolls lies in here: boxes at single pulls, grown by how far it gets half-way to the next.
  Bounds swept_bounds(const Stretch& moving) const {
    const TubeBody body = tube(moving);
    Bounds swept;
    for (int i = 0; i <= kBoxes; ++i) swept.add(body.carried(rolled_by(full_rad_ * i / kBoxes)).bounds());
    const double further = reach_mm(moving) * full_rad_ / kBoxes / 2;
    const Vec3 in_plane(further, further, 0);  // nothing leaves its own level
    return {swept.low - in_plane, swept.high + in_plane};
  }

  // Whether a body at rest comes into the box of what rolls at all: a level tube never leaves its level.
  bool can_reach(const Stretch& moving, const Body& body) const {
    const Bounds box = swept_bounds(moving);
    if (const auto* behind = std::get_if<HalfSpace>(&body.shape)) {
      const Vec3 middle = (box.low + box.high) / 2, half = (box.high - box.low) / 2;
      return (middle - behind->at).dot(behind->facing) <= half.dot(behind->facing.cwiseAbs());
    }
    return box.squared_distance(Obstacle(body).bounds()) <= 0;
  }

  // What of a stretch could be met by what sweeps through the box.
  Stretch within(const Stretch& stretch, const Bounds& box) const {
    Stretch part{stretch.until, stretch.from};
    for (const Piece& piece : piece_.line.pieces()) {
      const Stretch each{std::max(stretch.from, piece.starts_at_mm),
                         std::min(stretch.until, piece.starts_at_mm + piece.length_mm)};
      if (each.none() || tube(each).bounds().squared_distance(box) > 0) continue;
      part = {std::min(part.from, each.from), std::max(part.until, each.until)};
    }
    return part;
  }

  void against_itself() {
    const auto pair = [&](const Stretch& whole, const Stretch& moving) {
      if (whole.none() || moving.none()) return;
      const Stretch still = within(whole, swept_bounds(moving));
      if (still.none()) return;
      rolled(tube(still), moving);
      if (fresh_) best_->itself = true;
      fresh_ = false;
    };
    pair(behind_, in_lever_);
    pair(in_hook_, beyond_);
    pair(behind_, beyond_);
  }

  void resting(const PlacedPart& part, const Stretch& stretch, bool hook_side) {
    if (!earlier(0)) return;
    const auto touch = distance_nearer_than(0, tube(stretch), Obstacle(part.body));
    if (touch && touch->distance_mm < -kGraze_mm) found(0, *touch, stretch, hook_side);
  }

  // The share of a motion at which it first touches, by halving; the motion is all of its positions up to there.
  template <typename BodyUpTo>
  void moved(const BodyUpTo& body_up_to, const PlacedPart& part, const Stretch& stretch, bool hook_side) {
    const TubeBody body = tube(stretch);
    const auto touches = [&](double pulled_rad) -> std::optional<Separation> {
      auto touch = distance_nearer_than(0, body, Obstacle(body_up_to(pulled_rad)));
      if (touch && touch->distance_mm >= -kGraze_mm) touch.reset();
      return touch;
    };
    if (!earlier(0)) return;
    resting(part, stretch, hook_side);
    if (!earlier(0)) return;
    auto touch = touches(full_rad_);
    if (touch && any_will_do_) return found(full_rad_, *touch, stretch, hook_side);
    if (!touch) return;
    double clear = 0, meets = full_rad_;
    for (int i = 0; i < kHalvings; ++i) {
      const double middle = (clear + meets) / 2;
      if (auto there = touches(middle)) {
        meets = middle;
        touch = there;
      } else {
        clear = middle;
      }
    }
    found(meets, *touch, stretch, hook_side);
  }

  // Guide and lever against what stays still.
  void swung(const PlacedPart& part, const Stretch& stretch) {
    const auto up_to = [&](double pulled_rad) {
      return Body{part.body.shape, Swing{Vec3(0, radius_, 0), Vec3::UnitZ(), Angle::radians(pulled_rad)}};
    };
    moved(up_to, part, stretch, true);
  }

  // Seen from the lever, the tube beyond it slides back along itself by what is wound on: the lever slides forward.
  void slid(const PlacedPart& part, const Stretch& stretch) {
    const auto up_to = [&](double pulled_rad) {
      return Body{part.body.shape, Slide{Vec3(radius_ * pulled_rad, 0, 0)}};
    };
    moved(up_to, part, stretch, false);
  }

  // Where the lever side stands when so much is pulled: rolled about the former's axis.
  Eigen::Isometry3d rolled_by(double pulled_rad) const {
    const Vec3 axis(0, radius_, 0);
    return Eigen::Translation3d(axis) * Eigen::AngleAxisd(pulled_rad, Vec3::UnitZ()) *
           Eigen::Translation3d(Vec3(-radius_ * pulled_rad, 0, 0) - axis);
  }

  // No point of it moves faster, per radian: it turns about where the tube leaves the former.
  double reach_mm(const Stretch& stretch) const {
    double most = 0;
    const auto count = [&](const Vec3& at) {
      most = std::max({most, std::hypot(at.x(), at.y()), std::hypot(at.x() - radius_ * full_rad_, at.y())});
    };
    count(piece_.line.point_at(stretch.from));
    count(piece_.line.point_at(stretch.until));
    const std::vector<Vec3>& points = piece_.line.points();
    double along = 0;  // to each corner along the polyline; a stretch's corners lie within it and a setback either side
    for (std::size_t i = 1; i + 1 < points.size(); ++i) {
      along += (points[i] - points[i - 1]).norm();
      const bool lever_side = datum_behind_ ? along > stretch.from : true;
      if (lever_side) count(points[i]);
    }
    return most + run_.tube->outside_radius_mm();
  }

  template <typename Other>
  void rolled(const Other& other, const Stretch& stretch) {
    const TubeBody body = tube(stretch);
    const double speed = reach_mm(stretch), ahead_mm = speed * kLookAhead_rad;
    for (double pulled = 0;;) {
      if (!earlier(pulled)) return;
      const auto near = distance_nearer_than(ahead_mm, body.carried(rolled_by(pulled)), other);
      if (near && near->distance_mm < -1e-6) return found(pulled, *near, stretch, false);
      if (pulled >= full_rad_) return;
      const double step_mm = near ? std::max(near->distance_mm, kGraze_mm) : ahead_mm;
      pulled = std::min(full_rad_, pulled + step_mm / speed);
    }
  }

  const Run& run_;
  int made_;
  FormedPiece piece_;
  std::vector<PlacedPart> parts_;
  double full_rad_ = 0, radius_ = 0;
  bool datum_behind_ = true;
  Stretch behind_, in_hook_, in_lever_, beyond_;
  std::optional<BenderContact> best_;
  bool any_will_do_ = false;
  bool fresh_ = false;  // the best was found just now and has not been named yet
};

}  // namespace

std::optional<BenderContact> first_contact(const Run& run, int made, bool turned_over) {
  return Sweep(run, made, turned_over).first();
}

bool touches_anything(const Run& run, int made, bool turned_over) { return Sweep(run, made, turned_over).any(); }

std::optional<BenderContact> first_contact(const Run& run) {
  for (int made = 1; made <= static_cast<int>(run.bends.size()); ++made)
    if (auto contact = first_contact(run, made)) return contact;
  return std::nullopt;
}

}  // namespace halfhard
