#include "modeller/checks/check_table.h"

#include "modeller/checks/bank_pieces.h"
#include "modeller/checks/bench_error.h"
#include "modeller/checks/bender_reach.h"
#include "modeller/checks/clearance.h"
#include "modeller/checks/clips.h"
#include "modeller/checks/connection.h"
#include "modeller/checks/entry.h"
#include "modeller/checks/expansion.h"
#include "modeller/checks/falls.h"
#include "modeller/checks/joists.h"
#include "modeller/checks/loading.h"
#include "modeller/checks/radius.h"
#include "modeller/checks/room_to_bend.h"
#include "modeller/checks/rule_angle.h"
#include "modeller/checks/separation.h"
#include "modeller/checks/site_check.h"
#include "modeller/checks/stock_length.h"
#include "modeller/checks/straights.h"
#include "modeller/checks/threading.h"
#include "modeller/checks/wall.h"
#include "modeller/checks/who_may_fit.h"

namespace halfhard {

std::span<const RunCheck> run_checks() {
  static const std::vector<RunCheck> kTable = {
      {{"connection", "end-not-named"},
       check_connections,
       "an end that misses its connection, in place or direction, or stops at one that it does not name",
       "0.5 mm, 0.5 degree"},
      {{"end-too-short", "end-shorter-than-usual", "lever-too-short"},
       check_loading,
       "an end too short for the hook or the lever as the tube is loaded",
       "the bender's own limits"},
      {{"meets-itself-in-bender", "meets-bender", "meets-bench"},
       check_room_to_bend,
       "a bend that cannot be pulled because the pipe meets itself, the bender, the bench, the floor or the wall",
       "the bender's own figures"},
      {{"straight-between", "one-pull"},
       check_straights_between,
       "too little straight between two bends, or none where one pull does",
       "the bender's own limits"},
      {{"straight-at-fitting"}, check_straights_at_fittings, "too little straight before a fitting", "the connection"},
      {{"beyond-bender"}, check_most_angle, "a bend beyond what the bender turns", "the bender's own limits"},
      {{"former-does-not-fit"}, check_former, "a tube that the former does not fit", "the bender's own limits"},
      {{"radius-too-tight", "radius-below-standard", "radius-not-published", "tube-too-large"},
       check_radius,
       "a radius below the least published for tube and temper",
       "DIN EN 1057; ASME B31.1; Copper Tube Handbook"},
      {{"wall-thinning", "ovality"},
       check_wall,
       "how much a bend thins the outer wall and comes out of round",
       "ASME B31.1; estimates"},
      {{"vent-does-not-rise", "discharge-does-not-fall"},
       check_rise_and_fall,
       "a vent that does not rise or a discharge that does not fall all the way",
       "Approved Document G3, from memory"},
      {{"high-point", "low-point"},
       check_high_and_low_points,
       "a hump that traps air or a dip that holds water",
       "common practice, no source"},
      {{"expansion"},
       check_expansion,
       "a hot tube between fixed ends that has no leg to give",
       "Copper Development Association (UK) publication 88; Copper Tube Handbook"},
      {{"stock-length"}, check_stock_length, "a piece longer than the stock", "stock of the job"},
      {{"cannot-be-entered"},
       check_entry,
       "a piece that cannot be put in between its two fittings",
       "how a tube moves in two sockets"},
      {{"rule-angle"},
       check_rule_angle,
       "an offset angle taken from the 600 mm rule or from the offset itself",
       "Textbook: Plumbing Book 1 (Hodder 2019) p. 93"},
      {{"clips", "clip-spacing"},
       check_clips,
       "where to clip, and where that cannot be close enough",
       "BS EN 806-4 / BS 8558, from memory; IRC P2605"},
      {{"free-end"}, check_free_end, "how far the far end may miss by radius, marks and angles", "bench errors"},
      {{"registered-person"}, check_who_may_fit, "work for the registered or competent person only", "the law"},
  };
  return kTable;
}

std::span<const PlanCheck> plan_checks() {
  static const std::vector<PlanCheck> kTable = {
      {{"site-check"}, check_site_checks, "a taped distance that the coordinates do not bear out", "the job"},
      {{"clearance", "clearance-uncertain"}, check_clearances, "pipes and bodies nearer than they may be", "the job"},
      {{"gas-electric-separation", "separation-not-seen", "hot-cold-separation"},
       check_separation,
       "gas too near to electric work, cold beside hot",
       "BS 6891; Textbook: Plumbing Book 1 (Hodder 2019) p. 325"},
      {{"joist-hole", "joist-notch", "joist-rules"},
       check_joists,
       "holes and notches in joists, by the published rules",
       "Approved Document A method (LABC); NHBC 6.4.18; IRC R502.8.1"},
      {{"drilling"}, check_drillings, "holes to drill", "the job"},
      {{"cannot-be-threaded"},
       check_threading,
       "a bent pipe that cannot be brought through its holes",
       "how a tube passes a hole"},
      {{"bank-pieces-differ", "bank-pieces-not-alike", "bank-turned-over", "bank-opposite-hands"},
       check_bank_pieces,
       "pieces of a bank that are not the same",
       "the job"},
      {{"radius-not-measured", "mark-offset-not-measured", "spring-back-not-measured", "calibrated-with-another-tube"},
       check_calibration,
       "what a bender that was not measured can cost",
       "bench errors"},
      {{"bender-limit"}, check_bender_limits, "limits that a bender leaves out", "the bender"},
  };
  return kTable;
}

std::vector<Finding> check_run(const RunContext& context) {
  std::vector<Finding> findings;
  for (const RunCheck& check : run_checks()) check.check(context, findings);
  return findings;
}

std::vector<Finding> check_plan(const PlanContext& context) {
  std::vector<Finding> findings;
  for (const PlanCheck& check : plan_checks()) check.check(context, findings);
  return findings;
}

}  // namespace halfhard
