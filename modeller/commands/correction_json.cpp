#include "modeller/commands/correction_json.h"

#include "exporters/report/json_writer.h"

namespace halfhard {
namespace {

void put(JsonWriter& json, const char* key, const std::optional<double>& value) {
  json.key(key);
  if (value) {
    json.value(*value);
  } else {
    json.null();
  }
}

void put_interval(JsonWriter& json, const char* value_key, const char* within_key,
                  const std::optional<KnownWithin>& known) {
  put(json, value_key, known ? std::optional(known->value) : std::nullopt);
  put(json, within_key, known ? std::optional(known->within) : std::nullopt);
}

// The first bend made has no bend before it: its rotation is 0 by definition.
void put_bends(JsonWriter& json, const Run& run, const PieceFit& fit) {
  bool first = true;
  json.key("bends").begin_array();
  for (std::size_t i = 0; i < fit.angles_deg.size(); ++i) {
    const bool made = fit.made[i];
    if (!made) continue;
    json.begin_object().member("number", run.bends[i].number);
    put_interval(json, "angle_deg", "angle_within_deg", fit.angles_deg[i]);
    put_interval(json, "rotation_deg", "rotation_within_deg", first ? KnownWithin{} : fit.turns_deg[i]);
    json.end_object();
    first = false;
  }
  json.end_array();
}

void put_changes(JsonWriter& json, const std::vector<BendChange>& changes) {
  json.key("changes").begin_array();
  for (const BendChange& change : changes) {
    json.begin_object().member("number", change.number).member("from_deg", change.from.degrees());
    json.member("to_deg", change.to.degrees());
    put(json, "pull_to_deg", change.pull_to ? std::optional(change.pull_to->degrees()) : std::nullopt);
    json.member("opens", change.opens()).end_object();
  }
  json.end_array();
}

void put_still_to_bend(JsonWriter& json, const std::vector<NextBend>& bends) {
  json.key("still_to_bend").begin_array();
  for (const NextBend& next : bends) {
    json.begin_object().member("number", next.number).member("mark_mm", next.mark_mm);
    json.member("mark_from_outside_mm", next.mark_from_outside_mm).member("mark_moved_mm", next.mark_moved_mm);
    json.member("angle_deg", next.angle.degrees()).member("set_angle_deg", next.set_angle.degrees());
    json.member("rotation_deg", next.rotation.degrees()).member("turn_height_mm", next.turn_height_mm);
    json.end_object();
  }
  json.end_array();
}

}  // namespace

std::string correction_json(const Run& run, const CorrectionPlan& made) {
  JsonWriter json;
  json.begin_object().member("format", "halfhard-correction/1").member("run", std::string_view(run.name));
  json.member("advice", advice_word(made.advice));
  json.key("reasons").begin_array();
  for (const std::string& reason : made.reasons) json.value(std::string_view(reason));
  json.end_array();
  put_bends(json, run, made.fit);
  put(json, "end_now_mm", made.end_known ? std::optional(made.now.mm()) : std::nullopt);
  put(json, "end_now_within_mm", made.end_known ? std::optional(made.end_within_mm) : std::nullopt);
  put(json, "end_after_mm", made.end_known && made.after ? std::optional(made.after->mm()) : std::nullopt);
  put(json, "end_turned_mm", made.turned ? std::optional(made.turned->miss.mm()) : std::nullopt);
  put(json, "turned_by_deg", made.turned ? std::optional(made.turned->by.degrees()) : std::nullopt);
  put_changes(json, made.changes);
  put_still_to_bend(json, made.still_to_bend);
  json.end_object();
  return json.take();
}

}  // namespace halfhard
