// A view of a pipe: our hidden lines against the solid kernel's, in one run.
#include <benchmark/benchmark.h>

#include <random>

#include "geometry/views/view.h"
#include "tests/geometry/occt/views/hidden_lines.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

View askew() { return View::along(Vec3(0.3, 1, -0.4), Vec3::UnitZ()); }

std::vector<SceneTube> ten_bends() {
  std::mt19937 random(1);
  return {{1, CentreLine::through(support::random_points(random, 10, 50), 50), 7.5}};
}

Scene eight_pipes_six_fixtures() {
  Scene scene;
  for (int i = 0; i < 8; ++i) {
    std::vector<Vec3> points = support::multi_plane_points();
    for (Vec3& p : points) p += i * Vec3(40, 40, 0);
    points.push_back(points.back() + Vec3(0, 0, 200));
    scene.tubes.push_back({i, CentreLine::through(points, 55), 7.5});
  }
  scene.bodies = {{100, HalfSpace{Vec3(0, 900, 0), -Vec3::UnitY()}},
                  {101, HalfSpace{Vec3(0, 0, -20), Vec3::UnitZ()}},
                  {102, Box{Vec3(300, 300, 150), Mat3::Identity(), Vec3(150, 9, 120)}},
                  {103, Box{Vec3(600, -50, 100), Mat3::Identity(), Vec3(80, 40, 60)}},
                  {104, Cylinder{Vec3(100, -60, 300), Vec3(500, -60, 350), 40}},
                  {105, Cylinder{Vec3(700, 100, 0), Vec3(700, 100, 300), 50}}};
  return scene;
}

void OurViewOfTenBends(benchmark::State& state) {
  const Scene scene{ten_bends(), {}};
  for (auto _ : state) benchmark::DoNotOptimize(project(scene, askew()));
}
BENCHMARK(OurViewOfTenBends)->Unit(benchmark::kMillisecond);

void KernelViewOfTenBends(benchmark::State& state) {
  const std::vector<SceneTube> tubes = ten_bends();
  for (auto _ : state) oracle::remove_hidden_lines(tubes, askew());
}
BENCHMARK(KernelViewOfTenBends)->Unit(benchmark::kMillisecond);

void OurViewOfEightPipesAndSixFixtures(benchmark::State& state) {
  const Scene scene = eight_pipes_six_fixtures();
  const View view = state.range(0) == 0 ? View::front() : View::isometric();
  for (auto _ : state) benchmark::DoNotOptimize(project(scene, view));
}
BENCHMARK(OurViewOfEightPipesAndSixFixtures)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void KernelViewOfEightPipes(benchmark::State& state) {
  const Scene scene = eight_pipes_six_fixtures();
  for (auto _ : state) oracle::remove_hidden_lines(scene.tubes, View::isometric());
}
BENCHMARK(KernelViewOfEightPipes)->Unit(benchmark::kMillisecond)->Iterations(2);

}  // namespace
}  // namespace halfhard

BENCHMARK_MAIN();
