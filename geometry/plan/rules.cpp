#include "geometry/plan/rules.h"

#include <algorithm>
#include <array>

namespace halfhard {
namespace {

constexpr const char* kPractice = "common practice, no source";
constexpr const char* kApprovedDocumentA = "Approved Document A method (LABC)";
constexpr const char* kBs6891 = "BS 6891, from a secondary copy";

constexpr std::array kLimits = {
    Limit{"smallest_radius", 0, "x OD", "least centre-line radius of a bend; 0: the published one for the tube",
          "DIN EN 1057 table in IKZ-Praxis 2/2000 p. 8; Copper Tube Handbook, bending guide", &Rules::smallest_radius},
    Limit{"kink_radius", 3, "x OD", "a bend tighter than this is not to be made",
          "ASME B31.1 Table 102.4.5 lists no tighter bend", &Rules::kink_radius},
    Limit{"largest_cold_bent", 28, "mm", "largest half-hard tube bent cold", "IKZ-Praxis 4/2000",
          &Rules::largest_cold_bent},
    Limit{"wall_thinning", 14.3, "%", "thinning of the outer wall in a bend, estimated 1 - R/(R + OD/2)",
          "that of a 3 D bend, the tightest in ASME B31.1 Table 102.4.5", &Rules::wall_thinning},
    Limit{"ovality", 8, "%", "a bend out of round, estimated 20 x OD/R", "ASME B31.1; the estimate is from memory",
          &Rules::ovality},
    Limit{"former_fit", 0.3, "mm", "how far the tube may differ from what the former fits", kPractice,
          &Rules::former_fit},
    Limit{"end_out_of_place", 0.5, "mm", "how far an end may be from its fitting: what a fitting takes without strain",
          kPractice, &Rules::end_out_of_place},
    Limit{"end_out_of_line", 0.5, "deg", "how far an end may be turned from its fitting", kPractice,
          &Rules::end_out_of_line},
    Limit{"rule_angle_near", 3, "deg", "how far a rough offset angle may be from what the folding rule gives",
          "practical assessment tolerance of a UK craft task sheet (unit 204), from a secondary copy",
          &Rules::rule_angle_near},
    Limit{"radius_error_measured", 0.5, "mm", "how far a measured radius may be out", kPractice,
          &Rules::radius_error_measured},
    Limit{"radius_error_unmeasured", 0.1, "x radius", "how far a radius that was not measured may be out",
          "published radii for one 15 mm tube run from 50 to 60 mm", &Rules::radius_error_unmeasured},
    Limit{"mark_error", 0.5, "mm", "how far a mark may be out", kPractice, &Rules::mark_error},
    Limit{"mark_offset_unmeasured", 5, "mm", "how far the mark offset may be out where it was not measured", kPractice,
          &Rules::mark_offset_unmeasured},
    Limit{"angle_error", 0.5, "deg", "how far a bend that was checked may be out in angle", kPractice,
          &Rules::angle_error},
    Limit{"rotation_error", 1, "deg", "how far a bend may be turned from the plane it belongs in", kPractice,
          &Rules::rotation_error},
    Limit{"spring_back_unmeasured", 4, "deg", "how far half-hard tube may spring back from 90 degrees",
          "2 to 4 degrees at 90, from memory", &Rules::spring_back_unmeasured},
    Limit{"tape_error", 0.5, "mm", "what a tape reads to, where a site check gives no `within`", kPractice,
          &Rules::tape_error},
    Limit{"gas_from_equipment", 150, "mm", "gas pipe from electrical supply equipment", kBs6891,
          &Rules::gas_from_equipment},
    Limit{"gas_from_cable", 25, "mm", "gas pipe from electric cables", kBs6891, &Rules::gas_from_cable},
    Limit{"cold_from_hot", 300, "mm", "cold pipe from hot in a floor void",
          "Textbook: Plumbing Book 1 (Hodder 2019) p. 325", &Rules::cold_from_hot},
    Limit{"least_fall", 0.5, "%", "fall of a discharge pipe along its level part (1 in 200)",
          "Approved Document G3, from memory", &Rules::least_fall},
    Limit{"temperature_rise", 60, "K", "how much warmer a hot pipe runs than it was fitted",
          "worked example, Copper Development Association (UK) publication 88, Table 6", &Rules::temperature_rise},
    Limit{"expansion_movement", 2, "mm", "movement that a straight between fixed ends takes up unseen", kPractice,
          &Rules::expansion_movement},
    Limit{"clip_level", 0, "mm", "clips apart on a level tube; 0: the published spacing",
          "BS EN 806-4 / BS 8558, from memory; IRC P2605", &Rules::clip_level},
    Limit{"clip_upright", 0, "mm", "clips apart on an upright tube; 0: the published spacing",
          "BS EN 806-4 / BS 8558, from memory; IRC P2605", &Rules::clip_upright},
    Limit{"joist_hole_from", 0.25, "of span", "hole no nearer to a support", kApprovedDocumentA,
          &Rules::joist_hole_from},
    Limit{"joist_hole_to", 0.40, "of span", "hole no farther from a support", kApprovedDocumentA,
          &Rules::joist_hole_to},
    Limit{"joist_hole_size", 0.25, "of depth", "hole across", kApprovedDocumentA, &Rules::joist_hole_size},
    Limit{"joist_hole_most", 65, "mm", "hole across, at most", kApprovedDocumentA, &Rules::joist_hole_most},
    Limit{"joist_holes_apart", 3, "x hole", "hole centres apart", kApprovedDocumentA, &Rules::joist_holes_apart},
    Limit{"joist_notch_from", 0.07, "of span", "notch no nearer to a support", kApprovedDocumentA,
          &Rules::joist_notch_from},
    Limit{"joist_notch_to", 0.25, "of span", "notch no farther from a support", kApprovedDocumentA,
          &Rules::joist_notch_to},
    Limit{"joist_notch_size", 0.125, "of depth", "notch deep", kApprovedDocumentA, &Rules::joist_notch_size},
    Limit{"joist_notch_most", 35, "mm", "notch deep, at most", kApprovedDocumentA, &Rules::joist_notch_most},
    Limit{"joist_notch_to_hole", 100, "mm", "notch from hole", kApprovedDocumentA, &Rules::joist_notch_to_hole},
    Limit{"joist_least_depth", 100, "mm", "joists no deeper than this are left whole", kApprovedDocumentA,
          &Rules::joist_least_depth},
};

}  // namespace

Rules::Rules() {
  for (const Limit& limit : kLimits) this->*limit.rule = {limit.value, limit.unit, limit.source, "", false};
}

std::span<const Limit> limits() { return kLimits; }

const Limit* find_limit(std::string_view name) {
  const auto found =
      std::find_if(kLimits.begin(), kLimits.end(), [&](const Limit& limit) { return limit.name == name; });
  return found == kLimits.end() ? nullptr : &*found;
}

void set_limit(Rules& rules, const Limit& limit, double value, const std::string& reason) {
  rules.*
      limit.rule = {value, limit.unit, "set in this job: " + reason, " (limit set in this job: " + reason + ")", true};
}

}  // namespace halfhard
