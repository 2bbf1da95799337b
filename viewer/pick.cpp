#include "viewer/pick.h"

#include <algorithm>
#include <cmath>

namespace halfhard {
namespace {

struct Hit {
  double distance = 1e300;
  Vec3 at = Vec3::Zero();
  const Part* part = nullptr;
  double along_mm = 0;
};

// Möller and Trumbore, "Fast, minimum storage ray/triangle intersection", 1997; both sides count.
std::optional<double> meets(const Sight& sight, const Vec3& a, const Vec3& b, const Vec3& c) {
  const Vec3 ab = b - a, ac = c - a, p = sight.direction.cross(ac);
  const double det = ab.dot(p);
  if (std::abs(det) < 1e-12) return std::nullopt;
  const Vec3 t = sight.from - a;
  const double u = t.dot(p) / det;
  if (u < 0 || u > 1) return std::nullopt;
  const Vec3 q = t.cross(ab);
  const double v = sight.direction.dot(q) / det;
  if (v < 0 || u + v > 1) return std::nullopt;
  return ac.dot(q) / det;
}

void meet_part(const Part& part, const Sight& sight, const std::optional<Section>& section, Hit& best) {
  for (const Layer& layer : part.layers) {
    const RingMesh& mesh = layer.mesh;
    for (const auto& t : mesh.triangles) {
      const auto distance = meets(sight, mesh.vertices[t[0]], mesh.vertices[t[1]], mesh.vertices[t[2]]);
      if (!distance || *distance < 0 || *distance >= best.distance) continue;
      if (layer.one_sided && mesh.normals[t[0]].dot(sight.direction) > 0) continue;
      const Vec3 at = sight.from + *distance * sight.direction;
      if (section && !section->keeps(at)) continue;
      best = {*distance, at, &part, 0};
      if (mesh.along_mm.size() != mesh.vertices.size()) continue;
      // The triangles of straights are long: where between their rings.
      double low = 1e300, high = -1e300;
      Vec3 from = Vec3::Zero(), to = Vec3::Zero();
      for (const int corner : t) {
        if (mesh.along_mm[corner] < low) low = mesh.along_mm[corner], from = mesh.vertices[corner];
        if (mesh.along_mm[corner] > high) high = mesh.along_mm[corner], to = mesh.vertices[corner];
      }
      const double length2 = (to - from).squaredNorm();
      const double part_way = length2 > 0 ? std::clamp((at - from).dot(to - from) / length2, 0.0, 1.0) : 0;
      best.along_mm = low + part_way * (high - low);
    }
  }
}

}  // namespace

std::optional<Picked> pick(const Drawn& drawn, const Sight& sight, const std::optional<Section>& section) {
  Hit first, second;
  for (const auto& part : drawn.parts) {
    if (part->kind == PartKind::run || part->kind == PartKind::connection) meet_part(*part, sight, section, first);
    if (part->kind == PartKind::fixture) meet_part(*part, sight, section, second);
  }
  const Hit& hit = first.part ? first : second;
  if (!hit.part) return std::nullopt;
  return Picked{hit.part->kind, hit.part->name, hit.at, hit.along_mm};
}

}  // namespace halfhard
