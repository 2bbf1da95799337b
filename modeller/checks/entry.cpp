#include "modeller/checks/entry.h"

#include <algorithm>

#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

constexpr double kParallel_deg = 0.5;  // two sockets nearer than this go in together, by the play that any socket has

}  // namespace

double play_needed_mm(const Run& run) {
  if (!run.to) return 0;
  const Connection &from = run.from, &to = *run.to;
  const double apart_deg = angle_between(from.towards, to.towards).degrees();
  if (apart_deg <= kParallel_deg) return 0;
  if (apart_deg >= 180 - kParallel_deg)
    return std::max(0.0, std::min(from.insertion_mm, to.insertion_mm) - from.loose_mm - to.loose_mm);
  return std::max(0.0, std::min(from.insertion_mm - from.loose_mm, to.insertion_mm - to.loose_mm));
}

void check_entry(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  const double needs = play_needed_mm(run);
  if (needs <= kEnough_mm) return;
  const bool facing = angle_between(run.from.towards, run.to->towards).degrees() >= 180 - kParallel_deg;
  const double gives = std::max(run.from.loose_mm, run.to->loose_mm);
  findings.push_back(
      at_place(say("cannot-be-entered", Severity::warn, run,
                   in_quotes(run.name) + " cannot be put in between its two fittings as they stand: it goes " +
                       length(run.from.insertion_mm, job) + " into one and " + length(run.to->insertion_mm, job) +
                       " into the other, and " +
                       (facing ? "coming out of one it only goes deeper into the other"
                               : "no one movement brings both ends in") +
                       "; let one fitting give " + length_at_least(needs, job) +
                       " more along its axis (loose), put a union in, or cut one end and couple it.",
                   {gives, gives + needs, "mm", "how a tube moves in two sockets"}),
               run.line.points().back()));
}

}  // namespace halfhard
