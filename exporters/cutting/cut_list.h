// The cut list: the blanks of all runs of one or more jobs, times their sets, cut from stock with the least waste.
// Pieces of tubes alike (size, standard, temper) are cut together; several jobs share all their stock lengths and the
// larger cutter loss. What fails a check is not to be made: no stock is allotted to it, it is named apart with its
// reason. Pure: same plans, same bytes.
#pragma once

#include <string>
#include <vector>

#include "exporters/sheet/drawing.h"
#include "geometry/plan/plan.h"

namespace halfhard {

struct CutPiece {
  std::string job, run;
  double length_mm = 0;        // the blank
  int of_sets = 1;             // how many the job asks for
  std::string not_to_be_made;  // why, where its run fails a check
};

// What is left over of a bar and at least this long is kept for another pipe: a usual end and a half (common practice,
// no source).
inline constexpr double kWorthKeeping_mm = 300;

struct CutBar {
  double stock_mm = 0;
  std::vector<CutPiece> pieces;  // longest first
  double left_over_mm = 0;       // after the pieces and their cuts; a piece that ends with the bar needs no last cut
  int times = 1;                 // bars cut alike
  bool keep_left_over() const { return left_over_mm >= kWorthKeeping_mm; }
};

struct TubeCutList {
  Tube tube;
  double cutter_loss_mm = 0;
  std::vector<CutBar> bars;
  std::vector<CutPiece> too_long;        // longer than any stock
  std::vector<CutPiece> not_to_be_made;  // of runs that fail a check: nothing is cut for them
  double stock_used_mm = 0, pieces_mm = 0, lower_bound_mm = 0;
  double kept_mm = 0;  // left over and worth keeping
  bool proven = false;
  // Cuts, and ends too short to keep.
  double waste_mm() const { return stock_used_mm - pieces_mm - kept_mm; }
};

struct CutList {
  std::string title;  // of the jobs
  LengthUnit unit = LengthUnit::mm;
  std::vector<TubeCutList> tubes;
};

CutList cut_list(const std::vector<const Plan*>& plans);

// "left over 1898 mm, keep"; "left over 20 mm"; "nothing left over".
std::string left_over_text(const CutBar& bar, LengthUnit unit);
std::string cut_list_text(const CutList& list);
std::string cut_list_csv(const CutList& list);
std::string cut_list_json(const CutList& list);
// Sheets with the bars drawn; `plan` gives the title block.
Document cut_list_document(const CutList& list, const Plan& plan);

}  // namespace halfhard
