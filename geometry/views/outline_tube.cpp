// Silhouettes and ends of a tube. The wall touches the sight line where its normal is square to it: at
// c(s) +- r (t x v)/|t x v|. Where the wall bends away from the viewer too slowly along the sight line, the silhouette
// is the inside of a fold and its own wall hides it; it ends in a cusp where that curvature is 0 (J. J. Koenderink,
// "What does the occluding contour tell us about solid shape?", 1984; from memory). On a torus of centre-line radius R
// the sign of that curvature is that of r cos(phi) + R (1 - (t.v)^2), phi from the outside of the bend (own
// derivation from the principal curvatures 1/r and cos(phi)/(R + r cos(phi))).
#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/views/outline.h"

namespace halfhard::views {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kEdgeOn = 1e-7;       // a bend's plane is seen edge-on, or a leg end-on
constexpr double kSquareOn = 1e-13;    // 1 - |cos| of a plane seen square-on
constexpr double kSample = kPi / 30;   // along bends
constexpr double kMostTurn = kPi / 9;  // of a flank's normal between nodes

// Adds the parameters between `low` and `high` at which the flank must be cut, `high` included.
void cut_flank(const Flank& flank, double low, double high, double chord_error, int depth, std::vector<double>& nodes) {
  const auto point = [&](double u) -> Vec3 { return flank.arc.point(u) + flank.radius * flank.normal(u); };
  const double middle = (low + high) / 2;
  const Vec3 from = point(low), to = point(high);
  // A third as well as the middle: an S between the two ends would pass through the middle of the chord.
  const Vec3 third = point(low + (high - low) / 3);
  const bool turns = flank.normal(low).dot(flank.normal(high)) < std::cos(kMostTurn);
  const bool bows =
      (point(middle) - (from + to) / 2).norm() > chord_error || (third - (from + (to - from) / 3)).norm() > chord_error;
  if (depth < 40 && (turns || bows)) {
    cut_flank(flank, low, middle, chord_error, depth + 1, nodes);
    cut_flank(flank, middle, high, chord_error, depth + 1, nodes);
  } else {
    nodes.push_back(high);
  }
}

// Above 0 where the silhouette is the wall's own edge, below 0 in a fold.
double openness(const Flank& flank, double u) {
  const double cos_phi = flank.normal(u).dot((flank.arc.point(u) - flank.arc.centre) / flank.arc.radius);
  const double towards = flank.arc.direction(u).z();
  return flank.radius * cos_phi + flank.arc.radius * (1 - towards * towards);
}

double cusp_between(const Flank& flank, double low, double high) {
  const bool open_at_low = openness(flank, low) > 0;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    ((openness(flank, middle) > 0) == open_at_low ? low : high) = middle;
  }
  return (low + high) / 2;
}

// The general bend: nodes first, then cut at the cusps.
void add_flank(std::vector<Outline>& outlines, const Flank& flank, int piece, double chord_error) {
  const double sweep = flank.arc.sweep.radians();
  // Where the travel comes nearest to the sight line the normal turns fastest: a node there lets no flip be missed.
  const double steepest = std::atan2(-flank.arc.outwards.z(), flank.arc.along.z());
  std::vector<double> starts = {0, sweep};
  const int steps = std::max(1, static_cast<int>(std::ceil(sweep / kSample)));
  for (int i = 1; i < steps; ++i) starts.push_back(sweep * i / steps);
  for (int k = -2; k <= 2; ++k)
    if (const double u = steepest + k * kPi; u > 0 && u < sweep) starts.push_back(u);
  std::sort(starts.begin(), starts.end());
  std::vector<double> nodes = {0};
  for (size_t i = 1; i < starts.size(); ++i) {
    if (starts[i] - starts[i - 1] < 1e-14) continue;
    cut_flank(flank, starts[i - 1], starts[i], chord_error, 0, nodes);
  }
  std::vector<double> stretch = {nodes.front()};
  const auto finish = [&](bool open) {
    Outline outline;
    outline.kind = open ? CurveKind::outline : CurveKind::fold;
    outline.surely_hidden = !open;
    outline.curve = flank;
    outline.from = stretch.front();
    outline.to = stretch.back();
    outline.piece = piece;
    const double middle = (outline.from + outline.to) / 2;
    // The outer half of a torus is on its convex hull: nothing of the same bend stands before it.
    outline.skip_own_piece = flank.normal(middle).dot(flank.arc.point(middle) - flank.arc.centre) > 0 &&
                             flank.normal(outline.from).dot(flank.arc.point(outline.from) - flank.arc.centre) > 0 &&
                             flank.normal(outline.to).dot(flank.arc.point(outline.to) - flank.arc.centre) > 0;
    outline.nodes = stretch;
    if (outline.to > outline.from) outlines.push_back(std::move(outline));
  };
  bool open = openness(flank, nodes.front()) > 0;
  for (size_t i = 1; i < nodes.size(); ++i) {
    if ((openness(flank, nodes[i]) > 0) != open) {
      const double cusp = cusp_between(flank, nodes[i - 1], nodes[i]);
      stretch.push_back(cusp);
      finish(open);
      stretch = {cusp};
      open = !open;
    }
    stretch.push_back(nodes[i]);
  }
  finish(open);
}

void add_square_on(std::vector<Outline>& outlines, const Arc& arc, double radius, int piece) {
  for (const int side : {1, -1}) {
    Outline outline;
    const double r = arc.radius + side * radius;
    outline.curve = Arc3{arc.centre, r * arc.outwards, r * arc.along};
    outline.from = 0;
    outline.to = arc.sweep.radians();
    outline.piece = piece;
    outline.skip_own_piece = true;
    outline.lift_a = side * arc.outwards;
    outline.lift_b = side * arc.along;
    outlines.push_back(outline);
  }
}

// Where a bend seen edge-on runs straight at or from the viewer, the outer half of the tube's circle there is outline.
void add_end_on_circle(std::vector<Outline>& outlines, const Arc& arc, double u, double radius, int piece) {
  const Vec3 out = (arc.point(u) - arc.centre) / arc.radius, axis = arc.axis();
  Outline outline;
  outline.curve = Arc3{arc.point(u), radius * out, radius * axis};
  outline.from = -kPi / 2;
  outline.to = kPi / 2;
  outline.piece = piece;
  outline.skip_own_piece = true;
  outline.lift_a = out;
  outline.lift_b = axis;
  outlines.push_back(outline);
}

void add_edge_on(std::vector<Outline>& outlines, const Arc& arc, double radius, int piece) {
  const double sweep = arc.sweep.radians();
  for (const int side : {1, -1}) {
    Outline outline;
    outline.curve = Arc3{arc.centre + side * radius * arc.axis(), arc.radius * arc.outwards, arc.radius * arc.along};
    outline.from = 0;
    outline.to = sweep;
    outline.piece = piece;
    outline.lift = side * arc.axis();
    outlines.push_back(outline);
  }
  const double steepest = std::atan2(-arc.outwards.z(), arc.along.z());
  for (int k = -2; k <= 2; ++k) {
    const double u = steepest + k * kPi;
    if (u < -1e-7 || u > sweep + 1e-7) continue;
    const double climb = arc.direction(u).z();
    // At a joint the neighbour's circle, or the rim, does for the bend that lies behind it.
    if ((u < 1e-7 && climb < 0) || (u > sweep - 1e-7 && climb > 0)) continue;
    add_end_on_circle(outlines, arc, u, radius, piece);
  }
}

void add_bend(std::vector<Outline>& outlines, const Arc& arc, double radius, int piece, double chord_error) {
  const double facing = std::abs(arc.axis().z());
  if (1 - facing < kSquareOn) return add_square_on(outlines, arc, radius, piece);
  if (facing < kEdgeOn) return add_edge_on(outlines, arc, radius, piece);
  for (const int side : {1, -1}) add_flank(outlines, Flank{arc, radius, side}, piece, chord_error);
}

Vec3 start_of(const Piece& piece) {
  if (const auto* straight = std::get_if<Straight>(&piece.shape)) return straight->from;
  return std::get<Arc>(piece.shape).point(0);
}

Vec3 end_of(const Piece& piece) {
  if (const auto* straight = std::get_if<Straight>(&piece.shape)) return straight->to;
  const Arc& arc = std::get<Arc>(piece.shape);
  return arc.point(arc.sweep.radians());
}

Vec3 travel(const Piece& piece, bool at_end) {
  if (const auto* straight = std::get_if<Straight>(&piece.shape)) return (straight->to - straight->from).normalized();
  const Arc& arc = std::get<Arc>(piece.shape);
  return arc.direction(at_end ? arc.sweep.radians() : 0.0);
}

}  // namespace

Vec3 Flank::normal(double u) const {
  const Vec3 t = arc.direction(u);
  return side * Vec3(t.y(), -t.x(), 0).normalized();
}

void add_straight(std::vector<Outline>& outlines, const Vec3& from, const Vec3& to, double radius, int piece) {
  const Vec3 t = (to - from).normalized();
  const Vec3 across(t.y(), -t.x(), 0);
  if (across.norm() < kEdgeOn) return;
  const Vec3 n = across.normalized();
  for (const int side : {1, -1}) {
    Outline outline;
    outline.curve = Line3{from + side * radius * n, to + side * radius * n};
    outline.piece = piece;
    outline.skip_own_piece = true;
    outline.lift = side * n;
    outlines.push_back(outline);
  }
}

void add_rim(std::vector<Outline>& outlines, const Vec3& centre, const Vec3& out, double radius, int piece) {
  const Vec3 level = out.cross(Vec3::UnitZ());
  const bool square = level.norm() < kEdgeOn;
  const Vec3 a = square ? any_square_to(out) : Vec3(level.normalized());
  Vec3 b = out.cross(a);
  if (b.z() < 0) b = -b;
  Outline outline;
  outline.curve = Arc3{centre, radius * a, radius * b};
  outline.piece = piece;
  outline.lift = out;
  outline.lift_a = a;
  outline.lift_b = b;
  outline.from = 0;
  outline.to = 2 * kPi;
  const bool faces = out.z() > kEdgeOn;
  if (!faces && square) {  // right behind the tube's own outline
    outline.surely_hidden = true;
  } else if (!faces) {
    Outline far_half = outline;
    far_half.from = kPi;
    far_half.surely_hidden = true;
    outline.to = kPi;
    if (out.z() < -kEdgeOn) outlines.push_back(far_half);
  }
  outlines.push_back(outline);
}

std::vector<Outline> tube_outlines(const std::vector<Piece>& pieces, double radius, double chord_error_mm) {
  std::vector<Outline> outlines;
  for (size_t i = 0; i < pieces.size(); ++i) {
    const int piece = static_cast<int>(i);
    if (const auto* straight = std::get_if<Straight>(&pieces[i].shape))
      add_straight(outlines, straight->from, straight->to, radius, piece);
    else
      add_bend(outlines, std::get<Arc>(pieces[i].shape), radius, piece, chord_error_mm);
  }
  const auto rim = [&](const Vec3& centre, const Vec3& out, size_t piece) {
    add_rim(outlines, centre, out, radius, static_cast<int>(piece));
    outlines.back().skip_own_piece = std::holds_alternative<Straight>(pieces[piece].shape);
  };
  rim(start_of(pieces.front()), -travel(pieces.front(), false), 0);
  rim(end_of(pieces.back()), travel(pieces.back(), true), pieces.size() - 1);
  return outlines;
}

std::vector<Cover> tube_covers(const std::vector<Piece>& pieces, double radius) {
  std::vector<Cover> covers;
  for (size_t i = 0; i < pieces.size(); ++i) {
    const bool first = i == 0, last = i + 1 == pieces.size();
    Cover cover;
    cover.piece = static_cast<int>(i);
    std::vector<Vec3> around;
    double bow = 0;
    if (const auto* straight = std::get_if<Straight>(&pieces[i].shape)) {
      const Vec3 run = straight->to - straight->from;
      cover.body = StraightCover{straight->from, run.normalized(), run.norm(), radius, first, last};
      around = {straight->from, straight->to};
    } else {
      ArcCover bend{std::get<Arc>(pieces[i].shape), radius, first, last, 0, {}};
      const double sweep = bend.arc.sweep.radians();
      const int steps = std::max(2, static_cast<int>(std::ceil(sweep / kSample)));
      for (int k = 0; k <= steps; ++k) bend.samples.push_back(bend.arc.point(sweep * k / steps));
      bend.spacing = bend.arc.radius * sweep / steps;
      bow = bend.spacing / 2;
      around = bend.samples;
      cover.body = std::move(bend);
    }
    cover.low = cover.high = around.front().head<2>();
    cover.top = around.front().z();
    for (const Vec3& p : around) {
      cover.low = cover.low.cwiseMin(p.head<2>());
      cover.high = cover.high.cwiseMax(p.head<2>());
      cover.top = std::max(cover.top, p.z());
    }
    cover.low.array() -= radius + bow;
    cover.high.array() += radius + bow;
    cover.top += radius + bow;
    covers.push_back(std::move(cover));
  }
  return covers;
}

}  // namespace halfhard::views
