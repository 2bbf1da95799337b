// A parallel view of tubes and fixtures with hidden lines found, as flat curves ready for a sheet.
// Site frame, mm; a view's own frame is mm to the right and mm up, true size (an isometric is NOT enlarged: its lengths
// along the site axes stand at kIsometricShortening of their size).
//
// Guarantees: silhouettes of straights, square-on bends and end discs are exact lines, circles and ellipses; those of
// bends seen askew are polylines within ViewOptions::chord_error_mm. Where an outline turns from visible to hidden is
// found within 0.001 mm; no hidden or visible stretch longer than 0.5 mm is missed. No line is drawn where a straight
// joins a bend. Moving the whole scene moves the result and changes nothing else.
// Not drawn: the bore of a tube, and the ring where one body enters another.
#pragma once

#include <memory>
#include <utility>
#include <variant>
#include <vector>

#include "geometry/curve/centreline.h"
#include "geometry/distance/body.h"

namespace halfhard {

using Vec2 = Eigen::Vector2d;

// Lengths along the site axes in an isometric view: sqrt(2/3) (ISO 5456-3). Enlarge by its inverse for true lengths.
inline constexpr double kIsometricShortening = 0.81649658092772603;

// How the viewer stands. All three are unit, square to each other, and right = look x up.
struct View {
  Vec3 look = Vec3::UnitY();  // the way the viewer looks, into the scene
  Vec3 right = Vec3::UnitX();
  Vec3 up = Vec3::UnitZ();

  static View front();                             // from the front, looking back
  static View back();                              // from behind, looking to the front
  static View top();                               // the plan: from above, x right, y up the sheet
  static View bottom();                            // from below, x right
  static View from_left();                         // standing on the left, looking right
  static View from_right();                        // standing on the right, looking left
  static View isometric(bool from_right = false);  // from the front, one side and above; axes at 30 degrees
  // Looking along `look` with `upwards` as nearly up as can be. Requires: not parallel.
  static View along(const Vec3& look, const Vec3& upwards);

  Vec2 flat(const Vec3& point) const { return {point.dot(right), point.dot(up)}; }
  double depth_mm(const Vec3& point) const { return point.dot(look); }  // greater is farther from the viewer
};

struct SceneTube {
  int object = 0;  // any number of the caller's, given back with each curve
  CentreLine line;
  double outside_radius_mm = 0;
};

struct SceneBody {
  int object = 0;
  Shape shape;  // at rest; a HalfSpace is drawn as a rectangle a little larger than the rest of the scene
};

struct Scene {
  std::vector<SceneTube> tubes;
  std::vector<SceneBody> bodies;
};

// --- flat curves, in the view's frame

struct FlatLine {
  Vec2 from, to;
};

// Counter-clockwise from `start` by `sweep` > 0; a full circle sweeps 360 degrees. Angles from the view's right.
struct FlatArc {
  Vec2 centre;
  double radius_mm = 0;
  Angle start, sweep;
};

// point(t) = centre + cos t * major + sin t * minor_ratio * (major turned 90 degrees counter-clockwise), t from `start`
// by `sweep` > 0. 0 < minor_ratio < 1. As a DXF ELLIPSE has it.
struct FlatEllipseArc {
  Vec2 centre, major;
  double minor_ratio = 1;
  Angle start, sweep;
};

struct FlatPolyline {
  std::vector<Vec2> points;  // two at least
};

using FlatShape = std::variant<FlatLine, FlatArc, FlatEllipseArc, FlatPolyline>;

enum class CurveKind {
  outline,      // an edge or silhouette
  fold,         // the part of a bend's silhouette that its own wall always hides; never visible, may be left out
  centre_line,  // always counted as visible
};

struct ViewCurve {
  FlatShape shape;
  CurveKind kind = CurveKind::outline;
  bool visible = true;
  int object = 0;  // SceneTube::object or SceneBody::object
};

// Where a tube's points stand in the view: its start, each intersection of centre lines, its end.
struct ViewedTube {
  int object = 0;
  std::vector<Vec2> points;
};

struct Projection {
  std::vector<ViewCurve> curves;
  std::vector<ViewedTube> tubes;                 // as in Scene::tubes
  Vec2 low = Vec2::Zero(), high = Vec2::Zero();  // the box around all curves; both zero where there are none
};

struct ViewOptions {
  double chord_error_mm = 0.01;
  bool centre_lines = true;
  bool hidden = true;          // false: hidden curves and folds are left out of the result
  double wall_margin_mm = 40;  // how far a half space's rectangle reaches beyond the rest of the scene
};

Projection project(const Scene& scene, const View& view, const ViewOptions& options = {});

// --- helpers on flat curves

// The curve as points, no farther than `chord_error_mm` from it; ends exact.
std::vector<Vec2> flattened(const FlatShape& shape, double chord_error_mm);
double length_mm(const FlatShape& shape);  // of an ellipse arc within 1e-6 of its length
// Grown, turned (counter-clockwise) and shifted, in that order: from view mm to sheet mm.
FlatShape placed(const FlatShape& shape, double scale, Angle turn, const Vec2& shift);
// The smallest upright box that holds it: lower left, upper right. Exact but for polylines as they are.
std::pair<Vec2, Vec2> box_around(const FlatShape& shape);

}  // namespace halfhard
