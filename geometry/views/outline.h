// The outlines of bodies before anything hides them: edges and silhouettes as curves in space.
// View frame: x right, y up, z towards the viewer, mm.
#pragma once

#include <array>
#include <variant>
#include <vector>

#include "geometry/views/cover.h"

namespace halfhard::views {

struct Line3 {
  Vec3 from, to;  // parameter 0 to 1
};

// point(t) = centre + cos t * a + sin t * b; a and b square to each other and equally long.
struct Arc3 {
  Vec3 centre, a, b;
};

// One of a bend's two silhouettes: c(u) + radius * n(u), n = side * (t x z)/|t x z| with t the travel at u.
struct Flank {
  Arc arc;
  double radius = 0;
  int side = 1;
  Vec3 normal(double u) const;
};

struct Outline {
  int object = 0, owner = 0;
  CurveKind kind = CurveKind::outline;
  std::variant<Line3, Arc3, Flank> curve;
  double from = 0, to = 1;      // parameter range
  std::vector<double> nodes;    // of a flank: parameters between which it runs straight within the chord error
  bool surely_hidden = false;   // its own body hides all of it
  int piece = -1;               // tubes: the piece it belongs to
  bool skip_own_piece = false;  // that piece cannot hide it
  bool skip_own_body = false;   // convex bodies
  std::array<int, 2> corners = {-1, -1};  // mesh edges: their two vertices
  // Outwards from the own surface: where the sight line grazes it, the question is asked this way off it.
  Vec3 lift = Vec3::Zero(), lift_a = Vec3::Zero(), lift_b = Vec3::Zero();

  Vec3 point(double t) const;
  Vec3 lift_at(double t) const;  // unit
};

// Tube or solid round bar: silhouettes and ends. `chord_error_mm` bounds the nodes.
std::vector<Outline> tube_outlines(const std::vector<Piece>& pieces, double radius, double chord_error_mm);
std::vector<Cover> tube_covers(const std::vector<Piece>& pieces, double radius);

// The rim of a flat end at `centre` that faces `out`. Belongs to `piece`.
void add_rim(std::vector<Outline>& outlines, const Vec3& centre, const Vec3& out, double radius, int piece);
// Both silhouettes of a straight; none where seen end-on.
void add_straight(std::vector<Outline>& outlines, const Vec3& from, const Vec3& to, double radius, int piece);

std::vector<Outline> box_outlines(const Box& box);
std::vector<Outline> cylinder_outlines(const Cylinder& cylinder);
std::vector<Outline> polygon_outlines(const std::vector<Vec3>& corners);
std::vector<Outline> mesh_outlines(const std::vector<Vec3>& vertices, const std::vector<std::array<int, 3>>& triangles);

// The parameters that cut the outline into stretches straight within the error (arcs: in even steps).
std::vector<double> nodes_of(const Outline& outline);

}  // namespace halfhard::views
