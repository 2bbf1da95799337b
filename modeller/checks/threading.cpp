#include "modeller/checks/threading.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "geometry/distance/distance.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

// A hole closed all round, where it lies along the line.
struct Hole {
  const Drilling* drilling = nullptr;
  double in_mm = 0, out_mm = 0;
};

const Fixture* fixture_named(const Plan& plan, const std::string& name) {
  for (const auto& fixture : plan.fixtures)
    if (fixture->name == name) return fixture.get();
  return nullptr;
}

// Cut through an edge of its joist: the pipe is laid in.
bool is_open(const Fixture& fixture, const Drilling& hole) {
  if (!fixture.joist) return false;
  const Joist& joist = *fixture.joist;
  const double height = std::abs((hole.centre - joist.from).dot(joist.depth_direction));
  return height + hole.diameter_mm / 2 >= joist.depth_mm / 2;
}

// Where along the line a point of it lies.
double along_mm(const CentreLine& line, const Vec3& at) {
  double best = 0, nearest = 1e300;
  for (const Piece& piece : line.pieces()) {
    double along = 0;
    if (const auto* straight = std::get_if<Straight>(&piece.shape)) {
      along = std::clamp((at - straight->from).dot((straight->to - straight->from).normalized()), 0.0, piece.length_mm);
    } else {
      const Arc& arc = std::get<Arc>(piece.shape);
      const Vec3 out = at - arc.centre;
      const double angle = std::atan2(out.dot(arc.along), out.dot(arc.outwards));
      along = std::clamp(angle * arc.radius, 0.0, piece.length_mm);
    }
    const double distance = (line.point_at(piece.starts_at_mm + along) - at).norm();
    if (distance >= nearest) continue;
    nearest = distance;
    best = piece.starts_at_mm + along;
  }
  return best;
}

using Drilled = std::map<std::string, std::vector<const Drilling*>>;  // by run

std::vector<Hole> closed_holes(const Plan& plan, const Run& run, const std::vector<const Drilling*>& drillings) {
  std::vector<Hole> holes;
  for (const Drilling* drilling : drillings) {
    const Fixture* fixture = fixture_named(plan, drilling->fixture);
    if (!fixture || is_open(*fixture, *drilling)) continue;
    const double in = along_mm(run.line, drilling->centre);
    holes.push_back({drilling, in, in + drilling->depth_mm});
  }
  std::ranges::sort(holes, {}, &Hole::in_mm);
  return holes;
}

bool straight_between(const CentreLine& line, double from_mm, double until_mm) {
  return std::ranges::none_of(line.pieces(), [&](const Piece& piece) {
    return std::holds_alternative<Arc>(piece.shape) && piece.starts_at_mm < until_mm - 1e-6 &&
           piece.starts_at_mm + piece.length_mm > from_mm + 1e-6;
  });
}

// What stands in the way while the piece is slid by `shift`; empty where nothing does. Fixtures that it runs through or
// is joined to are not.
std::string in_the_way(const Plan& plan, const Run& run, const std::set<std::string>& drilled, const Vec3& shift) {
  const TubeBody tube(run.line, run.tube->outside_radius_mm());
  const auto joined = [&](const Fixture& fixture) {
    const auto has = [&](const Connection& end) {
      return std::ranges::find(end.joins, fixture.name) != end.joins.end();
    };
    return has(run.from) || (run.to && has(*run.to));
  };
  for (const auto& fixture : plan.fixtures) {
    if (drilled.contains(fixture->name) || joined(*fixture) ||
        !std::holds_alternative<std::monostate>(fixture->body.motion))
      continue;
    // Seen from the piece it is the fixture that slides, the other way.
    const Obstacle sliding(Body{fixture->body.shape, Slide{-shift}});
    if (const auto near = distance_nearer_than(0, tube, sliding); near && near->distance_mm < -kEnough_mm)
      return fixture->name;
  }
  return "";
}

struct Verdict {
  bool through = false;
  bool by_turning = false;  // its bends would have to pass the hole
  std::string blocked_by;   // it slides, but for this
};

// Every bend from one end to the hole passes it, one at a time.
bool bends_pass(const Run& run, const Hole& hole, double from_mm, double until_mm) {
  const double depth = hole.drilling->depth_mm;
  if (hole.drilling->diameter_mm < hole_for_bend_mm(run.line.radius_mm(), run.tube->outside_diameter_mm, depth))
    return false;
  double last_end = -1e300;
  for (const Piece& piece : run.line.pieces()) {
    if (!std::holds_alternative<Arc>(piece.shape)) continue;
    const double start = piece.starts_at_mm, end = start + piece.length_mm;
    if (end <= from_mm || start >= until_mm) continue;
    if (start - last_end < depth) return false;
    last_end = end;
  }
  return true;
}

Verdict thread(const Plan& plan, const Run& run, const std::vector<Hole>& holes, const std::set<std::string>& drilled) {
  Verdict verdict;
  const double whole = run.line.length_mm();
  // Out over its start end: all of it up to the last hole goes through; then the same from the far end.
  const struct {
    double from, until;
    double sign;
  } ways[] = {{0, holes.back().out_mm, 1}, {holes.front().in_mm, whole, -1}};
  for (const auto& way : ways) {
    if (!straight_between(run.line, way.from, way.until)) continue;
    const double slides = way.until - way.from;
    const Vec3 shift = way.sign * slides * holes.front().drilling->direction;
    const std::string blocked = in_the_way(plan, run, drilled, shift);
    if (blocked.empty()) return {true, false, ""};
    verdict.blocked_by = blocked;
  }
  if (holes.size() > 1) return verdict;
  for (const auto& way : ways)
    if (bends_pass(run, holes.front(), way.from, way.until)) return {true, true, ""};
  return verdict;
}

std::string holes_in_words(const std::vector<Hole>& holes) {
  std::vector<std::string> names;
  for (const Hole& hole : holes)
    if (std::ranges::find(names, hole.drilling->fixture) == names.end()) names.push_back(hole.drilling->fixture);
  std::string text = holes.size() == 1 ? "the hole in " : "the holes in ";
  for (std::size_t i = 0; i < names.size(); ++i)
    text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + in_quotes(names[i]);
  return text;
}

}  // namespace

double hole_for_bend_mm(double radius_mm, double outside_diameter_mm, double depth_mm) {
  const double throat = radius_mm - outside_diameter_mm / 2, half = std::min(depth_mm / 2, throat);
  return radius_mm + outside_diameter_mm / 2 - std::sqrt(throat * throat - half * half);
}

void check_threading(const PlanContext& context, std::vector<Finding>& findings) {
  const Plan& plan = context.plan;
  Drilled by_run;
  for (const Drilling& drilling : plan.drillings) by_run[drilling.run].push_back(&drilling);
  for (const auto& run : plan.runs) {
    const auto own = by_run.find(run->name);
    if (own == by_run.end()) continue;
    const std::vector<Hole> holes = closed_holes(plan, *run, own->second);
    if (holes.empty()) continue;
    std::set<std::string> drilled;
    for (const Drilling* drilling : own->second) drilled.insert(drilling->fixture);
    const Verdict verdict = thread(plan, *run, holes, drilled);
    if (verdict.through && !verdict.by_turning) continue;
    const std::string name = in_quotes(run->name), through = holes_in_words(holes);
    const Vec3 at = holes.front().drilling->centre;
    if (verdict.through) {
      findings.push_back(at_place(say("cannot-be-threaded", Severity::note, *run,
                                      name + " goes through " + through +
                                          " only by being turned as its bends pass: where the rest of it swings "
                                          "meanwhile was not looked at, try it before the hole is final."),
                                  at));
      continue;
    }
    const std::string why = verdict.blocked_by.empty() ? "it has bends on both sides, and a bend does not pass"
                                                       : "on its way in it meets " + in_quotes(verdict.blocked_by);
    findings.push_back(at_place(say("cannot-be-threaded", Severity::warn, *run,
                                    name + ": no way was found to bring the bent pipe through " + through + " (" + why +
                                        "): cut a slot or notch where that is allowed, or join it beside the hole.",
                                    {0, 0, "", "how a tube passes a hole"}),
                                at));
  }
}

}  // namespace halfhard
