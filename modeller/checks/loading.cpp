#include "modeller/checks/loading.h"

#include <algorithm>

#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

End other(End end) { return end == End::datum ? End::free : End::datum; }

// Towards the start end or the far end from bend `number`, among what is made before it.
Side side_of(const Run& run, int number, End towards) {
  const Bend& bend = run.bends[number - 1];
  const bool datum = towards == End::datum;
  Side side{datum ? bend.start_of_bend_mm : run.blank_length_mm - bend.end_of_bend_mm, 0};
  for (const Bend& formed : run.bends) {
    if (formed.made >= bend.made || (formed.number < number) != datum) continue;
    const double between =
        datum ? bend.start_of_bend_mm - formed.end_of_bend_mm : formed.start_of_bend_mm - bend.end_of_bend_mm;
    if (side.bend == 0 || between < side.straight_mm) side = {between, formed.number};
  }
  return side;
}

bool enough(const Side& side, const std::optional<double>& needed_mm) {
  return !needed_mm || side.straight_mm >= *needed_mm - kEnough_mm;
}

std::string source_of(const Run& run, const char* key) {
  return std::string(key) + " of bender " + in_quotes(run.bender->name);
}

// What would do, as the end of a sentence.
std::string or_swap(const Run& run, const Bend& bend) {
  const End swapped = other(bend.hook);
  if (!can_be_made(run, bend.number, swapped)) return "";
  return ", or put the " + end_in_words(swapped) + " on the hook for this bend";
}

void check_hook(const RunContext& context, const Bend& bend, const Side& side, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  if (side.bend != 0) return;
  const Bender& bender = *run.bender;
  const std::string has = at_bend(run, bend.number) + " has ";
  if (!enough(side, bender.shortest_end_mm)) {
    const double needs = *bender.shortest_end_mm;
    findings.push_back(
        at_place(say("end-too-short", Severity::fail, run,
                     has + length_beside(side.straight_mm, needs, job) + " of tube before it at the " +
                         end_in_words(bend.hook) + " where the hook needs " + length(needs, job) + ": leave at least " +
                         length_at_least(needs - side.straight_mm, job) + " more spare there to trim afterwards" +
                         or_swap(run, bend) + ", or give it at least " +
                         length_at_least(least_void_mm(run, bend.number, needs), job) +
                         " from the mouth to the outside of the bend.",
                     {side.straight_mm, needs, "mm", source_of(run, "shortest_end")}),
                 place_of_bend(run, bend.number)));
  } else if (!enough(side, bender.usual_end_mm)) {
    const double usual = *bender.usual_end_mm;
    findings.push_back(at_place(say("end-shorter-than-usual", Severity::warn, run,
                                    has + length_beside(side.straight_mm, usual, job) + " of tube before it at the " +
                                        end_in_words(bend.hook) + ", less than the usual " + length(usual, job) +
                                        ": look that the end lies fully under the hook and comes off round, or leave " +
                                        length_at_least(usual - side.straight_mm, job) + " spare.",
                                    {side.straight_mm, usual, "mm", source_of(run, "usual_end")}),
                                place_of_bend(run, bend.number)));
  }
}

void check_lever(const RunContext& context, const Bend& bend, const Side& side, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  if (enough(side, run.bender->shortest_lever_mm)) return;
  const double needs = *run.bender->shortest_lever_mm;
  std::string message = at_bend(run, bend.number) + " has " + length_beside(side.straight_mm, needs, job) +
                        " of straight tube beyond it ";
  if (side.bend == 0) {
    message += "at the " + end_in_words(other(bend.hook)) + " where the lever needs " + length(needs, job) +
               ": leave at least " + length_at_least(needs - side.straight_mm, job) +
               " more spare there to trim afterwards" + or_swap(run, bend) + ".";
  } else {
    message += "up to bend " + std::to_string(side.bend) + ", which is made before it, where the lever needs " +
               length(needs, job) + ": make bend " + std::to_string(bend.number) + " first" + or_swap(run, bend) + ".";
  }
  findings.push_back(at_place(say("lever-too-short", Severity::fail, run, std::move(message),
                                  {side.straight_mm, needs, "mm", source_of(run, "shortest_lever")}),
                              place_of_bend(run, bend.number)));
}

}  // namespace

Loaded loaded(const Run& run, int number, End hook) {
  return {side_of(run, number, hook), side_of(run, number, other(hook))};
}

bool can_be_made(const Run& run, int number, End hook) {
  const Bender& bender = *run.bender;
  const Loaded sides = loaded(run, number, hook);
  const auto hook_needs = sides.hook.bend == 0 ? bender.shortest_end_mm : bender.shortest_between_mm;
  return enough(sides.hook, hook_needs) && enough(sides.lever, bender.shortest_lever_mm);
}

double least_void_mm(const Run& run, int number, double shortest_end_mm) {
  const Bend& bend = run.bends[number - 1];
  const double insertion = bend.hook == End::datum ? run.datum_insertion_mm() : run.free_insertion_mm();
  const Angle counted = std::min(bend.angle, Angle::degrees(90));
  return shortest_end_mm - insertion + (bend.radius_mm + run.tube->outside_radius_mm()) * counted.tan_of_half();
}

void check_loading(const RunContext& context, std::vector<Finding>& findings) {
  for (const Bend& bend : context.run.bends) {
    const Loaded sides = loaded(context.run, bend.number, bend.hook);
    check_hook(context, bend, sides.hook, findings);
    check_lever(context, bend, sides.lever, findings);
  }
}

}  // namespace halfhard
