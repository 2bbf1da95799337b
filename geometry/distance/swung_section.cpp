#include "geometry/distance/swung_section.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace halfhard {
namespace {

constexpr double kFullTurn = 2 * std::numbers::pi;
constexpr double kAside_mm = 1e-6;     // how far beside an edge it is asked whether the place is swept
constexpr double kShortest_mm = 1e-5;  // shorter stretches lie within their neighbours' ends

double angle_of(const Vec2& v) { return std::atan2(v.y(), v.x()); }
double cross(const Vec2& a, const Vec2& b) { return a.x() * b.y() - a.y() * b.x(); }

// In [0, 2 pi).
double turned(double angle) {
  const double rest = std::fmod(angle, kFullTurn);
  return rest < 0 ? rest + kFullTurn : rest;
}

Vec2 rotated(const Vec2& v, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * v.x() - s * v.y(), s * v.x() + c * v.y()};
}

}  // namespace

SwungSection::Edge SwungSection::segment(const Vec2& from, const Vec2& to) {
  Edge edge;
  edge.from = from;
  edge.to = to;
  return edge;
}

SwungSection::Edge SwungSection::arc(const Vec2& centre, double radius, double start, double sweep) {
  Edge edge;
  edge.straight = false;
  edge.centre = centre;
  edge.radius = radius;
  edge.start = sweep < 0 ? start + sweep : start;
  edge.sweep = std::abs(sweep);
  edge.from = edge.at(0);
  edge.to = edge.at(1);
  return edge;
}

Vec2 SwungSection::Edge::at(double share) const {
  if (straight) return from + share * (to - from);
  const double angle = start + share * sweep;
  return centre + radius * Vec2(std::cos(angle), std::sin(angle));
}

Vec2 SwungSection::Edge::normal(double share) const {
  if (!straight) return (at(share) - centre) / radius;
  const Vec2 along = (to - from).normalized();
  return {along.y(), -along.x()};
}

SwungSection::Edge SwungSection::Edge::part(double a, double b) const {
  if (straight) return segment(at(a), at(b));
  return arc(centre, radius, start + a * sweep, (b - a) * sweep);
}

double SwungSection::Edge::length() const { return straight ? (to - from).norm() : radius * sweep; }

Vec2 SwungSection::Edge::nearest(const Vec2& point) const {
  if (straight) {
    const Vec2 along = to - from;
    const double squared = along.squaredNorm();
    return squared > 0 ? Vec2(from + std::clamp((point - from).dot(along) / squared, 0.0, 1.0) * along) : from;
  }
  const Vec2 out = point - centre;
  const double off = out.norm();
  if (off > 0 && turned(angle_of(out) - start) <= sweep) return centre + radius / off * out;
  return (point - from).squaredNorm() <= (point - to).squaredNorm() ? from : to;
}

double SwungSection::Edge::share_of(const Vec2& point) const {
  if (straight) return (point - from).dot(to - from) / (to - from).squaredNorm();
  return turned(angle_of(point - centre) - start) / sweep;
}

void SwungSection::Edge::crossings(const Edge& other, std::vector<double>& shares) const {
  const auto add = [&](const Vec2& point) {
    const double share = share_of(point);
    if (share > 0 && share < 1) shares.push_back(share);
  };
  const auto line_and_circle = [&](const Edge& line, const Edge& circle) {
    const Vec2 along = (line.to - line.from).normalized();
    const double middle = (circle.centre - line.from).dot(along);
    const Vec2 foot = line.from + middle * along;
    const double half = circle.radius * circle.radius - (foot - circle.centre).squaredNorm();
    if (half < 0) return;
    add(foot + std::sqrt(half) * along);
    add(foot - std::sqrt(half) * along);
  };
  if (straight && other.straight) {
    const Vec2 a = to - from, b = other.to - other.from;
    const double size = cross(a, b);
    if (std::abs(size) > 1e-12 * a.norm() * b.norm()) add(from + cross(other.from - from, b) / size * a);
  } else if (straight || other.straight) {
    line_and_circle(straight ? *this : other, straight ? other : *this);
  } else {
    const Vec2 between = other.centre - centre;
    const double gap = between.norm();
    if (gap <= 1e-9) return;
    const double along = (gap * gap + radius * radius - other.radius * other.radius) / (2 * gap);
    const double half = std::sqrt(std::max(0.0, radius * radius - along * along));
    const Vec2 unit = between / gap, foot = centre + along * unit;
    add(foot + half * Vec2(-unit.y(), unit.x()));
    add(foot - half * Vec2(-unit.y(), unit.x()));
  }
  // Other edges also end on this one.
  for (const Vec2& end : {other.from, other.to}) add(end);
}

SwungSection SwungSection::of_rectangle(const std::array<Vec2, 4>& corners, double radians) {
  SwungSection section;
  section.corners_.assign(corners.begin(), corners.end());
  section.radians_ = radians;
  std::vector<Edge> edges;
  for (int i = 0; i < 4; ++i) {
    const Vec2 &a = corners[i], &b = corners[(i + 1) % 4];
    edges.push_back(segment(a, b));
    edges.push_back(segment(rotated(a, radians), rotated(b, radians)));
    if (a.norm() > 0) edges.push_back(arc(Vec2::Zero(), a.norm(), angle_of(a), radians));
    const Vec2 foot = edges[edges.size() - (a.norm() > 0 ? 3 : 2)].nearest(Vec2::Zero());
    if (foot.norm() > 1e-9) edges.push_back(arc(Vec2::Zero(), foot.norm(), angle_of(foot), radians));
  }
  section.keep_outline(edges);
  return section;
}

SwungSection SwungSection::of_disc(const Vec2& centre, double radius, double radians) {
  SwungSection section;
  section.disc_ = centre;
  section.disc_radius_ = radius;
  section.radians_ = radians;
  const double reach = centre.norm(), angle = angle_of(centre);
  std::vector<Edge> edges{arc(centre, radius, 0, kFullTurn), arc(rotated(centre, radians), radius, 0, kFullTurn)};
  edges.push_back(arc(Vec2::Zero(), reach + radius, angle, radians));
  if (reach - radius > 1e-9) edges.push_back(arc(Vec2::Zero(), reach - radius, angle, radians));
  section.keep_outline(edges);
  return section;
}

void SwungSection::keep_outline(const std::vector<Edge>& edges) {
  for (std::size_t i = 0; i < edges.size(); ++i) {
    const Edge& edge = edges[i];
    if (!(edge.length() > kShortest_mm)) continue;
    std::vector<double> shares{0, 1};
    for (std::size_t j = 0; j < edges.size(); ++j) {
      if (j != i && edges[j].length() > kShortest_mm) edge.crossings(edges[j], shares);
    }
    std::sort(shares.begin(), shares.end());
    for (std::size_t k = 0; k + 1 < shares.size(); ++k) {
      if ((shares[k + 1] - shares[k]) * edge.length() <= kShortest_mm) continue;
      const double middle = (shares[k] + shares[k + 1]) / 2;
      const Vec2 at = edge.at(middle), aside = kAside_mm * edge.normal(middle);
      if (covers(at + aside) != covers(at - aside)) outline_.push_back(edge.part(shares[k], shares[k + 1]));
    }
  }
}

// Where a point stands in the frame of the section at rest, over all positions.
SwungSection::Edge SwungSection::path_of(const Vec2& point) const {
  return arc(Vec2::Zero(), point.norm(), angle_of(point), -radians_);
}

bool SwungSection::covers(const Vec2& point) const {
  if (corners_.empty()) {
    return (arc(Vec2::Zero(), disc_.norm(), angle_of(disc_), radians_).nearest(point) - point).norm() <= disc_radius_;
  }
  const double turn = cross(corners_[1] - corners_[0], corners_[2] - corners_[1]) < 0 ? -1 : 1;
  const auto inside = [&](const Vec2& at) {
    for (int i = 0; i < 4; ++i) {
      if (turn * cross(corners_[(i + 1) % 4] - corners_[i], at - corners_[i]) < 0) return false;
    }
    return true;
  };
  const Edge path = path_of(point);
  if (inside(point) || inside(rotated(point, -radians_))) return true;
  std::vector<double> shares;
  for (int i = 0; i < 4; ++i) {
    const Edge edge = segment(corners_[i], corners_[(i + 1) % 4]);
    shares.clear();
    edge.crossings(path, shares);
    for (const double share : shares) {
      const Vec2 at = edge.at(share);
      if (std::abs(at.norm() - path.radius) < 1e-9 && turned(angle_of(at) - path.start) <= path.sweep) return true;
    }
  }
  return false;
}

SwungSection::Foot2 SwungSection::foot(const Vec2& point) const {
  double least = std::numeric_limits<double>::infinity();
  Vec2 best = point;
  for (const Edge& edge : outline_) {
    const Vec2 at = edge.nearest(point);
    const double squared = (at - point).squaredNorm();
    if (squared < least) {
      least = squared;
      best = at;
    }
  }
  const double distance = std::sqrt(least);
  return {covers(point) ? -distance : distance, best};
}

}  // namespace halfhard
