// The bend table in words and rounded figures, for everything that people read: the text table, the fabrication sheet,
// the bench cards and the job page all print these strings, so that they never disagree.
// Lengths in the job's unit, rounded as geometry/words/shown.h says.
#pragma once

#include <string>
#include <vector>

#include "exporters/bench/not_to_be_made.h"
#include "geometry/plan/plan.h"

namespace halfhard {

// One bend, in the order made. In a run that fails, the mark says so instead, and nothing says how to hold or check it.
struct BendRow {
  int number = 0, made = 0;
  std::string mark;              // "260"; "NOT TO BE MADE" in a run that fails
  std::string mark_from;         // "the start end", "the back of the start end's leg"; see mark_words.h
  std::string mark_text;         // "Mark 260 mm from the start end." ; the finding's message in a run that fails
  bool mark_from_end = true;     // the tape is held at an end of the tube
  std::string held_to;           // the bender's line_up; empty where the job does not say
  std::string held_text;         // "Hold the mark to: the zero line of the former."
  std::string hook;              // "datum" or "free"
  std::string hook_text;         // "Start end's side on the hook."
  std::string angle, set_angle;  // "45°", "46°"
  std::string rule;              // "600 mm rule" or, in inch jobs, "24 in rule"
  std::string rule_hinge;        // where it is hinged: "300 mm", "12 in"
  std::string rule_while_pulling, rule_after;  // "552 mm", "22 1/16 in": between its points
  std::string rotation;                        // "+90°", from the plane of the bend numbered before; "-" for bend 1
  std::string clock;  // where the formed part lies, from the hook: "bend 1 at 9 (270°)"; "-": the tube is straight
  std::string clock_text;  // "Seen along the tube from the hook, the new bend swinging to 12: bend 1's leg lies at 9
                           // (270°), behind the hook, and points up."
  std::string points;      // "up"; empty where the job does not say how the bender stands
  std::string check;       // "85 ±3"; "-" in a run that fails
  std::string check_text;  // "Check: over both outsides ...: 85 mm, within 3 mm."
  std::string further_checks;  // the other readings, and what only a gauge shows; may be empty
  std::string turn_text;       // how the turn is set by tape; empty for the bend made first
  std::string remark;          // to read before anything else: "May be one pull of 180° with bend 2 ..."; else empty
  bool turned = false;         // out of the plane of what is formed: a line along the tube is needed
};

struct BendTableText {
  std::string heading;              // "Bend table: hot tail 1"
  std::string not_to_be_made;       // all that fails; empty for a run that may be made
  std::vector<std::string> about;   // tube, bender, service, pieces alike: one sentence each
  std::string tube_and_bender;      // the first two of them
  std::string blank;                // bare figure
  std::string blank_text;           // "Cut the blank 512.5 mm long, of which 50 mm spare at the far end."
  std::vector<std::string> before;  // how the marks are laid; empty in a run that fails
  std::vector<BendRow> rows;
  std::vector<std::string> after;  // leans of rolling offsets
  std::string trim_text;           // "Last, trim ..."; empty where there is no spare and in a run that fails
  std::string likely_error;        // one sentence; empty for a straight piece
  std::string cautions;            // what to mind in making and fitting it
};

BendTableText bend_table_rows(const Plan& plan, const Run& run);

// The runs made by the same table (same shape, blank, hooks and order; all of them to be made, or none), this one's own
// among them, in the job's order: their indices into plan.runs.
std::vector<int> pieces_alike(const Plan& plan, const Run& run);

// What to mind at the bender, in a line: for papers with room for no more.
extern const char* const kBenchCaution;

// How far the far end may miss, mm: as the plan's "free-end" finding says, else from the usual errors of a bench.
double likely_error_mm(const Plan& plan, const Run& run);

// The word of job files and reports for an end: "datum", "free".
const char* end_word(End end);

}  // namespace halfhard
