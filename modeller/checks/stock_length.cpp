#include "modeller/checks/stock_length.h"

#include <algorithm>

#include "modeller/checks/saying.h"

namespace halfhard {

void check_stock_length(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  if (job.stock.lengths_mm.empty()) return;
  const double longest = *std::max_element(job.stock.lengths_mm.begin(), job.stock.lengths_mm.end());
  if (run.blank_length_mm <= longest + kEnough_mm) return;
  findings.push_back(say("stock-length", Severity::warn, run,
                         in_quotes(run.name) + " needs one piece of " +
                             length_beside(run.blank_length_mm, longest, job) + " and the longest stock is " +
                             length(longest, job) + ": get a longer length or part the run at a fitting.",
                         {run.blank_length_mm, longest, "mm",
                          "stock lengths of the job; straight lengths are 3 or 6 m, Textbook: Plumbing Book 1 p. 91"}));
}

}  // namespace halfhard
