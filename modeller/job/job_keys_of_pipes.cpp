// The keys of pipes, their paths and banks.
#include <array>

#include "modeller/job/job_key_rows.h"

namespace halfhard {

std::span<const JobKey> keys_of_pipes() {
  static constexpr auto kKeys = std::to_array<JobKey>({
      {JobPart::run, "name", "text", "not empty, once in the job", "", "what the pipe is called on sheets and cards",
       R"("hot tail")"},
      {JobPart::run, "tube", "text", "a tube of the job", "", "what it is made from", R"("15 mm")"},
      {JobPart::run, "bender", "text", "a bender of the job", "", "what bends it", R"("bench")"},
      {JobPart::run, "from", "text or group", "the name of a connection, or one written here", "", "the start end",
       R"({ "at": [300, 460, 350], "towards": "up", "insertion": 15 })"},
      {JobPart::run, "to", "text or group", "the name of a connection, or one written here", "ends where the path ends",
       "the far end", R"("tap")"},
      {JobPart::run, "path", "list", "at least one step", "found by `halfhard suggest`",
       "the way from one end to the other, leg by leg", R"([ { "go": "up", "by": 150 } ])"},
      {JobPart::run, "service", "word",
       "`cold`, `hot`, `heating flow`, `heating return`, `gas`, `vent`, `discharge`, `waste`, `electric`, `other`",
       "none", "what it carries", R"("hot")"},
      {JobPart::run, "lagging", "length", "0 or more", "0", "thickness of the lagging, all round, the whole pipe",
       "13"},
      {JobPart::run, "keep_clear", "length", "0 or more", "0",
       "least gap to anything, from the outside of tube or lagging", "10"},
      {JobPart::run, "spare", "group", "", "0 and 0", "extra tube left on an end while bending, cut off last",
       R"({ "datum": 0, "free": 50 })"},
      {JobPart::run, "hook", "word or list", "`datum` (start end) or `free` (far end), or a list, one for each bend",
       "datum", "which end goes on the hook", R"("datum")"},
      {JobPart::run, "order", "list", "each bend's number once", "1, 2, 3, ...", "the bends in the order they are made",
       "[2, 1]"},
      {JobPart::run, "marking", "word", "`all` or `each`", "`each` where the bender is not calibrated, else `all`",
       "all marks on the straight tube, or each after the bend before", R"("all")"},
      {JobPart::run, "drill_clearance", "length", "0 or more", "the fixture's or the job's",
       "added all round the tube in a hole that this pipe needs", "3"},
      {JobPart::spare, "datum", "length", "0 or more", "0", "at the start end", "0"},
      {JobPart::spare, "free", "length", "0 or more", "0", "at the far end", "50"},
      {JobPart::go, "go", "direction", "", "", "which way the leg runs", R"("up")"},
      {JobPart::go, "by", "length", "above 0, or `rest`", "",
       "how far, corner to corner; `rest` is what the far end leaves, once a pipe", "150"},
      {JobPart::go, "measured", "group", "not before a `to` step", "centre to centre", "what the tape touched",
       R"({ "from": "centre", "until": "outside" })"},
      {JobPart::leg_measured, "from", "word", "`centre`, `outside`, `inside`", "centre",
       "at the leg's start: centre line, outside of the bend or its throat", R"("centre")"},
      {JobPart::leg_measured, "until", "word", "`centre`, `outside`, `inside`", "centre", "at the leg's end",
       R"("outside")"},
      {JobPart::to, "to", "point or text", "a point or the name of a connection", "",
       "the corner or the end that the leg runs to", "[300, 100, 80]"},
      {JobPart::bend, "bend", "angle", "above 0 and below 180", "", "how much it turns", "45"},
      {JobPart::bend, "roll", "angle", "", "0",
       "degrees round the tube, right-handed as you travel, from the plane of the bend before; 0 turns the same way "
       "again",
       "90"},
      {JobPart::bend, "by", "length", "above 0, or `rest`", "", "the leg after it, corner to corner", "200"},
      {JobPart::bend, "measured", "group", "not before a `to` step", "centre to centre", "what the tape touched",
       R"({ "from": "inside" })"},
      {JobPart::offset, "offset", "group or word", "one or two of the site words, or `to`", "",
       "how far the line is shifted, square to the way it runs; two make a rolling offset; `to` is what the far end "
       "needs",
       R"({ "right": 65 })"},
      {JobPart::offset, "angle", "angle", "above 0, at most 90, or `rule`", "needed without `advance`",
       "angle of both bends; `rule` takes it from the 600 mm folding rule", "45"},
      {JobPart::offset, "advance", "length", "above 0", "needed without `angle`", "how much line the offset uses",
       "65"},
      {JobPart::offset, "measured", "word", "`centre`, `outside`, `inside`", "centre",
       "whether the shift was taped over centres, outsides or insides", R"("centre")"},
      {JobPart::passover, "passover", "group", "one of the site words", "", "how far the pipe is lifted",
       R"({ "front": 50 })"},
      {JobPart::passover, "angle", "angle", "above 0 and below 90", "", "angle of the outer bends", "30"},
      {JobPart::passover, "flat", "length", "above 0", "three bends and no flat", "between the two middle corners",
       "40"},
      {JobPart::passover, "height", "word", "`intersection` or `crown`", "intersection",
       "whether the lift is to the corner or to the centre line at the crown", R"("crown")"},
      {JobPart::bank, "of", "text", "a pipe of the job, once", "", "which pipe is repeated", R"("hot tail")"},
      {JobPart::bank, "count", "whole number", "1 to 10000", "", "how many pieces", "2"},
      {JobPart::bank, "step", "group", "one to three of the site words", "", "from one piece to the next",
       R"({ "left": 60 })"},
      {JobPart::bank, "match", "word", "`pieces`, `gaps` or `mirror`", "pieces",
       "`pieces`: all alike; `gaps`: the same gap all along; `mirror`: every second piece turned over, as hot and cold "
       "of one tap",
       R"("pieces")"},
      {JobPart::bank, "services", "list", "one a piece", "the pipe's service", "what each piece carries",
       R"(["hot", "cold"])"},
  });
  return kKeys;
}

}  // namespace halfhard
