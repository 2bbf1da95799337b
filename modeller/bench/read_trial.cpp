#include "modeller/bench/calibrate.h"
#include "modeller/bench/small_file.h"

namespace halfhard {
namespace {

constexpr NumberRange kBendAngle{0, 190, false, true, "an angle above 0, at most 190"};
constexpr NumberRange kPulled{0, 210, false, true, "an angle above 0, at most 210"};
constexpr double kMostWithLegs_deg = 175;
constexpr NumberRange kAngleAbove0{0, 45, false, true, "an angle above 0, at most 45"};

TrialBend read_bend(Reading& reading, JsonValue at) {
  TrialBend bend;
  Fields fields(reading, at, {"set", "got", "cut_length", "legs", "mark", "curve_starts", "leg_gap"});
  const auto angle = [&](std::string_view key, const NumberRange& range, std::optional<Angle>& out) {
    std::optional<double> degrees;
    fields.number(key, degrees, range);
    if (degrees) out = Angle::degrees(*degrees);
  };
  angle("set", kPulled, bend.set);
  angle("got", kBendAngle, bend.got);
  fields.length("cut_length", bend.cut_length_mm, kLengthAbove0);
  fields.length("mark", bend.mark_mm, kLength0);
  fields.length("curve_starts", bend.curve_starts_mm, kLength0);
  fields.length("leg_gap", bend.leg_gap_mm, kLengthAbove0);
  const JsonValue legs = fields["legs"];
  if (!legs) return bend;
  if (bend.got && bend.got->degrees() > kMostWithLegs_deg) {
    reading.problem(legs, "legs of a bend of " + number_text(bend.got->degrees()) + ", whose outside lines do not meet",
                    "\"leg_gap\", over both outsides");
  }
  const auto both = members_of_list(reading, legs, "two lengths, hook side first");
  if (legs.kind() == JsonKind::list && both.size() != 2) {
    reading.wrong_kind(legs, "two lengths, hook side first");
    return bend;
  }
  if (both.size() != 2) return bend;
  const auto first = reading.length_mm(both[0], kLengthAbove0), second = reading.length_mm(both[1], kLengthAbove0);
  if (first && second) bend.legs_mm = {*first, *second};
  return bend;
}

}  // namespace

TrialReading read_trial(std::string text, const std::string& file) {
  SmallFile small(std::move(text), file, "halfhard-trial/1");
  TrialReading result;
  if (small.root()) {
    Reading& reading = small.reading();
    Trial trial;
    trial.unit = small.unit();
    Fields fields(
        reading, small.root(),
        {"format", "length_unit", "values", "title", "bender", "tube", "outside_diameter", "reading_error", "trials"});
    fields.text("title", trial.title);
    fields.text("bender", trial.bender);
    fields.text("tube", trial.tube);
    fields.needed("outside_diameter");
    fields.length("outside_diameter", trial.outside_diameter_mm, kLengthAbove0);
    if (const JsonValue error = fields["reading_error"]) {
      Fields errors(reading, error, {"length", "angle"});
      errors.length("length", trial.length_error_mm, kLengthAbove0);
      double degrees = trial.angle_error.degrees();
      errors.number("angle", degrees, kAngleAbove0);
      trial.angle_error = Angle::degrees(degrees);
    }
    const JsonValue trials = fields.needed("trials");
    const auto members = members_of_list(reading, trials, "a list of trial bends");
    for (const JsonValue member : members) trial.bends.push_back(read_bend(reading, member));
    if (trials && trials.kind() == JsonKind::list && members.empty()) {
      reading.problem(trials, "an empty list", "at least one trial bend");
    }
    if (small.problems().empty()) result.trial = std::move(trial);
  }
  result.problems = std::move(small.problems());
  in_order_of_the_file(result.problems);
  return result;
}

}  // namespace halfhard
