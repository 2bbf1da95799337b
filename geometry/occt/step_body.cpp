#include "geometry/occt/step_body.h"

#include <BRepGProp.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRepTools.hxx>
#include <BRep_Builder.hxx>
#include <GProp_GProps.hxx>
#include <IFSelect_ReturnStatus.hxx>
#include <Interface_Static.hxx>
#include <STEPControl_Controller.hxx>
#include <STEPControl_Reader.hxx>
#include <STEPControl_Writer.hxx>
#include <ShapeAnalysis_ShapeTolerance.hxx>
#include <StepData_Protocol.hxx>
#include <StepData_StepModel.hxx>
#include <StepData_StepWriter.hxx>
#include <StepShape_ManifoldSolidBrep.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Compound.hxx>
#include <TransferBRep.hxx>
#include <Transfer_TransientProcess.hxx>
#include <XSControl_TransferReader.hxx>
#include <XSControl_WorkSession.hxx>
#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <sstream>

#include "geometry/base/tolerances.h"
#include "geometry/occt/face_triangles.h"
#include "geometry/occt/kernel_shape.h"
#include "geometry/occt/solids_held.h"

namespace halfhard {
namespace {

// A broken reference costs the kernel a whole body without a word: what the file holds is counted beside what was read.
void refuse_lost_solids(const std::string& path, const STEPControl_Reader& reader) {
  std::ifstream file(path, std::ios::binary);
  const int held = solids_held(std::string(std::istreambuf_iterator<char>(file), {}));
  const Handle(Transfer_TransientProcess) process = reader.WS()->TransferReader()->TransientProcess();
  const Handle(Interface_InterfaceModel) model = reader.Model();
  int read = 0;
  for (int i = 1; i <= model->NbEntities(); ++i) {
    if (!model->Value(i)->IsKind(STANDARD_TYPE(StepShape_ManifoldSolidBrep))) continue;
    const TopoDS_Shape shape = TransferBRep::ShapeResult(process, model->Value(i));
    if (!shape.IsNull() && TopExp_Explorer(shape, TopAbs_SOLID).More()) ++read;
  }
  if (read < held)
    throw Trouble("only " + std::to_string(read) + " of the " + std::to_string(held) +
                  " solids in it can be read; the others are broken: have it written anew");
}

TopoDS_Compound solids_in(const std::string& path) {
  STEPControl_Controller::Init();
  Interface_Static::SetCVal("xstep.cascade.unit", "MM");
  STEPControl_Reader reader;
  if (reader.ReadFile(path.c_str()) != IFSelect_RetDone) throw Trouble("it is no STEP file, or a broken one");
  reader.TransferRoots();
  refuse_lost_solids(path, reader);
  BRep_Builder builder;
  TopoDS_Compound solids;
  builder.MakeCompound(solids);
  int count = 0;
  for (int root = 1; root <= reader.NbShapes(); ++root) {
    for (TopExp_Explorer at(reader.Shape(root), TopAbs_SOLID); at.More(); at.Next(), ++count) {
      TopoDS_Shape solid = at.Current();
      GProp_GProps properties;
      BRepGProp::VolumeProperties(solid, properties);
      if (properties.Mass() < 0) solid.Reverse();  // triangles look outwards whatever the file says
      builder.Add(solids, solid);
    }
  }
  if (count == 0) throw Trouble("there is no solid in it");
  return solids;
}

// Corners of a valid file are within its tolerance of one another.
double weld_mm(const TopoDS_Shape& solids) {
  ShapeAnalysis_ShapeTolerance tolerance;
  return std::clamp(2 * tolerance.Tolerance(solids, 1, TopAbs_VERTEX), 1e-6, kTriangleDeviation_mm / 4);
}

TriangleBody met_by_triangles(TopoDS_Shape solids, double most_deviation_mm) {
  const double weld = weld_mm(solids);
  double linear = 0.6 * most_deviation_mm;
  for (int attempt = 0; attempt < 5; ++attempt, linear /= 2) {
    BRepTools::Clean(solids);
    BRepMesh_IncrementalMesh(solids, linear, false, 0.5, false);
    TriangleBody body = triangles_of(solids, weld);
    if (body.deviation_mm <= most_deviation_mm) return body;
  }
  throw Trouble("a surface in it is too fine to be met by triangles");
}

// The solids alone, in mm, as the kernel writes them.
std::string step_data_of(const TopoDS_Shape& solids) {
  Interface_Static::SetCVal("write.step.schema", "AP214IS");
  Interface_Static::SetCVal("write.step.unit", "MM");
  STEPControl_Writer writer;
  if (writer.Transfer(solids, STEPControl_AsIs) != IFSelect_RetDone) return "";
  const Handle(StepData_StepModel) model = writer.Model();
  StepData_StepWriter entities(model);
  entities.SendModel(Handle(StepData_Protocol)::DownCast(model->Protocol()));
  std::ostringstream stream;
  if (!entities.Print(stream)) return "";
  const std::string text = stream.str();
  const std::size_t begin = text.find("\nDATA;");
  const std::size_t end = text.rfind("ENDSEC;");
  if (begin == std::string::npos || end == std::string::npos || end <= begin) return "";
  return text.substr(begin + 7, end - begin - 7);
}

// Three vertices as far apart as a look through them finds: they fix the frame best.
ExactShape exact_shape(const TriangleBody& body, std::string step_data) {
  const auto farthest = [&](auto measure) {
    int best = 0;
    double most = -1;
    for (int i = 0; i < static_cast<int>(body.vertices.size()); ++i) {
      const double value = measure(body.vertices[i]);
      if (value > most) most = value, best = i;
    }
    return best;
  };
  const Vec3 a = body.vertices.front();
  const int second = farthest([&](const Vec3& p) { return (p - a).norm(); });
  const Vec3 along = body.vertices[second] - a;
  const int third = farthest([&](const Vec3& p) { return along.cross(p - a).norm(); });
  return {std::move(step_data), {0, second, third}, {a, body.vertices[second], body.vertices[third]}};
}

}  // namespace

TriangleBody read_step_body_here(const std::string& path, double most_deviation_mm) {
  return translating_failures("the STEP file", [&] {
    const TopoDS_Compound solids = solids_in(path);
    TriangleBody body = met_by_triangles(solids, most_deviation_mm);
    for (const Vec3& vertex : body.vertices) {
      if (!(vertex.cwiseAbs().maxCoeff() <= kLargestLength_mm)) throw Trouble("it reaches beyond 1e8 mm");
    }
    std::string step_data = step_data_of(solids);
    if (!step_data.empty()) {
      body.exact = std::make_shared<const ExactShape>(exact_shape(body, std::move(step_data)));
    }
    return body;
  });
}

}  // namespace halfhard
