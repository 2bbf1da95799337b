#include "modeller/bench/correct.h"

#include <algorithm>
#include <cmath>

#include "geometry/base/require.h"
#include "geometry/words/shown.h"
#include "modeller/bench/change_search.h"
#include "modeller/bench/least_squares.h"

namespace halfhard {
namespace {

constexpr double kOtherHand_deg = 45;  // no bend is turned so far wrong by chance

// What could be done if no rule held: to tell what a rule forbids from what no bending can mend.
HandLimits no_rule_limits() { return {15, 15, {}}; }

class Advising {
 public:
  Advising(const Run& run, const Tolerance& tolerance, const MeasuredPiece& piece)
      : run_(run),
        tolerance_(tolerance),
        judge_{tolerance},
        piece_(piece),
        model_(run, piece.bends_made.value_or(static_cast<int>(run.bends.size()))) {}

  CorrectionPlan advise() {
    const std::vector<ReadingOfPiece> readings = readings_of(model_, piece_);
    if (model_.unknowns() > 0) made_.fit = fit_piece(model_, piece_, readings);
    if (const auto scrap = scrap_by_sight(piece_.seen)) return say(Advice::scrap, *scrap);
    if (model_.unknowns() == 0) return say(Advice::leave, "Nothing is bent yet: bend it as the table says.");
    if (const auto wrong_way = turn_read_the_wrong_way()) return say(Advice::measure_again, *wrong_way);
    if (made_.fit.contradictory) return measure_again();
    made_.end_known = made_.fit.angles_known();
    if (!made_.end_known) return measure_more("What was measured does not show every angle.");
    return model_.all_made() ? whole_piece() : half_bent();
  }

 private:
  CorrectionPlan say(Advice advice, std::string why) {
    made_.advice = advice;
    made_.reasons.insert(made_.reasons.begin(), std::move(why));
    return std::move(made_);
  }

  // A turn far from the planned one is bent to the other hand or read so.
  std::optional<std::string> turn_read_the_wrong_way() const {
    for (const MeasuredBend& bend : piece_.bends) {
      const int turn = model_.turn_at(bend.number - 1);
      if (!bend.rotation || turn < 0) continue;
      const double planned = model_.planned()[turn];
      if (std::abs(nearest_turn_deg(bend.rotation->degrees(), planned) - planned) <= kOtherHand_deg) continue;
      return "The turn to bend " + std::to_string(bend.number) + " reads " + shown_angle(*bend.rotation) + " where " +
             shown_angle(Angle::degrees(planned)) +
             " is planned. Look whether it was read the other way round; if not, it is bent to the other hand.";
    }
    return std::nullopt;
  }

  CorrectionPlan measure_again() {
    const PieceFit& fit = made_.fit;
    const auto shown = [&](double value) { return shown_number(value, 1) + (fit.worst_is_angle ? "\u00B0" : " mm"); };
    return say(Advice::measure_again, "These readings cannot all be right. The one that fits least is " + fit.worst +
                                          ": it reads " + shown(fit.worst_shown) + " where the others give " +
                                          shown(fit.worst_expected) + ". Measure it again before anything is bent.");
  }

  CorrectionPlan measure_more(const std::string& why) {
    const auto helpful = most_helpful_reading(model_, piece_, made_.fit);
    return say(Advice::measure_more, why + (helpful ? " Measure " + *helpful + " too." : ""));
  }

  // How far off the estimate the far end may stand in 19 of 20 cases, and in how many it is within tolerance.
  double find_spread(const std::vector<Eigen::VectorXd>& cases) {
    std::vector<double> off;
    int good = 0;
    for (const Eigen::VectorXd& each : cases) {
      const EndMiss miss = end_miss(run_, model_.shape(each));
      off.push_back((miss.by - made_.now.by).norm());
      good += judge_.good(miss);
    }
    std::ranges::sort(off);
    made_.end_within_mm = off[static_cast<std::size_t>(kSurely * static_cast<double>(off.size()))];
    return static_cast<double>(good) / static_cast<double>(cases.size());
  }

  void say_how_sure(double within) {
    const int of_20 = static_cast<int>(std::floor(within * 20));
    if (of_20 >= 19) return;
    const auto helpful = most_helpful_reading(model_, piece_, made_.fit);
    made_.reasons.push_back("By these readings that is so in " + std::to_string(of_20) + " of 20 cases" +
                            (helpful ? "; to be surer, measure " + *helpful + " too." : "."));
  }

  CorrectionPlan whole_piece() {
    const MadeShape shape = model_.shape(made_.fit.at);
    made_.now = end_miss(run_, shape);
    made_.turned = turned_to_best(run_, shape);
    made_.after = made_.now;
    const double within = find_spread(cases_of(made_.fit));
    if (judge_.good(made_.now)) {
      say_how_sure(within);
      return say(Advice::leave, "It is within tolerance: leave it as it is.");
    }
    ChangeSearch search(model_, made_.fit, tolerance_);
    const HandLimits limits = hand_limits(run_, piece_.seen);
    if (const auto changes = search.find(limits)) return bend(*changes);
    if (search.any(limits)) {
      const std::string open = "Nothing helps surely: the readings are no finer than what is out.";
      if (most_helpful_reading(model_, piece_, made_.fit)) return measure_more(open);
      return say(Advice::leave, open + " Leave it as it is.");
    }
    if (judge_.good(made_.turned->miss)) {
      return say(Advice::leave, "Turn the whole piece by " +
                                    shown_angle(Angle::degrees(std::abs(made_.turned->by.degrees()))) +
                                    " about its first leg: then it is within tolerance.");
    }
    if (within > 1 - kSurely)
      return measure_more("It may be within tolerance, but the readings do not show it surely.");
    if (!search.any(no_rule_limits()))
      return say(Advice::scrap, "No change of its angles brings the far end in: cut a new piece.");
    return say(Advice::scrap, what_forbids(limits));
  }

  std::string what_forbids(const HandLimits& limits) const {
    if (!limits.no_opening.empty()) return "A bend would have to be opened. " + limits.no_opening;
    return hand_rule("open") + " This piece would need more: cut a new one.";
  }

  CorrectionPlan bend(const Changes& changes) {
    made_.after = changes.left;
    made_.helps_in = changes.helps_in;
    for (const Bend& planned : run_.bends) {
      const double by = changes.by_deg[planned.number - 1];
      if (by != 0) made_.changes.push_back(change_of(planned, by));
    }
    if (piece_.seen.heated) made_.reasons.push_back(hand_rule("heated"));
    return say(Advice::bend, "Bend it further: that brings the far end nearer in " +
                                 std::to_string(static_cast<int>(std::floor(changes.helps_in * 20))) +
                                 " of 20 cases by what the readings leave open.");
  }

  BendChange change_of(const Bend& planned, double by_deg) const {
    BendChange change;
    change.number = planned.number;
    change.from = Angle::degrees(made_.fit.at[model_.angle_at(planned.number - 1)]);
    change.to = change.from + Angle::degrees(by_deg);
    if (change.opens()) return change;
    change.pull_to = run_.bender->set_angle(change.to);
    const auto known = std::ranges::find(piece_.bends, change.number, &MeasuredBend::number);
    if (known != piece_.bends.end() && known->set)
      change.pull_to = *change.pull_to + (*known->set - run_.bender->set_angle(change.from));
    return change;
  }

  CorrectionPlan half_bent() {
    GoOn rest = go_on(model_, made_.fit, tolerance_);
    made_.now = rest.as_planned;
    made_.after = rest.lands;
    made_.helps_in = rest.lands_in;
    if (rest.bends.empty()) {
      const std::string miss = judge_.good(rest.lands)
                                   ? ""
                                   : ": the far end would be " + shown_number(rest.lands.mm(), 1) + " mm off at best";
      return say(Advice::scrap, "It cannot be saved from here, for " + rest.cannot + miss + ". Cut a new piece.");
    }
    made_.still_to_bend = std::move(rest.bends);
    if (judge_.good(made_.now))
      return say(Advice::leave,
                 "What is bent is within tolerance. Go on; the figures below bring the far end right in.");
    if (made_.helps_in < 0.5 && most_helpful_reading(model_, piece_, made_.fit))
      return measure_more("The readings do not show surely where the far end would land.");
    return say(Advice::bend, "Go on with these figures in place of the table's, and the far end still lands.");
  }

  const Run& run_;
  Tolerance tolerance_;
  Judge judge_;
  const MeasuredPiece& piece_;
  PieceModel model_;
  CorrectionPlan made_;
};

}  // namespace

const char* advice_word(Advice advice) {
  switch (advice) {
    case Advice::leave:
      return "leave";
    case Advice::bend:
      return "bend";
    case Advice::scrap:
      return "scrap";
    case Advice::measure_more:
      return "measure-more";
    case Advice::measure_again:
      return "measure-again";
  }
  HALFHARD_REQUIRE(false);
}

CorrectionPlan plan_correction(const Run& run, const Tolerance& tolerance, const MeasuredPiece& piece) {
  HALFHARD_REQUIRE(run.line.bend_count() > 0);
  return Advising(run, tolerance, piece).advise();
}

}  // namespace halfhard
