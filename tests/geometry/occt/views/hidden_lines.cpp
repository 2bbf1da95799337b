#include "tests/geometry/occt/views/hidden_lines.h"

#include <BRepAdaptor_Curve.hxx>
#include <BRepLib.hxx>
#include <HLRAlgo_Projector.hxx>
#include <HLRBRep_Algo.hxx>
#include <HLRBRep_HLRToShape.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <algorithm>
#include <cmath>
#include <gp_Ax2.hxx>

#include "geometry/occt/kernel_shape.h"
#include "geometry/occt/tube_solid.h"

namespace halfhard::oracle {
namespace {

Handle(HLRBRep_Algo) algorithm(const std::vector<SceneTube>& tubes, const View& view) {
  Handle(HLRBRep_Algo) algo = new HLRBRep_Algo;
  for (const SceneTube& tube : tubes) algo->Add(tube_solid(tube.line, tube.outside_radius_mm, 0).shape().shape);
  // The projector's main direction points at the viewer.
  algo->Projector(
      HLRAlgo_Projector(gp_Ax2(gp_Pnt(0, 0, 0), kernel_direction(-view.look), kernel_direction(view.right))));
  algo->Update();
  algo->Hide();
  return algo;
}

void read(TopoDS_Shape compound, std::vector<Points>& edges) {
  if (compound.IsNull()) return;
  BRepLib::BuildCurves3d(compound);
  for (TopExp_Explorer edge(compound, TopAbs_EDGE); edge.More(); edge.Next()) {
    const BRepAdaptor_Curve curve(TopoDS::Edge(edge.Current()));
    const int count = 200;
    Points points;
    for (int i = 0; i <= count; ++i) {
      const gp_Pnt p =
          curve.Value(curve.FirstParameter() + (curve.LastParameter() - curve.FirstParameter()) * i / count);
      points.emplace_back(p.X(), p.Y());
    }
    edges.push_back(std::move(points));
  }
}

}  // namespace

double total_mm(const std::vector<Points>& edges) {
  double sum = 0;
  for (const Points& points : edges)
    for (size_t i = 1; i < points.size(); ++i) sum += (points[i] - points[i - 1]).norm();
  return sum;
}

HiddenLines hidden_lines(const std::vector<SceneTube>& tubes, const View& view) {
  HLRBRep_HLRToShape shapes(algorithm(tubes, view));
  HiddenLines result;
  read(shapes.VCompound(), result.visible);
  read(shapes.OutLineVCompound(), result.visible);
  read(shapes.HCompound(), result.hidden);
  read(shapes.OutLineHCompound(), result.hidden);
  return result;
}

void remove_hidden_lines(const std::vector<SceneTube>& tubes, const View& view) { algorithm(tubes, view); }

}  // namespace halfhard::oracle
