#include <algorithm>
#include <set>

#include "modeller/bench/correct.h"
#include "modeller/bench/small_file.h"

namespace halfhard {
namespace {

constexpr NumberRange kBendAngle{0.02, 179.8, true, true, "an angle from 0.02 to 179.8"};
constexpr NumberRange kRotation{-180, 180, true, true, "an angle from -180 to 180"};
constexpr NumberRange kPulled{0, 200, false, true, "an angle above 0, at most 200"};

class MeasuredReader {
 public:
  MeasuredReader(Reading& reading, const Plan& plan) : reading_(reading), plan_(plan) {}

  MeasuredPiece read(JsonValue root) {
    Fields fields(reading_, root, {"format", "length_unit", "values", "run", "bends", "legs", "ends_apart"});
    if (const JsonValue run = fields.needed("run")) find_run(run);
    for (const JsonValue bend : members_of_list(reading_, fields["bends"], "a list of bends")) read_bend(bend);
    for (const JsonValue leg : members_of_list(reading_, fields["legs"], "a list of legs")) read_leg(leg);
    fields.length("ends_apart", piece_.ends_apart_mm, kLengthAbove0);
    if (!fields["bends"] && !fields["legs"]) {
      reading_.problem(root, "nothing measured", "\"bends\" or \"legs\" with what was measured");
    }
    return std::move(piece_);
  }

 private:
  void find_run(JsonValue at) {
    std::vector<std::string> names;
    for (const auto& run : plan_.runs) names.push_back(run->name);
    const auto name = reading_.known_name(at, names, "a run of the job");
    if (!name) return;
    piece_.run = *name;
    const auto run = std::ranges::find_if(plan_.runs, [&](const auto& each) { return each->name == *name; });
    bends_ = (*run)->line.bend_count();
    if (bends_ == 0) reading_.problem(at, in_quotes(*name) + ", which is straight", "a run with bends");
  }

  // The number, when it is one of the run's and not given before.
  std::optional<int> number_of(Fields& fields, std::set<int>& seen, int most) {
    const JsonValue at = fields.needed("number");
    if (!at || bends_ == 0) return std::nullopt;
    const auto number = reading_.whole(at, 1, most);
    if (number && !seen.insert(*number).second) {
      reading_.problem(at, "number " + std::to_string(*number) + " a second time", "each number once");
    }
    return number;
  }

  void read_bend(JsonValue at) {
    Fields fields(reading_, at, {"number", "angle", "rotation", "set"});
    if (!fields.ok()) return;
    MeasuredBend bend;
    bend.number = number_of(fields, bends_seen_, bends_).value_or(1);
    const auto angle = [&](std::string_view key, const NumberRange& range, std::optional<Angle>& out) {
      std::optional<double> degrees;
      fields.number(key, degrees, range);
      if (degrees) out = Angle::degrees(*degrees);
    };
    angle("angle", kBendAngle, bend.angle);
    angle("rotation", kRotation, bend.rotation);
    angle("set", kPulled, bend.set);
    if (bend.rotation && bend.number == 1) {
      reading_.problem(fields["rotation"], "a rotation of bend 1",
                       "rotations from bend 2 on: each is from the bend before");
    }
    piece_.bends.push_back(bend);
  }

  void read_leg(JsonValue at) {
    Fields fields(reading_, at, {"number", "length"});
    if (!fields.ok()) return;
    MeasuredLeg leg;
    leg.number = number_of(fields, legs_seen_, bends_ + 1).value_or(1);
    fields.needed("length");
    fields.length("length", leg.mm, kLengthAbove0);
    piece_.legs.push_back(leg);
  }

  Reading& reading_;
  const Plan& plan_;
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
