#include "modeller/make/drawn_sheets.h"

#include "exporters/arrangement/arrangement.h"
#include "exporters/bench/bench_cards.h"
#include "exporters/fabrication/fabrication_sheet.h"

namespace halfhard {

DrawnSheets drawn_sheets(const Plan& plan) {
  DrawnSheets drawn;
  if (!plan.runs.empty()) drawn.arrangement = arrangement_sheets(plan);
  if (!plan.drillings.empty()) drawn.drilling = drilling_papers(plan);
  for (const auto& run : plan.runs) {
    drawn.fabrication[run->name] = fabrication_sheets(plan, *run);
    if (leads_its_pieces(plan, *run)) drawn.bench_cards[run->name] = bench_cards(plan, *run);
  }
  return drawn;
}

}  // namespace halfhard
