#include "modeller/make/page_parts.h"

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

PageParts page_parts_of(const DrawnSheets& sheets, const std::vector<Sheet>& cut_list) {
  PageParts parts;
  const auto add = [&parts](const std::vector<Sheet>& more, const std::string& title) {
    for (PageSheet& sheet : drawn(more, title)) parts.job_sheets.push_back(std::move(sheet));
  };
  add(sheets.arrangement, "Arrangement");
  add(cut_list, "Cut list");
  for (const DrillingPaper& paper : sheets.drilling) add({paper.sheet}, "Drilling: " + paper.name);
  for (const auto& [run, cards] : sheets.bench_cards) {
    parts.bench_cards[run] = drawn(cards, "Card");
    parts.sheets[run] = drawn(sheets.fabrication.at(run), "Fabrication sheet");
  }
  return parts;
}

}  // namespace halfhard
