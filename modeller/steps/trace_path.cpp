#include "modeller/steps/trace_path.h"

#include <algorithm>
#include <numbers>

#include "geometry/base/tolerances.h"
#include "geometry/curve/centreline.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

Walker walked(const PathContext& context, const std::vector<PathStep>& steps, const Unknowns& unknowns) {
  Walker walker(context, steps, unknowns);
  walker.walk();
  return walker;
}

const LegLength* leg_length_of(const PathStep& step) {
  if (const auto* go = std::get_if<GoStep>(&step)) return &go->by;
  if (const auto* bend = std::get_if<BendStep>(&step)) return &bend->by;
  return nullptr;
}

struct Asked {
  int rest = -1, offset_to = -1;  // step indices
  int goal_after(int step, const std::vector<PathStep>& steps) const {
    for (int i = step + 1; i < static_cast<int>(steps.size()); ++i) {
      if (std::holds_alternative<ToStep>(steps[i])) return i;
    }
    return static_cast<int>(steps.size());
  }
};

Asked what_is_asked(const std::vector<PathStep>& steps) {
  Asked asked;
  for (int i = 0; i < static_cast<int>(steps.size()); ++i) {
    const LegLength* length = leg_length_of(steps[i]);
    if (length && std::holds_alternative<Rest>(*length)) asked.rest = i;
    const auto* offset = std::get_if<OffsetStep>(&steps[i]);
    if (offset && offset->to_connection) asked.offset_to = i;
  }
  return asked;
}

// What is still missing to the goal of a step: the next `to` step's point, or the connection.
Vec3 missing(const Walker& walker, const std::vector<PathStep>& steps, int goal, const Vec3& end) {
  if (goal == static_cast<int>(steps.size())) return end - walker.at();
  return walker.context().target(std::get<ToStep>(steps[goal])) - walker.before_step()[goal];
}

// Lengths come in linearly, so one pass finds each; a taped leg before an offset whose angle depends on its shift
// needs a few more, each far closer than the one before.
constexpr int kPasses = 8;

// What an offset to the connection leaves over: all of it, and its part square to the offset's travel, without what a rest
// leg takes up. Nothing where the path leads nowhere with this shift.
struct LeftOver {
  Vec3 all = Vec3::Zero(), sideways = Vec3::Zero(), travel = Vec3::UnitZ();
};
std::optional<LeftOver> left_over(const PathContext& context, const std::vector<PathStep>& steps, const Asked& asked,
                                  const Vec3& end, const Unknowns& unknowns) {
  const Walker walker = walked(context, steps, unknowns);
  if (!walker.offset_to_direction) return std::nullopt;
  LeftOver left;
  left.travel = *walker.offset_to_direction;
  left.all = missing(walker, steps, asked.goal_after(asked.offset_to, steps), end);
  if (walker.rest_direction) left.all -= left.all.dot(*walker.rest_direction) * *walker.rest_direction;
  left.sideways = left.all - left.all.dot(left.travel) * left.travel;
  if (!left.all.allFinite()) return std::nullopt;
  return left;
}

// Newton's way in the plane square to the travel, for bends that turn with the offset before them. The shift that leaves
// nothing sideways, or nothing where this start leads to none.
std::optional<Vec3> shift_from(const PathContext& context, const std::vector<PathStep>& steps, const Asked& asked,
                               const Vec3& end, Unknowns at) {
  constexpr double kNear_mm = 1e-9, kAside_mm = 1e-4;
  constexpr int kNewtonPasses = 40;
  for (int pass = 0; pass < kNewtonPasses; ++pass) {
    const auto here = left_over(context, steps, asked, end, at);
    if (!here) return std::nullopt;
    if (here->sideways.norm() < kNear_mm) return at.shift;
    const Vec3 across[] = {any_square_to(here->travel), here->travel.cross(any_square_to(here->travel))};
    Eigen::Matrix2d slope;
    for (int i = 0; i < 2; ++i) {
      Unknowns aside = at;
      aside.shift += kAside_mm * across[i];
      const auto there = left_over(context, steps, asked, end, aside);
      if (!there) return std::nullopt;
      for (int j = 0; j < 2; ++j) slope(j, i) = (there->sideways - here->sideways).dot(across[j]) / kAside_mm;
    }
    const Eigen::Vector2d wanted(here->sideways.dot(across[0]), here->sideways.dot(across[1]));
    const Eigen::Vector2d step = -slope.fullPivLu().solve(wanted);
    if (!step.allFinite()) return std::nullopt;
    const Vec3 way = step[0] * across[0] + step[1] * across[1];
    double part = 1;
    for (;; part /= 2) {  // never farther off than before
      Unknowns tried = at;
      tried.shift += part * way;
      const auto there = left_over(context, steps, asked, end, tried);
      if (there && there->sideways.norm() < here->sideways.norm()) {
        at = tried;
        break;
      }
      if (part < 1e-4) return here->sideways.norm() < 1e-6 ? std::optional(at.shift) : std::nullopt;
    }
  }
  return std::nullopt;
}

// Where passing on what is missing does not settle: from all round, the shift that leaves least, then the smallest.
void settle_shift(const PathContext& context, const std::vector<PathStep>& steps, const Asked& asked, const Vec3& end,
                  Unknowns& unknowns) {
  const auto now = left_over(context, steps, asked, end, unknowns);
  const auto first = left_over(context, steps, asked, end, Unknowns{});
  if ((now && now->sideways.norm() < 1e-7) || !first) return;
  constexpr int kRound = 12, kStarts = 3 * kRound;
  constexpr double kFar[] = {1, 0.3, 3};
  double least = kLargestLength_mm;
  const Vec3 across = any_square_to(first->travel);
  const double far = std::max(10.0, first->sideways.norm());
  for (int i = 0; i < kStarts && least > 1e-4; ++i) {
    Unknowns start = unknowns;
    start.shift =
        Eigen::AngleAxisd(2 * std::numbers::pi * i / kRound, first->travel) * (kFar[i / kRound] * far * across);
    const auto shift = shift_from(context, steps, asked, end, start);
    if (!shift) continue;
    start.shift = *shift;
    const auto left = left_over(context, steps, asked, end, start);
    if (!left) continue;
    const double cost = left->all.norm() + 1e-6 * shift->norm();
    if (cost < least) {
      least = cost;
      unknowns.shift = *shift;
    }
  }
}

Unknowns solve(const PathContext& context, const std::vector<PathStep>& steps, const Asked& asked, const Vec3& end) {
  Unknowns unknowns;
  for (int pass = 0; pass < kPasses; ++pass) {
    if (asked.offset_to >= 0) {
      const Walker walker = walked(context, steps, unknowns);
      if (!walker.offset_to_direction) return unknowns;
      const Vec3& travel = *walker.offset_to_direction;
      Vec3 sideways = missing(walker, steps, asked.goal_after(asked.offset_to, steps), end);
      // The rest leg takes what lies along it; the offset takes what is then left square to travel.
      if (walker.rest_direction) sideways -= sideways.dot(*walker.rest_direction) * *walker.rest_direction;
      unknowns.shift += sideways - sideways.dot(travel) * travel;
    }
    if (asked.rest >= 0) {
      const Walker walker = walked(context, steps, unknowns);
      if (!walker.rest_direction) return unknowns;
      unknowns.rest_mm += missing(walker, steps, static_cast<int>(steps.size()), end).dot(*walker.rest_direction);
    }
    if (asked.offset_to < 0) break;
  }
  if (asked.offset_to < 0) return unknowns;
  const Vec3 before = unknowns.shift;
  settle_shift(context, steps, asked, end, unknowns);
  if (asked.rest >= 0 && unknowns.shift != before) {
    const Walker walker = walked(context, steps, unknowns);
    if (walker.rest_direction)
      unknowns.rest_mm += missing(walker, steps, static_cast<int>(steps.size()), end).dot(*walker.rest_direction);
  }
  return unknowns;
}

void refuse_misplaced_rest(const std::vector<PathStep>& steps, const Asked& asked, const std::optional<Vec3>& end,
                           Problems& problems) {
  const auto refuse = [&](int step, const char* key, const std::string& what) {
    const std::string pointer = std::visit([](const auto& s) { return s.pointer; }, steps[step]);
    if (!end) {
      problems.push_back({pointer + key, what + " in a run without \"to\"", "a run that ends at a connection"});
    }
  };
  if (asked.rest >= 0) {
    refuse(asked.rest, "/by", "\"rest\"");
    const int goal = asked.goal_after(asked.rest, steps);
    if (goal < static_cast<int>(steps.size())) {
      problems.push_back({std::get<ToStep>(steps[goal]).pointer, "a \"to\" step after a leg \"by\": \"rest\"",
                          "either a \"to\" step, which finds its own length, or \"rest\""});
    }
  }
  if (asked.offset_to >= 0) refuse(asked.offset_to, "/offset", "\"offset\": \"to\"");
}

// Drops the turns under 0.01 degree and moves the offsets' indices along.
void straighten(TracedPath& path) {
  Straightened straight = without_straight_intersections(path.points);
  for (auto dropped = straight.dropped.rbegin(); dropped != straight.dropped.rend(); ++dropped) {
    const Angle turned = turn(path.points[*dropped - 1], path.points[*dropped], path.points[*dropped + 1]);
    // Legs written in exactly one direction are one leg and need no word.
    if (turned.degrees() > 1e-7) {
      path.notes.push_back(
          {"no-bend", "a turn under 0.01 degree is no bend: that intersection is left out", path.pointers[*dropped]});
    }
    path.pointers.erase(path.pointers.begin() + *dropped);
    std::erase_if(path.offsets, [&](const LaidOffset& offset) {
      return offset.first_point == *dropped || offset.first_point + 1 == *dropped;
    });
    for (LaidOffset& offset : path.offsets) {
      if (offset.first_point > *dropped) --offset.first_point;
    }
  }
  path.points = std::move(straight.points);
}

void refuse_short_legs(TracedPath& path, double radius_mm, const std::string& run_pointer) {
  const std::vector<double> lacking = shortage_mm(path.points, radius_mm);
  for (int leg = 0; leg < static_cast<int>(lacking.size()); ++leg) {
    if (lacking[leg] <= kStraightSlack_mm) continue;
    const double length = (path.points[leg + 1] - path.points[leg]).norm();
    const std::string& at_end = path.pointers[leg + 1];
    const std::string& at_start = path.pointers[leg];
    path.problems.push_back({at_end.empty() ? (at_start.empty() ? run_pointer : at_start) : at_end,
                             "leg " + std::to_string(leg + 1) + " of " + shown_number(length, 3) +
                                 " mm between intersections, too short for the tangents of its bends",
                             "at least " + shown_number(length + lacking[leg], 3) + " mm at a former radius of " +
                                 shown_number(radius_mm, 3) + " mm"});
  }
}

}  // namespace

TracedPath trace_path(const PathContext& context, const std::vector<PathStep>& steps, const std::optional<Vec3>& end,
                      const std::string& run_pointer) {
  TracedPath path;
  const Asked asked = what_is_asked(steps);
  refuse_misplaced_rest(steps, asked, end, path.problems);
  if (!path.problems.empty()) return path;

  const Unknowns unknowns = end ? solve(context, steps, asked, *end) : Unknowns{};
  const Walker walker = walked(context, steps, unknowns);
  path.points = walker.points();
  path.pointers = walker.pointers();
  path.offsets = walker.offsets();
  path.notes = walker.notes();
  path.problems = walker.problems();
  if (!path.problems.empty()) return path;

  if (asked.rest >= 0 && unknowns.rest_mm <= kStraightSlack_mm) {
    const std::string pointer = std::visit([](const auto& s) { return s.pointer; }, steps[asked.rest]);
    path.problems.push_back({pointer + "/by", "\"rest\" comes out as " + shown_number(unknowns.rest_mm, 3) + " mm",
                             "more than 0: shorter legs before it, or a connection farther off"});
    return path;
  }
  for (const Vec3& point : path.points) {
    if (point.allFinite() && point.cwiseAbs().maxCoeff() <= kLargestLength_mm) continue;
    path.problems.push_back({run_pointer, "a path that leads beyond 1e8 mm", "coordinates up to 1e8 mm"});
    return path;
  }
  for (std::size_t i = 0; i + 1 < path.points.size(); ++i) {
    if ((path.points[i + 1] - path.points[i]).norm() > kStraightSlack_mm) continue;
    path.problems.push_back({path.pointers[i].empty() ? run_pointer : path.pointers[i], "a leg of no length",
                             "legs longer than 0 once the tape's faces are taken off"});
    return path;
  }
  straighten(path);
  refuse_short_legs(path, context.radius_mm, run_pointer);
  return path;
}

}  // namespace halfhard
