#include "geometry/occt/tube_solid.h"

#include <BRep_Builder.hxx>
#include <Geom2d_Line.hxx>
#include <Geom_Circle.hxx>
#include <Geom_CylindricalSurface.hxx>
#include <Geom_Line.hxx>
#include <Geom_Plane.hxx>
#include <Geom_ToroidalSurface.hxx>
#include <Precision.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Shell.hxx>
#include <TopoDS_Solid.hxx>
#include <TopoDS_Vertex.hxx>
#include <TopoDS_Wire.hxx>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/base/require.h"
#include "geometry/curve/tube_skin.h"
#include "geometry/occt/kernel_shape.h"

namespace halfhard {
namespace {

constexpr double kWhole = 2 * std::numbers::pi;

// The edges of one ring in the order of the right hand about travel: one closed edge from the common seam, or two, from
// the seam before to the seam after and on round.
struct RingEdges {
  TopoDS_Vertex at_before, at_after;
  std::vector<TopoDS_Edge> edges;
  double tolerance = 0;
};

// One skin (outside or bore) of the tube.
class SkinBuilder {
 public:
  SkinBuilder(const TubeSkin& skin, double radius_mm) : skin_(skin), radius_(radius_mm) {
    for (const SkinRing& ring : skin.rings) rings_.push_back(ring_edges(ring));
    for (std::size_t i = 0; i < skin.pieces.size(); ++i) faces_.push_back(face(i));
    for (std::size_t i = 0; i + 1 < faces_.size(); ++i) {
      for (const TopoDS_Edge& edge : rings_[i + 1].edges) {
        builder_.Continuity(edge, faces_[i], faces_[i + 1], GeomAbs_G1);
      }
    }
  }

  const std::vector<TopoDS_Face>& faces() const { return faces_; }  // normals away from the centre line
  const std::vector<TopoDS_Edge>& first_ring() const { return rings_.front().edges; }
  const std::vector<TopoDS_Edge>& last_ring() const { return rings_.back().edges; }

 private:
  RingEdges ring_edges(const SkinRing& ring) {
    RingEdges result;
    result.tolerance = tolerance_at(ring);
    const Handle(Geom_Circle) circle = new Geom_Circle(
        gp_Ax2(kernel_point(ring.centre), kernel_direction(ring.travel), kernel_direction(ring.seam_before)), radius_);
    builder_.MakeVertex(result.at_before, circle->Value(0), result.tolerance);
    result.at_after = result.at_before;
    if (ring.split_rad == 0) {
      result.edges.push_back(arc_edge(circle, 0, kWhole, result.at_before, result.at_before, result.tolerance));
      return result;
    }
    builder_.MakeVertex(result.at_after, circle->Value(ring.split_rad), result.tolerance);
    result.edges.push_back(arc_edge(circle, 0, ring.split_rad, result.at_before, result.at_after, result.tolerance));
    result.edges.push_back(
        arc_edge(circle, ring.split_rad, kWhole, result.at_after, result.at_before, result.tolerance));
    return result;
  }

  // The kernel's own tolerance; more where the line's rounding leaves the two sides of the ring a little apart, or
  // where the place is so far out that doubles are coarser.
  double tolerance_at(const SkinRing& ring) const {
    double tolerance = std::max(Precision::Confusion(), 4e-15 * ring.centre.cwiseAbs().maxCoeff());
    tolerance = std::max(tolerance, 1.1 * ring.gap_mm);
    if (ring.split_rad == 0) {
      tolerance = std::max(tolerance, 1.1 * radius_ * (ring.seam_before - ring.seam_after).norm());
    }
    return tolerance;
  }

  template <typename Curve>
  TopoDS_Edge arc_edge(const Curve& curve, double from, double to, const TopoDS_Vertex& first,
                       const TopoDS_Vertex& last, double tolerance) {
    TopoDS_Edge edge;
    builder_.MakeEdge(edge, curve, tolerance);
    builder_.Add(edge, first.Oriented(TopAbs_FORWARD));
    builder_.Add(edge, last.Oriented(TopAbs_REVERSED));
    builder_.Range(edge, from, to);
    return edge;
  }

  static Handle(Geom2d_Curve) line_2d(double u, double v, double du, double dv) {
    return new Geom2d_Line(gp_Pnt2d(u, v), gp_Dir2d(du, dv));
  }

  TopoDS_Face face(std::size_t i) {
    const SkinPiece& piece = skin_.pieces[i];
    Handle(Geom_Surface) surface;
    TopoDS_Edge seam;
    const double tolerance = std::max(rings_[i].tolerance, rings_[i + 1].tolerance);
    if (const auto* arc = std::get_if<Arc>(&piece.shape)) {
      surface = new Geom_ToroidalSurface(
          gp_Ax3(kernel_point(arc->centre), kernel_direction(arc->axis()), kernel_direction(arc->outwards)),
          arc->radius, radius_);
      const Handle(Geom_Circle) outermost = new Geom_Circle(
          gp_Ax2(kernel_point(arc->centre), kernel_direction(arc->axis()), kernel_direction(arc->outwards)),
          arc->radius + radius_);
      const double sweep = arc->sweep.radians();
      seam = arc_edge(outermost, 0, sweep, rings_[i].at_after, rings_[i + 1].at_before, tolerance);
      builder_.UpdateEdge(seam, line_2d(0, 0, 1, 0), line_2d(0, kWhole, 1, 0), surface, TopLoc_Location(), tolerance);
      add_ring_curves(i, surface, 0, sweep, true, tolerance);
    } else {
      const Straight& straight = std::get<Straight>(piece.shape);
      const double length = (straight.to - straight.from).norm();
      const Vec3 along = (straight.to - straight.from) / length;
      surface = new Geom_CylindricalSurface(
          gp_Ax3(kernel_point(straight.from), kernel_direction(along), kernel_direction(piece.seam_at_start)), radius_);
      const Handle(Geom_Line) generator =
          new Geom_Line(kernel_point(straight.from + radius_ * piece.seam_at_start), kernel_direction(along));
      seam = arc_edge(generator, 0, length, rings_[i].at_after, rings_[i + 1].at_before, tolerance);
      builder_.UpdateEdge(seam, line_2d(kWhole, 0, 0, 1), line_2d(0, 0, 0, 1), surface, TopLoc_Location(), tolerance);
      add_ring_curves(i, surface, 0, length, false, tolerance);
    }
    builder_.Continuity(seam, surface, surface, TopLoc_Location(), TopLoc_Location(), GeomAbs_CN);
    return closed_face(i, surface, seam);
  }

  // Where the rings of piece i lie in its surface's own two parameters. On a cylinder the turn about travel is U; on a
  // torus it is V, running the other way. A split ring is passed from this piece's own seam on.
  void add_ring_curves(std::size_t i, const Handle(Geom_Surface) & surface, double start, double end, bool torus,
                       double tolerance) {
    for (const bool at_end : {false, true}) {
      const double split = skin_.rings[at_end ? i + 1 : i].split_rad;
      std::vector<TopoDS_Edge>& edges = rings_[at_end ? i + 1 : i].edges;
      const double own_seam = at_end ? 0 : split;
      for (std::size_t e = 0; e < edges.size(); ++e) {
        // The edge before the own seam belongs to the far end of the turn.
        const double shift = (e == 0 && own_seam > 0 ? kWhole : 0) - own_seam;
        const double place = at_end ? end : start;
        const Handle(Geom2d_Curve) curve = torus ? line_2d(place, kWhole - shift, 0, -1) : line_2d(shift, place, 1, 0);
        builder_.UpdateEdge(edges[e], curve, surface, TopLoc_Location(), tolerance);
      }
    }
  }

  // The boundary runs once round: the start ring from the own seam, the seam, the end ring back, the seam back.
  TopoDS_Face closed_face(std::size_t i, const Handle(Geom_Surface) & surface, const TopoDS_Edge& seam) {
    TopoDS_Wire wire;
    builder_.MakeWire(wire);
    std::vector<TopoDS_Edge> start = rings_[i].edges;
    std::reverse(start.begin(), start.end());  // a split ring's second edge starts at the seam after
    for (const TopoDS_Edge& edge : start) builder_.Add(wire, edge.Oriented(TopAbs_FORWARD));
    builder_.Add(wire, seam.Oriented(TopAbs_FORWARD));
    std::vector<TopoDS_Edge> end = rings_[i + 1].edges;
    std::reverse(end.begin(), end.end());
    for (const TopoDS_Edge& edge : end) builder_.Add(wire, edge.Oriented(TopAbs_REVERSED));
    builder_.Add(wire, seam.Oriented(TopAbs_REVERSED));
    wire.Closed(true);
    TopoDS_Face face;
    builder_.MakeFace(face, surface, Precision::Confusion());
    builder_.Add(face, wire);
    return face;
  }

  const TubeSkin& skin_;
  double radius_;
  BRep_Builder builder_;
  std::vector<RingEdges> rings_;
  std::vector<TopoDS_Face> faces_;
};

TopoDS_Wire ring_wire(const std::vector<TopoDS_Edge>& edges, TopAbs_Orientation orientation) {
  BRep_Builder builder;
  TopoDS_Wire wire;
  builder.MakeWire(wire);
  for (const TopoDS_Edge& edge : edges) builder.Add(wire, edge.Oriented(orientation));
  wire.Closed(true);
  return wire;
}

// A flat end with its normal out of the tube; `inner` is empty for a rod.
TopoDS_Face flat_end(const SkinRing& ring, bool at_start, const std::vector<TopoDS_Edge>& outer,
                     const std::vector<TopoDS_Edge>& inner) {
  BRep_Builder builder;
  const Vec3 normal = at_start ? Vec3(-ring.travel) : ring.travel;
  const Handle(Geom_Plane) plane =
      new Geom_Plane(gp_Ax3(kernel_point(ring.centre), kernel_direction(normal), kernel_direction(ring.seam_before)));
  TopoDS_Face face;
  builder.MakeFace(face, plane, Precision::Confusion());
  builder.Add(face, ring_wire(outer, at_start ? TopAbs_REVERSED : TopAbs_FORWARD));
  if (!inner.empty()) builder.Add(face, ring_wire(inner, at_start ? TopAbs_FORWARD : TopAbs_REVERSED));
  return face;
}

TopoDS_Solid build(const TubeSkin& skin, double outer_mm, double inner_mm) {
  BRep_Builder builder;
  TopoDS_Shell shell;
  builder.MakeShell(shell);
  const SkinBuilder outside(skin, outer_mm);
  for (const TopoDS_Face& face : outside.faces()) builder.Add(shell, face);
  std::vector<TopoDS_Edge> first_bore, last_bore;
  if (inner_mm > 0) {
    const SkinBuilder bore(skin, inner_mm);
    for (const TopoDS_Face& face : bore.faces()) builder.Add(shell, face.Reversed());
    first_bore = bore.first_ring();
    last_bore = bore.last_ring();
  }
  builder.Add(shell, flat_end(skin.rings.front(), true, outside.first_ring(), first_bore));
  builder.Add(shell, flat_end(skin.rings.back(), false, outside.last_ring(), last_bore));
  shell.Closed(true);
  TopoDS_Solid solid;
  builder.MakeSolid(solid);
  builder.Add(solid, shell);
  return solid;
}

}  // namespace

bool can_be_solid(const CentreLine& line, double outer_radius_mm) {
  return line.bend_count() == 0 || outer_radius_mm < line.radius_mm();
}

Solid tube_solid(const CentreLine& line, double outer_radius_mm, double inner_radius_mm) {
  HALFHARD_REQUIRE(inner_radius_mm >= 0 && inner_radius_mm < outer_radius_mm);
  HALFHARD_REQUIRE(can_be_solid(line, outer_radius_mm));
  return translating_failures("solid of a tube",
                              [&] { return solid_of(build(tube_skin(line), outer_radius_mm, inner_radius_mm)); });
}

}  // namespace halfhard
