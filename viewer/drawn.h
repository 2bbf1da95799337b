// What stands in a picture, as plain triangles, lines and labels: the step between a Plan and any screen.
// Site frame, mm. Parts are shared and compared by address, so that an edit redraws only what it reached.
#pragma once

#include <array>
#include <memory>
#include <string>
#include <vector>

#include "geometry/base/bounds.h"
#include "geometry/base/vec.h"
#include "geometry/curve/ring_mesh.h"
#include "geometry/plan/plan.h"

namespace halfhard {

// What a surface or line is; the theme says which colour that has.
enum class Paint {
  copper,
  mark,
  hazard_dark,  // with hazard_bright: bands that read as a warning in any colour vision
  hazard_bright,
  connection,
  wall,  // a plane: the house's own faces
  fixture,
  lagging,
  timber,  // may be drilled
  electric,
  gas,
  edge,
  ghost_edge,  // where a drawer or door ends up
  drilling,
  chosen,
  bender,
  bench,
};

struct Layer {
  Paint paint = Paint::copper;
  RingMesh mesh;
  std::vector<std::array<Vec3, 2>> lines;
  bool closed = false;     // the mesh encloses a body, triangles outward
  bool halo = false;       // only its far side is seen, as an outline about what it encloses
  bool one_sided = false;  // not seen from behind: a wall between the eye and the pipes hides nothing
};

enum class PartKind { run, fixture, connection, failing, chosen, tool };

struct Part {
  PartKind kind = PartKind::run;
  std::string name;  // of the run, fixture or connection that it shows
  std::vector<Layer> layers;
};

enum class LabelKind { bend, run, connection, fixture, clearance, failing, warning, measure };

// A text that belongs to a place. Labels never cover each other: see label_layout.h.
struct Label {
  LabelKind kind = LabelKind::run;
  std::string text;
  Vec3 at = Vec3::Zero();
};

// A dimension between two places, drawn over everything at a constant width.
struct DimensionLine {
  Vec3 from = Vec3::Zero(), to = Vec3::Zero();
  bool failing = false;
};

// A straight stretch of pipe, for labels to keep off.
struct PipeStretch {
  Vec3 from = Vec3::Zero(), to = Vec3::Zero();
  double radius_mm = 0;
};

struct Drawn {
  std::vector<std::shared_ptr<const Part>> parts;
  std::vector<Label> labels;
  std::vector<DimensionLine> dimensions;
  std::vector<PipeStretch> pipes;
  Bounds bounds;                     // of everything but walls
  std::vector<Vec3> framing;         // what a fitted view must hold: the pipes, and of the fixtures what is near them
  std::string caption;               // along the lower edge; empty for none
  bool failing = false;              // the caption is a warning
  bool site_axes = true;             // whether the site's directions are shown: not on the bench
  LengthUnit unit = LengthUnit::mm;  // that figures are shown in
};

}  // namespace halfhard
