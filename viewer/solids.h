// Plain solids as triangles with normals and edges, for fixtures, arrows, marks and the bender. Site frame, mm.
#pragma once

#include "geometry/distance/body.h"
#include "viewer/drawn.h"

namespace halfhard {

std::array<Vec3, 8> corners_of(const Bounds& room);

using Edges = std::vector<std::array<Vec3, 2>>;

// Adds a flat face, fanned from its first corner, with one normal. Corners in right-hand order about the normal.
void add_face(RingMesh& mesh, const std::vector<Vec3>& corners);
void add_closed_outline(Edges& edges, const std::vector<Vec3>& corners);
void append(RingMesh& mesh, const RingMesh& more);

void add_box(RingMesh& mesh, Edges& edges, const Box& box);
// A cone, a cylinder or part of a cone; flat ends. The radii may be 0, not both.
void add_cone(RingMesh& mesh, const Vec3& from, const Vec3& to, double from_radius, double to_radius, int sides = 32);
// Rims and, for `spokes` > 0, that many lines along the side.
void add_cone_edges(Edges& edges, const Vec3& from, const Vec3& to, double from_radius, double to_radius, int spokes);
// Triangles with one normal a facet; edges where facets meet at more than 30 degrees, and open ones.
void add_triangles(RingMesh& mesh, Edges& edges, const TriangleBody& body);

// A tube's skin between two places along its line, open at both ends: sleeves, marks, bands.
RingMesh sleeve(const CentreLine& line, double from_mm, double to_mm, double radius_mm, int sides = 24);

}  // namespace halfhard
