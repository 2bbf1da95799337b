#include "exporters/report/report.h"

#include "exporters/report/json_writer.h"
#include "geometry/words/alike_findings.h"

namespace halfhard {
namespace {

const char* end_word(End end) { return end == End::datum ? "datum" : "free"; }

const char* word_of(CheckKind kind) {
  static constexpr const char* kWords[] = {"outsides", "along", "straight", "height"};
  return kWords[static_cast<int>(kind)];
}

void write_check(const BendCheck& check, JsonWriter& json) {
  json.begin_object();
  json.member("kind", word_of(check.kind));
  json.member("text", check.dimension.text);
  json.member("mm", check.dimension.mm);
  json.member("tolerance_mm", check.dimension.tolerance_mm);
  if (check.kind == CheckKind::height) {
    json.key("plane_of").begin_array().value(check.first_leg).value(check.second_leg).end_array();
    json.member("of", check.of == End::datum ? "datum" : "free");
  }
  json.key("per_degree_mm").begin_object();
  json.member("angle", check.per_degree_angle_mm);
  json.member("turn", check.per_degree_turn_mm);
  json.end_object().end_object();
}

void write_bend(const Bend& bend, JsonWriter& json) {
  json.begin_object();
  json.member("number", bend.number);
  json.member("made", bend.made);
  json.member("angle_deg", bend.angle.degrees());
  json.member("set_angle_deg", bend.set_angle.degrees());
  json.member("rotation_deg", bend.rotation.degrees());
  json.member("radius_mm", bend.radius_mm);
  json.member("hook", end_word(bend.hook));
  json.member("straight_before_mm", bend.straight_before_mm);
  json.member("start_of_bend_mm", bend.start_of_bend_mm);
  json.member("end_of_bend_mm", bend.end_of_bend_mm);
  json.member("mark_mm", bend.mark_mm);
  json.member("mark_from_outside_mm", bend.mark_from_outside_mm);
  json.member("rule_points_mm", bend.rule_points_mm);
  json.member("rule_points_set_mm", bend.rule_points_set_mm);
  json.key("check").begin_object();
  json.member("text", bend.check.text);
  json.member("mm", bend.check.mm);
  json.member("tolerance_mm", bend.check.tolerance_mm);
  json.end_object();
  json.key("checks").begin_array();
  for (const BendCheck& check : bend.checks) write_check(check, json);
  json.end_array();
  if (!bend.by_gauge.empty()) json.member("by_gauge", bend.by_gauge);
  json.member("turn_height_mm", bend.turn_height_mm);
  json.member("turn_across_mm", bend.turn_across_mm);
  json.end_object();
}

void write_offset(const OffsetRow& offset, JsonWriter& json) {
  json.begin_object();
  json.member("first_bend", offset.first_bend);
  json.member("true_mm", offset.true_mm);
  json.member("travel_mm", offset.travel_mm);
  json.member("advance_mm", offset.advance_mm);
  json.member("lean_deg", offset.lean.degrees());
  json.end_object();
}

void write_run(const Run& run, JsonWriter& json) {
  json.begin_object();
  json.member("name", run.name);
  json.key("tube").begin_object();
  json.member("outside_diameter_mm", run.tube->outside_diameter_mm);
  json.member("wall_mm", run.tube->wall_mm);
  json.end_object();
  json.key("points_mm").begin_array();
  for (const Vec3& point : run.line.points()) json.value(point);
  json.end_array();
  json.member("centreline_length_mm", run.line.length_mm());
  json.member("cut_length_mm", run.cut_length_mm);
  json.member("blank_length_mm", run.blank_length_mm);
  json.member("metal_volume_mm3", run.metal_volume_mm3);
  json.member("mass_kg", run.mass_kg);
  json.member("contents_l", run.contents_l);
  json.key("bends").begin_array();
  for (const Bend& bend : run.bends) write_bend(bend, json);
  json.end_array();
  json.member("straight_after_mm", run.straight_after_mm);
  json.key("offsets").begin_array();
  for (const OffsetRow& offset : run.offsets) write_offset(offset, json);
  json.end_array().end_object();
}

void write_clearance(const Clearance& clearance, JsonWriter& json) {
  json.begin_object();
  json.key("between").begin_array().value(clearance.first).value(clearance.second).end_array();
  json.member("distance_mm", clearance.distance_mm);
  json.member("required_mm", clearance.required_mm);
  json.member("uncertainty_mm", clearance.uncertainty_mm);
  json.key("at_mm").begin_array().value(clearance.at_first).value(clearance.at_second).end_array();
  json.end_object();
}

void write_drilling(const Drilling& drilling, JsonWriter& json) {
  json.begin_object();
  json.member("run", drilling.run);
  json.member("fixture", drilling.fixture);
  json.member("centre_mm", drilling.centre);
  json.member("direction", drilling.direction);
  json.member("diameter_mm", drilling.diameter_mm);
  json.member("depth_mm", drilling.depth_mm);
  json.end_object();
}

void write_clip(const Clip& clip, JsonWriter& json) {
  json.begin_object();
  json.member("run", clip.run);
  json.member("along_mm", clip.along_mm);
  json.member("at_mm", clip.at);
  json.end_object();
}

void write_finding(const Finding& finding, JsonWriter& json) {
  json.begin_object();
  json.member("id", finding.id);
  json.member("severity", severity_word(finding.severity));
  json.member("where", finding.where);
  if (!finding.also.empty()) json.member("also", finding.also);
  json.member("message", finding.message);
  json.member("value", finding.value);
  json.member("limit", finding.limit);
  json.member("unit", finding.unit);
  json.member("source", finding.source);
  json.member("pointer", finding.pointer);
  json.end_object();
}

template <class List, class Write>
void write_list(const char* name, const List& list, Write write, JsonWriter& json) {
  json.key(name).begin_array();
  for (const auto& each : list) write(each, json);
  json.end_array();
}

}  // namespace

std::string report(const Plan& plan) {
  std::string text;
  write_report(plan, [&text](std::string_view piece) { text += piece; });
  return text;
}

void write_report(const Plan& plan, const std::function<void(std::string_view)>& sink) {
  JsonWriter json(sink);
  json.begin_object();
  json.member("format", "halfhard-report/1");
  json.member("job", plan.title);
  json.member("digest", plan.digest);
  write_list(
      "runs", plan.runs, [](const auto& run, JsonWriter& out) { write_run(*run, out); }, json);
  write_list("clearances", plan.clearances, write_clearance, json);
  write_list("drillings", plan.drillings, write_drilling, json);
  write_list("clips", plan.clips, write_clip, json);
  write_list("findings", plan.findings, write_finding, json);
  json.end_object();
  sink(json.take());
}

}  // namespace halfhard
