#include "modeller/job/expression_reader.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "modeller/job/length_literal.h"
#include "modeller/job/problem.h"

namespace halfhard {
namespace {

constexpr std::array<std::string_view, 10> kFunctions = {"sin",  "cos",  "tan", "asin", "acos",
                                                         "atan", "sqrt", "abs", "min",  "max"};
constexpr std::array<std::string_view, 18> kReserved = {"mm",  "cm",  "m",    "in",   "ft",   "sin",
                                                        "cos", "tan", "asin", "acos", "atan", "sqrt",
                                                        "abs", "min", "max",  "pi",   "rule", "rest"};
constexpr const char* kOperandAllowed = "a number, a value's name, a bracket or a function";
constexpr const char* kOperatorAllowed = "+ - * / ^, a closing bracket or the end";

class ExpressionReader {
 public:
  ExpressionReader(std::string_view text, const NameTable& names, LengthUnit unit)
      : text_(text), names_(names), unit_(unit) {}

  std::variant<ExpressionParts, ExpressionProblem> run() {
    if (text_.size() > kLongestExpression) {
      fail(0, "an expression of " + std::to_string(text_.size()) + " characters",
           "at most " + std::to_string(kLongestExpression) + "; use values for its parts");
    }
    bool wants_operand = true;
    while (!problem_) {
      skip_space();
      if (at_ >= text_.size()) break;
      wants_operand = wants_operand ? read_operand() : read_operator();
    }
    if (!problem_ && wants_operand) fail(at_, text_.empty() ? "an empty text" : "the end", kOperandAllowed);
    if (!problem_ && !open_.empty()) fail(open_.back().at, "a bracket that is not closed", "as many ) as (");
    if (problem_) return *problem_;
    parts_.single = operators_ == 0 && parts_.operands.size() == 1;
    return std::move(parts_);
  }

 private:
  struct Bracket {
    std::size_t at;
    bool compares = false;  // of min or max: takes commas
  };

  void fail(std::size_t at, std::string found, std::string allowed, std::string nearest = "") {
    if (!problem_) problem_ = ExpressionProblem{at, std::move(found), std::move(allowed), std::move(nearest)};
  }

  void skip_space() {
    while (at_ < text_.size() && is_space(text_[at_])) ++at_;
  }

  // Reads what an operand starts with; returns whether an operand is still wanted.
  bool read_operand() {
    const char c = text_[at_];
    if (c == '+' || c == '-') return read_sign();
    put_sign();
    if (c == '(') return read_bracket(false);
    if (is_digit(c) || (c == '.' && at_ + 1 < text_.size() && is_digit(text_[at_ + 1]))) {
      read_number();
      return false;
    }
    if (starts_name(c)) return read_name();
    fail(at_, stray(), kOperandAllowed);
    return true;
  }

  bool read_sign() {
    if (text_[at_] == '-') negative_ = !negative_;
    signed_ = true;
    ++at_;
    return true;
  }

  void put_sign() {
    if (negative_) {
      parts_.formula += '-';
      if (parts_.operands.empty() && open_.empty()) parts_.sign = -1;
    }
    negative_ = signed_ = false;
  }

  bool read_bracket(bool compares) {
    if (open_.size() >= static_cast<std::size_t>(kDeepestBrackets)) {
      fail(at_, "brackets nested deeper than " + std::to_string(kDeepestBrackets), "fewer; use values for the parts");
    }
    open_.push_back({at_, compares});
    ++operators_;
    parts_.formula += '(';
    ++at_;
    return true;
  }

  std::string_view name_here() const {
    std::size_t end = at_;
    while (end < text_.size() && (starts_name(text_[end]) || is_digit(text_[end]))) ++end;
    return text_.substr(at_, end - at_);
  }

  bool read_name() {
    const std::string_view name = name_here();
    if (std::ranges::find(kFunctions, name) != kFunctions.end()) {
      const std::size_t at = at_;
      at_ += name.size();
      skip_space();
      if (at_ >= text_.size() || text_[at_] != '(')
        fail(at, in_quotes(name), "a function with its brackets: " + std::string(name) + "(...)");
      if (problem_) return true;
      parts_.formula += name;
      return read_bracket(name == "min" || name == "max");
    }
    if (name == "pi") {
      put_operand({std::acos(-1.0), -1, std::nullopt});
    } else if (length_unit_called(name)) {
      fail(at_, in_quotes(name), "a number before its unit, as in 12.5 mm or 3/8 in");
    } else if (const int known = names_.place_of(name); known >= 0) {
      put_operand({0, known, std::nullopt});
    } else {
      unknown_name(name);
    }
    at_ += name.size();
    return false;
  }

  void unknown_name(std::string_view name) {
    std::vector<std::string> known = names_.names();
    const std::string allowed = known.empty() ? std::string("no names, since the job has no values") : "a value's name";
    for (const std::string_view function : kFunctions) known.emplace_back(function);
    fail(at_, "the unknown name " + in_quotes(name), allowed, nearest_name(name, known));
  }

  void put_operand(Operand operand) {
    parts_.formula += "v" + std::to_string(parts_.operands.size());
    parts_.operands.push_back(operand);
  }

  std::size_t after_space(std::size_t from) const {
    while (from < text_.size() && is_space(text_[from])) ++from;
    return from;
  }

  void read_number() {
    LiteralReading reading = read_length_literal(text_, at_, unit_);
    if (reading.problem) {
      problem_ = std::move(reading.problem);
    } else if (reading.literal) {
      put_operand({reading.literal->in_job_unit, -1, reading.literal->mm});
      at_ = reading.literal->end;
    } else {
      const std::string_view digits = digits_at(text_, at_);
      put_operand({value_of_digits(digits), -1, std::nullopt});
      at_ += digits.size();
      check_after_number(digits);
    }
  }

  void check_after_number(std::string_view digits) {
    if (at_ < text_.size() && text_[at_] == '.') {
      fail(at_, "a second decimal point", "one decimal point");
    } else if (const std::size_t next = after_space(at_); next < text_.size() && starts_name(text_[next])) {
      at_ = next;
      const std::string_view name = name_here();
      std::vector<std::string_view> units;
      for (const LengthUnitName& unit : length_units()) units.push_back(unit.name);
      fail(next, in_quotes(name) + " after the number " + std::string(digits),
           "an operator, or a unit: mm cm m in ft, or the marks ' and \"", nearest_name(name, units));
    } else if (next < text_.size() && is_digit(text_[next])) {
      fail(next, "two numbers side by side", "an operator between them, or a unit after a fraction: 2 1/2 in");
    }
  }

  // Reads what follows an operand; returns whether an operand is wanted next.
  bool read_operator() {
    const char c = text_[at_];
    if (c == ')') {
      if (open_.empty()) {
        fail(at_, "a ) without its (", "as many ) as (");
        return false;
      }
      open_.pop_back();
      parts_.formula += ')';
      ++at_;
      return false;
    }
    if (c == ',' && !open_.empty() && open_.back().compares) {
      parts_.formula += ',';
      ++at_;
      return true;
    }
    if (c == ',') {
      fail(at_, "a comma", "a decimal point; commas stand only within min( ) and max( )");
      return false;
    }
    if (std::string_view("+-*/^").find(c) == std::string_view::npos) {
      fail(at_, stray(), kOperatorAllowed);
      return false;
    }
    parts_.formula += c == '/' ? '~' : c;
    ++operators_;
    ++at_;
    return true;
  }

  // What stands here, in one whole character.
  std::string stray() const {
    std::size_t end = at_ + 1;
    while (end < text_.size() && (static_cast<unsigned char>(text_[end]) & 0xC0) == 0x80) ++end;
    if (starts_name(text_[at_])) return in_quotes(name_here());
    return in_quotes(text_.substr(at_, end - at_));
  }

  std::string_view text_;
  const NameTable& names_;
  LengthUnit unit_;
  std::size_t at_ = 0;
  bool negative_ = false, signed_ = false;
  int operators_ = 0;
  std::vector<Bracket> open_;
  ExpressionParts parts_;
  std::optional<ExpressionProblem> problem_;
};

}  // namespace

std::span<const std::string_view> reserved_names() { return kReserved; }

bool is_name(std::string_view text) {
  return !text.empty() && starts_name(text.front()) &&
         std::ranges::all_of(text, [](char c) { return starts_name(c) || is_digit(c); });
}

std::variant<ExpressionParts, ExpressionProblem> read_expression(std::string_view text, const NameTable& names,
                                                                 LengthUnit job_unit) {
  return ExpressionReader(text, names, job_unit).run();
}

}  // namespace halfhard
