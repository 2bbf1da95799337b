#include "exporters/dxf/dimensions.h"

#include <cmath>
#include <numbers>

#include "exporters/dxf/entities.h"
#include "exporters/sheet/dimension.h"
#include "exporters/sheet/outline_points.h"

namespace halfhard {
namespace {

constexpr double kMmPerInch = 25.4;

int type_code(DimensionKind kind) {
  switch (kind) {
    case DimensionKind::linear:
    case DimensionKind::aligned:
      return 0;
    case DimensionKind::diameter:
      return 3;
    case DimensionKind::radius:
      return 4;
    case DimensionKind::angular:
      return 5;
  }
  return 0;
}

// The general definition point: where the dimension line stands, or the far point of a radius or diameter.
Vec2 definition_point(const Dimension& d) {
  switch (d.kind) {
    case DimensionKind::linear:
    case DimensionKind::aligned:
      return line_of(d).second;
    case DimensionKind::angular: {
      const ArcCurve arc = arc_of(d);
      return point_on(arc, arc.from_deg + arc.sweep_deg / 2);
    }
    case DimensionKind::radius:
    case DimensionKind::diameter:
      break;
  }
  return d.first;
}

double line_angle_deg(const Dimension& d) {
  if (d.kind == DimensionKind::linear) return d.direction_deg;
  const Vec2 along = d.second - d.first;
  return std::atan2(along.y(), along.x()) * 180 / std::numbers::pi;
}

std::string style_name(double factor) { return factor == 1 ? "HALFHARD" : "HALFHARD_" + short_number(factor, 6); }

}  // namespace

double length_factor(const Dimension& d, const Sheet& sheet) {
  const double factor = d.scale / sheet.scale;
  return sheet.unit == LengthUnit::inch ? factor / kMmPerInch : factor;
}

DimensionStyles dimension_styles(const Sheet& sheet) {
  DimensionStyles styles;
  const double usual = sheet.unit == LengthUnit::inch ? 1 / kMmPerInch : 1;
  styles.name_by_factor[usual] = style_name(usual);
  for (const Entity& entity : sheet.entities) {
    const auto* d = std::get_if<Dimension>(&entity);
    if (!d) continue;
    const double factor = length_factor(*d, sheet);
    styles.name_by_factor[factor] = style_name(factor);
  }
  return styles;
}

void dxf_dimension(Tags& out, Handles& handles, const std::string& owner, const std::string& block, const Dimension& d,
                   const Sheet& sheet, const DimensionStyles& styles) {
  const double s = sheet.scale;
  dxf_begin(out, handles, owner, "DIMENSION", d.pen);
  out(100, "AcDbDimension")(280, 0)(2, block).point(10, definition_point(d) * s).point(11, text_of(d).at * s);
  constexpr int kOwnBlock = 32, kTextPlaced = 128;
  out(70, type_code(d.kind) + kOwnBlock + kTextPlaced)(71, 5);
  const bool angular = d.kind == DimensionKind::angular;
  const double read = measured(d);
  // What a reader gets from the points: drawing mm, or radians.
  out(42, angular ? read * std::numbers::pi / 180 : read / d.scale * s);
  out(1, dxf_text(d.text))(3, styles.name_by_factor.at(length_factor(d, sheet)));
  switch (d.kind) {
    case DimensionKind::aligned:
    case DimensionKind::linear:
      // Aligned ones too as turned ones: some readers measure an aligned dimension along x.
      out(100, "AcDbAlignedDimension").point(13, d.first * s).point(14, d.second * s)(50, line_angle_deg(d));
      out(100, "AcDbRotatedDimension");
      break;
    case DimensionKind::angular: {
      // Readers go anticlockwise from the first to the second.
      const ArcCurve arc = arc_of(d);
      const Vec2 from = point_on(arc, arc.from_deg), to = point_on(arc, arc.from_deg + arc.sweep_deg);
      out(100, "AcDb3PointAngularDimension").point(13, from * s).point(14, to * s).point(15, d.vertex * s);
      break;
    }
    case DimensionKind::radius:
      out(100, "AcDbRadialDimension").point(15, d.second * s)(40, 0.0);
      break;
    case DimensionKind::diameter:
      out(100, "AcDbDiametricDimension").point(15, d.second * s)(40, 0.0);
      break;
  }
}

}  // namespace halfhard
