#include "exporters/cutting/cut_list.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "exporters/cutting/cutting_stock.h"

namespace halfhard {
namespace {

using TubeKey = std::tuple<double, double, std::string, std::string, std::string>;

struct Gathered {
  Tube tube;
  std::vector<CutPiece> pieces, not_to_be_made;
  std::vector<double> stock_mm;
  double loss_mm = 0;
};

std::map<TubeKey, Gathered> gather(const std::vector<const Plan*>& plans) {
  std::map<TubeKey, Gathered> tubes;
  for (const Plan* plan : plans) {
    for (const auto& run : plan->runs) {
      const Tube& tube = *run->tube;
      Gathered& all = tubes[{tube.outside_diameter_mm, tube.wall_mm, tube.standard, tube.size, tube.temper}];
      all.tube = tube;
      CutPiece piece{plan->stem, run->name, run->blank_length_mm, std::max(1, plan->sets), ""};
      const Finding* failure = plan->failure_of(*run);
      if (failure != nullptr) piece.not_to_be_made = failure->message;
      (failure == nullptr ? all.pieces : all.not_to_be_made).push_back(piece);
      all.stock_mm.insert(all.stock_mm.end(), plan->stock.lengths_mm.begin(), plan->stock.lengths_mm.end());
      all.loss_mm = std::max(all.loss_mm, plan->stock.cutter_loss_mm);
    }
  }
  return tubes;
}

CutBar bar_of(const CutPattern& pattern, const std::vector<CutPiece>& pieces, double loss_mm) {
  CutBar bar;
  bar.stock_mm = pattern.stock_mm;
  bar.times = pattern.times;
  double pieces_mm = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    for (int n = 0; n < pattern.counts[i]; ++n) {
      bar.pieces.push_back(pieces[i]);
      pieces_mm += pieces[i].length_mm;
    }
  }
  std::stable_sort(bar.pieces.begin(), bar.pieces.end(),
                   [](const CutPiece& a, const CutPiece& b) { return a.length_mm > b.length_mm; });
  // A cut after every piece, the last too: it parts the piece from what is left, or falls on the bar's own end.
  bar.left_over_mm = std::max(0.0, pattern.stock_mm - pieces_mm - static_cast<double>(bar.pieces.size()) * loss_mm);
  return bar;
}

TubeCutList planned(const Gathered& all) {
  TubeCutList list;
  list.tube = all.tube;
  list.cutter_loss_mm = all.loss_mm;
  list.not_to_be_made = all.not_to_be_made;
  std::vector<CutDemand> demands;
  for (const CutPiece& piece : all.pieces) demands.push_back({piece.length_mm, piece.of_sets});
  const CuttingPlan cuts = plan_cuts(demands, all.stock_mm, all.loss_mm);
  for (const CutPattern& pattern : cuts.patterns) {
    list.bars.push_back(bar_of(pattern, all.pieces, all.loss_mm));
    const CutBar& bar = list.bars.back();
    for (const CutPiece& piece : bar.pieces) list.pieces_mm += piece.length_mm * pattern.times;
    if (bar.keep_left_over()) list.kept_mm += bar.left_over_mm * pattern.times;
  }
  for (const int i : cuts.too_long) list.too_long.push_back(all.pieces[i]);
  list.stock_used_mm = cuts.stock_used_mm;
  list.lower_bound_mm = cuts.lower_bound_mm;
  list.proven = cuts.proven;
  return list;
}

}  // namespace

CutList cut_list(const std::vector<const Plan*>& plans) {
  CutList list;
  for (const Plan* plan : plans) list.title += (list.title.empty() ? "" : "; ") + plan->title;
  if (!plans.empty()) list.unit = plans.front()->unit;
  for (const auto& [key, all] : gather(plans)) list.tubes.push_back(planned(all));
  return list;
}

}  // namespace halfhard
