// One value changed: the planner's own rebuild against a full one, in one run. Both give the same plan (tests/modeller/planner).
#include <benchmark/benchmark.h>

#include <fstream>
#include <iterator>

#include "exporters/report/report.h"
#include "modeller/job/read_job.h"
#include "modeller/planner/planner.h"
#include "tests/benchmarks/ten_runs.h"

namespace halfhard {
namespace {

std::string sample(const char* name) {
  std::ifstream file(std::string(HALFHARD_SAMPLES) + "/" + name);
  return {std::istreambuf_iterator<char>(file), {}};
}

void one_value(benchmark::State& state, const std::string& text, const std::string& name, const char* a, const char* b,
               bool from_nothing) {
  JobSource source(text, {});
  Planner planner;
  bool turn = false;
  for (auto _ : state) {
    turn = !turn;
    const JobReading reading = source.read({{name, turn ? a : b}});
    if (!reading.job) {
      state.SkipWithError(reading.problems[0].shown().c_str());
      break;
    }
    if (from_nothing) {
      benchmark::DoNotOptimize(plan_job(*reading.job));
    } else {
      benchmark::DoNotOptimize(planner.plan(*reading.job));
    }
  }
}

void eight_pipes_one_value(benchmark::State& state) {
  one_value(state, sample("basin-bank.json"), "rise_behind", "230", "231", false);
}
void eight_pipes_from_nothing(benchmark::State& state) {
  one_value(state, sample("basin-bank.json"), "rise_behind", "230", "231", true);
}
void ten_runs_one_value(benchmark::State& state) {
  one_value(state, ten_runs_and_fifty_fixtures(), "leg", "200", "201", false);
}
void ten_runs_from_nothing(benchmark::State& state) {
  one_value(state, ten_runs_and_fifty_fixtures(), "leg", "200", "201", true);
}

BENCHMARK(eight_pipes_one_value)->Unit(benchmark::kMicrosecond);
BENCHMARK(eight_pipes_from_nothing)->Unit(benchmark::kMicrosecond);
BENCHMARK(ten_runs_one_value)->Unit(benchmark::kMicrosecond);
BENCHMARK(ten_runs_from_nothing)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace halfhard

BENCHMARK_MAIN();
