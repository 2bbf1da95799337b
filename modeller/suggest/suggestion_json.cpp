#include "modeller/suggest/suggestion_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "geometry/base/require.h"
#include "modeller/steps/site_words.h"

namespace halfhard {
namespace {

using Json = nlohmann::ordered_json;

Json number(double value) {
  const double rounded = std::nearbyint(value);
  if (value == rounded && std::abs(value) < 1e15) return static_cast<long long>(rounded);
  return value;
}

Json length(double mm, LengthUnit unit) { return number(unit == LengthUnit::inch ? mm / 25.4 : mm); }

Json direction(const Vec3& unit_vector) {
  const std::vector<WordShift> words = words_of(unit_vector);
  if (words.size() == 1) return words.front().word;
  return Json::array({number(unit_vector.x()), number(unit_vector.y()), number(unit_vector.z())});
}

Json step(const GoStep& go, LengthUnit unit) {
  Json json;
  json["go"] = direction(go.direction);
  if (const auto* by = std::get_if<double>(&go.by)) {
    json["by"] = length(*by, unit);
  } else {
    json["by"] = "rest";
  }
  return json;
}

Json step(const OffsetStep& offset, LengthUnit unit) {
  Json shift;
  for (const WordShift& part : offset.shift) shift[part.word] = length(part.by_mm, unit);
  Json json;
  json["offset"] = shift;
  json["angle"] = number(std::get<Angle>(offset.steepness).degrees());
  return json;
}

Json step(const PassoverStep& passover, LengthUnit unit) {
  Json json;
  json["passover"] = {{passover.shift.word, length(passover.shift.by_mm, unit)}};
  json["angle"] = number(passover.angle.degrees());
  if (passover.flat_mm) json["flat"] = length(*passover.flat_mm, unit);
  return json;
}

Json path(const std::vector<PathStep>& steps, LengthUnit unit) {
  Json json = Json::array();
  for (const PathStep& each : steps) {
    if (const auto* go = std::get_if<GoStep>(&each)) {
      json.push_back(step(*go, unit));
    } else if (const auto* passover = std::get_if<PassoverStep>(&each)) {
      json.push_back(step(*passover, unit));
    } else {
      const auto* offset = std::get_if<OffsetStep>(&each);
      HALFHARD_REQUIRE(offset);  // nothing else is suggested
      json.push_back(step(*offset, unit));
    }
  }
  return json;
}

std::string text(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

std::string one_path(const SuggestedPath& suggested, LengthUnit unit) {
  std::string line = "{ \"path\": " + path_json(suggested.steps, unit) + ", \"bends\": " + text(suggested.bends) +
                     ", \"angles_deg\": " + text(suggested.angles_deg) +
                     ", \"cut_length_mm\": " + text(number(suggested.cut_length_mm));
  if (std::isfinite(suggested.least_clearance_mm)) {
    line += ", \"least_clearance_mm\": " + text(number(suggested.least_clearance_mm)) +
            ", \"nearest\": " + text(suggested.nearest);
  }
  if (!suggested.drills.empty()) line += ", \"drills\": " + text(suggested.drills);
  return line + ", \"why\": " + text(suggested.why) + " }";
}

}  // namespace

std::string path_json(const std::vector<PathStep>& steps, LengthUnit unit) {
  std::string line = "[ ";
  bool first = true;
  for (const Json& each : path(steps, unit)) {
    line += (first ? "" : ", ") + text(each);
    first = false;
  }
  return line + " ]";
}

std::string suggestions_json(const Job& job, const std::vector<RunSuggestions>& runs) {
  std::string out = "{ \"format\": \"halfhard-suggestions/1\", \"job\": " + text(job.title) + ",\n  \"runs\": [";
  for (std::size_t i = 0; i < runs.size(); ++i) {
    out += (i > 0 ? "," : "") + std::string("\n    { \"run\": ") + text(runs[i].run) +
           ", \"complete_to_bends\": " + text(kCompleteToBends) + ", \"paths\": [";
    for (std::size_t k = 0; k < runs[i].found.paths.size(); ++k) {
      out += (k > 0 ? "," : "") + std::string("\n        ") + one_path(runs[i].found.paths[k], job.unit);
    }
    out += " ], \"stopped_by\": " + text(runs[i].found.stopped_by) + " }";
  }
  return out + " ] }\n";
}

}  // namespace halfhard
