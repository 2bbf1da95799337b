// The steps of a path, and the rules about them that need no geometry.
#include <array>

#include "modeller/job/parts.h"

namespace halfhard {
namespace {

constexpr std::array<std::string_view, 5> kSteps = {"go", "to", "bend", "offset", "passover"};
constexpr NumberRange kBendAngle{0, 180, false, false, "an angle above 0 and below 180"};
constexpr NumberRange kOffsetAngle{0, 90, false, true, "an angle above 0, at most 90"};
constexpr NumberRange kPassoverAngle{0, 90, false, false, "an angle above 0 and below 90"};

class PathReader {
 public:
  PathReader(Reading& reading, bool has_to) : reading_(reading), has_to_(has_to) {}

  std::vector<PathStep> read(JsonValue at) {
    const auto members = members_of_list(reading_, at, "a list of path steps");
    for (const JsonValue member : members) read_step(member);
    if (at.kind() == JsonKind::list && members.empty()) {
      reading_.problem(at, "an empty list", "at least one leg; leave \"path\" out to have it found by suggest");
    }
    check_order(members);
    return std::move(steps_);
  }

 private:
  static std::string_view kind_of(JsonValue at) {
    if (at.kind() != JsonKind::group) return "";
    for (const std::string_view kind : kSteps) {
      if (at.find(kind)) return kind;
    }
    return "";
  }

  void read_step(JsonValue at) {
    if (at.kind() != JsonKind::group) {
      reading_.wrong_kind(at, "a path step, a group with one of " + names_in_quotes(kSteps));
      return;
    }
    const std::string_view kind = kind_of(at);
    for (const std::string_view other : kSteps) {
      const JsonValue second = other == kind ? JsonValue() : at.find(other);
      if (second) {
        reading_.problem_at_key(second, in_quotes(other) + " beside " + in_quotes(kind),
                                "one of " + names_in_quotes(kSteps) + " a step");
        return;
      }
    }
    if (kind == "go") return read_go(at);
    if (kind == "to") return read_to(at);
    if (kind == "bend") return read_bend(at);
    if (kind == "offset") return read_offset(at);
    if (kind == "passover") return read_passover(at);
    std::string nearest;
    for (JsonValue member = at.first(); member && nearest.empty(); member = member.next()) {
      nearest = nearest_name(member.key(), kSteps);
    }
    reading_.problem(at, "a step that is none of these", "a group with one of " + names_in_quotes(kSteps), nearest);
  }

  LegLength read_by(Fields& fields) {
    const JsonValue by = fields.needed("by");
    if (!by) return 1.0;
    if (!reading_.is_text(by, "rest")) return reading_.length_mm(by, kLengthAbove0).value_or(1.0);
    if (!has_to_) reading_.problem(by, "\"rest\" in a run without \"to\"", "a length, or a run with \"to\"");
    if (rest_seen_) reading_.problem(by, "a second \"rest\"", "one leg of \"rest\" a run");
    rest_seen_ = true;
    return Rest{};
  }

  Measured read_measured(JsonValue at) {
    static constexpr std::array<std::string_view, 3> kWords = {"centre", "outside", "inside"};
    static constexpr std::array<TapeTouch, 3> kTouches = {TapeTouch::centre, TapeTouch::outside, TapeTouch::inside};
    Measured measured;
    if (!at) return measured;
    Fields fields(reading_, at, keys_of(JobPart::leg_measured));
    fields.word<TapeTouch>("from", measured.from, kWords, kTouches);
    fields.word<TapeTouch>("until", measured.until, kWords, kTouches);
    return measured;
  }

  void read_go(JsonValue at) {
    Fields fields(reading_, at, keys_of(JobPart::go));
    GoStep step;
    step.pointer = at.pointer();
    step.direction = reading_.direction(fields["go"]).value_or(Vec3::UnitZ());
    step.by = read_by(fields);
    step.measured = read_measured(fields["measured"]);
    steps_.emplace_back(std::move(step));
  }

  void read_to(JsonValue at) {
    Fields fields(reading_, at, keys_of(JobPart::to));
    ToStep step;
    step.pointer = at.pointer();
    const JsonValue place = fields["to"];
    if (place.kind() == JsonKind::text) {
      if (auto name = reading_.known_name(place, reading_.known.connections, "a connection"))
        step.to = *std::move(name);
    } else if (place.kind() != JsonKind::list) {
      reading_.wrong_kind(place, "a point [x, y, z] or the name of a connection");
    } else if (auto point = reading_.job_point(place)) {
      step.to = *std::move(point);
    }
    steps_.emplace_back(std::move(step));
  }

  void read_bend(JsonValue at) {
    Fields fields(reading_, at, keys_of(JobPart::bend));
    BendStep step;
    step.pointer = at.pointer();
    step.angle = Angle::degrees(reading_.number(fields["bend"], kBendAngle).value_or(90));
    double roll = 0;
    fields.number("roll", roll, kAnyAngle);
    step.roll = Angle::degrees(roll);
    step.by = read_by(fields);
    step.measured = read_measured(fields["measured"]);
    steps_.emplace_back(std::move(step));
  }

  void read_shift(JsonValue at, OffsetStep& step) {
    if (reading_.is_text(at, "to")) {
      step.to_connection = true;
      if (!has_to_) reading_.problem(at, "\"to\" in a run without \"to\"", "the shift, or a run with \"to\"");
      if (offset_to_seen_) reading_.problem(at, "a second offset \"to\"", "one offset \"to\" a run");
      offset_to_seen_ = true;
      return;
    }
    if (at.kind() != JsonKind::group) {
      reading_.wrong_kind(at, "a group such as { \"right\": length }, or \"to\"");
      return;
    }
    if (auto shift = reading_.shift(at, 1, 2)) {
      step.shift = *std::move(shift);
      if (sum_of(step.shift).isZero(0)) reading_.problem(at, "a shift of 0", "a shift that is not 0");
    }
  }

  void read_offset(JsonValue at) {
    static constexpr std::array<std::string_view, 3> kWords = {"centre", "outside", "inside"};
    static constexpr std::array<OffsetTape, 3> kTapes = {OffsetTape::centre, OffsetTape::outside, OffsetTape::inside};
    Fields fields(reading_, at, keys_of(JobPart::offset));
    OffsetStep step;
    step.pointer = at.pointer();
    read_shift(fields["offset"], step);
    const JsonValue angle = fields["angle"], advance = fields["advance"];
    if (angle && advance) reading_.problem_at_key(advance, "\"advance\" beside \"angle\"", "the one or the other");
    if (!angle && !advance) reading_.problem(at, "no \"angle\"", "an offset with \"angle\" or \"advance\"");
    if (angle && reading_.is_text(angle, "rule")) {
      step.steepness = RuleSetting{};
    } else if (angle) {
      step.steepness = Angle::degrees(reading_.number(angle, kOffsetAngle).value_or(45));
    } else if (advance) {
      step.steepness = Advance{reading_.length_mm(advance, kLengthAbove0).value_or(1)};
    }
    fields.word<OffsetTape>("measured", step.measured, kWords, kTapes);
    steps_.emplace_back(std::move(step));
  }

  void read_passover(JsonValue at) {
    static constexpr std::array<std::string_view, 2> kHeights = {"intersection", "crown"};
    static constexpr std::array<bool, 2> kMeanings = {false, true};
    Fields fields(reading_, at, keys_of(JobPart::passover));
    PassoverStep step;
    step.pointer = at.pointer();
    if (auto shift = reading_.shift(fields["passover"], 1, 1)) {
      step.shift = shift->front();
      if (step.shift.by_mm == 0) reading_.problem(fields["passover"], "a height of 0", "a height that is not 0");
    }
    if (const JsonValue angle = fields.needed("angle")) {
      step.angle = Angle::degrees(reading_.number(angle, kPassoverAngle).value_or(45));
    }
    fields.length("flat", step.flat_mm, kLengthAbove0);
    fields.word<bool>("height", step.height_to_crown, kHeights, kMeanings);
    steps_.emplace_back(std::move(step));
  }

  static bool is_shift(std::string_view kind) { return kind == "offset" || kind == "passover"; }

  // Which step may follow which.
  void check_order(const std::vector<JsonValue>& members) {
    for (std::size_t i = 0; i < members.size(); ++i) {
      const std::string_view kind = kind_of(members[i]);
      const std::string_view before = i > 0 ? kind_of(members[i - 1]) : std::string_view();
      const std::string_view after = i + 1 < members.size() ? kind_of(members[i + 1]) : std::string_view();
      if (kind == "bend" && (i == 0 || is_shift(before))) {
        reading_.problem(members[i], i == 0 ? "a bend as the first step" : "a bend after " + in_quotes(before),
                         "a bend after a leg");
      }
      if (is_shift(kind) && (i == 0 || i + 1 == members.size())) {
        reading_.problem(members[i], std::string(kind) + (i == 0 ? " as the first step" : " as the last step"),
                         std::string(kind) + " between two legs");
      } else if (is_shift(kind) && is_shift(before)) {
        reading_.problem(members[i], std::string(kind) + " after " + in_quotes(before),
                         std::string(kind) + " between two legs");
      }
      if (after == "to" && (kind == "go" || kind == "bend")) {
        if (const JsonValue measured = members[i].find("measured")) {
          reading_.problem_at_key(measured, "\"measured\" before a \"to\" step",
                                  "a leg between centres there: the \"to\" step says where it is");
        }
      }
    }
  }

  Reading& reading_;
  bool has_to_;
  bool rest_seen_ = false, offset_to_seen_ = false;
  std::vector<PathStep> steps_;
};

}  // namespace

std::vector<PathStep> read_path(Reading& reading, JsonValue at, bool has_to) {
  return PathReader(reading, has_to).read(at);
}

}  // namespace halfhard
