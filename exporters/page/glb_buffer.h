// Meshes, materials and nodes of a glTF model as they gather; see glb.h.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "exporters/step/colours.h"
#include "geometry/base/vec.h"

namespace halfhard {

struct ShadedMesh {
  std::vector<Vec3> vertices, normals;  // one normal a vertex
  std::vector<std::array<int, 3>> triangles;
};

// Site frame in, mm; the root node turns and scales it.
class GlbBuffer {
 public:
  int add_material(const PartColour& colour, double metallic, double roughness);
  // Vertices are kept relative to `origin` so that single precision loses nothing.
  int add_mesh(const ShadedMesh& mesh, const Vec3& origin, int material);
  // `run` below 0: not a pipe.
  void add_node(int mesh, const Vec3& at, const std::string& name, int run);

  std::string glb() const;

 private:
  std::string bytes_;
  std::vector<std::string> views_, accessors_, materials_, meshes_, nodes_;
};

}  // namespace halfhard
