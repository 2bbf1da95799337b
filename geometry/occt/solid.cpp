#include "geometry/occt/solid.h"

#include <BOPAlgo_ArgumentAnalyzer.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepExtrema_DistShapeShape.hxx>
#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>

#include "geometry/occt/kernel_shape.h"

namespace halfhard {
namespace {

// Relative error asked of the kernel's adaptive integration.
constexpr double kIntegration = 1e-9;

}  // namespace

double Solid::volume_mm3() const {
  return translating_failures("volume of a solid", [&] {
    GProp_GProps properties;
    BRepGProp::VolumeProperties(shape_->shape, properties, kIntegration);
    return properties.Mass();
  });
}

double Solid::area_mm2() const {
  return translating_failures("area of a solid", [&] {
    GProp_GProps properties;
    BRepGProp::SurfaceProperties(shape_->shape, properties, kIntegration);
    return properties.Mass();
  });
}

bool Solid::is_valid() const {
  return translating_failures("check of a solid", [&] { return BRepCheck_Analyzer(shape_->shape).IsValid(); });
}

bool Solid::crosses_itself() const {
  return translating_failures("check of a solid", [&] {
    BOPAlgo_ArgumentAnalyzer analyzer;
    analyzer.SetShape1(shape_->shape);
    analyzer.ArgumentTypeMode() = true;
    analyzer.SelfInterMode() = true;
    analyzer.SmallEdgeMode() = false;
    analyzer.Perform();
    return static_cast<bool>(analyzer.HasFaulty());
  });
}

double Solid::distance_mm(const Solid& other) const {
  return translating_failures("distance of two solids", [&] {
    BRepExtrema_DistShapeShape distance(shape_->shape, other.shape_->shape);
    if (!distance.IsDone()) throw Trouble("distance of two solids: not found");
    return distance.Value();
  });
}

}  // namespace halfhard
