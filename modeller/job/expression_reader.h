// Reads an expression's text by the grammar of job files (see expression.h) into a formula of single-letter operands.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "modeller/job/expression.h"

namespace halfhard {

struct Operand {
  double value = 0;          // in the job's unit, for a number
  int name = -1;             // place of a value's name, or -1 for a number
  std::optional<double> mm;  // of a length literal
};

struct ExpressionParts {
  std::string formula;  // operands as v0, v1, ...; division as ~; functions by name; signs folded to at most one
  std::vector<Operand> operands;  // v0, v1, ...
  bool single = false;            // one operand with at most signs before it
  double sign = 1;                // of a single one
};

std::variant<ExpressionParts, ExpressionProblem> read_expression(std::string_view text, const NameTable& names,
                                                                 LengthUnit job_unit);

}  // namespace halfhard
