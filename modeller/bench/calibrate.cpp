#include "modeller/bench/calibrate.h"

#include <algorithm>
#include <cmath>

#include "geometry/words/shown.h"
#include "modeller/bench/trial_fit.h"

namespace halfhard {
namespace {

// Beyond these no hand bender's bend of copper tube lies; common practice, no source.
constexpr double kLeastRadius_diameters = 2, kMostRadius_diameters = 8;
constexpr double kMostSpringBack_deg = 12;  // at 90
constexpr double kSameSet_deg = 0.5;        // trials pulled this nearly alike are one: finer than the scale of a bender
constexpr double kSure = 0.05;              // of the radius: a figure known less well asks for more trials

std::string trial_name(std::size_t index) { return "Trial " + std::to_string(index + 1); }

void refuse(Calibration& made, std::string why) {
  made.usable = false;
  made.reasons.push_back(std::move(why));
}

// What no bend can show, before anything is worked out of it.
void refuse_impossible(const Trial& trial, Calibration& made) {
  for (std::size_t i = 0; i < trial.bends.size(); ++i) {
    const TrialBend& bend = trial.bends[i];
    const auto length = [&](double mm) { return shown_length(mm, trial.unit); };
    if (bend.cut_length_mm) {
      const double tube = *bend.cut_length_mm;
      if (bend.mark_mm && *bend.mark_mm >= tube)
        refuse(made, trial_name(i) + ": the mark at " + length(*bend.mark_mm) + " lies beyond the tube, which is " +
                         length(tube) + " long.");
      if (bend.curve_starts_mm && *bend.curve_starts_mm >= tube)
        refuse(made, trial_name(i) + ": the curve cannot start at " + length(*bend.curve_starts_mm) + " on a tube of " +
                         length(tube) + ".");
    }
    if (bend.mark_mm && bend.legs_mm && *bend.mark_mm > (*bend.legs_mm)[0] + (*bend.legs_mm)[1])
      refuse(made, trial_name(i) + ": the mark at " + length(*bend.mark_mm) + " lies beyond both legs together.");
    if (bend.leg_gap_mm && bend.got && bend.got->degrees() < 150)
      refuse(made, trial_name(i) + ": a leg gap proves the radius of a 180 only, not of a bend of " +
                       shown_angle(*bend.got) + ".");
    if (!bend.set || !bend.got) continue;
    const double per_90 = (*bend.set - *bend.got).degrees() * 90 / bend.got->degrees();
    const double doubt = trial.angle_error.degrees() * 90 / bend.got->degrees();
    if (per_90 < -doubt)
      refuse(made, trial_name(i) + ": pulled to " + shown_angle(*bend.set) + " it cannot come out at " +
                       shown_angle(*bend.got) + ": copper springs back, never on.");
    if (per_90 > kMostSpringBack_deg + doubt)
      refuse(made, trial_name(i) + ": pulled to " + shown_angle(*bend.set) + " and left at " + shown_angle(*bend.got) +
                       " it would spring back by more than " + shown_number(kMostSpringBack_deg, 0) +
                       "° at 90: look how the angle was set.");
  }
}

void judge_radius(const Trial& trial, Calibration& made) {
  if (!made.radius) {
    made.reasons.emplace_back(
        "No trial shows the radius: that takes the angle left, the tube's length and both legs of one bend, or the gap "
        "over the legs of a 180.");
    return;
  }
  const double least = kLeastRadius_diameters * trial.outside_diameter_mm;
  const double most = kMostRadius_diameters * trial.outside_diameter_mm;
  if (made.radius->mm < least || made.radius->mm > most) {
    refuse(made, "These lengths give a radius of " + shown_length(made.radius->mm, trial.unit) +
                     ", where a hand bender for this tube makes " + shown_length(least, trial.unit) + " to " +
                     shown_length(most, trial.unit) + ": a leg, the tube's length or the angle is misread.");
  } else if (made.radius->within_mm > 2 * kSure * made.radius->mm) {
    made.reasons.emplace_back(
        "The radius is not sure enough: bend two or three more trials to 90, or one 180, where it shows best.");
  }
}

// Trials pulled alike.
struct PulledAlike {
  double set = 0, got = 0, least = 1e9, most = 0;  // means in degrees, and the range of what was left
  int trials = 0;

  void add(double set_deg, double got_deg) {
    ++trials;
    set += (set_deg - set) / trials;
    got += (got_deg - got) / trials;
    least = std::min(least, got_deg);
    most = std::max(most, got_deg);
  }
};

// Pulled alike, one pair: the mean of what all readings say was left. Where readings cannot tell that more pulled left
// more, the trials are one too.
std::vector<PulledAlike> pulled_alike(const Trial& trial, const TrialFit& fit) {
  std::vector<SpringBackPair> pulled;
  for (std::size_t i = 0; i < trial.bends.size(); ++i)
    if (trial.bends[i].set && fit.got[i]) pulled.push_back({*trial.bends[i].set, *fit.got[i]});
  std::ranges::stable_sort(pulled, {}, &SpringBackPair::set);
  const double doubt = 3 * trial.angle_error.degrees();
  std::vector<PulledAlike> groups;
  for (const SpringBackPair& pair : pulled) {
    const double set = pair.set.degrees(), got = pair.got.degrees();
    const bool alike = !groups.empty() && (set - groups.back().set <= kSameSet_deg ||
                                           (got <= groups.back().got && got > groups.back().got - doubt));
    if (!alike) groups.emplace_back();
    groups.back().add(set, got);
  }
  return groups;
}

void find_spring_back(const Trial& trial, const TrialFit& fit, Calibration& made) {
  const std::vector<PulledAlike> groups = pulled_alike(trial, fit);
  for (const PulledAlike& group : groups) {
    const double got = std::min(group.got, group.set);  // within the reading error: it springs back by nothing
    if (group.most - group.least > 5 * trial.angle_error.degrees())
      refuse(made, "Trials pulled to " + shown_number(group.set, 1) + "° came out " +
                       shown_number(group.most - group.least, 1) + "° apart: look how the stop is set.");
    if (!made.spring_back.empty() && made.spring_back.back().got.degrees() >= got) {
      refuse(made, "More pulled must leave more: the trial pulled to " + shown_number(group.set, 1) + "° left " +
                       shown_number(got, 1) + "°. Measure it again.");
      continue;
    }
    made.spring_back.push_back({Angle::degrees(group.set), Angle::degrees(got)});
  }
  if (groups.empty())
    made.reasons.emplace_back("No trial shows the spring-back: that takes the angle pulled to and the angle left.");
}

}  // namespace

Calibration calibrate(const Trial& trial) {
  Calibration made;
  refuse_impossible(trial, made);
  const TrialFit fit = fit_trials(trial);
  made.radius = fit.radius;
  made.mark_offset = fit.mark_offset;
  if (fit.contradictory)
    refuse(made, "These trials cannot all be of one bender: trial " + std::to_string(fit.worst_trial) +
                     " fits the others least. Measure it again, or bend another.");
  judge_radius(trial, made);
  if (!made.mark_offset)
    made.reasons.emplace_back(
        "No trial shows the mark offset: that takes the mark, and the legs or where the curve starts.");
  find_spring_back(trial, fit, made);
  return made;
}

}  // namespace halfhard
