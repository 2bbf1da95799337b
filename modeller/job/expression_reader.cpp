#include "modeller/job/expression_reader.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "modeller/job/problem.h"

namespace halfhard {
namespace {

struct Unit {
  std::string_view name;
  double mm;
};
constexpr std::array<Unit, 5> kUnits = {{{"mm", 1}, {"cm", 10}, {"m", 1000}, {"in", 25.4}, {"ft", 304.8}}};
constexpr const Unit& kInch = kUnits[3];
constexpr const Unit& kFoot = kUnits[4];
constexpr std::array<std::string_view, 10> kFunctions = {"sin",  "cos",  "tan", "asin", "acos",
                                                         "atan", "sqrt", "abs", "min",  "max"};
constexpr std::array<std::string_view, 18> kReserved = {"mm",  "cm",  "m",    "in",   "ft",   "sin",
                                                        "cos", "tan", "asin", "acos", "atan", "sqrt",
                                                        "abs", "min", "max",  "pi",   "rule", "rest"};
constexpr const char* kOperandAllowed = "a number, a value's name, a bracket or a function";
constexpr const char* kOperatorAllowed = "+ - * / ^, a closing bracket or the end";

const Unit* unit_called(std::string_view name) {
  const auto unit = std::ranges::find(kUnits, name, &Unit::name);
  return unit == kUnits.end() ? nullptr : &*unit;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool starts_name(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '_'; }
bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

// mm into the job's unit, without a detour where literal and job agree.
double in_job_unit(double count, const Unit& unit, LengthUnit job) {
  if (job == LengthUnit::mm) return count * unit.mm;
  if (unit.name == "in") return count;
  if (unit.name == "ft") return count * 12;
  return count * unit.mm / 25.4;
}

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
    } else if (unit_called(name)) {
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

  // A run of digits with at most one point; empty where none stands here.
  std::string_view digits_here(std::size_t from) const {
    std::size_t end = from;
    bool point = false;
    while (end < text_.size() && (is_digit(text_[end]) || (text_[end] == '.' && !point))) point |= text_[end++] == '.';
    return text_.substr(from, end - from);
  }

  std::size_t after_space(std::size_t from) const {
    while (from < text_.size() && is_space(text_[from])) ++from;
    return from;
  }

  static double value_of(std::string_view digits) {
    double value = 0;
    const auto result = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return result.ec == std::errc::result_out_of_range ? std::numeric_limits<double>::infinity() : value;
  }

  // A unit by its name, or by its mark: 1' 2".
  const Unit* unit_at(std::size_t from, std::size_t& end) const {
    if (from < text_.size() && (text_[from] == '\'' || text_[from] == '"')) {
      end = from + 1;
      return text_[from] == '"' ? &kInch : &kFoot;
    }
    std::size_t stop = from;
    while (stop < text_.size() && (starts_name(text_[stop]) || is_digit(text_[stop]))) ++stop;
    end = stop;
    return unit_called(text_.substr(from, stop - from));
  }

  struct Literal {
    double count = 0;
    const Unit* unit = nullptr;
    std::size_t end = 0;
  };

  // The length literal that starts at `from`, unless what stands there is something else.
  std::optional<Literal> literal_at(std::size_t from) {
    const std::string_view first = digits_here(from);
    if (first.empty()) return std::nullopt;
    Literal literal;
    if (const auto fraction = hyphened_fraction(from + first.size())) {  // 11-3/4 in
      if (!mixed_number(from, first, *fraction, literal)) return std::nullopt;
      return literal;
    }
    std::size_t next = after_space(from + first.size());
    if ((literal.unit = unit_at(next, literal.end))) {  // 12.5 mm
      literal.count = value_of(first);
      return literal;
    }
    if (const auto fraction = fraction_at(from, literal)) {  // 3/8 in
      literal.count = *fraction;
      return literal;
    }
    if (next > from + first.size() && next < text_.size() && is_digit(text_[next])) {  // 2 1/2 in
      if (const auto fraction = fraction_at(next, literal)) {
        if (first.find('.') != first.npos) fail(from, in_quotes(first) + " before a fraction", "a whole number there");
        literal.count = value_of(first) + *fraction;
        return literal;
      }
    }
    return std::nullopt;
  }

  struct Fraction {
    std::string_view top, bottom;
    std::size_t end = 0;
    bool tight = false;  // no space within it
  };

  // A fraction of digits behind a hyphen that stands tight on both sides.
  std::optional<Fraction> hyphened_fraction(std::size_t hyphen) const {
    if (hyphen >= text_.size() || text_[hyphen] != '-') return std::nullopt;
    Fraction fraction;
    fraction.top = digits_here(hyphen + 1);
    const std::size_t slash = after_space(hyphen + 1 + fraction.top.size());
    if (fraction.top.empty() || slash >= text_.size() || text_[slash] != '/') return std::nullopt;
    const std::size_t start = after_space(slash + 1);
    fraction.bottom = digits_here(start);
    const auto whole = [](std::string_view digits) { return digits.find('.') == digits.npos; };
    if (fraction.bottom.empty() || !whole(fraction.top) || !whole(fraction.bottom)) return std::nullopt;
    fraction.end = start + fraction.bottom.size();
    fraction.tight = fraction.end == hyphen + 1 + fraction.top.size() + 1 + fraction.bottom.size();
    // Space about the stroke: a quotient, unless it is a length.
    std::size_t unit_end = 0;
    if (!fraction.tight && !unit_at(after_space(fraction.end), unit_end)) return std::nullopt;
    return fraction;
  }

  // Eleven and three quarters, written 11-3/4 in. Anything like it could be meant as a mixed number or as a difference:
  // it is refused with both spellings.
  bool mixed_number(std::size_t from, std::string_view whole, const Fraction& fraction, Literal& literal) {
    const double top = value_of(fraction.top), bottom = value_of(fraction.bottom);
    const bool of_a_rule = bottom == 2 || bottom == 4 || bottom == 8 || bottom == 16 || bottom == 32 || bottom == 64;
    const bool whole_number = whole.find('.') == whole.npos;
    const bool divided = from > 0 && last_before(from) == '/';
    literal.unit = unit_at(after_space(fraction.end), literal.end);
    if (literal.unit && fraction.tight && whole_number && of_a_rule && top > 0 && top < bottom && !divided) {
      literal.count = value_of(whole) + top / bottom;
      return true;
    }
    const std::string before(whole), behind = std::string(fraction.top) + "/" + std::string(fraction.bottom);
    fail(from, in_quotes(text_.substr(from, fraction.end - from)) + ", which can be read two ways",
         in_quotes(before + " " + behind + " in") + " for a mixed number, or " + in_quotes(before + " - " + behind) +
             " to take away");
    return false;
  }

  char last_before(std::size_t at) const {
    while (at > 0 && is_space(text_[at - 1])) --at;
    return at > 0 ? text_[at - 1] : '\0';
  }

  // numerator/denominator followed by a unit.
  std::optional<double> fraction_at(std::size_t from, Literal& literal) {
    const std::string_view top = digits_here(from);
    const std::size_t slash = after_space(from + top.size());
    if (top.empty() || slash >= text_.size() || text_[slash] != '/') return std::nullopt;
    const std::size_t start = after_space(slash + 1);
    const std::string_view bottom = digits_here(start);
    if (bottom.empty()) return std::nullopt;
    literal.unit = unit_at(after_space(start + bottom.size()), literal.end);
    if (!literal.unit) return std::nullopt;
    if (top.find('.') != top.npos || bottom.find('.') != bottom.npos) {
      fail(from, in_quotes(text_.substr(from, literal.end - from)),
           "a fraction of whole numbers before a unit, or brackets to say what is divided");
    }
    if (value_of(bottom) == 0) fail(start, "a division by zero", "a denominator above 0");
    return value_of(top) / value_of(bottom);
  }

  void read_number() {
    const std::size_t from = at_;
    auto literal = literal_at(from);
    if (problem_) return;
    if (!literal) {
      const std::string_view digits = digits_here(from);
      put_operand({value_of(digits), -1, std::nullopt});
      at_ = from + digits.size();
      check_after_number(digits);
      return;
    }
    double count = in_job_unit(literal->count, *literal->unit, unit_);
    double mm = literal->count * literal->unit->mm;
    at_ = literal->end;
    if (literal->unit == &kFoot) {
      if (const auto inches = inches_after_feet()) {
        count += in_job_unit(inches->count, *inches->unit, unit_);
        mm += inches->count * inches->unit->mm;
        at_ = inches->end;
      }
    }
    put_operand({count, -1, mm});
  }

  // 2 ft 3 1/2 in; 1' 2"; with a tight hyphen between, 1'-2 1/2", too. A hyphen with space about it takes away.
  std::optional<Literal> inches_after_feet() {
    const bool hyphen = at_ < text_.size() && text_[at_] == '-';
    const std::size_t next = hyphen ? at_ + 1 : after_space(at_);
    if (next >= text_.size() || !is_digit(text_[next])) return std::nullopt;
    const auto inches = literal_at(next);
    if (inches && inches->unit == &kInch) return inches;
    if (inches && !hyphen) {
      fail(next, in_quotes(text_.substr(next, inches->end - next)) + " after feet", "inches there, or + between them");
    }
    if (!inches && hyphen && !problem_) {
      const std::string digits(digits_here(next));
      fail(at_, in_quotes("-" + digits) + " after feet, which can be read two ways",
           in_quotes("-" + digits + "\"") + " for feet and inches, or " + in_quotes(" - " + digits) + " to take away");
    }
    return std::nullopt;
  }

  void check_after_number(std::string_view digits) {
    if (at_ < text_.size() && text_[at_] == '.') {
      fail(at_, "a second decimal point", "one decimal point");
    } else if (const std::size_t next = after_space(at_); next < text_.size() && starts_name(text_[next])) {
      at_ = next;
      const std::string_view name = name_here();
      std::vector<std::string_view> units;
      for (const Unit& unit : kUnits) units.push_back(unit.name);
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
