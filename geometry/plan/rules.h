// What a job is held to: every limit of the checks, resolved once (the job's own figure in place of the usual one), and
// carried by the plan, so that checks, planner, report, sheets and window read one and the same value.
// The limits of a bender itself (shortest_end and so on) are the bender's, not here.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace halfhard {

// A limit as a job has it.
struct Rule {
  double value = 0;       // in `unit`
  std::string_view unit;  // "mm", "deg", "%", "K", "x OD", "of span" ...
  std::string source;     // the table's, or the job's reason
  std::string remark;     // to end a sentence with: "" or " (limit set in this job: REASON)"
  bool of_job = false;    // set by the job
  friend bool operator==(const Rule&, const Rule&) = default;
};

// Made with the usual figures of the table below.
struct Rules {
  Rules();

  Rule smallest_radius, kink_radius, largest_cold_bent, wall_thinning, ovality, former_fit;
  Rule end_out_of_place, end_out_of_line, rule_angle_near;
  Rule radius_error_measured, radius_error_unmeasured, mark_error, mark_offset_unmeasured;
  Rule angle_error, rotation_error, spring_back_unmeasured, tape_error;
  Rule gas_from_equipment, gas_from_cable, cold_from_hot;
  Rule least_fall, temperature_rise, expansion_movement;
  Rule clip_level, clip_upright;
  Rule joist_hole_from, joist_hole_to, joist_hole_size, joist_hole_most, joist_holes_apart;
  Rule joist_notch_from, joist_notch_to, joist_notch_size, joist_notch_most, joist_notch_to_hole, joist_least_depth;

  friend bool operator==(const Rules&, const Rules&) = default;
};

// A row of the table of limits.
struct Limit {
  const char* name;     // the key in the job's "limits", and the member of Rules
  double value;         // the usual figure, in `unit`
  const char* unit;     // "mm": a length, in the job's own unit there
  const char* meaning;  // in the trade's words
  const char* source;
  Rule Rules::*rule;
};

// In the order that people read them.
std::span<const Limit> limits();
// nullptr where there is none of that name.
const Limit* find_limit(std::string_view name);

// The job's own figure, in the limit's unit (lengths mm), in place of the usual one.
void set_limit(Rules& rules, const Limit& limit, double value, const std::string& reason);

}  // namespace halfhard
