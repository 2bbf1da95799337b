// The bend table in words and rounded figures, for everything that people read: the text table, the fabrication sheet,
// the bench cards and the job page all print these strings, so that they never disagree.
// Lengths in the job's unit, rounded as geometry/shown.h says.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan.h"

namespace halfhard {

// One bend, in the order made. In a run that fails, everything of the mark says so instead.
struct BendRow {
  int number = 0, made = 0;
  std::string mark;              // "260"; "NOT TO BE MADE" in a run that fails
  std::string mark_from;         // "the datum end", "the outside of bend 1"
  std::string mark_text;         // "Mark 260 mm from the datum end." ; the finding's message in a run that fails
  std::string held_to;           // the bender's line_up; empty where the job does not say
  std::string held_text;         // "Hold the mark square to the front edge of the former."
  std::string hook;              // "datum" or "free"
  std::string hook_text;         // "Datum end's side on the hook."
  std::string angle, set_angle;  // "45°", "46°"
  std::string rule_while_pulling, rule_after;  // "552", "554.5": 600 mm rule, between its points
  std::string rotation;                        // "+90°"; "-" for the first bend
  std::string clock;                           // "bend 1 at 9 (270°)"; "-" while the tube is straight
  std::string clock_text;  // "Seen from the hook with the new bend swinging to 12, bend 1's leg lies at 9 (270°): it
                           // points up."
  std::string points;      // "up"; empty where the job does not say how the bender stands
  std::string check;       // "85 ±3"
  std::string check_text;  // "Check: over both outsides ...: 85 mm, within 3 mm."
  std::string remark;      // "May be one pull of 180° with bend 2."; else empty
  bool turned = false;     // out of the plane of what is formed: a line along the tube is needed
};

struct BendTableText {
  std::string heading;              // "Bend table: hot tail 1"
  std::string not_to_be_made;       // "NOT TO BE MADE: ..." ; empty for a run that may be made
  std::vector<std::string> about;   // tube, bender, service, pieces alike: one sentence each
  std::string blank;                // bare figure
  std::string blank_text;           // "Cut the blank 512.5 mm long (462.5 mm and 50 mm spare at the free end)."
  std::vector<std::string> before;  // how the marks are laid
  std::vector<BendRow> rows;
  std::vector<std::string> after;  // leans of rolling offsets
  std::string trim_text;           // "Last, trim ..."; empty where there is no spare
  std::string likely_error;        // one sentence; empty for a straight piece
};

BendTableText bend_table_rows(const Plan& plan, const Run& run);

// The runs made by the same table (same shape, blank, hooks and order; all of them to be made, or none), this one's own
// among them, in the job's order: their indices into plan.runs.
std::vector<int> pieces_alike(const Plan& plan, const Run& run);

// "NOT TO BE MADE: message", or "" where nothing fails.
std::string not_to_be_made(const Plan& plan, const Run& run);

// How far the free end may miss, mm: as the plan's "free-end" finding says, else from the usual errors of a bench.
double likely_error_mm(const Plan& plan, const Run& run);

// The word of contract.md for an end: "datum", "free".
const char* end_word(End end);

}  // namespace halfhard
