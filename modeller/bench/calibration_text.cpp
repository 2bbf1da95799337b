#include "geometry/base/require.h"
#include "geometry/words/shown.h"
#include "modeller/bench/calibrate.h"

namespace halfhard {
namespace {

std::string estimate_text(const char* name, const Estimate& estimate, LengthUnit unit) {
  const bool inch = unit == LengthUnit::inch;
  const double scale = inch ? 25.4 : 1;
  const int decimals = inch ? 3 : 1;
  const std::string word = inch ? " in" : " mm";
  return std::string("  ") + name + shown_number(estimate.mm / scale, decimals) + word + ", in 19 of 20 cases within " +
         shown_number(estimate.within_mm / scale, decimals) + word + "\n";
}

}  // namespace

std::string bender_snippet(const Trial& trial, const Calibration& made) {
  HALFHARD_REQUIRE(made.usable && made.radius);
  const double scale = trial.unit == LengthUnit::inch ? 25.4 : 1;
  const int decimals = trial.unit == LengthUnit::inch ? 4 : 2;
  const auto length = [&](double mm) { return shown_number(mm / scale, decimals); };
  std::string text = in_quotes_json(trial.bender.empty() ? "bender" : trial.bender) + ": { ";
  text += "\"former_radius\": " + length(made.radius->mm) +
          ", \"radius_measured\": true, \"fits\": " + length(trial.outside_diameter_mm);
  if (made.mark_offset) text += ", \"mark_offset\": " + length(made.mark_offset->mm);
  std::string pairs;
  for (const SpringBackPair& pair : made.spring_back) {
    pairs += (pairs.empty() ? "" : ", ") + std::string("{ \"set\": ") + shown_number(pair.set.degrees(), 2) +
             ", \"got\": " + shown_number(pair.got.degrees(), 2) + " }";
  }
  if (!pairs.empty()) text += ", \"spring_back\": [ " + pairs + " ]";
  if (!trial.tube.empty()) text += ", \"calibrated_with\": " + in_quotes_json(trial.tube);
  return text + " }";
}

std::string calibration_text(const Trial& trial, const Calibration& made) {
  std::string text =
      (trial.bender.empty() ? "Bender" : trial.bender) + " with " +
      (trial.tube.empty() ? "tube of " + shown_length(trial.outside_diameter_mm, trial.unit) : trial.tube) +
      (trial.title.empty() ? "" : ", " + trial.title) + "\n";
  if (made.usable) {
    if (made.radius) text += estimate_text("radius of a finished bend: ", *made.radius, trial.unit);
    if (made.mark_offset) text += estimate_text("mark offset: ", *made.mark_offset, trial.unit);
    for (const SpringBackPair& pair : made.spring_back) {
      text += "  spring-back: pulled to " + shown_angle(pair.set) + " leaves " + shown_angle(pair.got) + "\n";
    }
  }
  for (const std::string& reason : made.reasons) text += "  " + reason + "\n";
  if (!made.usable) return text + "Nothing to put into a job.\n";
  text += "Good for this bender with this tube only: another wall or temper springs back otherwise.\n";
  if (made.radius) {
    text += std::string("For the job's \"benders\"") +
            (trial.unit == LengthUnit::inch ? " (a job in inches)" : " (a job in mm)") + ":\n" +
            bender_snippet(trial, made) + "\n";
  } else {
    text += "Without a radius there is no bender to put into a job.\n";
  }
  return text;
}

}  // namespace halfhard
