#include "modeller/checks/other_ways.h"

#include <bit>
#include <queue>

#include "geometry/bending/bend_table.h"
#include "geometry/bending/bender_sweep.h"
#include "modeller/checks/loading.h"

namespace halfhard {
namespace {

// Whether bend `number` can be made when exactly those of `made_before` (a bit a bend) are.
bool can_be_made_then(const Run& run, unsigned made_before, int number, End hook) {
  WayToBend way;
  for (const Bend& bend : run.bends) way.hook.push_back(bend.number == number ? hook : bend.hook);
  const auto is_before = [&](int bend) { return (made_before >> (bend - 1) & 1) != 0; };
  for (int bend = 1; bend <= static_cast<int>(run.bends.size()); ++bend)
    if (is_before(bend)) way.order.push_back(bend);
  const int made = static_cast<int>(way.order.size()) + 1;
  way.order.push_back(number);
  for (int bend = 1; bend <= static_cast<int>(run.bends.size()); ++bend)
    if (!is_before(bend) && bend != number) way.order.push_back(bend);
  const Run then = bent_that_way(run, way);
  return can_be_made(then, number, hook) && !touches_anything(then, made);
}

}  // namespace

Run bent_that_way(const Run& run, const WayToBend& way) {
  Run then = run;
  then.bends = bend_table(
      run.line, *run.tube, *run.bender,
      {way.hook, way.order, run.datum_insertion_mm(), run.free_insertion_mm(), run.spare_datum_mm, run.spare_free_mm});
  return then;
}

// Over every set of bends made so far, the cheapest way to get there: what a bend costs is how it differs from the run's
// own way. 64 sets of 6 bends stand for their 720 orders; whether a bend can be made is looked at only when its turn comes.
std::optional<WayToBend> clear_way(const Run& run) {
  const int count = static_cast<int>(run.bends.size());
  if (count > kMostBendsReordered) return std::nullopt;
  struct Step {
    int cost = 0;
    unsigned from = 0, then = 0;
    int number = 0;
    End hook = End::datum;
  };
  const auto dearer = [](const Step& a, const Step& b) { return a.cost > b.cost; };
  std::priority_queue<Step, std::vector<Step>, decltype(dearer)> open(dearer);
  std::vector<std::optional<Step>> reached(1u << count);  // by which step first
  const auto add_steps_from = [&](unsigned made, int cost) {
    const int place = std::popcount(made) + 1;
    for (const Bend& bend : run.bends) {
      const unsigned then = made | 1u << (bend.number - 1);
      if (then == made || reached[then]) continue;
      for (const End hook : {bend.hook, bend.hook == End::datum ? End::free : End::datum})
        open.push({cost + (hook != bend.hook) + (bend.made != place), made, then, bend.number, hook});
    }
  };
  add_steps_from(0, 0);
  while (!open.empty() && !reached.back()) {
    const Step step = open.top();
    open.pop();
    if (reached[step.then] || !can_be_made_then(run, step.from, step.number, step.hook)) continue;
    reached[step.then] = step;
    add_steps_from(step.then, step.cost);
  }
  if (!reached.back()) return std::nullopt;
  WayToBend way;
  way.hook.assign(run.bends.size(), End::datum);
  for (auto made = static_cast<unsigned>(reached.size() - 1); made != 0; made = reached[made]->from) {
    way.order.insert(way.order.begin(), reached[made]->number);
    way.hook[static_cast<std::size_t>(reached[made]->number - 1)] = reached[made]->hook;
  }
  return way;
}

}  // namespace halfhard
