#include "exporters/bench/mark_words.h"

#include <cmath>

#include "geometry/base/tolerances.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

// The leg between two bends already made; 0 for either where the tube's end comes first.
std::string leg_name(int bend_before, int bend_after) {
  if (bend_before == 0) return "the start end's leg";
  if (bend_after == 0) return "the far end's leg";
  return "the leg between bends " + std::to_string(bend_before) + " and " + std::to_string(bend_after);
}

// The nearest bend to `number` that is made before `made`, towards the start end (-1) or the far end (+1); 0 for none.
int made_neighbour(const Run& run, int number, int made, int step) {
  for (int i = number + step; i >= 1 && i <= static_cast<int>(run.bends.size()); i += step) {
    if (run.bends[i - 1].made < made) return i;
  }
  return 0;
}

}  // namespace

MarkWords mark_words(const Run& run, const Bend& bend, LengthUnit unit) {
  const int corner = bend.mark_from_bend;
  if (run.marking == Marking::all || corner == 0) {
    MarkWords words;
    const bool datum = run.marking == Marking::all || bend.hook == End::datum;
    words.mm = run.marking == Marking::all ? bend.mark_mm : bend.mark_from_outside_mm;
    words.from = datum ? "the start end" : "the far end";
    words.sentence = "Mark " + shown_length(words.mm, unit) + " from " + words.from + ".";
    return words;
  }
  const std::string datum_side = leg_name(made_neighbour(run, corner, bend.made, -1), corner);
  const std::string free_side = leg_name(corner, made_neighbour(run, corner, bend.made, 1));
  const bool datum = bend.hook == End::datum;
  const std::string& behind = datum ? datum_side : free_side;
  const std::string& along = datum ? free_side : datum_side;
  const std::string length = shown_length(bend.mark_from_outside_mm, unit);
  if (std::abs(run.bends[corner - 1].angle.degrees() - 90) <= kSameDirection_deg) {
    return {bend.mark_from_outside_mm, "the back of " + behind,
            "Hold the tape against the back of " + behind + " and measure along " + along + ": mark at " + length + ".",
            false};
  }
  return {bend.mark_from_outside_mm, "where the backs cross at bend " + std::to_string(corner),
          "Lay straight edges along the backs of " + behind + " and " + along +
              ": the tape starts where they cross at bend " + std::to_string(corner) + ". Measure along " + along +
              ": mark at " + length + ".",
          false};
}

}  // namespace halfhard
