// How long it takes to sweep one bend through its pull against everything that it could meet.
#include <benchmark/benchmark.h>

#include "geometry/bending/bender_sweep.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

void sweep(benchmark::State& state, const Run& run) {
  for (auto _ : state)
    for (int made = 1; made <= static_cast<int>(run.bends.size()); ++made)
      benchmark::DoNotOptimize(first_contact(run, made));
  state.counters["per bend"] =
      benchmark::Counter(static_cast<double>(run.bends.size()),
                         benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

void sweep_of_an_offset(benchmark::State& state) {
  sweep(state, *support::run_through("offset", support::offset_points(300, 70, Angle::degrees(45), 300)));
}
void sweep_of_four_bends(benchmark::State& state) {
  sweep(state, *support::run_through("four", support::multi_plane_points()));
}
void sweep_of_a_spiral(benchmark::State& state) {
  sweep(state,
        *support::run_through(
            "spiral",
            {{0, 0, 0}, {0, 0, 700}, {400, 0, 700}, {400, 0, 200}, {140, 0, 200}, {140, 0, 500}, {270, 0, 500}}));
}
// Random pieces of ten bends, seed printed by the label.
void sweep_of_ten_bends(benchmark::State& state) {
  std::mt19937 engine(static_cast<unsigned>(state.range(0)));
  state.SetLabel("seed " + std::to_string(state.range(0)));
  sweep(state, *support::run_through("ten", support::random_points(engine, 10)));
}

BENCHMARK(sweep_of_an_offset);
BENCHMARK(sweep_of_four_bends);
BENCHMARK(sweep_of_a_spiral);
BENCHMARK(sweep_of_ten_bends)->DenseRange(1, 5);

}  // namespace
}  // namespace halfhard

BENCHMARK_MAIN();
