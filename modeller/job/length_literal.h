// A length with its own unit, as people write it: 12.5 mm, 3/8 in, 2 ft 3 1/2 in, 1' 2 1/2", 11-3/4 in.
#pragma once

#include <optional>
#include <string_view>

#include "modeller/job/expression.h"

namespace halfhard {

struct LengthUnitName {
  std::string_view name;
  double mm;
};
// mm, cm, m, in, ft: the words; the marks ' and " stand for the last two.
std::span<const LengthUnitName> length_units();
const LengthUnitName* length_unit_called(std::string_view name);

bool is_digit(char c);
bool starts_name(char c);
bool is_space(char c);

struct LengthLiteral {
  double mm = 0, in_job_unit = 0;
  std::size_t end = 0;  // in the text, behind it
};

// The literal that starts at `from`, where a digit stands. Nothing where what stands there is none; a problem where it could
// be meant in two ways, or cannot be meant at all.
struct LiteralReading {
  std::optional<LengthLiteral> literal;
  std::optional<ExpressionProblem> problem;
};
LiteralReading read_length_literal(std::string_view text, std::size_t from, LengthUnit job_unit);

// A run of digits with at most one point; empty where none stands there. Its value, infinite where it is too large.
std::string_view digits_at(std::string_view text, std::size_t from);
double value_of_digits(std::string_view digits);

}  // namespace halfhard
