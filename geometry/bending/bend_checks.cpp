#include "geometry/bending/bend_checks.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "geometry/base/tolerances.h"
#include "geometry/bending/check_dimension.h"
#include "geometry/bending/forming.h"

namespace halfhard {
namespace {

constexpr double kStep_deg = 0.01;       // of the difference that a degree's movement is taken from
constexpr double kInThePlane_mm = 1e-6;  // rounding of a point that lies in the bender's plane

using Reading = std::function<double(const FormedPiece&)>;

// A check with what the angle tolerance moves it by.
struct Proof {
  BendCheck check;
  double moved_mm = 0;
  bool shows() const { return moved_mm >= kLeastTolerance_mm; }
};

// The piece just after a bend, and the same a little wrong.
struct Made {
  const Run& run;
  const Bend& bend;
  FormedPiece right, flatter, turned;
  FormedPiece flat_by_tolerance, turned_by_tolerance, turned_back_by_tolerance;
  double length_tolerance_mm;

  double per_degree_angle(const Reading& reading) const { return (reading(right) - reading(flatter)) / kStep_deg; }
  double per_degree_turn(const Reading& reading) const { return (reading(turned) - reading(right)) / kStep_deg; }
  // What the angle tolerance moves a reading by, in the angle or in the turn, the way round that moves it less.
  double moved_by_angle(const Reading& reading) const { return std::abs(reading(flat_by_tolerance) - reading(right)); }
  double moved_by_turn(const Reading& reading) const {
    return std::min(std::abs(reading(turned_by_tolerance) - reading(right)),
                    std::abs(reading(turned_back_by_tolerance) - reading(right)));
  }
  double tolerance_mm(double moved_mm) const {
    return std::max(kLeastTolerance_mm, std::min(length_tolerance_mm, moved_mm));
  }
};

Proof as_proof(const Made& made, const LocatedCheck& located, bool of_turn) {
  Proof proof;
  BendCheck& check = proof.check;
  check.kind = located.kind;
  check.dimension = located.check;
  check.per_degree_angle_mm = made.per_degree_angle(located.reading);
  check.per_degree_turn_mm = made.per_degree_turn(located.reading);
  // A tape along a leg proves the mark, not the angle.
  const bool of_mark = located.kind == CheckKind::along;
  if (!of_mark) proof.moved_mm = of_turn ? made.moved_by_turn(located.reading) : made.moved_by_angle(located.reading);
  check.dimension.tolerance_mm = of_mark ? made.length_tolerance_mm : made.tolerance_mm(proof.moved_mm);
  return proof;
}

// How high the middle of an end face stands off the plane of the legs at a bend that is made, on the side of the cross
// product of their directions of travel.
double height_mm(const FormedPiece& piece, int bend, End of) {
  const int corner = piece.intersection_of(bend);
  const Vec3 normal = piece.line.leg_direction(corner - 1).cross(piece.line.leg_direction(corner)).normalized();
  const Vec3& end = of == End::datum ? piece.line.points().front() : piece.line.points().back();
  return (end - piece.line.points()[corner]).dot(normal);
}

// The piece is laid so that the end stands above the bench, whichever way it is turned for that.
std::string height_text(int bend, End of, double mm) {
  return "lay the legs on both sides of bend " + std::to_string(bend) +
         " flat on the bench so that, from the start end, it turns " + (mm < 0 ? "right" : "left") +
         ": the middle of the " + (of == End::datum ? "start" : "far") +
         " end stands this far above the middle of the tube that lies flat";
}

std::vector<Proof> heights(const Made& made) {
  std::vector<Proof> found;
  for (const int bend : made.right.bends) {
    for (const End of : {End::datum, End::free}) {
      const auto reading = [&](const FormedPiece& piece) { return height_mm(piece, bend, of); };
      Proof proof;
      proof.moved_mm = made.moved_by_turn(reading);
      BendCheck& check = proof.check;
      check.kind = CheckKind::height;
      check.first_leg = bend;
      check.second_leg = bend + 1;
      check.of = of;
      check.dimension.mm = reading(made.right);
      if (std::abs(check.dimension.mm) < kInThePlane_mm) check.dimension.mm = 0;
      check.per_degree_angle_mm = made.per_degree_angle(reading);
      check.per_degree_turn_mm = made.per_degree_turn(reading);
      check.dimension.tolerance_mm = made.tolerance_mm(proof.moved_mm);
      check.dimension.text = height_text(bend, of, check.dimension.mm);
      found.push_back(std::move(proof));
    }
  }
  return found;
}

bool has_a_neighbour(const Made& made) { return made.right.bends.size() > 1; }

void add_angle_checks(const Made& made, std::vector<BendCheck>& checks, std::string& by_gauge) {
  Proof first = as_proof(made, located_check(made.run, made.bend.number, made.length_tolerance_mm), false);
  checks.push_back(first.check);
  if (first.shows()) return;
  Proof more = as_proof(made, straight_check(made.run, made.bend.number, false), false);
  if (more.shows())
    checks.push_back(std::move(more.check));
  else
    by_gauge = "No tape shows this angle: check it with the folding rule or an angle gauge.";
}

// The height that the turn moves most; where it does not tell the two hands apart the highest one, too; where it tells
// little of the turn (near square to the plane) a straight line that does.
void add_turn_checks(const Made& made, std::vector<BendCheck>& checks, std::string& by_gauge) {
  const std::vector<Proof> all = heights(made);
  const auto most = [&](auto measure) {
    return *std::max_element(all.begin(), all.end(),
                             [&](const Proof& a, const Proof& b) { return measure(a) < measure(b); });
  };
  const Proof turns = most([](const Proof& proof) { return proof.moved_mm; });
  const Proof highest = most([](const Proof& proof) { return std::abs(proof.check.dimension.mm); });
  const auto tells_hands = [](const Proof& proof) {
    return 2 * std::abs(proof.check.dimension.mm) > proof.check.dimension.tolerance_mm;
  };
  checks.push_back(turns.check);
  if (!tells_hands(turns) && tells_hands(highest)) checks.push_back(highest.check);
  if (turns.shows()) return;
  Proof straight = as_proof(made, straight_check(made.run, made.bend.number, true), true);
  if (straight.shows()) {
    checks.push_back(std::move(straight.check));
  } else {
    by_gauge += std::string(by_gauge.empty() ? "" : " ") + "No tape shows this turn: check it with an angle gauge.";
  }
}

// See Bend::turn_height_mm.
void set_turn_heights(const Run& run, Bend& bend) {
  bend.turn_height_mm = bend.turn_across_mm = 0;
  const FormedPiece piece = before_bend(run, bend.made);
  const auto formed = [&](bool lower) {
    return std::any_of(piece.bends.begin(), piece.bends.end(),
                       [&](int number) { return lower ? number < bend.number : number > bend.number; });
  };
  const bool hook_is_lower = bend.hook == End::datum;
  std::optional<Vec3> chosen;
  for (const bool hook_side : {true, false}) {
    const bool lower = hook_side == hook_is_lower;
    if (!formed(lower)) continue;
    const Vec3 end = lower ? piece.line.points().front() : piece.line.points().back();
    if (chosen && std::abs(chosen->z()) >= kInThePlane_mm) continue;
    // The lever side speaks only where it lies off the plane and the hook side does not.
    if (chosen && std::abs(end.z()) < kInThePlane_mm) continue;
    chosen = end;
    bend.turn_of = lower ? End::datum : End::free;
  }
  if (!chosen) return;
  if (std::abs(chosen->z()) >= kInThePlane_mm) bend.turn_height_mm = chosen->z();
  bend.turn_across_mm = std::abs(chosen->y()) < kInThePlane_mm ? 0 : chosen->y();
}

}  // namespace

namespace {

// A bend that is no bend any more has no place to be read at.
Angle flatter_by(Angle angle, Angle tolerance) {
  return Angle::degrees(std::max(angle.degrees() - tolerance.degrees(), angle.degrees() / 2));
}

}  // namespace

void fill_checks(Run& run, double length_tolerance_mm, Angle angle_tolerance) {
  for (Bend& bend : run.bends) {
    const Angle step = Angle::degrees(kStep_deg);
    const Made made{run,
                    bend,
                    after_bend(run, bend.made),
                    formed_piece(run, bend.made, bend.angle - step),
                    formed_piece(run, bend.made, bend.angle, step),
                    formed_piece(run, bend.made, flatter_by(bend.angle, angle_tolerance)),
                    formed_piece(run, bend.made, bend.angle, angle_tolerance),
                    formed_piece(run, bend.made, bend.angle, -angle_tolerance),
                    length_tolerance_mm};
    std::vector<BendCheck> checks;
    std::string by_gauge;
    add_angle_checks(made, checks, by_gauge);
    if (has_a_neighbour(made)) add_turn_checks(made, checks, by_gauge);
    bend.check = checks.front().dimension;
    bend.checks = std::move(checks);
    bend.by_gauge = std::move(by_gauge);
    set_turn_heights(run, bend);
  }
}

}  // namespace halfhard
