// A small JSON file of ours that is no job (trials, measurements), read with the job reader's own tools: places, units,
// expressions and values, every fault reported.
#pragma once

#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

#include "modeller/job/reading.h"

namespace halfhard {

class SmallFile {
 public:
  // Adds a problem where the text is no JSON or its "format" is not `format`; then root() is nothing.
  SmallFile(std::string text, const std::string& file, const char* format);

  JsonValue root() const { return root_; }
  Reading& reading() { return *reading_; }
  LengthUnit unit() const { return unit_; }
  std::vector<JobProblem>& problems() { return problems_; }

 private:
  std::vector<JobProblem> problems_;
  std::shared_ptr<const JsonTree> tree_;
  JsonValue root_;
  LengthUnit unit_ = LengthUnit::mm;
  std::unique_ptr<Values> values_;
  std::unordered_map<std::uint32_t, Expression> expressions_;
  Figures figures_;
  std::unique_ptr<Reading> reading_;
};

}  // namespace halfhard
