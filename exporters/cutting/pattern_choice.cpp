#include "exporters/cutting/pattern_choice.h"

#include <coin/Cbc_C_Interface.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>

namespace halfhard::cutting {
namespace {

struct DeleteModel {
  void operator()(Cbc_Model* model) const { Cbc_deleteModel(model); }
};
using Model = std::unique_ptr<Cbc_Model, DeleteModel>;

Model model_of(const StockProblem& problem, const std::vector<Pattern>& patterns, const std::vector<int>& demand) {
  std::vector<CoinBigIndex> starts = {0};
  std::vector<int> rows;
  std::vector<double> values, lower, upper, cost;
  for (const Pattern& pattern : patterns) {
    int most = 0;
    for (int type = 0; type < problem.piece_types(); ++type) {
      if (pattern.counts[type] == 0) continue;
      rows.push_back(type);
      values.push_back(pattern.counts[type]);
      most = std::max(most, (demand[type] + pattern.counts[type] - 1) / pattern.counts[type]);
    }
    starts.push_back(static_cast<CoinBigIndex>(rows.size()));
    lower.push_back(0);
    upper.push_back(most);
    cost.push_back(static_cast<double>(problem.cost[pattern.stock]) / static_cast<double>(problem.cost.front()));
  }
  const std::vector<double> row_lower(demand.begin(), demand.end());
  const std::vector<double> row_upper(demand.size(), 1e30);
  Model model(Cbc_newModel());
  Cbc_loadProblem(model.get(), static_cast<int>(patterns.size()), problem.piece_types(), starts.data(), rows.data(),
                  values.data(), lower.data(), upper.data(), cost.data(), row_lower.data(), row_upper.data());
  for (int i = 0; i < static_cast<int>(patterns.size()); ++i) Cbc_setInteger(model.get(), i);
  return model;
}

class Lister {
 public:
  Lister(const StockProblem& problem, int most) : problem_(problem), most_(most), counts_(problem.piece_types(), 0) {}

  std::vector<Pattern> list() {
    for (int stock = 0; stock < problem_.stock_types() && !too_many_; ++stock) {
      stock_ = stock;
      visit(0, problem_.capacity[stock]);
    }
    return too_many_ ? std::vector<Pattern>() : patterns_;
  }

 private:
  void visit(int type, Units left) {
    if (too_many_) return;
    if (type == problem_.piece_types()) {
      for (int i = 0; i < type; ++i) {
        if (problem_.pieces[i] <= left && counts_[i] < problem_.demand[i]) return;  // not full
      }
      patterns_.push_back({stock_, counts_});
      too_many_ = static_cast<int>(patterns_.size()) > most_;
      return;
    }
    // Steps are limited too: many ways to be not full lead to few full ones.
    if (++steps_ > 200 * most_) too_many_ = true;
    const Units fits = std::min<Units>(problem_.demand[type], left / problem_.pieces[type]);
    for (int n = static_cast<int>(fits); n >= 0; --n) {
      counts_[type] = n;
      visit(type + 1, left - n * problem_.pieces[type]);
    }
    counts_[type] = 0;
  }

  const StockProblem& problem_;
  const int most_;
  int stock_ = 0, steps_ = 0;
  bool too_many_ = false;
  std::vector<int> counts_;
  std::vector<Pattern> patterns_;
};

}  // namespace

PatternChoice choose_patterns(const StockProblem& problem, const std::vector<Pattern>& patterns,
                              const std::vector<int>& demand, Units below, int most_nodes) {
  PatternChoice choice;
  const double unit = static_cast<double>(problem.cost.front());
  const Model model = model_of(problem, patterns, demand);
  Cbc_setLogLevel(model.get(), 0);
  Cbc_setParameter(model.get(), "log", "0");
  Cbc_setMaximumNodes(model.get(), most_nodes);
  Cbc_setCutoff(model.get(), (static_cast<double>(below) - 0.5) / unit);
  Cbc_solve(model.get());
  const bool done = Cbc_isProvenInfeasible(model.get()) || Cbc_isProvenOptimal(model.get());
  const double* values = Cbc_bestSolution(model.get());
  const bool found = values && Cbc_numberSavedSolutions(model.get()) > 0;
  if (found) {
    for (int i = 0; i < static_cast<int>(patterns.size()); ++i) {
      choice.times.push_back(static_cast<int>(std::lround(values[i])));
    }
  }
  if (done && found) {
    choice.bound = Cbc_getObjValue(model.get()) * unit;
  } else if (done) {
    choice.bound = static_cast<double>(below);
  } else {
    choice.bound = std::max(0.0, Cbc_getBestPossibleObjValue(model.get()) * unit);
  }
  return choice;
}

std::vector<Pattern> all_full_patterns(const StockProblem& problem, int most) { return Lister(problem, most).list(); }

}  // namespace halfhard::cutting
