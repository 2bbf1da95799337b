#include "modeller/job/expression.h"

#include <muParser.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "modeller/job/expression_reader.h"

namespace halfhard {
namespace {

// Set by the functions below while muParser works, so that 1/(1/0) does not pass for 0.
thread_local const char* t_fault = nullptr;

double checked(double result, const char* fault) {
  if (!std::isfinite(result) && !t_fault) t_fault = fault;
  return result;
}

constexpr const char* kTooLarge = "a result too large to hold";

// Exact at the quarter turns, where sin(pi) in radians is not quite 0.
double sine_of(double degrees) {
  const double turned = std::remainder(degrees, 360.0);
  if (std::remainder(turned, 180.0) == 0) return 0;
  if (turned == 90 || turned == -90) return turned / 90;
  if (turned == 30 || turned == 150) return 0.5;
  if (turned == -30 || turned == -150) return -0.5;
  return std::sin(turned * std::numbers::pi / 180);
}
double sine(double degrees) { return checked(std::isfinite(degrees) ? sine_of(degrees) : NAN, kTooLarge); }
double cosine_of(double degrees) { return sine_of(90 - std::abs(std::remainder(degrees, 360.0))); }
double cosine(double degrees) { return checked(std::isfinite(degrees) ? cosine_of(degrees) : NAN, kTooLarge); }
double tangent(double degrees) {
  if (!std::isfinite(degrees)) return checked(NAN, kTooLarge);
  if (std::remainder(degrees, 180.0) == 45) return 1;
  if (std::remainder(degrees, 180.0) == -45) return -1;
  const double cosine = cosine_of(degrees);
  return checked(cosine == 0 ? INFINITY : sine_of(degrees) / cosine, "the tangent of a right angle");
}
double in_degrees(double radians) { return radians * 180 / std::numbers::pi; }
double arc_sine(double x) { return checked(in_degrees(std::asin(x)), "asin of a number beyond -1 to 1"); }
double arc_cosine(double x) {
  if (x == 0.5) return 60;
  return checked(in_degrees(std::acos(x)), "acos of a number beyond -1 to 1");
}
double arc_tangent(double x) { return checked(in_degrees(std::atan(x)), kTooLarge); }
double root(double x) { return checked(std::sqrt(x), "the square root of a negative number"); }
double absolute(double x) { return std::abs(x); }
double divided(double a, double b) { return checked(a / b, b == 0 ? "a division by zero" : kTooLarge); }
double power(double a, double b) {
  if (a == 0 && b < 0) return checked(INFINITY, "a division by zero");
  return checked(std::pow(a, b), a < 0 ? "a negative number to a broken power" : kTooLarge);
}
double plus(double a, double b) { return checked(a + b, kTooLarge); }
double minus(double a, double b) { return checked(a - b, kTooLarge); }
double times(double a, double b) { return checked(a * b, kTooLarge); }
double least(const double* values, int count) { return *std::min_element(values, values + count); }
double greatest(const double* values, int count) { return *std::max_element(values, values + count); }

// muParser with our functions alone. Its own operators are switched off: they would hide a step that is not finite.
mu::Parser our_parser() {
  mu::Parser parser;
  parser.ClearFun();
  parser.ClearConst();
  parser.EnableBuiltInOprt(false);
  parser.DefineOprt("+", plus, mu::prADD_SUB, mu::oaLEFT, false);
  parser.DefineOprt("-", minus, mu::prADD_SUB, mu::oaLEFT, false);
  parser.DefineOprt("*", times, mu::prMUL_DIV, mu::oaLEFT, false);
  parser.DefineOprt("~", divided, mu::prMUL_DIV, mu::oaLEFT, false);
  parser.DefineOprt("^", power, mu::prPOW, mu::oaRIGHT, false);
  parser.DefineFun("sin", sine);
  parser.DefineFun("cos", cosine);
  parser.DefineFun("tan", tangent);
  parser.DefineFun("asin", arc_sine);
  parser.DefineFun("acos", arc_cosine);
  parser.DefineFun("atan", arc_tangent);
  parser.DefineFun("sqrt", root);
  parser.DefineFun("abs", absolute);
  parser.DefineFun("min", least);
  parser.DefineFun("max", greatest);
  return parser;
}

// Copying this one is far quicker than defining everything again.
const mu::Parser& pattern_parser() {
  static const mu::Parser parser = our_parser();
  return parser;
}

}  // namespace

NameTable::NameTable(std::vector<std::string> names) : names_(std::move(names)) {
  for (std::size_t i = 0; i < names_.size(); ++i) places_.emplace(names_[i], static_cast<int>(i));
}

int NameTable::place_of(std::string_view name) const {
  const auto known = places_.find(name);
  return known == places_.end() ? -1 : known->second;
}

double mm_per(LengthUnit unit) { return unit == LengthUnit::inch ? 25.4 : 1.0; }

struct Expression::Machine {
  mu::Parser parser{pattern_parser()};
  std::vector<double> slots;

  void take(const std::string& formula, std::size_t operands) {
    if (operands > slots.size()) {
      slots.resize(operands);  // moves them: all are told again where they are
      for (std::size_t i = 0; i < operands; ++i) parser.DefineVar("v" + std::to_string(i), &slots[i]);
    }
    parser.SetExpr(formula);
  }
};

Expression::Expression() = default;
Expression::Expression(Expression&&) noexcept = default;
Expression& Expression::operator=(Expression&&) noexcept = default;
Expression::~Expression() = default;

std::variant<Expression, ExpressionProblem> Expression::read(std::string_view text, const NameTable& names,
                                                             LengthUnit job_unit) {
  auto reading = read_expression(text, names, job_unit);
  if (auto* problem = std::get_if<ExpressionProblem>(&reading)) return std::move(*problem);
  ExpressionParts& parts = std::get<ExpressionParts>(reading);
  Expression made;
  made.formula_ = std::move(parts.formula);
  made.single_ = parts.single;
  made.sign_ = parts.sign;
  for (const Operand& operand : parts.operands) {
    made.slots_.push_back(operand.value);
    made.names_of_.push_back(operand.name);
    const bool known = operand.name < 0 || std::ranges::find(made.uses_, operand.name) != made.uses_.end();
    if (!known) made.uses_.push_back(operand.name);
  }
  if (parts.single && parts.operands.front().mm) made.literal_mm_ = parts.sign * *parts.operands.front().mm;
  return made;
}

std::variant<double, ExpressionProblem> Expression::evaluate(std::span<const double> values) const {
  const auto operand = [&](std::size_t slot) {
    const int name = names_of_[slot];
    return name < 0 ? slots_[slot] : values[static_cast<std::size_t>(name)];
  };
  double result = 0;
  t_fault = nullptr;
  if (single_) {
    result = sign_ * operand(0);
  } else {
    try {
      // Most expressions are worked out once, and a parser of their own would cost more than the work: the first time
      // they share one.
      static thread_local Machine shared;
      if (evaluations_ > 0 && !machine_) {
        machine_ = std::make_unique<Machine>();
        machine_->take(formula_, slots_.size());
      }
      Machine& machine = machine_ ? *machine_ : shared;
      if (!machine_) shared.take(formula_, slots_.size());
      for (std::size_t i = 0; i < slots_.size(); ++i) machine.slots[i] = operand(i);
      ++evaluations_;
      result = machine.parser.Eval();
    } catch (const mu::ParserError& error) {
      return ExpressionProblem{0, "an expression that cannot be worked out: " + error.GetMsg(), "a simpler one", ""};
    }
  }
  if (t_fault) return ExpressionProblem{0, t_fault, "a finite number", ""};
  if (!std::isfinite(result)) return ExpressionProblem{0, kTooLarge, "a finite number", ""};
  return result == 0 ? 0.0 : result;  // never -0
}

}  // namespace halfhard
