// Not a benchmark of time: what `correct` and `calibrate` claim, tried on pieces bent and read by chance. Prints each
// claim as a number with its seed.
#include <cstdio>
#include <string>

#include "geometry/bending/bender_sweep.h"
#include "modeller/bench/calibrate.h"
#include "modeller/bench/correct.h"
#include "modeller/checks/other_ways.h"
#include "tests/support/bent_pieces.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

using support::Bench;
using support::run_through;

constexpr unsigned kSeed = 20260115;

struct Shape {
  const char* name;
  std::vector<Vec3> points;
};

std::vector<Shape> shapes() {
  return {{"offset", support::offset_points(220, 91.9, Angle::degrees(45), 260)},
          {"ninety", support::single_bend_points()},
          {"U", {{0, 0, 0}, {0, 0, 300}, {180, 0, 300}, {180, 0, 0}}},
          {"four bends out of plane", support::multi_plane_points()}};
}

struct Count {
  int of = 0, good = 0;
  void add(bool yes) {
    ++of;
    good += yes;
  }
  double per_cent() const { return of ? 100.0 * good / of : 0; }
};

enum class Taken { angles, angles_and_turns, all, gaps };
const char* words(Taken taken) {
  switch (taken) {
    case Taken::angles:
      return "angles";
    case Taken::angles_and_turns:
      return "angles, turns";
    case Taken::all:
      return "angles, turns, legs, ends apart";
    case Taken::gaps:
      return "gaps only";
  }
  return "";
}

bool take(Bench& bench, const PieceModel& model, const MadeShape& shape, Taken taken, MeasuredPiece& piece) {
  if (taken == Taken::gaps) {
    if (model.bend_count() < 2 || !legs_are_parallel(model, {1, 3})) return false;
    bench.read_gap(model, shape, {1, 3}, Over::outside, piece);
    return true;
  }
  bench.read_bends(model, shape, taken != Taken::angles, piece);
  if (taken != Taken::all) return true;
  bench.read_legs(model, shape, piece);
  piece.ends_apart_mm = bench.read(ends_apart_reading(model), shape, piece);
  return true;
}

struct Tally {
  Count angles, turns, end, alarms, bent, better;
  double worst_mm = 0;
};

void one_piece(Bench& bench, const Run& run, Taken taken, double out_deg, Tally& tally) {
  const PieceModel model(run, static_cast<int>(run.bends.size()));
  MeasuredPiece piece;
  const Eigen::VectorXd truth = bench.bent(model, out_deg, piece);
  const MadeShape shape = model.shape(truth);
  if (!take(bench, model, shape, taken, piece)) return;
  const CorrectionPlan made = plan_correction(run, {}, piece);
  tally.alarms.add(made.advice == Advice::measure_again);
  if (made.advice == Advice::measure_again) return;
  for (int bend = 0; bend < model.bend_count(); ++bend) {
    const auto i = static_cast<std::size_t>(bend);
    const auto holds = [&](const std::optional<KnownWithin>& known, int unknown, Count& count) {
      if (known) count.add(std::abs(nearest_turn_deg(known->value, truth[unknown]) - truth[unknown]) <= known->within);
    };
    holds(made.fit.angles_deg[i], model.angle_at(bend), tally.angles);
    if (model.turn_at(bend) >= 0) holds(made.fit.turns_deg[i], model.turn_at(bend), tally.turns);
  }
  const EndMiss before = end_miss(run, shape);
  if (made.end_within_mm > 0) tally.end.add((before.by - made.now.by).norm() <= made.end_within_mm);
  tally.bent.add(made.advice == Advice::bend);
  if (made.advice != Advice::bend) return;
  Eigen::VectorXd then = truth;
  for (const BendChange& change : made.changes)
    then[model.angle_at(change.number - 1)] += (change.to - change.from).degrees() + bench.normal(0.25);
  const EndMiss after = end_miss(run, model.shape(then));
  tally.better.add(after.mm() < before.mm());
  tally.worst_mm = std::max(tally.worst_mm, after.mm() - before.mm());
}

void simulate_correct() {
  std::printf("correct: 95 %% intervals that hold, false alarms, advice to bend, and how much of it helped; seed %u\n",
              kSeed);
  for (const Shape& shape : shapes()) {
    const auto run = run_through(shape.name, shape.points);
    for (const Taken taken : {Taken::angles, Taken::angles_and_turns, Taken::all, Taken::gaps}) {
      Bench bench(kSeed);
      Tally tally;
      for (int i = 0; i < 300; ++i) one_piece(bench, *run, taken, 2, tally);
      if (tally.alarms.of == 0) continue;
      std::printf(
          "  %-24s %-32s angles %5.1f %%  turns %5.1f %%  far end %5.1f %%  alarms %4.1f %%  bend %3d, better %5.1f "
          "%%, "
          "worst +%.1f mm\n",
          shape.name, words(taken), tally.angles.per_cent(), tally.turns.per_cent(), tally.end.per_cent(),
          tally.alarms.per_cent(), tally.bent.good, tally.better.per_cent(), tally.worst_mm);
    }
  }
}

void simulate_contradictions() {
  std::printf("contradictions: one angle of an offset misread by so much, all else read; seed %u\n", kSeed);
  const auto run = run_through("offset", shapes()[0].points);
  const PieceModel model(*run, 2);
  for (const double misread : {0.0, 2.0, 3.0, 5.0, 8.0}) {
    Bench bench(kSeed);
    Count found, named;
    for (int i = 0; i < 200; ++i) {
      MeasuredPiece piece;
      const MadeShape shape = model.shape(bench.bent(model, 2, piece));
      take(bench, model, shape, Taken::all, piece);
      bench.read_gap(model, shape, {1, 3}, Over::outside, piece);
      piece.bends[0].angle = *piece.bends[0].angle + Angle::degrees(misread);
      const CorrectionPlan made = plan_correction(*run, {}, piece);
      found.add(made.advice == Advice::measure_again);
      if (made.fit.contradictory) named.add(made.fit.worst == "the angle of bend 1");
    }
    std::printf("  %3.0f degrees: found %5.1f %%, rightly named %5.1f %%\n", misread, found.per_cent(),
                named.per_cent());
  }
}

void simulate_half_bent() {
  std::printf("half bent: far end within tolerance, the rest bent as planned and afresh; seed %u\n", kSeed);
  const auto run = run_through("four bends out of plane", support::multi_plane_points());
  for (const int done : {1, 2, 3}) {
    Bench bench(kSeed);
    Count planned, afresh, saved;
    for (int i = 0; i < 200; ++i) {
      MeasuredPiece piece;
      piece.bends_made = done;
      piece.angle_error = Angle::degrees(0.2);
      const PieceModel model(*run, done), whole(*run, 4);
      const Eigen::VectorXd truth = bench.bent(model, 2, piece);
      bench.read_bends(model, model.shape(truth), true, piece);
      const CorrectionPlan made = plan_correction(*run, {}, piece);
      saved.add(!made.still_to_bend.empty());
      if (made.still_to_bend.empty()) continue;
      Eigen::VectorXd all = whole.planned();
      all.head(truth.size()) = truth;  // bends are made in the order of their numbers
      const auto miss = [&] { return end_miss(*run, whole.shape(all)); };
      const Judge judge{{}};
      planned.add(judge.good(miss()));
      for (const NextBend& next : made.still_to_bend) {
        all[whole.angle_at(next.number - 1)] = next.angle.degrees();
        all[whole.hook_at(next.number - 1)] = next.mark_mm;  // this bender's mark offset is 0
        all[whole.turn_at(next.number - 1)] = next.rotation.degrees();
      }
      afresh.add(judge.good(miss()));
    }
    std::printf("  %d of 4 made: can be saved %5.1f %%; as planned %5.1f %%, afresh %5.1f %%\n", done, saved.per_cent(),
                planned.per_cent(), afresh.per_cent());
  }
}

void simulate_orders() {
  std::printf("another way to bend: random pieces of 4 to 6 bends that touch, and how many it helps; seed %u\n", kSeed);
  std::mt19937 engine(kSeed);
  Count touch, helped, clear;
  for (int i = 0; i < 200; ++i) {
    const auto run = run_through("piece", support::random_points(engine, 4 + i % 3));
    touch.add(first_contact(*run).has_value());
    if (!first_contact(*run)) continue;
    const auto way = clear_way(*run);
    helped.add(way.has_value());
    if (way) clear.add(!first_contact(bent_that_way(*run, *way)));
  }
  std::printf("  %d of %d touch; another order or hook helps %.1f %%, and of those %.1f %% touch nothing\n", touch.good,
              touch.of, helped.per_cent(), clear.per_cent());
}

Trial trial_of(Bench& bench, const std::vector<double>& angles_deg, double radius, double offset) {
  Trial trial;
  trial.outside_diameter_mm = 15;
  const auto mm = [&](double exact) { return exact + bench.normal(trial.length_error_mm); };
  for (const double angle_deg : angles_deg) {
    const Angle angle = Angle::degrees(angle_deg + bench.normal(1));
    TrialBend bend;
    bend.set = Angle::degrees(angle.degrees() * 92 / 90);
    bend.got = Angle::degrees(angle.degrees() + bench.normal(trial.angle_error.degrees()));
    const double starts = 150, cut = 420;
    bend.cut_length_mm = mm(cut);
    bend.mark_mm = mm(starts + offset);
    if (angle_deg > 170) {
      bend.leg_gap_mm = mm(radius * (1 - angle.cos()) + 15);
    } else {
      const double corner = (radius + 7.5) * angle.tan_of_half();
      bend.legs_mm = {mm(starts + corner), mm(cut - starts - radius * angle.radians() + corner)};
    }
    trial.bends.push_back(bend);
  }
  return trial;
}

void simulate_calibrate() {
  std::printf("calibrate: 95 %% intervals that hold and their mean half-widths; seed %u\n", kSeed);
  const std::vector<std::pair<const char*, std::vector<double>>> sets = {
      {"one 90", {90}},   {"three 90s", {90, 90, 90}}, {"45, 90, 120", {45, 90, 120}}, {"30, 45, 60", {30, 45, 60}},
      {"one 180", {180}}, {"90 and 180", {90, 180}}};
  for (const auto& [name, angles] : sets) {
    Bench bench(kSeed);
    Count radius, offset, refused;
    double radius_mm = 0, offset_mm = 0;
    for (int i = 0; i < 400; ++i) {
      const double true_radius = 50 + 10 * bench.unit(), true_offset = -5 + 10 * bench.unit();
      const Calibration made = calibrate(trial_of(bench, angles, true_radius, true_offset));
      refused.add(!made.usable);
      if (made.radius) {
        radius.add(std::abs(made.radius->mm - true_radius) <= made.radius->within_mm);
        radius_mm += made.radius->within_mm;
      }
      if (made.mark_offset) {
        offset.add(std::abs(made.mark_offset->mm - true_offset) <= made.mark_offset->within_mm);
        offset_mm += made.mark_offset->within_mm;
      }
    }
    std::printf("  %-12s radius %5.1f %% within %4.1f mm;  mark offset %5.1f %% within %4.1f mm;  refused %4.1f %%\n",
                name, radius.per_cent(), radius_mm / std::max(1, radius.of), offset.per_cent(),
                offset_mm / std::max(1, offset.of), refused.per_cent());
  }
}

}  // namespace
}  // namespace halfhard

int main() {
  halfhard::simulate_correct();
  halfhard::simulate_contradictions();
  halfhard::simulate_half_bent();
  halfhard::simulate_orders();
  halfhard::simulate_calibrate();
}
