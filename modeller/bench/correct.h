// From measurements of a bent or half-bent piece (measured.h) to what to do with it: leave it, bend it further, go on with
// the rest, measure more, measure again, or start again. The start end is held where it belongs; a correction turns bends
// about their own planes, each going back on the former at the same mark.
//
// Advice to bend is given only where the far end comes nearer in 19 of 20 cases by what the readings leave open; never
// from readings that contradict each other (chi-square, 1 in 1000), nor where an angle is held by the plan alone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "modeller/bench/end_miss.h"
#include "modeller/bench/go_on.h"
#include "modeller/bench/measured.h"
#include "modeller/bench/piece_fit.h"

namespace halfhard {

enum class Advice { leave, bend, scrap, measure_more, measure_again };
const char* advice_word(Advice advice);  // "measure-more"

struct BendChange {
  int number = 0;
  Angle from, to;                // after letting go; `to` above `from` closes the bend, below opens it
  std::optional<Angle> pull_to;  // where it closes: with spring-back, as this piece showed it where `set` was measured
  bool opens() const { return to < from; }
};

struct CorrectionPlan {
  Advice advice = Advice::leave;
  std::vector<std::string> reasons;  // sentences for a person
  PieceFit fit;
  bool end_known = false;            // every angle of what is made is determined
  EndMiss now;                       // by the best estimate; of a half-bent piece with the rest as planned
  double end_within_mm = 0;          // 95 % of what the far end may be out against `now`
  std::optional<TurnedMiss> turned;  // a whole piece turned about its first leg
  std::vector<BendChange> changes;   // by number
  std::optional<EndMiss> after;      // after the changes, or with the rest bent afresh
  double helps_in = 0;               // share of cases that the advice helps, or that land
  std::vector<NextBend> still_to_bend;
};

// Requires a run of the plan with at least one bend.
CorrectionPlan plan_correction(const Run& run, const Tolerance& tolerance, const MeasuredPiece& piece);

// For a person at the bench.
std::string correction_text(const Run& run, const Plan& plan, const MeasuredPiece& piece, const CorrectionPlan& made);

}  // namespace halfhard
