#include "exporters/page/glb.h"

#include <map>
#include <tuple>

#include "exporters/page/glb_buffer.h"
#include "geometry/bending/as_cut.h"
#include "geometry/curve/ring_mesh.h"
#include "geometry/plan/scene_extents.h"

namespace halfhard {
namespace {

constexpr double kChordError_mm = 0.2;

ShadedMesh tube_mesh(const CentreLine& line, double outside_mm, double inside_mm) {
  RingMesh rings = ring_mesh(line, outside_mm, inside_mm, kChordError_mm);
  return {std::move(rings.vertices), std::move(rings.normals), std::move(rings.triangles)};
}

void add_flat(ShadedMesh& mesh, const std::vector<Vec3>& corners) {
  const int first = static_cast<int>(mesh.vertices.size());
  const Vec3 normal = (corners[1] - corners[0]).cross(corners[2] - corners[0]).normalized();
  for (const Vec3& corner : corners) {
    mesh.vertices.push_back(corner);
    mesh.normals.push_back(normal);
  }
  for (int i = 2; i < static_cast<int>(corners.size()); ++i)
    mesh.triangles.push_back({first, first + i - 1, first + i});
}

struct BodyMesh {
  const Extents& extents;

  ShadedMesh operator()(const Box& box) const {
    ShadedMesh mesh;
    for (int axis = 0; axis < 3; ++axis) {
      for (const double side : {-1.0, 1.0}) {
        const int u = (axis + 1) % 3, v = (axis + 2) % 3;
        std::vector<Vec3> corners;
        for (const auto& [a, b] : {std::pair(-1, -1), std::pair(1, -1), std::pair(1, 1), std::pair(-1, 1)}) {
          Vec3 corner;
          corner[axis] = side * box.half[axis];
          corner[u] = (side > 0 ? a : b) * box.half[u];
          corner[v] = (side > 0 ? b : a) * box.half[v];
          corners.push_back(box.centre + box.axes * corner);
        }
        add_flat(mesh, corners);
      }
    }
    return mesh;
  }
  ShadedMesh operator()(const Cylinder& cylinder) const {
    return tube_mesh(CentreLine::through({cylinder.from, cylinder.to}, 0), cylinder.radius, 0);
  }
  ShadedMesh operator()(const HalfSpace& plane) const { return (*this)(slab_of(plane, extents)); }
  ShadedMesh operator()(const std::shared_ptr<const TriangleBody>& body) const {
    ShadedMesh mesh;
    for (const auto& t : body->triangles) {
      add_flat(mesh, {body->vertices[t[0]], body->vertices[t[1]], body->vertices[t[2]]});
    }
    return mesh;
  }
};

// Fixtures are there to be seen through: the pipes are what the page is about.
PartColour seen_through(FixtureKind kind) {
  PartColour colour = fixture_colour(kind);
  colour.transparency = kind == FixtureKind::plane ? 0.8 : 0.55;
  return colour;
}

class Model {
 public:
  explicit Model(const Plan& plan) : plan_(plan), extents_(scene_extents(plan)), origin_(extents_.centre()) {}

  std::string glb() {
    for (int i = 0; i < static_cast<int>(plan_.runs.size()); ++i) add_run(*plan_.runs[i], i);
    for (const auto& fixture : plan_.fixtures) {
      const Shape& shape = fixture->body.shape;
      const int mesh = buffer_.add_mesh(std::visit(BodyMesh{extents_}, shape), origin_,
                                        material(seen_through(fixture->kind), 0, 0.9));
      buffer_.add_node(mesh, Vec3::Zero(), fixture->name, -1);
    }
    return buffer_.glb();
  }

 private:
  using Kind = std::tuple<int, double, double, double, double, Service>;
  struct Meshes {
    int tube = -1, lagging = -1;
    Vec3 slid = Vec3::Zero();
  };

  void add_run(const Run& run, int index) {
    const Kind kind{
        run.same_as, run.tube->outside_diameter_mm, run.lagging_mm, run.datum_insertion_mm(), run.free_insertion_mm(),
        run.service};
    const auto [place, is_new] = meshes_.try_emplace(kind);
    Meshes& meshes = place->second;
    if (is_new) {
      const double outside = run.tube->outside_radius_mm();
      meshes.slid = run.slid_mm;
      meshes.tube = buffer_.add_mesh(tube_mesh(line_as_cut(run), outside, outside - run.tube->wall_mm), origin_,
                                     material(tube_colour(run.service), 0.35, 0.4));
      const bool fits = run.line.bend_count() == 0 || run.outside_radius_mm() < run.line.radius_mm();
      if (run.lagging_mm > 0 && fits) {
        meshes.lagging = buffer_.add_mesh(tube_mesh(run.line, run.outside_radius_mm(), outside), origin_,
                                          material(lagging_colour(), 0, 1));
      }
    }
    const Vec3 at = run.slid_mm - meshes.slid;
    buffer_.add_node(meshes.tube, at, run.name, index);
    if (meshes.lagging >= 0) buffer_.add_node(meshes.lagging, at, run.name + " lagging", -1);
  }

  int material(const PartColour& colour, double metallic, double roughness) {
    const auto [place, is_new] = materials_.try_emplace({colour, metallic, roughness});
    if (is_new) place->second = buffer_.add_material(colour, metallic, roughness);
    return place->second;
  }

  const Plan& plan_;
  Extents extents_;
  Vec3 origin_;  // of the model: single precision keeps its digits for the pipes, not for the way to them
  GlbBuffer buffer_;
  std::map<Kind, Meshes> meshes_;
  std::map<std::tuple<PartColour, double, double>, int> materials_;
};

}  // namespace

std::string glb_of_job(const Plan& plan) { return Model(plan).glb(); }

}  // namespace halfhard
