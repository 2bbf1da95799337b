#include "geometry/occt/face_triangles.h"

#include <BRepAdaptor_Surface.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <algorithm>
#include <cmath>
#include <map>

#include "geometry/occt/kernel_shape.h"

namespace halfhard {
namespace {

// Points in one place as one vertex: those in the same or a neighbouring cell of a grid.
class Welder {
 public:
  Welder(std::vector<Vec3>& vertices, double weld_mm) : vertices_(vertices), weld_(weld_mm) {}

  int vertex(const Vec3& point) {
    const Cell cell = cell_of(point);
    for (int dx = -1; dx <= 1; ++dx) {
      for (int dy = -1; dy <= 1; ++dy) {
        for (int dz = -1; dz <= 1; ++dz) {
          const auto known = cells_.find({cell[0] + dx, cell[1] + dy, cell[2] + dz});
          if (known != cells_.end() && (vertices_[known->second] - point).norm() <= weld_) return known->second;
        }
      }
    }
    vertices_.push_back(point);
    return cells_[cell] = static_cast<int>(vertices_.size()) - 1;
  }

 private:
  using Cell = std::array<long long, 3>;
  Cell cell_of(const Vec3& p) const {
    return {std::llround(p.x() / weld_), std::llround(p.y() / weld_), std::llround(p.z() / weld_)};
  }

  std::vector<Vec3>& vertices_;
  double weld_;
  std::map<Cell, int> cells_;
};

Vec3 to_vec(const gp_Pnt& point) { return {point.X(), point.Y(), point.Z()}; }

// How far the true surface is from the triangle, at the middle of each side and of the whole, by the surface's own
// parameters: never less than the distance itself.
double deviation_at(const BRepAdaptor_Surface& surface, const Poly_Triangulation& mesh, const int (&nodes)[3],
                    const TopLoc_Location& place) {
  double most = 0;
  const auto probe = [&](double a, double b, double c) {
    gp_XY uv(0, 0);
    gp_XYZ flat(0, 0, 0);
    const double weight[3] = {a, b, c};
    for (int i = 0; i < 3; ++i) {
      uv += weight[i] * mesh.UVNode(nodes[i]).XY();
      flat += weight[i] * mesh.Node(nodes[i]).XYZ();
    }
    const gp_Pnt at = gp_Pnt(flat).Transformed(place.Transformation());
    most = std::max(most, surface.Value(uv.X(), uv.Y()).Distance(at));
  };
  probe(0.5, 0.5, 0);
  probe(0, 0.5, 0.5);
  probe(0.5, 0, 0.5);
  probe(1.0 / 3, 1.0 / 3, 1.0 / 3);
  return most;
}

void add_face(const TopoDS_Face& face, Welder& welder, TriangleBody& body) {
  TopLoc_Location place;
  const Handle(Poly_Triangulation) mesh = BRep_Tool::Triangulation(face, place);
  if (mesh.IsNull() || mesh->NbTriangles() == 0) throw Trouble("one of its faces cannot be met by triangles");
  const BRepAdaptor_Surface surface(face, false);
  const bool flat = surface.GetType() == GeomAbs_Plane;
  for (int t = 1; t <= mesh->NbTriangles(); ++t) {
    int nodes[3];
    mesh->Triangle(t).Get(nodes[0], nodes[1], nodes[2]);
    if (!flat && mesh->HasUVNodes()) {
      body.deviation_mm = std::max(body.deviation_mm, deviation_at(surface, *mesh, nodes, place));
    }
    if (face.Orientation() == TopAbs_REVERSED) std::swap(nodes[1], nodes[2]);
    std::array<int, 3> corners;
    for (int i = 0; i < 3; ++i) {
      const gp_Pnt at = mesh->Node(nodes[i]).Transformed(place.Transformation());
      corners[i] = welder.vertex(to_vec(at));
    }
    const bool collapsed = corners[0] == corners[1] || corners[1] == corners[2] || corners[2] == corners[0];
    if (!collapsed) body.triangles.push_back(corners);
  }
}

void require_closed(const TriangleBody& body) {
  std::map<std::pair<int, int>, int> sides;
  for (const auto& t : body.triangles) {
    for (int i = 0; i < 3; ++i) {
      const int from = t[i], to = t[(i + 1) % 3];
      sides[std::minmax(from, to)] += from < to ? 1 : -1;
    }
  }
  const bool closed = std::all_of(sides.begin(), sides.end(), [](const auto& side) { return side.second == 0; });
  if (!closed || body.triangles.empty()) throw Trouble("the surface of a solid in it does not close");
}

}  // namespace

TriangleBody triangles_of(const TopoDS_Shape& meshed, double weld_mm) {
  TriangleBody body;
  for (TopExp_Explorer solid(meshed, TopAbs_SOLID); solid.More(); solid.Next()) {
    Welder welder(body.vertices, weld_mm);  // each solid by itself: two that touch do not grow together
    for (TopExp_Explorer face(solid.Current(), TopAbs_FACE); face.More(); face.Next()) {
      add_face(TopoDS::Face(face.Current()), welder, body);
    }
  }
  require_closed(body);
  return body;
}

}  // namespace halfhard
