#include "modeller/job/length_literal.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <limits>
#include <string>

#include "modeller/job/problem.h"

namespace halfhard {
namespace {

constexpr std::array<LengthUnitName, 5> kUnits = {{{"mm", 1}, {"cm", 10}, {"m", 1000}, {"in", 25.4}, {"ft", 304.8}}};
constexpr const LengthUnitName& kInch = kUnits[3];
constexpr const LengthUnitName& kFoot = kUnits[4];

// mm into the job's unit, without a detour where literal and job agree.
double in_job_unit(double count, const LengthUnitName& unit, LengthUnit job) {
  if (job == LengthUnit::mm) return count * unit.mm;
  if (unit.name == "in") return count;
  if (unit.name == "ft") return count * 12;
  return count * unit.mm / 25.4;
}

class LiteralReader {
 public:
  LiteralReader(std::string_view text, LengthUnit job_unit) : text_(text), job_unit_(job_unit) {}

  LiteralReading read(std::size_t from) {
    const auto first = literal_at(from);
    if (problem_ || !first) return {std::nullopt, problem_};
    LengthLiteral whole{first->count * first->unit->mm, in_job_unit(first->count, *first->unit, job_unit_), first->end};
    if (first->unit == &kFoot) {
      if (const auto inches = inches_after_feet(first->end)) {
        whole.mm += inches->count * inches->unit->mm;
        whole.in_job_unit += in_job_unit(inches->count, *inches->unit, job_unit_);
        whole.end = inches->end;
      }
    }
    if (problem_) return {std::nullopt, problem_};
    return {whole, std::nullopt};
  }

 private:
  void fail(std::size_t at, std::string found, std::string allowed) {
    if (!problem_) problem_ = ExpressionProblem{at, std::move(found), std::move(allowed), ""};
  }

  std::size_t after_space(std::size_t from) const {
    while (from < text_.size() && is_space(text_[from])) ++from;
    return from;
  }

  // A unit by its name, or by its mark: 1' 2".
  const LengthUnitName* unit_at(std::size_t from, std::size_t& end) const {
    if (from < text_.size() && (text_[from] == '\'' || text_[from] == '"')) {
      end = from + 1;
      return text_[from] == '"' ? &kInch : &kFoot;
    }
    std::size_t stop = from;
    while (stop < text_.size() && (starts_name(text_[stop]) || is_digit(text_[stop]))) ++stop;
    end = stop;
    return length_unit_called(text_.substr(from, stop - from));
  }

  struct Literal {
    double count = 0;
    const LengthUnitName* unit = nullptr;
    std::size_t end = 0;
  };

  // The length literal that starts at `from`, unless what stands there is something else.
  std::optional<Literal> literal_at(std::size_t from) {
    const std::string_view first = digits_at(text_, from);
    if (first.empty()) return std::nullopt;
    Literal literal;
    if (const auto fraction = hyphened_fraction(from + first.size())) {  // 11-3/4 in
      if (!mixed_number(from, first, *fraction, literal)) return std::nullopt;
      return literal;
    }
    std::size_t next = after_space(from + first.size());
    if ((literal.unit = unit_at(next, literal.end))) {  // 12.5 mm
      literal.count = value_of_digits(first);
      return literal;
    }
    if (const auto fraction = fraction_at(from, literal)) {  // 3/8 in
      literal.count = *fraction;
      return literal;
    }
    if (next > from + first.size() && next < text_.size() && is_digit(text_[next])) {  // 2 1/2 in
      if (const auto fraction = fraction_at(next, literal)) {
        if (first.find('.') != first.npos) fail(from, in_quotes(first) + " before a fraction", "a whole number there");
        literal.count = value_of_digits(first) + *fraction;
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
    fraction.top = digits_at(text_, hyphen + 1);
    const std::size_t slash = after_space(hyphen + 1 + fraction.top.size());
    if (fraction.top.empty() || slash >= text_.size() || text_[slash] != '/') return std::nullopt;
    const std::size_t start = after_space(slash + 1);
    fraction.bottom = digits_at(text_, start);
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
    const double top = value_of_digits(fraction.top), bottom = value_of_digits(fraction.bottom);
    const bool of_a_rule = bottom == 2 || bottom == 4 || bottom == 8 || bottom == 16 || bottom == 32 || bottom == 64;
    const bool whole_number = whole.find('.') == whole.npos;
    const bool divided = from > 0 && last_before(from) == '/';
    literal.unit = unit_at(after_space(fraction.end), literal.end);
    if (literal.unit && fraction.tight && whole_number && of_a_rule && top > 0 && top < bottom && !divided) {
      literal.count = value_of_digits(whole) + top / bottom;
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
    const std::string_view top = digits_at(text_, from);
    const std::size_t slash = after_space(from + top.size());
    if (top.empty() || slash >= text_.size() || text_[slash] != '/') return std::nullopt;
    const std::size_t start = after_space(slash + 1);
    const std::string_view bottom = digits_at(text_, start);
    if (bottom.empty()) return std::nullopt;
    literal.unit = unit_at(after_space(start + bottom.size()), literal.end);
    if (!literal.unit) return std::nullopt;
    if (top.find('.') != top.npos || bottom.find('.') != bottom.npos) {
      fail(from, in_quotes(text_.substr(from, literal.end - from)),
           "a fraction of whole numbers before a unit, or brackets to say what is divided");
    }
    if (value_of_digits(bottom) == 0) fail(start, "a division by zero", "a denominator above 0");
    return value_of_digits(top) / value_of_digits(bottom);
  }

  // 2 ft 3 1/2 in; 1' 2"; with a tight hyphen between, 1'-2 1/2", too. A hyphen with space about it takes away.
  std::optional<Literal> inches_after_feet(std::size_t end_of_feet) {
    const bool hyphen = end_of_feet < text_.size() && text_[end_of_feet] == '-';
    const std::size_t next = hyphen ? end_of_feet + 1 : after_space(end_of_feet);
    if (next >= text_.size() || !is_digit(text_[next])) return std::nullopt;
    const auto inches = literal_at(next);
    if (inches && inches->unit == &kInch) return inches;
    if (inches && !hyphen) {
      fail(next, in_quotes(text_.substr(next, inches->end - next)) + " after feet", "inches there, or + between them");
    }
    if (!inches && hyphen && !problem_) {
      const std::string digits(digits_at(text_, next));
      fail(end_of_feet, in_quotes("-" + digits) + " after feet, which can be read two ways",
           in_quotes("-" + digits + "\"") + " for feet and inches, or " + in_quotes(" - " + digits) + " to take away");
    }
    return std::nullopt;
  }

  std::string_view text_;
  LengthUnit job_unit_;
  std::optional<ExpressionProblem> problem_;
};

}  // namespace

std::span<const LengthUnitName> length_units() { return kUnits; }

const LengthUnitName* length_unit_called(std::string_view name) {
  const auto unit = std::ranges::find(kUnits, name, &LengthUnitName::name);
  return unit == kUnits.end() ? nullptr : &*unit;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool starts_name(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '_'; }
bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

std::string_view digits_at(std::string_view text, std::size_t from) {
  std::size_t end = from;
  bool point = false;
  while (end < text.size() && (is_digit(text[end]) || (text[end] == '.' && !point))) point |= text[end++] == '.';
  return text.substr(from, end - from);
}

double value_of_digits(std::string_view digits) {
  double value = 0;
  const auto result = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return result.ec == std::errc::result_out_of_range ? std::numeric_limits<double>::infinity() : value;
}

LiteralReading read_length_literal(std::string_view text, std::size_t from, LengthUnit job_unit) {
  return LiteralReader(text, job_unit).read(from);
}

}  // namespace halfhard
