// The job's named values, worked out: each a plain number in the job's length_unit ("12.5 mm" in an inch job is 0.492).
// Whether it is a length, an angle or a count is decided where it is used. A value may use other values in any order.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "modeller/job/expression.h"
#include "modeller/job/json_tree.h"
#include "modeller/job/problem.h"

namespace halfhard {

class Values {
 public:
  // Reads names and expressions of `group` (nothing: no values). Problems: a bad or reserved name, a wrong kind, a
  // fault in an expression, an unknown name.
  Values(JsonValue group, LengthUnit unit, const std::string& file, std::vector<JobProblem>& problems);

  // Works all of them out, `overrides` (name -> expression) in place of what is written. Problems: an unknown override,
  // a ring of values, a result that is not finite. A value that uses a faulty one is faulty without a problem of its
  // own.
  void work_out(const std::map<std::string, std::string>& overrides, const std::string& file,
                std::vector<JobProblem>& problems);

  const NameTable& table() const { return names_; }
  const std::vector<std::string>& names() const { return names_.names(); }
  std::span<const double> numbers() const { return numbers_; }
  bool good(int value) const { return good_[static_cast<std::size_t>(value)]; }

 private:
  struct Value {
    JsonValue written;
    std::optional<Expression> expression;  // none: a plain number, or faulty
    double number = 0;
    bool faulty = false;
  };
  void work_out_one(int value, const std::vector<const Expression*>& expressions, const std::string& file,
                    std::vector<JobProblem>& problems);
  void report_ring(const std::vector<int>& ring, const std::string& file, std::vector<JobProblem>& problems);

  LengthUnit unit_;
  NameTable names_;
  std::vector<Value> values_;
  std::vector<double> numbers_;
  std::vector<bool> good_;
};

// A fault in the expression that stands as text at `value`, with its own place within the text.
JobProblem expression_problem(JsonValue value, const ExpressionProblem& problem, const std::string& file);

}  // namespace halfhard
