#include "exporters/bench/bend_rows.h"
#include "exporters/bench/bend_table_files.h"
#include "exporters/report/json_writer.h"
#include "geometry/bending/clock.h"

namespace halfhard {
namespace {

void write_mark(JsonWriter& json, const char* name, double mm, bool may_be_made) {
  if (may_be_made) {
    json.member(name, mm);
  } else {
    json.key(name).null();
  }
}

void write_clock(const Run& run, const Bend& bend, JsonWriter& json) {
  json.key("formed").begin_array();
  for (const ClockReading& reading : clock_readings(run, bend.made)) {
    json.begin_object();
    json.member("bend", reading.bend);
    json.member("side", reading.behind_hook ? "hook" : "lever");
    json.member("clockwise_from_12_deg", reading.clockwise.degrees());
    json.member("hour", reading.hour());
    if (const auto words = points_in_words(run.bender->stands, reading.clockwise)) json.member("points", *words);
    json.end_object();
  }
  json.end_array();
}

void write_bend(const Run& run, const Bend& bend, bool may_be_made, JsonWriter& json) {
  json.begin_object();
  json.member("made", bend.made);
  json.member("number", bend.number);
  write_mark(json, "mark_mm", bend.mark_mm, may_be_made);
  write_mark(json, "mark_from_outside_mm", bend.mark_from_outside_mm, may_be_made);
  json.member("mark_from_bend", bend.mark_from_bend);
  json.member("line_up", run.bender->line_up);
  json.member("hook", end_word(bend.hook));
  json.member("angle_deg", bend.angle.degrees());
  json.member("set_angle_deg", bend.set_angle.degrees());
  json.member("rule_points_set_mm", bend.rule_points_set_mm);
  json.member("rule_points_mm", bend.rule_points_mm);
  json.member("rotation_deg", bend.rotation.degrees());
  write_clock(run, bend, json);
  json.member("radius_mm", bend.radius_mm);
  json.member("straight_before_mm", bend.straight_before_mm);
  json.member("start_of_bend_mm", bend.start_of_bend_mm);
  json.member("end_of_bend_mm", bend.end_of_bend_mm);
  json.key("check").begin_object();
  json.member("text", bend.check.text);
  json.member("mm", bend.check.mm);
  json.member("tolerance_mm", bend.check.tolerance_mm);
  json.end_object().end_object();
}

}  // namespace

std::string bend_table_json(const Plan& plan, const Run& run) {
  const Finding* failure = plan.failure_of(run);
  JsonWriter json;
  json.begin_object();
  json.member("format", "halfhard-bend-table/1");
  json.member("job", plan.title);
  json.member("run", run.name);
  if (failure != nullptr) {
    json.key("not_to_be_made").begin_object();
    json.member("id", failure->id);
    json.member("message", failure->message);
    json.key("more").begin_array();
    for (const Finding* other : failures_of(plan, run)) {
      if (other == failure) continue;
      json.begin_object();
      json.member("id", other->id);
      json.member("message", other->message);
      json.end_object();
    }
    json.end_array();
    json.end_object();
  }
  json.member("blank_length_mm", run.blank_length_mm);
  json.member("cut_length_mm", run.cut_length_mm);
  json.member("outside_diameter_mm", run.tube->outside_diameter_mm);
  json.member("wall_mm", run.tube->wall_mm);
  json.member("marking", run.marking == Marking::all ? "all" : "each");
  json.key("pieces").begin_array();
  for (int index : pieces_alike(plan, run)) json.value(plan.runs[index]->name);
  json.end_array();
  json.member("sets", plan.sets);
  json.key("bends").begin_array();
  for (const Bend* bend : run.bends_as_made()) write_bend(run, *bend, failure == nullptr, json);
  json.end_array();
  json.member("straight_after_mm", run.straight_after_mm);
  json.key("trim").begin_object();
  json.member("datum_mm", run.spare_datum_mm);
  json.member("free_mm", run.spare_free_mm);
  json.end_object();
  json.member("likely_error_mm", likely_error_mm(plan, run));
  json.end_object();
  return json.take();
}

}  // namespace halfhard
