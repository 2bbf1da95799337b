// The limits that the checks judge by, as a table: name, value, unit, what it means, where it comes from. A job may set
// any of them under "limits", with a reason; the reason is then printed with every finding that uses the limit.
// The limits of a bender itself (shortest_end and so on) are the bender's, not here.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "modeller/job/job.h"

namespace halfhard {

struct Limit {
  const char* name;     // the key in the job's "limits"
  double value;         // in `unit`
  const char* unit;     // "mm" (a length: in the job's own unit there), "deg", "%", "K", "x OD", "of span" ...
  const char* meaning;  // in the trade's words
  const char* source;
};

// In the order that help prints them.
std::span<const Limit> limits();
// nullptr where there is none of that name.
const Limit* find_limit(std::string_view name);

// A limit as this job has it.
struct LimitInUse {
  double value = 0;
  std::string unit;
  std::string source;   // the table's, or the job's reason
  std::string remark;   // to end a sentence with: "" or " (limit set in this job: REASON)"
  bool of_job = false;  // set by the job
};
// Requires (asserted) that the name is in the table.
LimitInUse limit_in_use(const Job& job, std::string_view name);

}  // namespace halfhard
