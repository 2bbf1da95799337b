// What the window costs beside the bare graphics library, each pair in one run. Needs a display:
//   xvfb-run -a -s "-screen 0 1920x1080x24" window_benchmark
// edit: our own computing from a typed value to what is drawn, ten runs of ten bends and fifty fixtures (at most 4 ms).
// frame: a frame of the scene while it turns, over the library drawing the same triangles (at most 1.25).
// first_picture: a process from its start to its first frame, the window over a program of the bare library that is
// handed the same triangles (at most 1.3).
#include <benchmark/benchmark.h>

#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <QtWidgets>
#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>

#include <vtkRenderWindow.h>
#include <vtkRenderer.h>

#include "modeller/job/json_patch.h"
#include "modeller/window/main_window.h"
#include "tests/benchmarks/bare_picture.h"
#include "tests/benchmarks/ten_runs.h"
#include "viewer/draw_plan.h"
#include "viewer/vtk/scene.h"

namespace halfhard {
namespace {

using Clock = std::chrono::steady_clock;

double ms_since(Clock::time_point start) {
  return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

// Of all threads of this process, the software renderer's included: other work on the machine does not count.
double ms_of(const rusage& used) {
  const auto ms = [](const timeval& time) { return 1000.0 * time.tv_sec + time.tv_usec / 1000.0; };
  return ms(used.ru_utime) + ms(used.ru_stime);
}
double processor_ms() {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  return ms_of(used);
}

double median(std::vector<double> all) {
  if (all.empty()) return 0;
  std::nth_element(all.begin(), all.begin() + static_cast<long>(all.size() / 2), all.end());
  return all[all.size() / 2];
}

void edit(benchmark::State& state) {
  Document document(ten_runs_and_fifty_fixtures(), {});
  PlanDrawer drawer;
  bool turn = false;
  std::vector<double> working_out, drawing;
  for (auto _ : state) {
    turn = !turn;
    const auto start = Clock::now();
    const auto text = with_value(document.tree(), "/values/leg", turn ? "201" : "200");
    if (!document.change_if_usable(*text, "change leg", "/values/leg").empty()) state.SkipWithError("refused");
    working_out.push_back(ms_since(start));
    const auto half = Clock::now();
    benchmark::DoNotOptimize(drawer.draw(*document.plan(), {}));
    drawing.push_back(ms_since(half));
  }
  state.counters["working_out_ms"] = median(working_out);
  state.counters["drawing_ms"] = median(drawing);
}

// The same edit through the whole window, panels and picture included; for the feel of it.
void edit_in_the_window(benchmark::State& state) {
  MainWindow window(Document(ten_runs_and_fifty_fixtures(), {}), {}, false);
  window.show();
  QCoreApplication::processEvents();
  window.choose("/values");
  bool turn = false;
  for (auto _ : state) {
    turn = !turn;
    window.hand().on_change("/values/leg", turn ? "201" : "200");
  }
}

BareTriangles bare_of(const Drawn& drawn) {
  BareTriangles all;
  for (const auto& part : drawn.parts) {
    for (const Layer& layer : part->layers) {
      if (layer.mesh.triangles.empty()) continue;
      const Finish finish = light_theme().finish(layer.paint);
      BareSurface surface;
      surface.colour = {finish.colour.red, finish.colour.green, finish.colour.blue, finish.opacity};
      for (size_t i = 0; i < layer.mesh.vertices.size(); ++i) {
        for (int axis = 0; axis < 3; ++axis) {
          surface.points.push_back(static_cast<float>(layer.mesh.vertices[i][axis]));
          surface.normals.push_back(static_cast<float>(layer.mesh.normals[i][axis]));
        }
      }
      for (const auto& t : layer.mesh.triangles) surface.triangles.insert(surface.triangles.end(), t.begin(), t.end());
      all.push_back(std::move(surface));
    }
  }
  return all;
}

vtkSmartPointer<vtkRenderWindow> offscreen(vtkRenderer* renderer) {
  auto window = vtkSmartPointer<vtkRenderWindow>::New();
  window->SetOffScreenRendering(1);
  window->SetMultiSamples(4);
  window->SetSize(1280, 720);
  window->AddRenderer(renderer);
  window->Render();
  return window;
}

void frame(benchmark::State& state) {
  const Document document(ten_runs_and_fifty_fixtures(), {});
  PlanDrawer drawer;
  const Drawn drawn = drawer.draw(*document.plan(), {});
  ShownScene scene(light_theme());
  scene.show(drawn);
  ViewFrame at = fitted_view(NamedView::isometric, drawn.framing, 1280, 720);
  scene.set_frame(at);
  scene.prepare(1280, 720);
  const auto ours = offscreen(scene.renderer());
  const auto bare_renderer = bare_picture(bare_of(drawn));
  const auto bare = offscreen(bare_renderer);
  const Eigen::AngleAxisd turn(0.02, Vec3::UnitZ());
  std::vector<double> ours_ms, bare_ms, ours_work, bare_work;
  for (auto _ : state) {
    at.looking = turn * at.looking;
    at.upwards = turn * at.upwards;
    const auto start = Clock::now();
    const double before = processor_ms();
    scene.set_frame(at);
    scene.prepare(1280, 720);
    ours->Render();
    ours->WaitForCompletion();
    ours_ms.push_back(ms_since(start));
    ours_work.push_back(processor_ms() - before);
    bare_renderer->GetActiveCamera()->DeepCopy(scene.renderer()->GetActiveCamera());
    const auto half = Clock::now();
    const double halfway = processor_ms();
    bare->Render();
    bare->WaitForCompletion();
    bare_ms.push_back(ms_since(half));
    bare_work.push_back(processor_ms() - halfway);
    state.SetIterationTime(ours_ms.back() / 1000);
  }
  state.counters["bare_ms"] = median(bare_ms);
  state.counters["ours_ms"] = median(ours_ms);
  state.counters["ratio"] = median(ours_ms) / median(bare_ms);
  state.counters["ratio_of_work"] = median(ours_work) / median(bare_work);
}

struct Cost {
  double ms = -1, processor_ms = -1;
};

// A process from start to end; -1 where it failed.
Cost run(const std::vector<std::string>& words) {
  std::vector<char*> arguments;
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  const auto start = Clock::now();
  pid_t child = 0;
  if (posix_spawn(&child, arguments[0], nullptr, nullptr, arguments.data(), environ) != 0) return {};
  int status = 0;
  rusage used{};
  wait4(child, &status, 0, &used);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) return {};
  return {ms_since(start), ms_of(used)};
}

void first_picture(benchmark::State& state) {
  const std::string folder = std::filesystem::read_symlink("/proc/self/exe").parent_path().string();
  const auto aside = std::filesystem::temp_directory_path() / ("halfhard-benchmark-" + std::to_string(getpid()));
  std::filesystem::create_directories(aside);
  const std::string job = (aside / "job.json").string(), triangles = (aside / "triangles").string();
  std::ofstream(job) << ten_runs_and_fifty_fixtures();
  const Document document = Document::opened(job, {});
  PlanDrawer drawer;
  write_bare(bare_of(drawer.draw(*document.plan(), {})), triangles);
  std::vector<double> ours_ms, bare_ms, ours_work, bare_work;
  for (auto _ : state) {
    const Cost ours = run({folder + "/window_benchmark", "--first-picture", job});
    const Cost bare = run({folder + "/bare_first_frame", triangles});
    if (ours.ms < 0 || bare.ms < 0) state.SkipWithError("a child failed");
    ours_ms.push_back(ours.ms);
    bare_ms.push_back(bare.ms);
    ours_work.push_back(ours.processor_ms);
    bare_work.push_back(bare.processor_ms);
    state.SetIterationTime(ours.ms / 1000);
  }
  state.counters["bare_ms"] = median(bare_ms);
  state.counters["ours_ms"] = median(ours_ms);
  state.counters["ratio"] = median(ours_ms) / median(bare_ms);
  state.counters["ratio_of_work"] = median(ours_work) / median(bare_work);
  std::filesystem::remove_all(aside);
}

// The window as `halfhard view` opens it, up to its first picture.
int show_first_picture(int argc, char** argv) {
  QApplication application(argc, argv);
  MainWindow window(Document::opened(argv[2], {}), {}, false);
  bool drawn = false;
  QObject::connect(&window.view(), &QOpenGLWidget::frameSwapped, [&] { drawn = true; });
  window.show();
  while (!drawn) QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
  window.view().renderWindow()->WaitForCompletion();
  _exit(0);
}

BENCHMARK(edit)->Unit(benchmark::kMillisecond);
BENCHMARK(edit_in_the_window)->Unit(benchmark::kMillisecond);
BENCHMARK(frame)->Unit(benchmark::kMillisecond)->UseManualTime()->Iterations(100);
BENCHMARK(first_picture)->Unit(benchmark::kMillisecond)->UseManualTime()->Iterations(15);

}  // namespace
}  // namespace halfhard

int main(int argc, char** argv) {
  if (argc == 3 && std::string(argv[1]) == "--first-picture") return halfhard::show_first_picture(argc, argv);
  benchmark::Initialize(&argc, argv);
  QApplication application(argc, argv);
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
