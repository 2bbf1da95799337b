// Measures the clearances of a plan and finds its drilled holes. Keeps what it measured by pair, so that after an edit
// only the pairs that it reaches are measured again.
#pragma once

#include <memory>
#include <optional>
#include <unordered_map>
#include <vector>

#include "geometry/distance/distance.h"
#include "geometry/distance/passages.h"
#include "geometry/plan/plan.h"

namespace halfhard {

class ClearanceBook {
 public:
  // Fills clearances and drillings of the plan from its runs and fixtures: run and
  // fixture, then two runs in the plan's order, then runs with themselves. Those within `list_clearances_within_mm` or
  // below what is required, and for each run its nearest fixture and nearest other run.
  // Reads nothing but these, the plan's rules and its drill_clearance_mm.
  void measure(Plan& plan);

 private:
  struct RunSolid {
    std::shared_ptr<const Run> run;  // keeps the address, which is the key, from being used again
    TubeBody body;
  };
  struct FixtureSolid {
    std::shared_ptr<const Fixture> fixture;
    std::shared_ptr<const Obstacle> obstacle;
  };
  // All that a measured pair depends on: runs and fixtures are immutable and kept alive, so that their address stands
  // for their value.
  struct Key {
    const void* first;
    const void* second;
    double drill_clearance_mm = 0;
    friend bool operator==(const Key&, const Key&) = default;
  };
  struct KeyHash {
    std::size_t operator()(const Key& key) const;
  };
  // What is known of a pair: its separation, or that it is farther than `beyond_mm`.
  struct Measured {
    std::optional<Separation> separation;
    double beyond_mm = 0;
    std::vector<Passage> drilled;            // where the run goes through a body that may be drilled
    std::optional<Separation> beside_holes;  // of what is not in a hole, where it does not keep clear
  };

  struct Scene;
  const Measured& run_fixture(const RunSolid& run, const FixtureSolid& fixture, double limit_mm);
  const Measured& run_run(const RunSolid& first, const RunSolid& second, double limit_mm);
  const Measured& run_self(const RunSolid& run, double limit_mm);
  template <class Measure>
  const Measured& remembered(const Key& key, double limit_mm, Measure measure);
  void prepare(const Plan& plan);
  Key key_of(const Run& run, const Fixture& fixture) const;
  void list_fixtures(Plan& plan, std::size_t run);
  void list_runs(Plan& plan);
  void list_selves(Plan& plan);

  double drill_clearance_mm_ = 0;  // the plan's
  std::vector<RunSolid> runs_;
  std::vector<FixtureSolid> fixtures_;
  using Pairs = std::unordered_map<Key, Measured, KeyHash>;
  Pairs pairs_, pairs_before_;
};

}  // namespace halfhard
