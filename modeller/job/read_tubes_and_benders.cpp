#include <algorithm>
#include <array>

#include "modeller/catalogue/tube_sizes.h"
#include "modeller/job/parts.h"

namespace halfhard {
namespace {

constexpr std::array<std::string_view, 5> kTempers = {"R220", "R250", "R290", "O", "H"};

void read_standard_tube(Reading& reading, const Fields& fields, JsonValue standard, Tube& tube) {
  const auto place = reading.word(standard, kTubeStandards);
  const JsonValue size = fields["size"];
  if (!size) {
    reading.problem(fields.group(), "no \"size\"", "a size such as \"15 x 0.7\" or \"1/2 L\"");
    return;
  }
  const auto written = reading.text(size);
  if (!place || !written) return;
  tube.standard = std::string(kTubeStandards[*place]);
  const TubeSize* known = find_tube_size(tube.standard, *written);
  if (!known) {
    std::vector<std::string_view> sizes;
    for (const TubeSize& each : tube_sizes()) {
      if (each.standard == tube.standard) sizes.push_back(each.size);
    }
    reading.problem(size, in_quotes(*written),
                    "a size of " + tube.standard +
                        " that is known here, or your own outside_diameter and wall: " + names_in_quotes(sizes, 60),
                    nearest_name(*written, sizes));
    return;
  }
  tube.size = std::string(known->size);
  tube.outside_diameter_mm = known->outside_diameter_mm;
  tube.wall_mm = known->wall_mm;
}

void read_own_tube(Reading& reading, Fields& fields, Tube& tube) {
  const JsonValue diameter = fields.needed("outside_diameter"), wall = fields.needed("wall");
  if (const JsonValue size = fields["size"]) {
    reading.problem_at_key(size, "\"size\" without \"standard\"",
                           "\"standard\" with \"size\", or outside_diameter and wall");
  }
  if (diameter) tube.outside_diameter_mm = reading.length_mm(diameter, kLengthAbove0).value_or(0);
  if (wall) tube.wall_mm = reading.length_mm(wall, kLengthAbove0).value_or(0);
  if (tube.wall_mm > 0 && tube.outside_diameter_mm > 0 && tube.wall_mm >= tube.outside_diameter_mm / 2) {
    reading.problem(wall, "a wall of " + number_text(tube.wall_mm) + " mm",
                    "less than half the outside diameter, " + number_text(tube.outside_diameter_mm / 2) + " mm");
  }
}

void read_spring_back(Reading& reading, JsonValue at, Bender& bender) {
  constexpr NumberRange kTrial{0, 200, false, true, "an angle above 0, at most 200"};
  std::vector<JsonValue> places;
  for (const JsonValue member : members_of_list(reading, at, "a list of { \"set\": angle, \"got\": angle }")) {
    Fields fields(reading, member, keys_of(JobPart::spring_back));
    const JsonValue set_at = fields.needed("set"), got_at = fields.needed("got");
    const auto set = set_at ? reading.number(set_at, kTrial) : std::nullopt;
    const auto got = got_at ? reading.number(got_at, kTrial) : std::nullopt;
    if (set && got) bender.spring_back.push_back({Angle::degrees(*set), Angle::degrees(*got)});
  }
  std::ranges::stable_sort(bender.spring_back, {}, &SpringBackPair::got);
  for (std::size_t i = 1; i < bender.spring_back.size(); ++i) {
    const SpringBackPair &before = bender.spring_back[i - 1], &after = bender.spring_back[i];
    if (before.got < after.got && before.set < after.set) continue;
    reading.problem(at,
                    "set " + number_text(before.set.degrees()) + " got " + number_text(before.got.degrees()) +
                        " and set " + number_text(after.set.degrees()) + " got " + number_text(after.got.degrees()),
                    "pairs in which more pulled is more left, each angle once");
  }
}

void read_bender(Reading& reading, JsonValue at, Bender& bender) {
  constexpr NumberRange kMostAngle{0, 180, false, true, "an angle above 0, at most 180"};
  Fields fields(reading, at, keys_of(JobPart::bender));
  if (!fields.ok()) return;
  fields.needed("former_radius");
  fields.length("former_radius", bender.former_radius_mm, kLengthAbove0);
  fields.flag("radius_measured", bender.radius_measured);
  fields.length("fits", bender.fits_mm, kLengthAbove0);
  fields.length("shortest_end", bender.shortest_end_mm, kLength0);
  fields.length("usual_end", bender.usual_end_mm, kLength0);
  fields.length("shortest_lever", bender.shortest_lever_mm, kLength0);
  fields.length("shortest_between", bender.shortest_between_mm, kLength0);
  if (const JsonValue most = fields["most_angle"]) {
    if (const auto angle = reading.number(most, kMostAngle)) bender.most_angle = Angle::degrees(*angle);
  }
  fields.length("mark_offset", bender.mark_offset_mm, kAnyLength);
  fields.text("line_up", bender.line_up);
  if (const JsonValue stands = fields["stands"]) {
    Fields words(reading, stands, keys_of(JobPart::stands));
    words.text("hook", bender.stands.hook);
    words.text("swing", bender.stands.swing);
    words.length("above_bench", bender.body.above_bench_mm, kLengthAbove0);
    words.length("bench_length", bender.body.bench_length_mm, kLengthAbove0);
    words.length("bench_depth", bender.body.bench_depth_mm, kLengthAbove0);
    words.length("above_floor", bender.body.above_floor_mm, kLengthAbove0);
    words.length("wall_behind", bender.body.wall_behind_mm, kLengthAbove0);
  }
  if (const JsonValue pairs = fields["spring_back"]) read_spring_back(reading, pairs, bender);
  fields.length("former_thickness", bender.body.former_thickness_mm, kLengthAbove0);
  fields.length("hook_length", bender.body.hook_length_mm, kLengthAbove0);
  fields.length("guide_length", bender.body.guide_length_mm, kLengthAbove0);
  fields.length("lever_length", bender.body.lever_length_mm, kLengthAbove0);
  fields.text("calibrated_with", bender.calibrated_with);  // may be a tube that this job does not use
}

}  // namespace

void read_tubes(Reading& reading, JsonValue at, Job& job) {
  for (const JsonValue member : members_of_group(reading, at, "a group of tubes by name")) {
    Tube tube;
    tube.name = std::string(member.key());
    tube.pointer = member.pointer();
    Fields fields(reading, member, keys_of(JobPart::tube));
    if (!fields.ok()) continue;
    const JsonValue standard = fields["standard"];
    if (standard) {
      for (const char* own : {"outside_diameter", "wall"}) {
        if (const JsonValue both = fields[own]) {
          reading.problem_at_key(both, in_quotes(own) + " beside \"standard\"", "the one or the other");
        }
      }
      tube.temper = "R250";  // contract, section 2
      read_standard_tube(reading, fields, standard, tube);
    } else {
      read_own_tube(reading, fields, tube);
    }
    if (const JsonValue temper = fields["temper"]) {
      if (const auto place = reading.word(temper, kTempers)) tube.temper = std::string(kTempers[*place]);
    }
    job.tubes.push_back(std::move(tube));
  }
}

void read_benders(Reading& reading, JsonValue at, Job& job) {
  for (const JsonValue member : members_of_group(reading, at, "a group of benders by name")) {
    Bender bender;
    bender.name = std::string(member.key());
    bender.pointer = member.pointer();
    read_bender(reading, member, bender);
    job.benders.push_back(std::move(bender));
  }
}

}  // namespace halfhard
