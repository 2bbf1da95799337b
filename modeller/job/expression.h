// A number as a job writes it in text: "pitch + 12.5 mm". Checked against the grammar of job files by our own reading
// before the kept library (muParser) sees it, because that library's own grammar is wider: it takes radians, `1,5`,
// `%`,
// `?:`, comparisons, and reads 3/8 in as nothing at all.
//
// Grammar: numbers with a decimal point (12, 0.5, .5; no exponent); names [A-Za-z_][A-Za-z0-9_]*; + - * / ^ (right to
// left, -2^2 = -4), signs, brackets; sin cos tan asin acos atan (degrees) sqrt abs min max; pi. Commas stand only
// between what min and max compare. All arithmetic is real: 1/2 = 0.5.
//
// Lengths with their own unit: [whole] [numerator/denominator] unit, units mm cm m in ft, e.g. 12.5 mm, 3/8 in,
// 2 1/2 in, and feet followed by inches, 2 ft 3 1/2 in. The unit governs the whole literal: 3/8 in is three eighths of
// an inch and 10/2 mm is 5 mm; 1.5/2 in could be meant two ways and is refused.
//
// Units: every number in an expression counts in the job's length_unit, so a literal with a unit is turned into that
// unit first: in an inch job, with pitch 2, "pitch + 12.5 mm" is 2.492 in. What the result means (length, angle,
// plain number) is decided by the key that it stands at; an angle takes the number as it is.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "geometry/plan/plan.h"

namespace halfhard {

inline constexpr std::size_t kLongestExpression = 1000;  // characters
inline constexpr int kDeepestBrackets = 50;

// What is wrong with an expression, and where in it.
struct ExpressionProblem {
  std::size_t at = 0;  // byte within the text
  std::string found, allowed, nearest;
};

double mm_per(LengthUnit unit);

// Units, functions, pi, rule, rest: no value may be called so.
std::span<const std::string_view> reserved_names();
// [A-Za-z_][A-Za-z0-9_]*
bool is_name(std::string_view text);

// The names that expressions may use, each with its place.
class NameTable {
 public:
  NameTable() = default;
  explicit NameTable(std::vector<std::string> names);
  const std::vector<std::string>& names() const { return names_; }
  int place_of(std::string_view name) const;  // -1 where unknown

 private:
  std::vector<std::string> names_;
  std::map<std::string, int, std::less<>> places_;
};

class Expression {
 public:
  // `names`: the values that may be used; `uses` and `evaluate` speak of them by their place in it.
  static std::variant<Expression, ExpressionProblem> read(std::string_view text, const NameTable& names,
                                                          LengthUnit job_unit);

  // Which values it uses, each once.
  const std::vector<int>& uses() const { return uses_; }
  // Set where the whole text is one length literal ("12.5 mm"): its mm, exact where the unit is mm.
  std::optional<double> literal_mm() const { return literal_mm_; }
  bool has_unit() const { return literal_mm_.has_value(); }

  // In the job's unit. `values` by the same places as `names`. Fails on division by zero and wherever a step's result
  // is not a finite real number, even where a later step would hide it.
  std::variant<double, ExpressionProblem> evaluate(std::span<const double> values) const;

  Expression(Expression&&) noexcept;
  Expression& operator=(Expression&&) noexcept;
  ~Expression();

 private:
  Expression();
  struct Machine;  // muParser and what it holds

  std::string formula_;        // for muParser: v0, v1, ... for every number and name
  std::vector<double> slots_;  // what v0, v1, ... stand for; names' places are filled in
  std::vector<int> names_of_;  // for each slot the place of its name, or -1 for a number
  std::vector<int> uses_;
  std::optional<double> literal_mm_;
  bool single_ = false;  // the whole is one number or name: no library needed
  double sign_ = 1;
  mutable std::unique_ptr<Machine> machine_;  // made at the second evaluation: most are evaluated once
  mutable int evaluations_ = 0;
};

}  // namespace halfhard
