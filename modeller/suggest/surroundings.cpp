#include "modeller/suggest/surroundings.h"

#include <algorithm>

#include "geometry/base/require.h"
#include "geometry/base/tolerances.h"
#include "geometry/distance/passages.h"
#include "geometry/rules/separation_rules.h"
#include "modeller/planner/connections.h"

namespace halfhard {
namespace {

template <class T>
const T& named(const std::vector<T>& all, const std::string& name) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const T& each) { return each.name == name; });
  HALFHARD_REQUIRE(found != all.end());  // the reader has seen to it
  return *found;
}

double left_out(const Connection& end, const std::string& fixture, double outside_diameter_mm) {
  const bool joins = std::find(end.joins.begin(), end.joins.end(), fixture) != end.joins.end();
  return joins ? end.joins_for_mm.value_or(outside_diameter_mm) : 0;
}

// The largest finished bend whose set angle the bender still reaches.
double most_finished_deg(const Bender& bender) {
  if (!bender.most_angle) return 179.9;
  double low = 0, high = std::min(179.9, bender.most_angle->degrees());
  if (bender.set_angle(Angle::degrees(high)) <= *bender.most_angle) return high;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (bender.set_angle(Angle::degrees(middle)) <= *bender.most_angle ? low : high) = middle;
  }
  return low;
}

void set_straights(Surroundings& scene, const JobRun& run, const Bender& bender, const Connection& from,
                   const Connection& to) {
  // As bends are made in order, the first has the datum end on one side and the last the free end on the other; which
  // of them is the hook's follows from `hook`. Where each bend has its own, the longer need of both is taken.
  const double hook = bender.shortest_end_mm.value_or(0), lever = bender.shortest_lever_mm.value_or(0);
  const auto* one = std::get_if<End>(&run.hook);
  const double datum_needs = !one ? std::max(hook, lever) : *one == End::datum ? hook : lever;
  const double free_needs = !one ? std::max(hook, lever) : *one == End::datum ? lever : hook;
  scene.between_mm = bender.shortest_between_mm.value_or(0);
  // Made from the datum end onwards, a bend held at the far end has the bend before it on the lever's side.
  if (!one || *one == End::free || !run.order.empty()) scene.between_mm = std::max(scene.between_mm, lever);
  scene.first_straight_mm =
      std::max({0.0, from.straight_needed_mm, datum_needs - from.insertion_mm - run.spare_datum_mm});
  scene.last_straight_mm = std::max({0.0, to.straight_needed_mm, free_needs - to.insertion_mm - run.spare_free_mm});
}

// A hole is only suggested where the drill stands within this of square to the face (common practice, no source).
constexpr double kDrillLean_deg = 30;

bool square_enough(const CentreLine& line, const Passage& passage, const Obstacle& body) {
  constexpr double kBeside_mm = 0.5;
  const auto leans = [&](const Vec3& outside, const Vec3& out) {
    const Foot foot = body.foot(outside);
    if (foot.distance <= kOnSurface_mm) return true;
    return angle_between(outside - foot.at, out).degrees() > kDrillLean_deg;
  };
  const Vec3 in_way = passage.direction, out_way = line.direction_at(passage.out_mm);
  return !leans(passage.in - kBeside_mm * in_way, -in_way) && !leans(passage.out + kBeside_mm * out_way, out_way);
}

struct Found {
  std::optional<Separation> separation;
  bool drilled = false;
};

Found look(const InTheWay& other, const CentreLine& line, const TubeBody& tube, double limit) {
  if (other.tube) return {distance_nearer_than(limit, tube, *other.tube), false};
  const bool part = other.left_out_at_start_mm > 0 || other.left_out_at_end_mm > 0;
  const TubeBody compared =
      part ? TubeBody(line, tube.radius_mm(), other.left_out_at_start_mm, line.length_mm() - other.left_out_at_end_mm)
           : tube;
  Found found{distance_nearer_than(limit, compared, *other.body), false};
  if (found.separation && found.separation->distance_mm < 0 && other.may_drill) {
    const std::vector<Passage> through = passages(line, *other.body);
    found.drilled = !through.empty() && std::all_of(through.begin(), through.end(), [&](const Passage& passage) {
      return passage.in_and_out() && square_enough(line, passage, *other.body);
    });
  }
  return found;
}

// Two bends with nothing straight between, turning the same way in one plane, and together no more than the bender turns.
bool one_pull(const Surroundings& scene, const std::vector<Vec3>& points, int leg) {
  const Vec3 a = points[leg] - points[leg - 1], b = points[leg + 1] - points[leg],
             c = points[leg + 2] - points[leg + 1];
  if ((a.cross(b).normalized() - b.cross(c).normalized()).norm() > 1e-5) return false;
  return (angle_between(a, b) + angle_between(b, c)).degrees() <= scene.one_pull_deg + 1e-6;
}

bool bender_can(const Surroundings& scene, const std::vector<Vec3>& points) {
  const int legs = static_cast<int>(points.size()) - 1;
  std::vector<double> setback(legs + 1, 0.0);
  for (int i = 1; i < legs; ++i) {
    const Angle angle = turn(points[i - 1], points[i], points[i + 1]);
    if (angle.degrees() > scene.most_angle_deg + 1e-9 || angle.degrees() < 1) return false;
    setback[i] = scene.bend_radius_mm * angle.tan_of_half();
  }
  for (int leg = 0; leg < legs; ++leg) {
    const double straight = (points[leg + 1] - points[leg]).norm() - setback[leg] - setback[leg + 1];
    double needed = leg == 0 || leg + 1 == legs ? 0 : scene.between_mm;
    if (leg == 0) needed = std::max(needed, scene.first_straight_mm);
    if (leg + 1 == legs) needed = std::max(needed, scene.last_straight_mm);
    if (straight >= needed - 1e-9) continue;
    if (leg == 0 || leg + 1 == legs || std::abs(straight) > 1e-6 || !one_pull(scene, points, leg)) return false;
  }
  return true;
}

// A ball's steps along the stretch, each as far as is certainly free; at least kLeastStep_mm, so it is soon over.
bool ball_passes(const InTheWay& other, const Vec3& from, const Vec3& to, double away_mm) {
  constexpr double kLeastStep_mm = 2;
  Bounds box;
  box.add(from);
  box.add(to);
  if (box.squared_distance(other.bounds()) > away_mm * away_mm) return true;
  const double length = (to - from).norm();
  for (double s = 0; s <= length;) {
    const double distance = other.body->signed_distance(from + s / length * (to - from));
    if (distance < away_mm - kClearanceSlack_mm) return false;
    s += std::max(kLeastStep_mm, distance - away_mm);
  }
  return true;
}

}  // namespace

Surroundings surroundings_of(const Job& job, const Plan& plan, const JobRun& run) {
  const Tube& tube = named(job.tubes, run.tube);
  const Bender& bender = named(job.benders, run.bender);
  Problems problems;
  const auto from = resolved_connection(connection_of(job, run.from), job, tube.outside_diameter_mm, problems);
  const auto to = resolved_connection(connection_of(job, *run.to), job, tube.outside_diameter_mm, problems);
  HALFHARD_REQUIRE(from && to);
  Surroundings scene;
  scene.start = from->at;
  scene.end = to->at;
  scene.leaves = from->towards;
  scene.arrives = -to->towards;
  scene.bend_radius_mm = bender.former_radius_mm;
  scene.outside_radius_mm = tube.outside_radius_mm() + run.lagging_mm;
  scene.most_angle_deg = most_finished_deg(bender);
  scene.one_pull_deg = bender.most_angle.value_or(Angle::degrees(180)).degrees();
  scene.insertions_mm = from->insertion_mm + to->insertion_mm;
  scene.keep_clear_mm = run.keep_clear_mm;
  set_straights(scene, run, bender, *from, *to);
  for (const JobBank& bank : job.banks) {
    if (bank.of != run.name) continue;
    for (int k = 1; k < bank.count; ++k) scene.pieces.push_back(k * bank.step);
  }
  for (const auto& fixture : plan.fixtures) {
    InTheWay other;
    other.name = fixture->name;
    other.body = std::make_shared<const Obstacle>(fixture->body);
    other.required_mm = std::max(fixture->keep_clear_mm, run.keep_clear_mm);
    other.left_out_at_start_mm = left_out(*from, fixture->name, tube.outside_diameter_mm);
    other.left_out_at_end_mm = left_out(*to, fixture->name, tube.outside_diameter_mm);
    other.may_drill = fixture->may_drill;
    scene.in_the_way.push_back(std::move(other));
  }
  for (const auto& pipe : plan.runs) {
    InTheWay other;
    other.name = pipe->name;
    other.tube = std::make_shared<const TubeBody>(pipe->line, pipe->outside_radius_mm());
    other.required_mm = std::max(
        {pipe->keep_clear_mm, run.keep_clear_mm, service_separation_mm(pipe->service, run.service, plan.rules)});
    scene.in_the_way.push_back(std::move(other));
  }
  return scene;
}

std::optional<Standing> judge(const Surroundings& scene, const std::vector<Vec3>& points) {
  if (!bender_can(scene, points)) return std::nullopt;
  const CentreLine first = CentreLine::through(points, scene.bend_radius_mm);
  Standing standing;
  standing.bends = first.bend_count();
  standing.cut_length_mm = first.length_mm() + scene.insertions_mm;
  const auto keep = [&](double distance_mm, const std::string& name) {
    if (distance_mm >= standing.least_clearance_mm) return;
    standing.least_clearance_mm = distance_mm;
    standing.nearest = name;
  };
  if (const auto self = self_distance(first, scene.outside_radius_mm)) {
    if (self->distance_mm < scene.keep_clear_mm - kClearanceSlack_mm) return std::nullopt;
  }
  const TubeBody alone(first, scene.outside_radius_mm);
  for (std::size_t k = 1; k < scene.pieces.size(); ++k) {
    // Pieces of a bank keep clear of one another, too.
    const auto beside = distance_nearer_than(scene.keep_clear_mm, alone, alone.moved(scene.pieces[k]));
    if (beside && beside->distance_mm < scene.keep_clear_mm - kClearanceSlack_mm) return std::nullopt;
  }
  for (const Vec3& slid : scene.pieces) {
    const CentreLine line = first.moved(slid);
    const TubeBody tube(line, scene.outside_radius_mm);
    for (const InTheWay& other : scene.in_the_way) {
      const Found found = look(other, line, tube, std::max(other.required_mm, standing.least_clearance_mm));
      if (found.drilled) {
        const bool known =
            std::find(standing.drills.begin(), standing.drills.end(), other.name) != standing.drills.end();
        if (!known) standing.drills.push_back(other.name);
      } else if (found.separation) {
        // A body known by its triangles must be clear by what they may be out as well.
        const double sure = found.separation->distance_mm - found.separation->uncertainty_mm;
        if (sure < other.required_mm - kClearanceSlack_mm) return std::nullopt;
        keep(found.separation->distance_mm, other.name);
      }
    }
  }
  return standing;
}

bool legs_are_free(const Surroundings& scene, const std::vector<Vec3>& points) {
  const std::size_t legs = points.size() - 1;
  std::vector<double> setback(points.size(), 0);
  for (std::size_t i = 1; i < legs; ++i) {
    setback[i] = scene.bend_radius_mm * turn(points[i - 1], points[i], points[i + 1]).tan_of_half();
  }
  for (const InTheWay& other : scene.in_the_way) {
    if (!other.body || other.may_drill) continue;
    const double away = scene.outside_radius_mm + other.required_mm;
    for (std::size_t leg = 0; leg < legs; ++leg) {
      const Vec3 way = (points[leg + 1] - points[leg]).normalized();
      // An end's disc is flat: it may stand nearer than a ball would.
      const double before = leg == 0 ? away + other.left_out_at_start_mm : setback[leg];
      const double after = leg + 1 == legs ? away + other.left_out_at_end_mm : setback[leg + 1];
      if ((points[leg + 1] - points[leg]).norm() - before - after < 1) continue;
      for (const Vec3& slid : scene.pieces) {
        const Vec3 from = points[leg] + before * way + slid, to = points[leg + 1] - after * way + slid;
        if (!ball_passes(other, from, to, away)) return false;
      }
    }
  }
  return true;
}

bool straight_is_free(const Surroundings& scene, const Vec3& from, const Vec3& to) {
  if ((to - from).norm() < 1e-6) return true;
  const TubeBody tube(CentreLine::through({from, to}, scene.bend_radius_mm), scene.outside_radius_mm);
  for (const InTheWay& other : scene.in_the_way) {
    if (other.may_drill || other.left_out_at_start_mm > 0 || other.left_out_at_end_mm > 0) continue;
    const auto found = other.tube ? distance_nearer_than(other.required_mm, tube, *other.tube)
                                  : distance_nearer_than(other.required_mm, tube, *other.body);
    // A required distance of 0 still forbids meeting.
    if (found && found->distance_mm < other.required_mm - kClearanceSlack_mm) return false;
  }
  return true;
}

}  // namespace halfhard
