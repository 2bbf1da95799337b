#include "modeller/planner/run_builder.h"

#include <algorithm>
#include <numeric>
#include <set>

#include "geometry/base/require.h"
#include "geometry/base/tolerances.h"
#include "geometry/bending/bend_checks.h"
#include "geometry/bending/bend_table.h"
#include "geometry/bending/check_dimension.h"
#include "modeller/planner/banks.h"
#include "modeller/steps/site_words.h"
#include "modeller/steps/trace_path.h"

namespace halfhard {
namespace {

constexpr double kKgPerMm3 = kCopperDensity_g_per_cm3 * 1e-6;
constexpr double kLitresPerMm3 = 1e-6;

TracedPath trace(const RunInputs& inputs) {
  PathContext context;
  context.radius_mm = inputs.bender->former_radius_mm;
  context.outside_diameter_mm = inputs.tube->outside_diameter_mm;
  context.start = inputs.from.at;
  context.target = [&](const ToStep& step) {
    const auto found = std::find_if(inputs.targets.begin(), inputs.targets.end(),
                                    [&](const auto& target) { return target.first == step.pointer; });
    HALFHARD_REQUIRE(found != inputs.targets.end());
    return found->second;
  };
  const auto end = inputs.to ? std::optional(inputs.to->at) : std::nullopt;
  return trace_path(context, inputs.run.path, end, inputs.run.pointer);
}

BendingOrder bending_order(const RunInputs& inputs, int bends, Problems& problems) {
  const JobRun& run = inputs.run;
  BendingOrder bending;
  if (const auto* one = std::get_if<End>(&run.hook)) {
    bending.hook.assign(bends, *one);
  } else {
    bending.hook = std::get<std::vector<End>>(run.hook);
    if (static_cast<int>(bending.hook.size()) != bends) {
      problems.push_back({run.pointer + "/hook", std::to_string(bending.hook.size()) + " hook sides",
                          "one a bend: this run has " + std::to_string(bends)});
    }
  }
  bending.order = run.order;
  if (bending.order.empty()) {
    bending.order.resize(bends);
    std::iota(bending.order.begin(), bending.order.end(), 1);
  }
  std::vector<int> sorted = bending.order;
  std::sort(sorted.begin(), sorted.end());
  std::vector<int> all(bends);
  std::iota(all.begin(), all.end(), 1);
  if (sorted != all) {
    problems.push_back({run.pointer + "/order", "an order that is not each bend once",
                        "each of the numbers 1 to " + std::to_string(bends) + " once"});
  }
  bending.datum_insertion_mm = inputs.from.insertion_mm;
  bending.free_insertion_mm = inputs.to ? inputs.to->insertion_mm : 0;
  bending.datum_spare_mm = run.spare_datum_mm;
  bending.free_spare_mm = run.spare_free_mm;
  return bending;
}

bool calibrated(const Bender& bender) {
  return bender.radius_measured && bender.mark_offset_mm.has_value() && !bender.spring_back.empty();
}

// Angle of an offset's plane, from its first word towards its second; 0 for a plain one.
Angle lean_of(const std::vector<WordShift>& shift) {
  if (shift.size() < 2) return Angle();
  return Angle::radians(std::atan2(shift[1].by_mm, shift[0].by_mm));
}

OffsetRow offset_row(const LaidOffset& laid) {
  OffsetRow row;
  row.first_bend = laid.first_point;
  row.true_mm = laid.true_mm;
  row.travel_mm = laid.true_mm / laid.angle.sin();
  row.advance_mm = laid.advance_mm;
  row.lean = lean_of(laid.shift);
  if (!laid.shift.empty()) row.first_word = laid.shift[0].word;
  if (laid.shift.size() > 1) row.second_word = laid.shift[1].word;
  return row;
}

// What a piece of a bank at equal gaps makes of the same offset: its legs keep their directions, not their lengths.
LaidOffset offset_along(const CentreLine& line, LaidOffset laid) {
  const Vec3 travel = line.leg_direction(laid.first_point - 1);
  const Vec3 way = line.points()[laid.first_point + 1] - line.points()[laid.first_point];
  laid.advance_mm = way.dot(travel);
  const Vec3 shift = way - laid.advance_mm * travel;
  laid.true_mm = shift.norm();
  for (WordShift& part : laid.shift) part.by_mm = shift.dot(*direction_of_word(part.word));
  return laid;
}

void measure(Run& run, const BendingOrder& bending) {
  run.cut_length_mm = run.line.length_mm() + bending.datum_insertion_mm + bending.free_insertion_mm;
  run.blank_length_mm = run.cut_length_mm + bending.datum_spare_mm + bending.free_spare_mm;
  run.metal_volume_mm3 = run.tube->metal_area_mm2() * run.cut_length_mm;
  run.mass_kg = run.metal_volume_mm3 * kKgPerMm3;
  run.contents_l = run.tube->bore_area_mm2() * run.cut_length_mm * kLitresPerMm3;
  run.straight_after_mm = run.line.straight_mm(run.line.leg_count() - 1) + bending.free_insertion_mm;
  if (run.line.bend_count() == 0) run.straight_after_mm += bending.datum_insertion_mm;
}

Run common_part(const RunInputs& inputs) {
  const JobRun& job_run = inputs.run;
  Run run;
  run.name = run.family = job_run.name;
  run.bank = inputs.bank_index;
  run.tube = inputs.tube;
  run.bender = inputs.bender;
  run.service = job_run.service;
  run.lagging_mm = job_run.lagging_mm;
  run.keep_clear_mm = job_run.keep_clear_mm;
  run.spare_datum_mm = job_run.spare_datum_mm;
  run.spare_free_mm = job_run.spare_free_mm;
  run.marking = job_run.marking.value_or(calibrated(*inputs.bender) ? Marking::all : Marking::each);
  run.drill_clearance_mm = job_run.drill_clearance_mm;
  run.from = inputs.from;
  run.to = inputs.to;
  run.same_as = inputs.first_index;
  run.pointer = job_run.pointer;
  return run;
}

void bend(Run& run, const TracedPath& path, const BendingOrder& bending, const Tolerance& tolerance) {
  measure(run, bending);
  run.bends = bend_table(run.line, *run.tube, *run.bender, bending);
  for (Bend& each : run.bends) each.pointer = path.pointers[each.number];
  fill_checks(run, tolerance.length_mm, tolerance.angle);
}

Run slid(Run run, const Vec3& step) {
  run.line = run.line.moved(step);
  run.from.at += step;
  if (run.to) run.to->at += step;
  run.slid_mm = step;
  return run;
}

// The first piece as its mirror image, the start end where it is.
Run mirrored(Run run, const Vec3& step, const TracedPath& path, const BendingOrder& bending,
             const Tolerance& tolerance) {
  const Vec3 start = run.from.at;
  std::vector<Vec3> points = run.line.points();
  for (Vec3& point : points) point = mirrored_point(point, start, step);
  run.line = CentreLine::through(points, run.line.radius_mm());
  run.from.towards = mirrored_direction(run.from.towards, step);
  if (run.to) {
    run.to->at = mirrored_point(run.to->at, start, step);
    run.to->towards = mirrored_direction(run.to->towards, step);
  }
  run.offsets.clear();
  for (const LaidOffset& offset : path.offsets) run.offsets.push_back(offset_row(offset_along(run.line, offset)));
  bend(run, path, bending, tolerance);
  return run;
}

}  // namespace

BuiltRun build_run(const RunInputs& inputs) {
  BuiltRun built;
  const TracedPath path = trace(inputs);
  built.problems = path.problems;
  if (!built.problems.empty()) return built;
  const BendingOrder bending = bending_order(inputs, static_cast<int>(path.points.size()) - 2, built.problems);
  if (!built.problems.empty()) return built;

  Run first = common_part(inputs);
  first.line = CentreLine::through(path.points, inputs.bender->former_radius_mm);
  for (const LaidOffset& offset : path.offsets) first.offsets.push_back(offset_row(offset));
  bend(first, path, bending, inputs.tolerance);
  for (const WalkNote& note : path.notes) {
    built.findings.push_back({note.id, Severity::note, first.name, note.message, 0, 0, "", "", note.pointer});
  }
  if (!inputs.bank) {
    built.pieces.push_back(std::make_shared<Run>(std::move(first)));
    return built;
  }

  for (Finding& finding : built.findings) finding.where += " 1";
  const Run opposite =
      inputs.bank->mirror ? mirrored(first, inputs.bank->step, path, bending, inputs.tolerance) : Run();
  for (int k = 0; k < inputs.bank->count; ++k) {
    const Vec3 step = k * inputs.bank->step;
    const bool other_hand = inputs.bank->mirror && k % 2 == 1;
    Run piece = slid(other_hand ? opposite : first, step);
    if (other_hand) {  // slid from the second piece, which is the first of its hand
      piece.same_as = inputs.first_index + 1;
      piece.slid_mm = step - inputs.bank->step;
    }
    piece.piece = k + 1;
    if (!inputs.bank->services.empty()) piece.service = inputs.bank->services[k];
    piece.name = first.family + " " + std::to_string(k + 1);
    if (inputs.bank->equal_gaps && k > 0) {
      const auto points = points_at_equal_gaps(first.line, step, *inputs.bank, k + 1, built.problems);
      if (!points) return {{}, {}, built.problems};
      piece.line = CentreLine::through(*points, first.line.radius_mm());
      piece.offsets.clear();
      for (const LaidOffset& offset : path.offsets)
        piece.offsets.push_back(offset_row(offset_along(piece.line, offset)));
      bend(piece, path, bending, inputs.tolerance);
      piece.same_as = inputs.first_index + k;
      piece.slid_mm.setZero();
    }
    for (const Vec3& point : piece.line.points()) {
      if (point.cwiseAbs().maxCoeff() <= kLargestLength_mm) continue;
      built.problems.push_back({inputs.bank->pointer, "piece " + std::to_string(k + 1) + " beyond 1e8 mm",
                                "coordinates up to 1e8 mm: fewer pieces or a smaller step"});
      return {{}, {}, built.problems};
    }
    built.pieces.push_back(std::make_shared<Run>(std::move(piece)));
  }
  return built;
}

}  // namespace halfhard
