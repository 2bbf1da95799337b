// Clearances against the solid kernel's distances on natural-seam solids, in one run: read the ratio off the last line.
#include <benchmark/benchmark.h>

#include <chrono>

#include "geometry/distance/distance.h"
#include "geometry/occt/body_solid.h"
#include "geometry/occt/tube_solid.h"
#include "tests/geometry/distance/random_tubes.h"

namespace halfhard {
namespace {

using testing::Dice;
using testing::random_line;

template <class Work>
double seconds(Work work) {
  const auto before = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - before).count();
}

// A run that does not cross itself: the kernel calls a crossing one's surroundings inside, and answers 0.
CentreLine clear_line(Dice& dice) {
  for (;;) {
    CentreLine line = random_line(dice, 10, 50, 250);
    const auto self = self_distance(line, 7.5);
    if (!self || self->distance_mm > 1) return line;
  }
}

// The same pairs by both, the solids as they are made for STEP, 15 x 0.7; solids and tubes made ready before. Counters: how many times faster, and the largest
// difference where the solids are apart.
void TwoTubesOfTenBendsAgainstTheKernel(benchmark::State& state) {
  double ours = 0, kernels = 0, difference = 0, sum = 0;
  Dice dice(20251);
  for (auto _ : state) {
    const CentreLine one = clear_line(dice), other = clear_line(dice);
    const Solid one_solid = tube_solid(one, 7.5, 6.8), other_solid = tube_solid(other, 7.5, 6.8);
    const TubeBody one_tube(one, 7.5), other_tube(other, 7.5);
    double found = 0, kernel = 0;
    constexpr int kTimes = 20;
    ours += seconds([&] {
              for (int i = 0; i < kTimes; ++i) {
                found = distance(one_tube, other_tube).distance_mm;
                sum += found;
              }
            }) /
            kTimes;
    kernels += seconds([&] { kernel = one_solid.distance_mm(other_solid); });
    if (found > 0) difference = std::max(difference, std::abs(found - kernel));
  }
  state.counters["times_faster"] = kernels / ours;
  state.counters["largest_difference_mm"] = difference;
  benchmark::DoNotOptimize(sum);
}
BENCHMARK(TwoTubesOfTenBendsAgainstTheKernel)->Iterations(40)->Unit(benchmark::kMillisecond);

void TubeAndBoxAgainstTheKernel(benchmark::State& state) {
  double ours = 0, kernels = 0, difference = 0, sum = 0;
  Dice dice(7);
  for (auto _ : state) {
    const CentreLine line = clear_line(dice);
    const Box box{dice.point(300), dice.attitude(), {dice.between(5, 90), dice.between(5, 90), dice.between(5, 90)}};
    const Solid tube_as_solid = tube_solid(line, 7.5, 6.8), box_as_solid = box_solid(box);
    const TubeBody tube(line, 7.5);
    const Obstacle body(Body{box, std::monostate{}});
    double found = 0, kernel = 0;
    constexpr int kTimes = 20;
    ours += seconds([&] {
              for (int i = 0; i < kTimes; ++i) {
                found = distance(tube, body).distance_mm;
                sum += found;
              }
            }) /
            kTimes;
    kernels += seconds([&] { kernel = tube_as_solid.distance_mm(box_as_solid); });
    if (found > 0) difference = std::max(difference, std::abs(found - kernel));
  }
  state.counters["times_faster"] = kernels / ours;
  state.counters["largest_difference_mm"] = difference;
  benchmark::DoNotOptimize(sum);
}
BENCHMARK(TubeAndBoxAgainstTheKernel)->Iterations(40)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace halfhard

BENCHMARK_MAIN();
