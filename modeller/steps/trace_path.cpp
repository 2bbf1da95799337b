#include "modeller/steps/trace_path.h"

#include <algorithm>

#include "geometry/centreline.h"
#include "geometry/shown.h"
#include "geometry/tolerances.h"

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
