// The cut list: the blanks of all runs of one or more jobs, times their sets, cut from stock with the least waste.
// Pieces of tubes alike (size, standard, temper) are cut together; several jobs share all their stock lengths and the
// larger cutter loss. Pure: same plans, same bytes.
#pragma once

#include <string>
#include <vector>

#include "exporters/sheet/drawing.h"
#include "geometry/plan.h"

namespace halfhard {

struct CutPiece {
  std::string job, run;
  double length_mm = 0;         // the blank
  int of_sets = 1;              // how many the job asks for
  bool not_to_be_made = false;  // its run fails a check
};

struct CutBar {
  double stock_mm = 0;
  std::vector<CutPiece> pieces;  // longest first
  double left_over_mm = 0;       // after the pieces and the cuts between them
  int times = 1;                 // bars cut alike
};

struct TubeCutList {
  Tube tube;
  double cutter_loss_mm = 0;
  std::vector<CutBar> bars;
  std::vector<CutPiece> too_long;  // longer than any stock
  double stock_used_mm = 0, pieces_mm = 0, lower_bound_mm = 0;
  bool proven = false;
  double waste_mm() const { return stock_used_mm - pieces_mm; }
};

struct CutList {
  std::string title;  // of the jobs
  LengthUnit unit = LengthUnit::mm;
  std::vector<TubeCutList> tubes;
};

CutList cut_list(const std::vector<const Plan*>& plans);

std::string cut_list_text(const CutList& list);
std::string cut_list_csv(const CutList& list);
std::string cut_list_json(const CutList& list);
// Sheets with the bars drawn; `plan` gives the title block.
Document cut_list_document(const CutList& list, const Plan& plan);

}  // namespace halfhard
