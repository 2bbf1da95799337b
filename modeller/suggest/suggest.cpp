#include "modeller/suggest/suggest.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "geometry/base/require.h"
#include "modeller/planner/planner.h"
#include "modeller/suggest/families.h"
#include "modeller/suggest/steps_from_points.h"
#include "modeller/suggest/stopped_by.h"
#include "modeller/suggest/surroundings.h"

namespace halfhard {
namespace {

constexpr int kMostBends = 6;
constexpr std::size_t kMostJudged = 1500;  // of one family with one number of bends, shortest first

struct Candidate {
  Points points;
  Standing standing;
};

std::vector<double> angles_of(const Points& points) {
  std::vector<double> angles_deg;
  for (std::size_t i = 1; i + 1 < points.size(); ++i) {
    const double degrees = turn(points[i - 1], points[i], points[i + 1]).degrees();
    const double tenth = std::round(degrees * 10) / 10;
    angles_deg.push_back(std::abs(degrees - tenth) < 1e-6 ? tenth : degrees);
  }
  return angles_deg;
}

bool all_standard(const std::vector<double>& angles_deg) {
  return std::all_of(angles_deg.begin(), angles_deg.end(), [](double degrees) {
    return degrees == 90 || degrees == 45 || degrees == 30 || degrees == 60 || degrees == 22.5 || degrees == 120;
  });
}

// Fewest bends, then no made-up angle, then the shortest, then the clearest.
bool better(const Candidate& a, const Candidate& b) {
  const auto rank = [](const Candidate& c) {
    return std::tuple(c.standing.bends, !all_standard(angles_of(c.points)), c.standing.cut_length_mm,
                      -c.standing.least_clearance_mm);
  };
  return rank(a) < rank(b);
}

// Which way each leg goes: paths that differ in lengths only are one idea.
std::vector<int> idea_of(const Points& points) {
  std::vector<int> idea;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const Vec3 way = (points[i + 1] - points[i]).normalized();
    for (int axis = 0; axis < 3; ++axis) idea.push_back(static_cast<int>(std::lround(way[axis] * 5.3)));
  }
  return idea;
}

double rough_length(const Points& points) {
  double sum = 0;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) sum += (points[i + 1] - points[i]).norm();
  return sum;
}

class Shortlist {
 public:
  explicit Shortlist(const Surroundings& scene) : scene_(scene) {}

  void judge_all(std::vector<Points> family) {
    std::stable_sort(family.begin(), family.end(),
                     [](const Points& a, const Points& b) { return rough_length(a) < rough_length(b); });
    if (family.size() > kMostJudged) family.resize(kMostJudged);
    for (Points& points : family) {
      if (auto standing = judge(scene_, points)) keep({std::move(points), std::move(*standing)});
    }
  }
  std::vector<Candidate> ranked() {
    std::stable_sort(kept_.begin(), kept_.end(), better);
    return kept_;
  }
  bool empty() const { return kept_.empty(); }
  std::size_t ideas() const { return kept_.size(); }

 private:
  // The best of each idea.
  void keep(Candidate candidate) {
    for (Candidate& known : kept_) {
      if (idea_of(known.points) != idea_of(candidate.points)) continue;
      if (better(candidate, known)) known = std::move(candidate);
      return;
    }
    kept_.push_back(std::move(candidate));
  }

  const Surroundings& scene_;
  std::vector<Candidate> kept_;
};

JobRun& run_of(Job& job, const std::string& name) {
  const auto found =
      std::find_if(job.runs.begin(), job.runs.end(), [&](const JobRun& run) { return run.name == name; });
  HALFHARD_REQUIRE(found != job.runs.end());
  return *found;
}

// The last word: the job with the path in it, planned as any other.
bool planner_agrees(Job& job, const std::string& name, const std::vector<PathStep>& steps) {
  JobRun& run = run_of(job, name);
  run.path = steps;
  run.has_path = true;
  const Planned planned = plan_job(job);
  if (!planned.plan) return false;
  for (const auto& pipe : planned.plan->runs) {
    if (pipe->family != name) continue;
    if (planned.plan->failure_of(*pipe)) {
      // A finding about the whole job was there before; only what names this run speaks against the path.
      for (const Finding& finding : planned.plan->findings) {
        if (finding.severity == Severity::fail && (finding.where == pipe->name || finding.also == pipe->name))
          return false;
      }
    }
  }
  return true;
}

Shortlist shortlist(const Surroundings& scene) {
  Shortlist list(scene);
  list.judge_all(straight_candidate(scene));
  list.judge_all(one_bend_candidate(scene));
  list.judge_all(offset_candidates(scene));
  list.judge_all(passover_candidates(scene));
  list.judge_all(sequence_candidates(scene, 2));
  if (list.empty()) list.judge_all(whole_degree_offsets(scene));
  if (list.empty()) list.judge_all(joined_candidates(scene, 2));
  list.judge_all(square_candidates(scene, 2));
  list.judge_all(offset_and_bend_candidates(scene));
  list.judge_all(square_candidates(scene, 3));
  list.judge_all(offset_and_dog_leg_candidates(scene));
  const auto short_of_ideas = [&] { return list.ideas() < kMostSuggestions; };
  if (short_of_ideas()) list.judge_all(sequence_candidates(scene, 3));
  if (list.empty()) list.judge_all(joined_candidates(scene, 3));
  if (short_of_ideas()) list.judge_all(square_candidates(scene, 4));
  if (list.empty()) list.judge_all(sequence_candidates(scene, 4));
  for (int bends = 5; bends <= kMostBends && short_of_ideas(); ++bends) {
    list.judge_all(square_candidates(scene, bends));
    if (list.empty()) list.judge_all(sequence_candidates(scene, bends));
  }
  return list;
}

// A quick yes or no, for asking which limit stands in the way.
bool finds_any(const Surroundings& scene) {
  Shortlist list(scene);
  for (const auto& family : {straight_candidate, one_bend_candidate, offset_candidates, passover_candidates}) {
    list.judge_all(family(scene));
    if (!list.empty()) return true;
  }
  for (const int bends : {2, 3}) {
    list.judge_all(sequence_candidates(scene, bends));
    if (!list.empty()) return true;
  }
  list.judge_all(joined_candidates(scene, 2));
  return !list.empty();
}

std::string counted_bends(int bends) {
  if (bends == 0) return "no bend";
  return std::to_string(bends) + (bends == 1 ? " bend" : " bends");
}

std::string why(const SuggestedPath& path, const std::vector<SuggestedPath>& before) {
  std::string words;
  if (before.empty()) {
    words = "fewest bends found: " + counted_bends(path.bends);
  } else if (path.bends > before.back().bends) {
    words =
        counted_bends(path.bends) + ", " + std::to_string(path.bends - before.front().bends) + " more than the first";
  } else {
    words = "as many bends as the one before it, but longer";
  }
  if (path.bends > 0)
    words += all_standard(path.angles_deg) ? "; standard angles" : "; an angle that is no standard one";
  if (!path.drills.empty()) words += "; goes through '" + path.drills.front() + "'";
  return words;
}

}  // namespace

Suggested suggest_for(const Job& job, const std::string& run_name) {
  Job tried = job;
  JobRun& run = run_of(tried, run_name);
  run.has_path = false;
  run.path.clear();
  const Planned planned = plan_job(tried);
  HALFHARD_REQUIRE(planned.plan && run.to);
  const Surroundings scene = surroundings_of(tried, *planned.plan, run);
  Suggested suggested;
  for (const Candidate& candidate : shortlist(scene).ranked()) {
    if (static_cast<int>(suggested.paths.size()) == kMostSuggestions) break;
    std::vector<PathStep> steps = steps_from_points(candidate.points);
    if (!planner_agrees(tried, run_name, steps)) continue;
    const Standing& standing = candidate.standing;
    SuggestedPath path;
    path.steps = std::move(steps);
    path.bends = standing.bends;
    path.angles_deg = angles_of(candidate.points);
    path.cut_length_mm = standing.cut_length_mm;
    path.least_clearance_mm = standing.least_clearance_mm;
    path.nearest = standing.nearest;
    path.drills = standing.drills;
    path.why = why(path, suggested.paths);
    suggested.paths.push_back(std::move(path));
  }
  if (suggested.paths.empty()) suggested.stopped_by = stopped_by(scene, finds_any);
  return suggested;
}

std::vector<SuggestedPath> suggest_paths(const Job& job, const std::string& run_name) {
  return suggest_for(job, run_name).paths;
}

}  // namespace halfhard
