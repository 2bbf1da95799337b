#include "exporters/step/polyhedron_brep.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <optional>

#include "geometry/plan/scene_extents.h"

namespace halfhard {
namespace {

void append_list(Part21Text& text, const std::vector<EntityRef>& entities) {
  text.append("(");
  for (std::size_t i = 0; i < entities.size(); ++i) {
    if (i > 0) text.append(",");
    text.append(entities[i]);
  }
  text.append(")");
}

// Flat faces by the indices of their corners, anticlockwise seen from outside; corners and edges are shared.
class FlatFaces {
 public:
  FlatFaces(Part21Text& text, const std::vector<Vec3>& corners) : text_(text), corners_(corners) {}

  EntityRef add(const std::vector<int>& outline) {
    std::vector<EntityRef> uses;
    for (std::size_t i = 0; i < outline.size(); ++i) uses.push_back(use(outline[i], outline[(i + 1) % outline.size()]));
    text_.start_entity();
    text_.append("EDGE_LOOP('',");
    append_list(text_, uses);
    text_.append(")");
    const EntityRef loop = text_.end_entity();
    const EntityRef bound = text_.add("FACE_OUTER_BOUND('',", loop, ",.T.)");
    const Vec3 side = corners_[outline[1]] - corners_[outline[0]];
    const Vec3 normal = side.cross(corners_[outline[2]] - corners_[outline[0]]).normalized();
    const EntityRef placement = add_placement(text_, corners_[outline[0]], normal, side.normalized());
    const EntityRef plane = text_.add("PLANE('',", placement, ")");
    return text_.add("ADVANCED_FACE('',(", bound, "),", plane, ",.T.)");
  }

 private:
  EntityRef vertex(int corner) {
    const auto known = vertices_.find(corner);
    if (known != vertices_.end()) return known->second;
    const EntityRef at = add_point(text_, corners_[corner]);
    return vertices_[corner] = text_.add("VERTEX_POINT('',", at, ")");
  }

  EntityRef use(int from, int to) {
    const auto key = std::minmax(from, to);
    auto known = edges_.find(key);
    if (known == edges_.end()) {
      const Vec3& start = corners_[key.first];
      const EntityRef first = vertex(key.first);
      const EntityRef last = vertex(key.second);
      const EntityRef at = add_point(text_, start);
      const EntityRef along = add_direction(text_, (corners_[key.second] - start).normalized());
      const EntityRef vector = text_.add("VECTOR('',", along, ",1.)");
      const EntityRef line = text_.add("LINE('',", at, ",", vector, ")");
      known = edges_.emplace(key, text_.add("EDGE_CURVE('',", first, ",", last, ",", line, ",.T.)")).first;
    }
    return text_.add("ORIENTED_EDGE('',*,*,", known->second, from == key.first ? ",.T.)" : ",.F.)");
  }

  Part21Text& text_;
  const std::vector<Vec3>& corners_;
  std::map<int, EntityRef> vertices_;
  std::map<std::pair<int, int>, EntityRef> edges_;
};

EntityRef add_shell(Part21Text& text, const std::vector<EntityRef>& faces) {
  text.start_entity();
  text.append("CLOSED_SHELL('',");
  append_list(text, faces);
  text.append(")");
  return text.end_entity();
}

// A connected surface of a triangle body.
struct Surface {
  std::vector<std::array<int, 3>> triangles;
  Extents extents;
  double volume_times_6 = 0;  // below 0: it looks inwards
};

std::vector<Surface> connected_surfaces(const TriangleBody& body) {
  std::vector<int> group(body.vertices.size());
  std::iota(group.begin(), group.end(), 0);
  const auto root = [&](int vertex) {
    while (group[vertex] != vertex) vertex = group[vertex] = group[group[vertex]];
    return vertex;
  };
  for (const auto& t : body.triangles) {
    group[root(t[1])] = root(t[0]);
    group[root(t[2])] = root(t[0]);
  }
  std::map<int, Surface> surfaces;  // by root: an order that depends on the body alone
  for (const auto& t : body.triangles) {
    Surface& surface = surfaces[root(t[0])];
    surface.triangles.push_back(t);
    for (const int corner : t) surface.extents.add(body.vertices[corner]);
    surface.volume_times_6 += body.vertices[t[0]].dot(body.vertices[t[1]].cross(body.vertices[t[2]]));
  }
  std::vector<Surface> result;
  for (auto& [key, surface] : surfaces) result.push_back(std::move(surface));
  return result;
}

bool stands_in(const Extents& inner, const Extents& outer) {
  return (inner.least - outer.least).minCoeff() >= 0 && (outer.most - inner.most).minCoeff() >= 0;
}

}  // namespace

EntityRef add_closed_solid(Part21Text& text, const std::vector<EntityRef>& faces, std::string_view name) {
  const EntityRef shell = add_shell(text, faces);
  return text.add("MANIFOLD_SOLID_BREP(", Quoted{name}, ",", shell, ")");
}

EntityRef add_box_brep(Part21Text& text, const Box& box, std::string_view name) {
  std::vector<Vec3> corners;
  for (int corner = 0; corner < 8; ++corner) {
    const Vec3 sign(corner & 1 ? 1 : -1, corner & 2 ? 1 : -1, corner & 4 ? 1 : -1);
    corners.push_back(box.centre + box.axes * box.half.cwiseProduct(sign));
  }
  std::vector<std::vector<int>> outlines = {{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4},
                                            {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}};
  FlatFaces faces(text, corners);
  std::vector<EntityRef> written;
  for (auto& outline : outlines) {
    if (box.axes.determinant() < 0) std::reverse(outline.begin(), outline.end());
    written.push_back(faces.add(outline));
  }
  return add_closed_solid(text, written, name);
}

std::vector<EntityRef> add_triangle_breps(Part21Text& text, const TriangleBody& body, std::string_view name) {
  const std::vector<Surface> surfaces = connected_surfaces(body);
  std::vector<EntityRef> shells;
  for (const Surface& surface : surfaces) {
    FlatFaces faces(text, body.vertices);
    std::vector<EntityRef> written;
    for (const auto& t : surface.triangles) written.push_back(faces.add({t[0], t[1], t[2]}));
    shells.push_back(add_shell(text, written));
  }
  std::vector<EntityRef> solids;
  for (std::size_t i = 0; i < surfaces.size(); ++i) {
    if (surfaces[i].volume_times_6 < 0) continue;
    std::vector<EntityRef> hollows;
    for (std::size_t j = 0; j < surfaces.size(); ++j) {
      if (surfaces[j].volume_times_6 >= 0 || !stands_in(surfaces[j].extents, surfaces[i].extents)) continue;
      hollows.push_back(text.add("ORIENTED_CLOSED_SHELL('',*,", shells[j], ",.T.)"));
    }
    if (hollows.empty()) {
      solids.push_back(text.add("MANIFOLD_SOLID_BREP(", Quoted{name}, ",", shells[i], ")"));
      continue;
    }
    text.start_entity();
    text.append("BREP_WITH_VOIDS(");
    text.append(Quoted{name});
    text.append(",");
    text.append(shells[i]);
    text.append(",");
    append_list(text, hollows);
    text.append(")");
    solids.push_back(text.end_entity());
  }
  return solids;
}

}  // namespace halfhard
