// Everything of a job that is no part of its own: texts, tolerance, stock, sheet, limits.
#include <array>

#include "modeller/job/parts.h"

namespace halfhard {
namespace {

// 10 ft: tube in inches is sold in lengths of 10 and 20 ft (from memory).
constexpr double kAmericanStock_mm = 3048;

constexpr NumberRange kAngleAbove0{0, 180, false, true, "an angle above 0, at most 180"};

void read_stock(Reading& reading, JsonValue at, Stock& stock) {
  Fields fields(reading, at, keys_of(JobPart::stock));
  if (!fields.ok()) return;
  fields.length("cutter_loss", stock.cutter_loss_mm, kLength0);
  const JsonValue lengths = fields["lengths"];
  if (!lengths) return;
  stock.lengths_mm.clear();
  const std::size_t before = reading.problem_count();
  for (const JsonValue member : members_of_list(reading, lengths, "a list of lengths")) {
    if (const auto length = reading.length_mm(member, kLengthAbove0)) stock.lengths_mm.push_back(*length);
  }
  if (stock.lengths_mm.empty() && reading.problem_count() == before) {
    reading.problem(lengths, "an empty list", "at least one length to cut from");
  }
}

void read_sheet(Reading& reading, JsonValue at, TitleBlock& block) {
  static constexpr std::array<std::string_view, 2> kWords = {"first angle", "third angle"};
  static constexpr std::array<bool, 2> kMeanings = {false, true};
  Fields fields(reading, at, keys_of(JobPart::sheet));
  fields.text("owner", block.owner);
  fields.text("identification", block.identification);
  fields.text("revision", block.revision);
  fields.text("date", block.date);
  fields.text("created_by", block.created_by);
  fields.text("approved_by", block.approved_by);
  fields.word<bool>("projection", block.third_angle, kWords, kMeanings);
}

void read_limits(Reading& reading, JsonValue at, Rules& rules) {
  std::vector<std::string_view> names;
  for (const Limit& limit : limits()) names.emplace_back(limit.name);
  for (const JsonValue member : members_of_group(reading, at, "a group of limits by name")) {
    const Limit* known = find_limit(member.key());
    if (!known) {
      reading.problem_at_key(member, "the unknown limit " + in_quotes(member.key()), names_in_quotes(names, 60),
                             nearest_name(member.key(), names));
    }
    Fields fields(reading, member, keys_of(JobPart::limit));
    const JsonValue value = fields.needed("value");
    std::optional<double> figure;
    if (value && known && std::string_view(known->unit) == "mm") {
      figure = reading.length_mm(value, kAnyLength);
    } else if (value) {
      figure = reading.number(value, kAnyNumber);
    }
    // A limit that is changed without saying why would be believed by the next person.
    const JsonValue reason = fields.needed("reason");
    const std::optional<std::string> why = reason ? reading.name(reason) : std::nullopt;
    if (known && figure && why) set_limit(rules, *known, *figure, *why);
  }
}

}  // namespace

std::optional<double> read_drill_clearance(Reading& reading, JsonValue at) {
  if (!at) return std::nullopt;
  return reading.length_mm(at, kLength0);
}

void read_settings(Reading& reading, const Fields& top, Job& job) {
  Fields fields = top;
  fields.text("title", job.title);
  fields.text("origin", job.origin);
  fields.text("surface", job.surface);
  if (const JsonValue at = top["tolerance"]) {
    Fields tolerance(reading, at, keys_of(JobPart::tolerance));
    tolerance.length("length", job.tolerance.length_mm, kLengthAbove0);
    double angle = job.tolerance.angle.degrees();
    tolerance.number("angle", angle, kAngleAbove0);
    job.tolerance.angle = Angle::degrees(angle);
  }
  fields.length("list_clearances_within", job.list_clearances_within_mm, kLength0);
  fields.length("drill_clearance", job.drill_clearance_mm, kLength0);
  if (const JsonValue sets = top["sets"]) job.sets = reading.whole(sets, 1, 10000).value_or(1);
  if (job.unit == LengthUnit::inch) job.stock.lengths_mm = {kAmericanStock_mm};
  if (const JsonValue stock = top["stock"]) read_stock(reading, stock, job.stock);
  if (const JsonValue sheet = top["sheet"]) read_sheet(reading, sheet, job.title_block);
  read_limits(reading, top["limits"], job.rules);
}

}  // namespace halfhard
