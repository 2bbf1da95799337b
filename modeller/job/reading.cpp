#include "modeller/job/reading.h"

#include <algorithm>
#include <cmath>

#include "geometry/words/shown.h"

namespace halfhard {

std::string kind_shown(JsonValue at) {
  switch (at.kind()) {
    case JsonKind::null:
      return "null";
    case JsonKind::boolean:
      return at.boolean() ? "true" : "false";
    case JsonKind::number:
      return std::string(at.raw().substr(0, 40));
    case JsonKind::text:
      return in_quotes(at.text());
    case JsonKind::list:
      return at.size() == 0 ? "an empty list" : "a list of " + std::to_string(at.size());
    case JsonKind::group:
      return "a group { }";
  }
  return "";
}

Reading::Reading(const JsonTree& tree, std::string file, Values& values, LengthUnit unit,
                 std::unordered_map<std::uint32_t, Expression>& expressions, std::vector<JobProblem>& problems,
                 Figures& figures)
    : tree_(tree),
      file_(std::move(file)),
      values_(values),
      unit_(unit),
      expressions_(expressions),
      problems_(problems),
      figures_(figures) {}

void Reading::problem(JsonValue at, std::string found, std::string allowed, std::string nearest, int exit_status) {
  const TextPlace place = at.place();
  problems_.push_back({file_, place.line, place.column, at.pointer(), std::move(found), std::move(allowed),
                       std::move(nearest), exit_status});
}

void Reading::problem_at_key(JsonValue at, std::string found, std::string allowed, std::string nearest) {
  const TextPlace place = at.key_place();
  problems_.push_back(
      {file_, place.line, place.column, at.pointer(), std::move(found), std::move(allowed), std::move(nearest), 2});
}

void Reading::wrong_kind(JsonValue at, std::string_view allowed) { problem(at, kind_shown(at), std::string(allowed)); }

std::optional<Reading::Worked> Reading::work_out(JsonValue at, std::string_view allowed) {
  if (at.kind() == JsonKind::number) return Worked{at.number(), std::nullopt};
  if (at.kind() != JsonKind::text) {
    wrong_kind(at, allowed);
    return std::nullopt;
  }
  auto kept = expressions_.find(at.index());
  if (kept == expressions_.end()) {
    auto reading = Expression::read(at.text(), values_.table(), unit_);
    if (const auto* problem = std::get_if<ExpressionProblem>(&reading)) {
      problems_.push_back(expression_problem(at, *problem, file_));
      return std::nullopt;
    }
    kept = expressions_.emplace(at.index(), std::move(std::get<Expression>(reading))).first;
  }
  for (const int used : kept->second.uses()) {
    if (!values_.good(used)) return std::nullopt;
  }
  const auto result = kept->second.evaluate(values_.numbers());
  if (const auto* problem = std::get_if<ExpressionProblem>(&result)) {
    problems_.push_back(expression_problem(at, *problem, file_));
    return std::nullopt;
  }
  return Worked{std::get<double>(result), kept->second.literal_mm()};
}

bool Reading::in_range(JsonValue at, double value, const NumberRange& range, double shown, const char* unit) {
  const bool low = range.least_itself ? value >= range.least : value > range.least;
  const bool high = range.most_itself ? value <= range.most : value < range.most;
  if (low && high) return true;
  std::string found = kind_shown(at);
  if (at.kind() == JsonKind::text) found += " (" + shown_number(shown, 6) + unit + ")";
  problem(at, std::move(found), range.allowed);
  return false;
}

std::optional<double> Reading::length_mm(JsonValue at, const NumberRange& range) {
  const auto worked = work_out(at, range.allowed);
  if (!worked) return std::nullopt;
  const double mm = worked->literal_mm ? *worked->literal_mm : worked->number * mm_per(unit_);
  const char* unit = unit_ == LengthUnit::inch ? " in" : " mm";
  if (!(std::abs(mm) <= kLargestLength_mm)) {
    const NumberRange limit{-kLargestLength_mm, kLargestLength_mm, true, true, "lengths up to 1e8 mm"};
    in_range(at, mm, limit, worked->number, unit);
    return std::nullopt;
  }
  if (!in_range(at, mm, range, worked->number, unit)) return std::nullopt;
  if (at.kind() == JsonKind::text) figures_[at.pointer()] = {mm, true};
  return mm;
}

std::optional<double> Reading::number(JsonValue at, const NumberRange& range) {
  const auto worked = work_out(at, range.allowed);
  if (!worked) return std::nullopt;
  if (worked->literal_mm) {
    problem(at, "the length " + in_quotes(at.text()), range.allowed);
    return std::nullopt;
  }
  if (!in_range(at, worked->number, range, worked->number, "")) return std::nullopt;
  if (at.kind() == JsonKind::text) figures_[at.pointer()] = {worked->number, false};
  return worked->number;
}

std::optional<int> Reading::whole(JsonValue at, int least, int most) {
  const std::string allowed = "a whole number from " + std::to_string(least) + " to " + std::to_string(most);
  const NumberRange range{static_cast<double>(least), static_cast<double>(most), true, true, allowed.c_str()};
  const auto value = number(at, range);
  if (!value) return std::nullopt;
  const double nearest = std::round(*value);
  if (std::abs(*value - nearest) > 1e-9) {  // rounding in an expression such as 0.1 * 30
    problem(at, kind_shown(at), allowed);
    return std::nullopt;
  }
  return static_cast<int>(nearest);
}

std::optional<bool> Reading::flag(JsonValue at) {
  if (at.kind() == JsonKind::boolean) return at.boolean();
  wrong_kind(at, "true or false");
  return std::nullopt;
}

std::optional<std::string> Reading::text(JsonValue at) {
  if (at.kind() != JsonKind::text) {
    wrong_kind(at, "a text in double quotes");
    return std::nullopt;
  }
  // XML, DXF and C libraries have no way to hold these; tabs and line ends are up to the exporters.
  const bool unprintable = std::ranges::any_of(at.text(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 0x20 && c != '\t' && c != '\n' && c != '\r';
  });
  if (unprintable) {
    problem(at, "a control character in " + in_quotes(at.text()), "a text that can be printed");
    return std::nullopt;
  }
  return std::string(at.text());
}

std::optional<std::string> Reading::name(JsonValue at) {
  auto text = this->text(at);
  if (text && text->empty()) {
    problem(at, "an empty text", "a name");
    return std::nullopt;
  }
  return text;
}

std::optional<std::size_t> Reading::word(JsonValue at, std::span<const std::string_view> words) {
  const bool is_text = at.kind() == JsonKind::text;
  const auto found = is_text ? std::ranges::find(words, at.text()) : words.end();
  if (found == words.end()) {
    const std::string allowed = (words.size() > 1 ? "one of " : "") + names_in_quotes(words);
    problem(at, kind_shown(at), allowed, is_text ? nearest_name(at.text(), words) : "");
    return std::nullopt;
  }
  return static_cast<std::size_t>(found - words.begin());
}

std::optional<std::string> Reading::known_name(JsonValue at, std::span<const std::string> names,
                                               std::string_view what) {
  if (at.kind() != JsonKind::text) {
    wrong_kind(at, "the name of " + std::string(what));
    return std::nullopt;
  }
  if (std::ranges::find(names, at.text()) == names.end()) {
    problem(at, "the unknown name " + in_quotes(at.text()),
            names.empty() ? "the name of " + std::string(what) + ", of which the job has none"
                          : "the name of " + std::string(what) + ": " + names_in_quotes(names),
            nearest_name(at.text(), names));
    return std::nullopt;
  }
  return std::string(at.text());
}

Fields::Fields(Reading& reading, JsonValue group, std::span<const std::string_view> keys)
    : reading_(reading), group_(group) {
  if (!group) return;
  if (group.kind() != JsonKind::group) {
    reading.wrong_kind(group, "a group { }");
    return;
  }
  ok_ = true;
  for (JsonValue member = group.first(); member; member = member.next()) {
    if (std::ranges::find(keys, member.key()) != keys.end()) continue;
    reading.problem_at_key(member, "the unknown key " + in_quotes(member.key()), names_in_quotes(keys, 40),
                           nearest_name(member.key(), keys));
  }
}

JsonValue Fields::needed(std::string_view key) {
  if (!ok_) return {};
  const JsonValue value = group_.find(key);
  if (!value) reading_.problem(group_, "no " + in_quotes(key), "a group with " + in_quotes(key));
  return value;
}

std::optional<Service> Reading::service(JsonValue at) {
  static constexpr std::array<std::string_view, 10> kWords = {
      "cold", "hot", "heating flow", "heating return", "gas", "vent", "discharge", "waste", "electric", "other"};
  const auto place = word(at, kWords);
  if (!place) return std::nullopt;
  return service_from_word(std::string(kWords[*place]));
}

void Fields::service(std::string_view key, Service& out) {
  put(key, out, [&](JsonValue at) { return reading_.service(at); });
}

std::vector<JsonValue> members_of_list(Reading& reading, JsonValue at, std::string_view allowed) {
  std::vector<JsonValue> members;
  if (!at) return members;
  if (at.kind() != JsonKind::list) {
    reading.wrong_kind(at, allowed);
    return members;
  }
  for (JsonValue member = at.first(); member; member = member.next()) members.push_back(member);
  return members;
}

std::vector<JsonValue> members_of_group(Reading& reading, JsonValue at, std::string_view allowed) {
  std::vector<JsonValue> members;
  if (!at) return members;
  if (at.kind() != JsonKind::group) {
    reading.wrong_kind(at, allowed);
    return members;
  }
  for (JsonValue member = at.first(); member; member = member.next()) members.push_back(member);
  return members;
}

}  // namespace halfhard
