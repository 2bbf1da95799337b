#include "modeller/make/page_parts.h"

#include "exporters/arrangement/arrangement.h"
#include "exporters/bench/bench_cards.h"
#include "exporters/fabrication/fabrication_sheet.h"
#include "exporters/svg/svg.h"

namespace halfhard {
namespace {

std::vector<PageSheet> drawn(const std::vector<Sheet>& sheets, const std::string& title) {
  std::vector<PageSheet> drawings;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const std::string number = sheets.size() > 1 ? " " + std::to_string(i + 1) : "";
    drawings.push_back({title + number, svg(sheets[i])});
  }
  return drawings;
}

}  // namespace

PageParts page_parts_of(const Plan& plan) {
  PageParts parts;
  if (!plan.runs.empty()) parts.job_sheets = drawn(arrangement_sheets(plan), "Arrangement");
  for (const auto& run : plan.runs) {
    if (!leads_its_pieces(plan, *run)) continue;
    parts.bench_cards[run->name] = drawn(bench_cards(plan, *run), "Card");
    parts.sheets[run->name] = drawn(fabrication_sheets(plan, *run), "Fabrication sheet");
  }
  return parts;
}

}  // namespace halfhard
