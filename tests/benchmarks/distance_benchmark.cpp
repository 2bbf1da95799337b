// Clearances against their peers in one run: a general solid kernel, and brute force over boxes.
#include <benchmark/benchmark.h>

#include "geometry/distance/distance.h"
#include "geometry/distance/proximity.h"
#include "tests/geometry/distance/random_tubes.h"

namespace halfhard {
namespace {

using testing::Dice;
using testing::random_line;

struct TwoTubes {
  CentreLine first, second;
};

// Pairs of 10-bend runs in each other's neighbourhood.
const std::vector<TwoTubes>& tube_pairs() {
  static const std::vector<TwoTubes> pairs = [] {
    std::vector<TwoTubes> made;
    Dice dice(20251);
    for (int i = 0; i < 50; ++i) {
      made.push_back({random_line(dice, 10, 50, 250), random_line(dice, 10, 50, 250)});
    }
    return made;
  }();
  return pairs;
}

void TwoTubesOfTenBends(benchmark::State& state) {
  std::size_t i = 0;
  for (auto _ : state) {
    const TwoTubes& pair = tube_pairs()[i++ % tube_pairs().size()];
    benchmark::DoNotOptimize(distance(TubeBody(pair.first, 7.5), TubeBody(pair.second, 7.5)));
  }
}
BENCHMARK(TwoTubesOfTenBends);

void TwoTubesMadeReadyBefore(benchmark::State& state) {
  std::vector<std::pair<TubeBody, TubeBody>> ready;
  for (const TwoTubes& pair : tube_pairs()) ready.emplace_back(TubeBody(pair.first, 7.5), TubeBody(pair.second, 7.5));
  std::size_t i = 0;
  for (auto _ : state) {
    const auto& [first, second] = ready[i++ % ready.size()];
    benchmark::DoNotOptimize(distance(first, second));
  }
}
BENCHMARK(TwoTubesMadeReadyBefore);

void TubeAndBox(benchmark::State& state) {
  Dice dice(7);
  std::vector<Obstacle> boxes;
  for (int i = 0; i < 50; ++i) {
    const Vec3 half(dice.between(5, 200), dice.between(5, 200), dice.between(5, 200));
    boxes.emplace_back(Body{Box{dice.point(300), dice.attitude(), half}, std::monostate{}});
  }
  std::size_t i = 0;
  for (auto _ : state) {
    const std::size_t k = i++ % boxes.size();
    benchmark::DoNotOptimize(distance(TubeBody(tube_pairs()[k].first, 7.5), boxes[k]));
  }
}
BENCHMARK(TubeAndBox);

void TubeAndCylinder(benchmark::State& state) {
  Dice dice(9);
  std::vector<Obstacle> bars;
  for (int i = 0; i < 50; ++i) {
    const Vec3 from = dice.point(300);
    bars.emplace_back(Body{Cylinder{from, from + dice.between(5, 400) * dice.direction(), dice.between(5, 100)}, {}});
  }
  std::size_t i = 0;
  for (auto _ : state) {
    const std::size_t k = i++ % bars.size();
    benchmark::DoNotOptimize(distance(TubeBody(tube_pairs()[k].first, 7.5), bars[k]));
  }
}
BENCHMARK(TubeAndCylinder);

void TubeAndPlane(benchmark::State& state) {
  Dice dice(10);
  std::vector<Obstacle> planes;
  for (int i = 0; i < 50; ++i) planes.emplace_back(Body{HalfSpace{dice.point(900), dice.direction()}, {}});
  std::size_t i = 0;
  for (auto _ : state) {
    const std::size_t k = i++ % planes.size();
    benchmark::DoNotOptimize(distance(TubeBody(tube_pairs()[k].first, 7.5), planes[k]));
  }
}
BENCHMARK(TubeAndPlane);

// Bodies in every attitude, each moved by `motion`, against the same runs.
template <class Motion>
void tubes_and_moving_boxes(benchmark::State& state, const Motion& motion) {
  Dice dice(8);
  std::vector<TubeBody> tubes;
  std::vector<Obstacle> boxes;
  for (int i = 0; i < 50; ++i) {
    const Vec3 half(dice.between(5, 200), dice.between(5, 200), dice.between(5, 200));
    const Vec3 middle = dice.point(state.range(0));
    const Mat3 attitude = dice.attitude();
    boxes.emplace_back(Body{Box{middle, attitude, half}, motion(dice, attitude)});
    tubes.emplace_back(tube_pairs()[i].first, 7.5);
  }
  std::size_t i = 0;
  for (auto _ : state) {
    const std::size_t k = i++ % boxes.size();
    benchmark::DoNotOptimize(distance(tubes[k], boxes[k]));
  }
}

// Near, so that most meet, and far, so that most are apart and nearest at an end.
void TubeAndSwungBox(benchmark::State& state) {
  tubes_and_moving_boxes(state, [](Dice& dice, const Mat3&) {
    return Swing{dice.point(300), dice.direction(), Angle::degrees(dice.between(-120, 120))};
  });
}
BENCHMARK(TubeAndSwungBox)->Arg(300)->Arg(2000);

void TubeAndDoor(benchmark::State& state) {
  tubes_and_moving_boxes(state, [](Dice& dice, const Mat3& attitude) {
    return Swing{dice.point(300), attitude.col(2), Angle::degrees(dice.between(-120, 120))};
  });
}
BENCHMARK(TubeAndDoor)->Arg(300)->Arg(2000);

void TubeAndSlidBox(benchmark::State& state) {
  tubes_and_moving_boxes(state,
                         [](Dice& dice, const Mat3&) { return Slide{dice.between(10, 400) * dice.direction()}; });
}
BENCHMARK(TubeAndSlidBox)->Arg(300)->Arg(2000);

// Runs of 10 bends at a constant number of neighbours a run: the room grows with the count.
std::vector<CentreLine> many_runs(int count) {
  Dice dice(99);
  std::vector<CentreLine> runs;
  const double reach = 2000 * std::cbrt(count / 1000.0);
  for (int i = 0; i < count; ++i) runs.push_back(random_line(dice, 10, 50, reach));
  return runs;
}

void PairsNearerThan25(benchmark::State& state) {
  const std::vector<CentreLine> runs = many_runs(static_cast<int>(state.range(0)));
  std::size_t pairs = 0;
  for (auto _ : state) {
    std::vector<TubeBody> tubes;
    tubes.reserve(runs.size());
    for (const CentreLine& run : runs) tubes.emplace_back(run, 7.5);
    pairs = pairs_nearer_than(25, tubes).size();
  }
  state.counters["pairs"] = static_cast<double>(pairs);
}
BENCHMARK(PairsNearerThan25)->Arg(1000)->Arg(10000)->Unit(benchmark::kMillisecond);

void PairsByBoxesOnly(benchmark::State& state) {
  const std::vector<CentreLine> runs = many_runs(static_cast<int>(state.range(0)));
  for (auto _ : state) {
    std::vector<TubeBody> tubes;
    for (const CentreLine& run : runs) tubes.emplace_back(run, 7.5);
    std::size_t pairs = 0;
    for (std::size_t i = 0; i < tubes.size(); ++i) {
      for (std::size_t j = i + 1; j < tubes.size(); ++j) {
        if (distance_nearer_than(25, tubes[i], tubes[j])) ++pairs;
      }
    }
    benchmark::DoNotOptimize(pairs);
  }
}
BENCHMARK(PairsByBoxesOnly)->Arg(1000)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace halfhard

BENCHMARK_MAIN();
