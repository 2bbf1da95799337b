#include "modeller/checks/rule_angle.h"

#include <cmath>

#include "geometry/bending/bend_table.h"
#include "geometry/words/shown.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

constexpr double kSameAngle_deg = 1e-6;

}  // namespace

void check_rule_angle(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  for (const OffsetRow& offset : run.offsets) {
    if (offset.true_mm <= 0 || offset.true_mm >= kLargestByRule_mm) continue;
    const Angle angle = run.bends[offset.first_bend - 1].angle;
    const Angle rule = rule_angle(offset.true_mm);
    const double apart = std::abs((angle - rule).degrees());
    const std::string begins = in_quotes(run.name) + ": the offset at bend " + std::to_string(offset.first_bend);
    if (apart < kSameAngle_deg) {
      findings.push_back(
          at_place(say("rule-angle", Severity::note, run,
                       begins + " is set by the 600 mm rule closed by " + length(offset.true_mm, job) +
                           ", which is an angle of " + shown_angle(rule) + ".",
                       {angle.degrees(), rule.degrees(), "deg", "Textbook: Plumbing Book 1 (Hodder 2019) p. 93"}),
                   place_of_bend(run, offset.first_bend)));
    } else if (std::abs(angle.degrees() - offset.true_mm) < kSameAngle_deg) {
      const bool near = apart <= job.rules.rule_angle_near.value;
      findings.push_back(
          at_place(say("rule-angle", near ? Severity::note : Severity::warn, run,
                       begins + " takes as many degrees as it has millimetres (" + shown_angle(angle) +
                           "), where the 600 mm rule closed by that much gives " + shown_angle(rule) +
                           ": do not mix the two, they agree near 44 mm only" + job.rules.rule_angle_near.remark + ".",
                       {angle.degrees(), rule.degrees(), "deg", job.rules.rule_angle_near.source}),
                   place_of_bend(run, offset.first_bend)));
    }
  }
}

}  // namespace halfhard
