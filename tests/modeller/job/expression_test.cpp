#include "modeller/job/expression.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace halfhard {
namespace {

const NameTable kNames({"pitch", "drop", "_e", "minute"});
const std::vector<double> kNumbers = {70, -12.5, 3, 4};

std::variant<double, ExpressionProblem> worked(const std::string& text, LengthUnit unit = LengthUnit::mm) {
  auto reading = Expression::read(text, kNames, unit);
  if (auto* problem = std::get_if<ExpressionProblem>(&reading)) return *problem;
  const auto& expression = std::get<Expression>(reading);
  const auto first = expression.evaluate(kNumbers);
  const auto second = expression.evaluate(kNumbers);
  EXPECT_EQ(std::holds_alternative<double>(first), std::holds_alternative<double>(second)) << text;
  return second;
}

double value(const std::string& text, LengthUnit unit = LengthUnit::mm) {
  const auto result = worked(text, unit);
  if (const auto* problem = std::get_if<ExpressionProblem>(&result)) {
    ADD_FAILURE() << text << ": " << problem->found;
    return NAN;
  }
  return std::get<double>(result);
}

std::string fault(const std::string& text) {
  const auto result = worked(text);
  const auto* problem = std::get_if<ExpressionProblem>(&result);
  return problem ? problem->found : "no fault";
}

TEST(Expression, AllArithmeticIsReal) {
  EXPECT_EQ(value("1/2"), 0.5);
  EXPECT_EQ(value("7/2*2"), 7);
  EXPECT_EQ(value("2+3*4"), 14);
  EXPECT_EQ(value("10-4-3"), 3);
  EXPECT_EQ(value("(2+3)*4"), 20);
  EXPECT_EQ(value(".5 + 5."), 5.5);
}

TEST(Expression, PowersGoRightToLeftAndBeforeSigns) {
  EXPECT_EQ(value("2^3^2"), 512);
  EXPECT_EQ(value("-2^2"), -4);
  EXPECT_EQ(value("(-2)^2"), 4);
  EXPECT_EQ(value("2^-1"), 0.5);
  EXPECT_EQ(value("2^-2^2"), 0.0625);
  EXPECT_EQ(value("3 - -2"), 5);
  EXPECT_EQ(value("--2"), 2);
  EXPECT_EQ(value("+2 * -3"), -6);
  EXPECT_EQ(value("-pitch^2"), -4900);
  EXPECT_EQ(value("-(2)^2"), -4);
  EXPECT_EQ(value("6/-2*3"), -9);
}

TEST(Expression, AnglesAreInDegrees) {
  EXPECT_EQ(value("sin(30)"), 0.5);
  EXPECT_EQ(value("cos(90)"), 0);
  EXPECT_EQ(value("cos(60)"), 0.5);
  EXPECT_EQ(value("sin(180)"), 0);
  EXPECT_EQ(value("tan(45)"), 1);
  EXPECT_NEAR(value("asin(1)"), 90, 1e-13);
  EXPECT_EQ(value("acos(0.5)"), 60);
  EXPECT_NEAR(value("atan(1)"), 45, 1e-13);
  EXPECT_NEAR(value("2*acos((600-50)/600)"), 47.11, 0.005);  // published rule setting, Plumbing Book 1 p. 93
}

TEST(Expression, FunctionsAndPi) {
  EXPECT_EQ(value("sqrt(16)"), 4);
  EXPECT_EQ(value("abs(drop)"), 12.5);
  EXPECT_EQ(value("min(3, 1, 2)"), 1);
  EXPECT_EQ(value("max(5)"), 5);
  EXPECT_EQ(value("min(1,5)"), 1);  // two numbers, no decimal comma
  EXPECT_NEAR(value("pi"), 3.14159265358979, 1e-14);
  EXPECT_EQ(value("max(min(1,2), (3))"), 3);
  EXPECT_EQ(value("minute"), 4);  // a name that starts with a function's and a unit's
  EXPECT_EQ(value("_e"), 3);
}

TEST(Expression, AUnitGovernsItsWholeLiteral) {
  EXPECT_EQ(value("12.5 mm"), 12.5);
  EXPECT_EQ(value("12.5mm"), 12.5);
  EXPECT_EQ(value("3/8 in"), 0.375 * 25.4);
  EXPECT_EQ(value("1/2 in"), 12.7);
  EXPECT_EQ(value("2 1/2 in"), 63.5);
  EXPECT_DOUBLE_EQ(value("2 ft 3 1/2 in"), 27.5 * 25.4);
  EXPECT_EQ(value("1.5 m"), 1500);
  EXPECT_EQ(value("3 cm"), 30);
  EXPECT_EQ(value("2 ft"), 609.6);
  EXPECT_EQ(value("10/2 mm"), 5);
  EXPECT_DOUBLE_EQ(value("pitch + 3/8 in"), 70 + 9.525);
  EXPECT_DOUBLE_EQ(value("2 * 3/8 in"), 19.05);
  EXPECT_DOUBLE_EQ(value("-2 ft 3 in"), -27 * 25.4);
  EXPECT_DOUBLE_EQ(value("2 ft - 3 in"), 21 * 25.4);
  EXPECT_DOUBLE_EQ(value("pitch / 2 mm"), 35);
}

TEST(Expression, InAnInchJobPlainNumbersAreInches) {
  EXPECT_EQ(value("3/8 in", LengthUnit::inch), 0.375);
  EXPECT_EQ(value("2 ft 3 1/2 in", LengthUnit::inch), 27.5);
  EXPECT_DOUBLE_EQ(value("2 + 12.5 mm", LengthUnit::inch), 2 + 12.5 / 25.4);
  EXPECT_EQ(value("25.4 mm", LengthUnit::inch), 1);
}

TEST(Expression, NothingElseExists) {
  for (const char* text : {"5 % 2",     "2 ** 3",     "1 ? 2 : 3", "1 < 2",    "1 == 1",   "1,5",
                           "1 && 1",    "a = 3",      "3!",        "2e3",      "0x10",     "1_000",
                           "sin 30",    "ln(2)",      "log(2)",    "exp(1)",   "_pi",      "sum(1,2)",
                           "if(1,2,3)", "rint(2.5)",  "1 2",       "2 1/2",    "()",       "",
                           " ",         "1+",         "*2",        "(1",       "1)",       "min()",
                           "min(1,)",   "min(,1)",    "sin(1,2)",  "(1,2)",    "1..2",     "1.2.3",
                           ".",         "2 ft 3",     "2 ft 3 cm", "pitch in", "(1/2) in", "in",
                           "5 MM",      "2.5 1/2 in", "1.5/2 in",  "1/0 in",   "5 min",    "\"1\"",
                           "'1'",       "1;2",        "#",         "v0",       "\xC3\xA9", "1 \xE2\x88\x92 2",
                           "rule",      "rest",       "nan",       "inf",      "pitch(2)", "2(3)",
                           "(2)(3)",    "2 pitch",    "mm"}) {
    EXPECT_NE(fault(text), "no fault") << text;
  }
}

TEST(Expression, EveryStepMustBeFinite) {
  EXPECT_EQ(fault("1/0"), "a division by zero");
  EXPECT_EQ(fault("1/(1/0)"), "a division by zero");
  EXPECT_EQ(fault("min(1, 1/0)"), "a division by zero");
  EXPECT_EQ(fault("0^-1"), "a division by zero");
  EXPECT_EQ(fault("sqrt(-1)"), "the square root of a negative number");
  EXPECT_EQ(fault("max(1, sqrt(-1))"), "the square root of a negative number");
  EXPECT_EQ(fault("acos(2)"), "acos of a number beyond -1 to 1");
  EXPECT_EQ(fault("tan(90)"), "the tangent of a right angle");
  EXPECT_EQ(fault("(-8)^(1/3)"), "a negative number to a broken power");
  EXPECT_EQ(fault("10^400"), "a result too large to hold");
  EXPECT_EQ(fault("0 / 10^400"), "a result too large to hold");
}

TEST(Expression, UnknownNamesGetTheNearest) {
  const auto result = worked("pich * 2");
  const auto& problem = std::get<ExpressionProblem>(result);
  EXPECT_EQ(problem.found, "the unknown name \"pich\"");
  EXPECT_EQ(problem.nearest, "pitch");
  EXPECT_EQ(std::get<ExpressionProblem>(worked("1 + atann(2)")).nearest, "atan");
  EXPECT_EQ(std::get<ExpressionProblem>(worked("5 MM")).nearest, "mm");
}

TEST(Expression, LongAndDeepOnesAreRefusedNotCrashedOn) {
  EXPECT_NE(fault(std::string(100000, '(') + "1"), "no fault");
  EXPECT_NE(fault(std::string(900, '(') + "1"), "no fault");
  EXPECT_EQ(value(std::string(50, '(') + "1" + std::string(50, ')')), 1);
  EXPECT_EQ(value(std::string(998, '-') + "1"), 1);
  std::string sum = "1";
  while (sum.size() < 998) sum += "+1";
  EXPECT_EQ(value(sum), static_cast<double>((sum.size() + 1) / 2));
  std::string tower = "1";
  while (tower.size() < 990) tower += "^1";
  EXPECT_EQ(value(tower), 1);
  std::string functions;
  for (int i = 0; i < 50; ++i) functions += "abs(";
  EXPECT_EQ(value(functions + "-3" + std::string(50, ')')), 3);
}

// Random expressions beside a second way to work them out: while they are written.
class Writer {
 public:
  explicit Writer(unsigned start) : random_(start) {}
  struct Written {
    std::string text;
    double value;
    int rank;  // 0 sum, 1 product, 2 sign, 3 power, 4 atom
  };
  Written write(int depth) {
    const int pick = depth == 0 ? 0 : static_cast<int>(random_() % 8);
    if (pick <= 1) {
      const int n = static_cast<int>(random_() % 40);
      return {std::to_string(n) + ".5", n + 0.5, 4};
    }
    Written a = write(depth - 1), b = write(depth - 1);
    switch (pick) {
      case 2:
        return {at_least(a, 0) + " + " + at_least(b, 1), a.value + b.value, 0};
      case 3:
        return {at_least(a, 0) + "-" + at_least(b, 1), a.value - b.value, 0};
      case 4:
        return {at_least(a, 1) + "*" + at_least(b, 2), a.value * b.value, 1};
      case 5:
        return {at_least(a, 1) + " / " + at_least(b, 2), a.value / b.value, 1};
      case 6:
        return {"-" + at_least(a, 3), -a.value, 2};
      default: {
        const int n = static_cast<int>(random_() % 3);
        return {at_least(a, 4) + "^" + std::to_string(n), std::pow(a.value, n), 3};
      }
    }
  }

 private:
  static std::string at_least(const Written& w, int rank) { return w.rank >= rank ? w.text : "(" + w.text + ")"; }
  std::mt19937 random_;
};

TEST(Expression, AgreesWithASecondWayToWorkItOut) {
  const unsigned start = 20261125;
  std::cout << "first random state " << start << "\n";
  for (unsigned i = 0; i < 3000; ++i) {
    const auto written = Writer(start + i).write(5);
    if (written.text.size() > kLongestExpression || !std::isfinite(written.value)) continue;
    const auto result = worked(written.text);
    if (const auto* number = std::get_if<double>(&result)) {
      ASSERT_NEAR(*number, written.value, 1e-12 * std::abs(written.value)) << written.text;
    } else {
      ASSERT_EQ(std::get<ExpressionProblem>(result).found.substr(0, 8), "a divisi") << written.text;
    }
  }
}

TEST(Expression, FeetAndInchesMayBeWrittenWithTheirMarks) {
  EXPECT_EQ(value("12\""), 12 * 25.4);
  EXPECT_DOUBLE_EQ(value("1' 2\""), 14 * 25.4);
  EXPECT_DOUBLE_EQ(value("1'2\""), 14 * 25.4);
  EXPECT_EQ(value("1' 2 1/2\"", LengthUnit::inch), 14.5);
  EXPECT_EQ(value("3/8\" + 1'", LengthUnit::inch), 12.375);
  EXPECT_EQ(value("2 * 1' - pitch", LengthUnit::inch), 24 - 70);
}

TEST(Expression, ATightMixedNumberIsOneNumber) {
  EXPECT_EQ(value("11-3/4 in"), 11.75 * 25.4);
  EXPECT_EQ(value("11-3/4\"", LengthUnit::inch), 11.75);
  EXPECT_EQ(value("-11-3/4in", LengthUnit::inch), -11.75);
  EXPECT_EQ(value("2 ft 3-1/2 in", LengthUnit::inch), 27.5);
  EXPECT_EQ(value("1'-2 1/2\"", LengthUnit::inch), 14.5);
  EXPECT_EQ(value("1'-2-1/2\"", LengthUnit::inch), 14.5);
  EXPECT_EQ(value("1'-3/4\"", LengthUnit::inch), 12.75);
  EXPECT_EQ(value("2 * 4-1/2 in", LengthUnit::inch), 9);
  // Space about the minus takes away.
  EXPECT_EQ(value("11 - 3/4 in", LengthUnit::inch), 10.25);
  EXPECT_EQ(value("1' - 2\"", LengthUnit::inch), 10);
  EXPECT_EQ(value("11-3"), 8);
  EXPECT_EQ(value("(11)-3/4"), 10.25);
  EXPECT_EQ(value("pitch-3/4"), 69.25);
  EXPECT_EQ(value("11-3 / 4"), 10.25);
  EXPECT_EQ(value("11-1.5/2"), 10.25);
}

TEST(Expression, WhatCouldBeMeantTwoWaysIsRefusedWithBothSpellings) {
  for (const char* text : {"11-3/4", "11-5/4 in", "11-3/7 in", "1.5-3/4 in", "11-0/4 in", "45-1/2 * 2", "11-3 / 4 in",
                           "11-3/4 mm + 2", "3/4-1/2 in"}) {
    const auto result = worked(text);
    const auto* problem = std::get_if<ExpressionProblem>(&result);
    if (std::string(text) == "11-3/4 mm + 2") {
      EXPECT_FALSE(problem) << "halves to 64ths of any unit";
      continue;
    }
    ASSERT_TRUE(problem) << text;
    EXPECT_NE(problem->found.find("two ways"), std::string::npos) << problem->found;
    EXPECT_NE(problem->allowed.find(" - "), std::string::npos) << problem->allowed;
  }
  EXPECT_NE(fault("1'-2").find("two ways"), std::string::npos);
}

// Random feet, inches and fractions in every spelling, against the same sum in plain numbers.
TEST(Expression, EverySpellingOfALengthComesToTheSame) {
  const unsigned seed = 20261127;
  std::mt19937 random(seed);
  const auto pick = [&](int from, int to) { return std::uniform_int_distribution<int>(from, to)(random); };
  for (int i = 0; i < 3000; ++i) {
    const int feet = pick(0, 2) ? pick(1, 40) : 0, inches = pick(0, 11), bottom = 1 << pick(1, 6);
    const int top = pick(0, 2) ? 2 * pick(0, bottom / 2 - 1) + 1 : 0;
    if (feet + inches + top == 0) continue;
    const bool marks = pick(0, 1) == 1;
    const std::string space = pick(0, 1) ? " " : "", foot = marks ? "'" : space + "ft", inch = marks ? "\"" : " in";
    std::string text;
    if (feet > 0) text += std::to_string(feet) + foot;
    if (inches > 0 || top > 0) {
      if (feet > 0) text += pick(0, 1) ? "-" : " ";
      if (inches > 0) text += std::to_string(inches);
      if (inches > 0 && top > 0) text += pick(0, 1) ? "-" : " ";
      if (top > 0) text += std::to_string(top) + "/" + std::to_string(bottom);
      text += inch;
    }
    const double expected = feet * 12 + inches + static_cast<double>(top) / bottom;
    EXPECT_DOUBLE_EQ(value(text, LengthUnit::inch), expected) << text << ", seed " << seed;
    EXPECT_NEAR(value(text, LengthUnit::mm), expected * 25.4, 1e-9) << text;
  }
}

}  // namespace
}  // namespace halfhard
