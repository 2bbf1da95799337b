#include <algorithm>
#include <cmath>
#include <set>

#include "modeller/bench/measured.h"
#include "modeller/bench/readings.h"
#include "modeller/bench/small_file.h"

namespace halfhard {
namespace {

constexpr NumberRange kBendAngle{0.02, 179.8, true, true, "an angle from 0.02 to 179.8"};
constexpr NumberRange kRotation{-180, 180, true, true, "an angle from -180 to 180"};
constexpr NumberRange kPulled{0, 200, false, true, "an angle above 0, at most 200"};
constexpr NumberRange kAngleError{0, 45, false, true, "an angle above 0, at most 45"};
constexpr std::array<std::string_view, 2> kEnds = {"datum", "free"};

class MeasuredReader {
 public:
  MeasuredReader(Reading& reading, const Plan& plan) : reading_(reading), plan_(plan) {}

  MeasuredPiece read(JsonValue root) {
    Fields fields(reading_, root,
                  {"format", "length_unit", "values", "run", "bends_made", "bends", "legs", "gaps", "distances",
                   "heights", "ends_apart", "reading_error", "spread", "seen"});
    if (const JsonValue run = fields.needed("run")) find_run(run);
    if (const JsonValue made = fields["bends_made"]; made && bends_ > 0)
      piece_.bends_made = reading_.whole(made, 0, bends_);
    if (run_) model_.emplace(*run_, piece_.bends_made.value_or(bends_));
    each(fields["bends"], "a list of bends", [&](JsonValue at) { read_bend(at); });
    each(fields["legs"], "a list of legs", [&](JsonValue at) { read_leg(at); });
    each(fields["gaps"], "a list of gaps", [&](JsonValue at) { read_gap(at); });
    each(fields["distances"], "a list of distances", [&](JsonValue at) { read_distance(at); });
    each(fields["heights"], "a list of heights", [&](JsonValue at) { read_height(at); });
    fields.length("ends_apart", piece_.ends_apart_mm, kLengthAbove0);
    read_errors(fields);
    each(fields["seen"], "a list of what is seen", [&](JsonValue at) { read_seen(at); });
    static constexpr std::array kMeasured = {"bends", "legs", "gaps", "distances", "heights", "ends_apart", "seen"};
    if (std::ranges::none_of(kMeasured, [&](const char* key) { return bool(fields[key]); }))
      reading_.problem(root, "nothing measured", "\"bends\", \"legs\", \"gaps\" or other readings of the piece");
    return std::move(piece_);
  }

 private:
  template <typename Read>
  void each(JsonValue list, std::string_view allowed, Read read) {
    for (const JsonValue at : members_of_list(reading_, list, allowed)) read(at);
  }

  void find_run(JsonValue at) {
    std::vector<std::string> names;
    for (const auto& run : plan_.runs) names.push_back(run->name);
    const auto name = reading_.known_name(at, names, "a run of the job");
    if (!name) return;
    piece_.run = *name;
    const auto run = std::ranges::find_if(plan_.runs, [&](const auto& each) { return each->name == *name; });
    bends_ = (*run)->line.bend_count();
    if (bends_ == 0) return reading_.problem(at, in_quotes(*name) + ", which is straight", "a run with bends");
    run_ = run->get();
  }

  bool is_made(int number) const { return model_->made()[static_cast<std::size_t>(number - 1)]; }

  // A bend's number that is one of those made.
  std::optional<int> made_bend(JsonValue at) {
    if (!model_) return std::nullopt;
    const auto number = reading_.whole(at, 1, bends_);
    if (!number || is_made(*number)) return number;
    reading_.problem(at, "bend " + std::to_string(*number) + ", which is not made yet", "a bend that is made");
    return std::nullopt;
  }
  std::optional<int> not_seen(std::optional<int> number, JsonValue at, std::set<int>& seen) {
    if (number && !seen.insert(*number).second)
      reading_.problem(at, "number " + std::to_string(*number) + " a second time", "each number once");
    return number;
  }

  void read_bend(JsonValue at) {
    Fields fields(reading_, at, {"number", "angle", "rotation", "set"});
    if (!fields.ok()) return;
    MeasuredBend bend;
    const JsonValue number_at = fields.needed("number");
    const auto number = number_at ? not_seen(made_bend(number_at), number_at, bends_seen_) : std::nullopt;
    const auto angle = [&](std::string_view key, const NumberRange& range, std::optional<Angle>& out) {
      std::optional<double> degrees;
      fields.number(key, degrees, range);
      if (degrees) out = Angle::degrees(*degrees);
    };
    angle("angle", kBendAngle, bend.angle);
    angle("rotation", kRotation, bend.rotation);
    angle("set", kPulled, bend.set);
    if (!number) return;
    bend.number = *number;
    if (bend.rotation && model_->turn_at(*number - 1) < 0) {
      reading_.problem(fields["rotation"], "a rotation of bend " + std::to_string(*number),
                       "rotations from the second bend on: each is from the bend before");
    }
    piece_.bends.push_back(bend);
  }

  void read_leg(JsonValue at) {
    Fields fields(reading_, at, {"number", "length"});
    if (!fields.ok()) return;
    MeasuredLeg leg;
    fields.needed("length");
    fields.length("length", leg.mm, kLengthAbove0);
    const JsonValue number_at = fields.needed("number");
    if (!number_at || !model_) return;
    const auto number = not_seen(reading_.whole(number_at, 1, bends_ + 1), number_at, legs_seen_);
    if (!number) return;
    if (!leg_can_be_read(*model_, *number - 1)) {
      return reading_.problem(number_at, "leg " + std::to_string(*number) + ", which has a bend still to come",
                              "a leg between bends that are made");
    }
    leg.number = *number;
    piece_.legs.push_back(leg);
  }

  std::optional<std::array<int, 2>> two_legs(JsonValue at) {
    const auto both = members_of_list(reading_, at, "two leg numbers");
    if (at && at.kind() == JsonKind::list && both.size() != 2) reading_.wrong_kind(at, "two leg numbers");
    if (both.size() != 2 || !model_) return std::nullopt;
    const auto a = reading_.whole(both[0], 1, bends_ + 1), b = reading_.whole(both[1], 1, bends_ + 1);
    if (!a || !b) return std::nullopt;
    return std::array<int, 2>{*a, *b};
  }

  void read_gap(JsonValue at) {
    Fields fields(reading_, at, {"legs", "over", "near", "far"});
    if (!fields.ok()) return;
    static constexpr std::array<std::string_view, 3> kWords = {"centre", "outside", "inside"};
    static constexpr std::array kMeanings = {Over::centre, Over::outside, Over::inside};
    MeasuredGap gap;
    fields.word("over", gap.over, kWords, std::span<const Over>(kMeanings));
    fields.length("near", gap.near_mm, kLength0);
    fields.length("far", gap.far_mm, kLength0);
    if (!fields["near"] && !fields["far"]) reading_.problem(at, "no reading", "\"near\", \"far\" or both");
    const auto legs = two_legs(fields.needed("legs"));
    if (!legs) return;
    if (!legs_are_parallel(*model_, *legs)) {
      return reading_.problem(fields["legs"],
                              "legs " + std::to_string((*legs)[0]) + " and " + std::to_string((*legs)[1]),
                              "two legs that are meant parallel, with a bend made between them");
    }
    gap.legs = *legs;
    piece_.gaps.push_back(gap);
  }

  std::optional<TapePlace> read_place(JsonValue at) {
    Fields fields(reading_, at, {"end", "bend"});
    if (!fields.ok()) return std::nullopt;
    const JsonValue end = fields["end"], bend = fields["bend"];
    if (bool(end) == bool(bend)) {
      reading_.problem(at, "not one place", "{ \"end\": \"datum\" }, { \"end\": \"free\" } or { \"bend\": number }");
      return std::nullopt;
    }
    if (end) {
      const auto which = reading_.word(end, kEnds);
      if (!which) return std::nullopt;
      return TapePlace(*which == 0 ? End::datum : End::free);
    }
    const auto number = made_bend(bend);
    if (!number) return std::nullopt;
    return TapePlace(AtBend{*number});
  }

  void read_distance(JsonValue at) {
    Fields fields(reading_, at, {"from", "to", "length"});
    if (!fields.ok()) return;
    MeasuredDistance distance;
    const JsonValue from_at = fields.needed("from"), to_at = fields.needed("to");
    fields.needed("length");
    fields.length("length", distance.mm, kLengthAbove0);
    const auto from = from_at ? read_place(from_at) : std::nullopt;
    const auto to = to_at ? read_place(to_at) : std::nullopt;
    if (!from || !to) return;
    distance.from = *from;
    distance.to = *to;
    piece_.distances.push_back(distance);
  }

  void read_height(JsonValue at) {
    Fields fields(reading_, at, {"plane_of", "of", "height"});
    if (!fields.ok()) return;
    static constexpr std::array kMeanings = {End::datum, End::free};
    MeasuredHeight height;
    fields.word("of", height.of, kEnds, std::span<const End>(kMeanings));
    fields.needed("height");
    fields.length("height", height.mm, kAnyLength);
    const auto legs = two_legs(fields.needed("plane_of"));
    if (!legs) return;
    const MadeShape planned = model_->shape(model_->planned());
    const auto along = [&](int leg) { return planned.along[static_cast<std::size_t>(leg - 1)]; };
    if (along((*legs)[0]).cross(along((*legs)[1])).norm() < Angle::degrees(1).sin()) {
      return reading_.problem(fields["plane_of"], "two legs in one direction",
                              "two legs that are not parallel: they lay the piece on the bench");
    }
    height.plane_of = *legs;
    piece_.heights.push_back(height);
  }

  void read_errors(Fields& fields) {
    const auto read = [&](const char* key, const char* length, const char* angle, double& mm, Angle& by) {
      const JsonValue at = fields[key];
      if (!at) return;
      Fields errors(reading_, at, {length, angle});
      errors.length(length, mm, kLengthAbove0);
      double degrees = by.degrees();
      errors.number(angle, degrees, kAngleError);
      by = Angle::degrees(degrees);
    };
    read("reading_error", "length", "angle", piece_.length_error_mm, piece_.angle_error);
    read("spread", "marks", "turns", piece_.mark_spread_mm, piece_.turn_spread);
  }

  void read_seen(JsonValue at) {
    static constexpr std::array<std::string_view, 5> kWords = {"ripple", "flat", "crack", "heated", "squeezed"};
    const auto word = reading_.word(at, kWords);
    if (!word) return;
    Seen& seen = piece_.seen;
    const std::array<bool*, 4> flags = {&seen.ripple, &seen.flat, &seen.crack, &seen.heated};
    if (*word < flags.size()) {
      *flags[*word] = true;
    } else {
      ++seen.squeezed;
    }
  }

  Reading& reading_;
  const Plan& plan_;
  const Run* run_ = nullptr;
  std::optional<PieceModel> model_;
  int bends_ = 0;
  std::set<int> bends_seen_, legs_seen_;
  MeasuredPiece piece_;
};

}  // namespace

MeasuredReading read_measured(std::string text, const std::string& file, const Plan& plan) {
  SmallFile small(std::move(text), file, "halfhard-measured/1");
  MeasuredReading result;
  if (small.root()) {
    MeasuredPiece piece = MeasuredReader(small.reading(), plan).read(small.root());
    if (small.problems().empty()) result.piece = std::move(piece);
  }
  result.problems = std::move(small.problems());
  in_order_of_the_file(result.problems);
  return result;
}

}  // namespace halfhard
