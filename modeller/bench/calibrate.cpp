#include "modeller/bench/calibrate.h"

#include <algorithm>
#include <cmath>

#include "geometry/base/require.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

constexpr double kSameSet_deg = 0.5;  // trials pulled this nearly alike are averaged: finer than the scale of a bender

// What a bend saves of the tube, per unit of radius.
double gain_factor(Angle angle) { return 2 * angle.tan_of_half() - angle.radians(); }

bool shows_radius(const TrialBend& bend) { return bend.got && bend.cut_length_mm && bend.legs_mm; }

double centre_leg_mm(const Trial& trial, const TrialBend& bend, std::size_t leg) {
  return (*bend.legs_mm)[leg] - trial.outside_diameter_mm / 2 * bend.got->tan_of_half();
}

double gain_mm(const Trial& trial, const TrialBend& bend) {
  return centre_leg_mm(trial, bend, 0) + centre_leg_mm(trial, bend, 1) - *bend.cut_length_mm;
}

double spread_of(const std::vector<double>& values, double middle) {
  if (values.size() < 2) return 0;
  double sum = 0;
  for (const double value : values) sum += (value - middle) * (value - middle);
  return std::sqrt(sum / static_cast<double>(values.size() - 1));
}

double mean_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

// One reading each of two legs and the cut length, and the angle, that enters both the corner and the factor.
double gain_error_mm(const Trial& trial, const TrialBend& bend, double radius_mm) {
  const double half = 1 / std::cos(bend.got->radians() / 2);
  const double per_radian = trial.outside_diameter_mm / 2 * half * half + radius_mm * (half * half - 1);
  return std::hypot(std::sqrt(3.0) * trial.length_error_mm, per_radian * trial.angle_error.radians());
}

void find_radius(const Trial& trial, Calibration& made) {
  double squares = 0, products = 0;
  std::vector<double> radii;
  for (const TrialBend& bend : trial.bends) {
    if (!shows_radius(bend)) continue;
    const double factor = gain_factor(*bend.got), gain = gain_mm(trial, bend);
    squares += factor * factor;
    products += factor * gain;
    radii.push_back(gain / factor);
  }
  if (radii.empty()) {
    made.remarks.emplace_back(
        "No trial shows the radius: that takes the angle got, the cut length and both legs of one bend.");
    return;
  }
  Estimate radius;
  radius.trials = static_cast<int>(radii.size());
  radius.mm = products / squares;
  radius.spread_mm = spread_of(radii, radius.mm);
  double errors = 0;
  for (const TrialBend& bend : trial.bends) {
    if (shows_radius(bend)) errors += std::pow(gain_factor(*bend.got) * gain_error_mm(trial, bend, radius.mm), 2);
  }
  radius.likely_error_mm =
      std::max(std::sqrt(errors) / squares, radius.spread_mm / std::sqrt(static_cast<double>(radius.trials)));
  if (!(radius.mm > trial.outside_diameter_mm / 2)) {
    made.usable = false;
    made.remarks.push_back(
        "These lengths give a radius of " + shown_number(radius.mm, 1) +
        " mm, less than half the tube: a leg, the cut length or the angle is misread. Measure again.");
    return;
  }
  if (radius.likely_error_mm > radius.mm / 20) {
    made.remarks.emplace_back(
        "The radius is not sure enough: bend two or three more trials to 90, where it shows best.");
  }
  made.radius = radius;
}

void find_mark_offset(const Trial& trial, Calibration& made) {
  std::vector<double> offsets;
  double reading_error = 0;
  for (const TrialBend& bend : trial.bends) {
    if (!bend.mark_mm) continue;
    if (bend.curve_starts_mm) {
      offsets.push_back(*bend.mark_mm - *bend.curve_starts_mm);
      reading_error = std::max(reading_error, std::sqrt(2.0) * trial.length_error_mm);
    } else if (bend.legs_mm && bend.got && made.radius) {
      const double setback = made.radius->mm * bend.got->tan_of_half();
      offsets.push_back(*bend.mark_mm - (centre_leg_mm(trial, bend, 0) - setback));
      reading_error = std::max(reading_error, std::hypot(std::sqrt(2.0) * trial.length_error_mm,
                                                         made.radius->likely_error_mm * bend.got->tan_of_half()));
    }
  }
  if (offsets.empty()) {
    made.remarks.emplace_back(
        "No trial shows the mark offset: that takes the mark, and the legs or where the curve starts.");
    return;
  }
  Estimate offset;
  offset.trials = static_cast<int>(offsets.size());
  offset.mm = mean_of(offsets);
  offset.spread_mm = spread_of(offsets, offset.mm);
  const double root = std::sqrt(static_cast<double>(offset.trials));
  offset.likely_error_mm = std::max(reading_error, offset.spread_mm) / root;
  made.mark_offset = offset;
}

void find_spring_back(const Trial& trial, Calibration& made) {
  std::vector<SpringBackPair> pulled;
  for (const TrialBend& bend : trial.bends) {
    if (bend.set && bend.got) pulled.push_back({*bend.set, *bend.got});
  }
  std::ranges::stable_sort(pulled, {}, &SpringBackPair::set);
  for (std::size_t first = 0; first < pulled.size();) {
    std::vector<double> sets, gots;
    std::size_t next = first;
    for (; next < pulled.size() && (pulled[next].set - pulled[first].set).degrees() <= kSameSet_deg; ++next) {
      sets.push_back(pulled[next].set.degrees());
      gots.push_back(pulled[next].got.degrees());
    }
    first = next;
    const double got = mean_of(gots), spread = spread_of(gots, got);
    if (spread > trial.angle_error.degrees() * 2) {
      made.remarks.push_back("Trials pulled to " + shown_number(mean_of(sets), 1) + " degrees came out " +
                             shown_number(spread, 1) + " degrees apart: check how the stop is set.");
    }
    if (got > mean_of(sets)) {
      made.remarks.push_back("Tube pulled to " + shown_number(mean_of(sets), 1) + " degrees cannot come out at " +
                             shown_number(got, 1) + ": copper springs back, never on. Measure again.");
      continue;
    }
    if (!made.spring_back.empty() && made.spring_back.back().got.degrees() >= got) {
      made.remarks.push_back("More pulled must leave more: the trial pulled to " + shown_number(mean_of(sets), 1) +
                             " degrees is left out. Measure again.");
      continue;
    }
    made.spring_back.push_back({Angle::degrees(mean_of(sets)), Angle::degrees(got)});
  }
  if (made.spring_back.empty()) {
    made.remarks.emplace_back("No trial shows the spring-back: that takes the angle set and the angle got.");
  }
}

std::string estimate_text(const char* name, const Estimate& estimate, LengthUnit unit) {
  const double scale = unit == LengthUnit::inch ? 25.4 : 1;
  const int decimals = unit == LengthUnit::inch ? 3 : 1;
  const std::string word = unit == LengthUnit::inch ? " in" : " mm";
  std::string text = std::string("  ") + name + shown_number(estimate.mm / scale, decimals) + word +
                     ", likely within " + shown_number(estimate.likely_error_mm / scale, decimals) + word + ", from " +
                     std::to_string(estimate.trials) + (estimate.trials == 1 ? " trial" : " trials");
  if (estimate.trials > 1) text += " that spread by " + shown_number(estimate.spread_mm / scale, decimals) + word;
  return text + "\n";
}

}  // namespace

Calibration calibrate(const Trial& trial) {
  Calibration made;
  find_radius(trial, made);
  find_mark_offset(trial, made);
  find_spring_back(trial, made);
  return made;
}

std::string bender_snippet(const Trial& trial, const Calibration& made) {
  HALFHARD_REQUIRE(made.radius);
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
  if (made.radius) text += estimate_text("radius of a finished bend: ", *made.radius, trial.unit);
  if (made.mark_offset) text += estimate_text("mark offset: ", *made.mark_offset, trial.unit);
  for (const SpringBackPair& pair : made.spring_back) {
    text += "  spring-back: pulled to " + shown_angle(pair.set) + " leaves " + shown_angle(pair.got) + "\n";
  }
  for (const std::string& remark : made.remarks) text += "  " + remark + "\n";
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
