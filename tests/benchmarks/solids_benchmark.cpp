// The direct tube solid beside the kernel's sweep, and our STEP text beside the kernel's document writer, on the same
// pipes of ten bends in one run. Counters: `bytes` of the file.
#include <benchmark/benchmark.h>
#include <unistd.h>
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepOffsetAPI_MakePipe.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Message_PrinterOStream.hxx>
#include <STEPCAFControl_Writer.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Wire.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <gp_Circ.hxx>

#include <filesystem>

#include "exporters/step/step.h"
#include "geometry/occt/kernel_shape.h"
#include "geometry/occt/tube_solid.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

constexpr double kOuter = 7.5, kInner = 6.8;

std::vector<std::shared_ptr<const Run>> pipes(int count) {
  std::mt19937 random(1);
  std::vector<std::shared_ptr<const Run>> runs;
  support::RunOptions options;
  options.datum_insertion_mm = 0;
  for (int i = 0; i < count; ++i) {
    runs.push_back(support::run_through("pipe " + std::to_string(i), support::random_points(random, 10), options));
  }
  return runs;
}

TopoDS_Wire spine_of(const CentreLine& line) {
  BRepBuilderAPI_MakeWire wire;
  for (const Piece& piece : line.pieces()) {
    if (const auto* arc = std::get_if<Arc>(&piece.shape)) {
      const double sweep = arc->sweep.radians();
      wire.Add(
          BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(kernel_point(arc->point(0)), kernel_point(arc->point(sweep / 2)),
                                                     kernel_point(arc->point(sweep)))
                                      .Value())
              .Edge());
    } else {
      const Straight& straight = std::get<Straight>(piece.shape);
      wire.Add(BRepBuilderAPI_MakeEdge(kernel_point(straight.from), kernel_point(straight.to)).Edge());
    }
  }
  return wire.Wire();
}

void tube_solid_direct(benchmark::State& state) {
  const auto runs = pipes(20);
  std::size_t at = 0;
  for (auto _ : state) benchmark::DoNotOptimize(tube_solid(runs[at++ % runs.size()]->line, kOuter, kInner));
}
BENCHMARK(tube_solid_direct)->Unit(benchmark::kMicrosecond);

void tube_solid_by_sweep(benchmark::State& state) {
  const auto runs = pipes(20);
  std::size_t at = 0;
  for (auto _ : state) {
    const CentreLine& line = runs[at++ % runs.size()]->line;
    const gp_Ax2 axes(kernel_point(line.points().front()), kernel_direction(line.leg_direction(0)));
    const auto ring = [&](double radius) {
      return BRepBuilderAPI_MakeWire(BRepBuilderAPI_MakeEdge(gp_Circ(axes, radius)).Edge()).Wire();
    };
    BRepBuilderAPI_MakeFace face(ring(kOuter), true);
    face.Add(TopoDS::Wire(ring(kInner).Reversed()));
    benchmark::DoNotOptimize(BRepOffsetAPI_MakePipe(spine_of(line), face.Face()).Shape());
  }
}
BENCHMARK(tube_solid_by_sweep)->Unit(benchmark::kMicrosecond);

void step_text_of_ours(benchmark::State& state) {
  const Plan plan = support::plan_of(pipes(100));
  std::size_t bytes = 0;
  for (auto _ : state) bytes = step_of_job(plan).size();
  state.counters["bytes"] = static_cast<double>(bytes);
}
BENCHMARK(step_text_of_ours)->Unit(benchmark::kMillisecond);

void step_by_document_writer(benchmark::State& state) {
  Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_PrinterOStream));
  std::vector<Solid> solids;
  for (const auto& run : pipes(100)) solids.push_back(tube_solid(run->line, kOuter, kInner));
  const auto path = std::filesystem::temp_directory_path() / ("halfhard-" + std::to_string(getpid()) + ".step");
  for (auto _ : state) {
    Handle(TDocStd_Document) document;
    XCAFApp_Application::GetApplication()->NewDocument("BinXCAF", document);
    const auto shapes = XCAFDoc_DocumentTool::ShapeTool(document->Main());
    for (const Solid& solid : solids) TDataStd_Name::Set(shapes->AddShape(solid.shape().shape, false), "pipe");
    STEPCAFControl_Writer writer;
    writer.Transfer(document);
    writer.Write(path.c_str());
    XCAFApp_Application::GetApplication()->Close(document);
  }
  state.counters["bytes"] = static_cast<double>(std::filesystem::file_size(path));
  std::filesystem::remove(path);
}
BENCHMARK(step_by_document_writer)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace halfhard

BENCHMARK_MAIN();
