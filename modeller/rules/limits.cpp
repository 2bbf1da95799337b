#include "modeller/rules/limits.h"

#include <algorithm>
#include <array>

#include "geometry/base/require.h"

namespace halfhard {
namespace {

constexpr const char* kPractice = "common practice, no source";
constexpr const char* kApprovedDocumentA = "Approved Document A method (LABC)";
constexpr const char* kBs6891 = "BS 6891, from a secondary copy";

constexpr std::array kLimits = {
    Limit{"smallest_radius", 0, "x OD", "least centre-line radius of a bend; 0: the published one for the tube",
          "DIN EN 1057 table in IKZ-Praxis 2/2000 p. 8; Copper Tube Handbook, bending guide"},
    Limit{"kink_radius", 3, "x OD", "a bend tighter than this is not to be made",
          "ASME B31.1 Table 102.4.5 lists no tighter bend"},
    Limit{"largest_cold_bent", 28, "mm", "largest half-hard tube bent cold", "IKZ-Praxis 4/2000"},
    Limit{"wall_thinning", 14.3, "%", "thinning of the outer wall in a bend, estimated 1 - R/(R + OD/2)",
          "that of a 3 D bend, the tightest in ASME B31.1 Table 102.4.5"},
    Limit{"ovality", 8, "%", "a bend out of round, estimated 20 x OD/R", "ASME B31.1; the estimate is from memory"},
    Limit{"former_fit", 0.3, "mm", "how far the tube may differ from what the former fits", kPractice},
    Limit{"radius_error_measured", 0.5, "mm", "how far a measured radius may be out", kPractice},
    Limit{"radius_error_unmeasured", 0.1, "x radius", "how far a radius that was not measured may be out",
          "published radii for one 15 mm tube run from 50 to 60 mm"},
    Limit{"mark_error", 0.5, "mm", "how far a mark may be out", kPractice},
    Limit{"mark_offset_unmeasured", 5, "mm", "how far the mark offset may be out where it was not measured", kPractice},
    Limit{"angle_error", 0.5, "deg", "how far a bend that was checked may be out in angle", kPractice},
    Limit{"rotation_error", 1, "deg", "how far a bend may be turned from the plane it belongs in", kPractice},
    Limit{"spring_back_unmeasured", 4, "deg", "how far half-hard tube may spring back from 90 degrees",
          "2 to 4 degrees at 90, from memory"},
    Limit{"tape_error", 0.5, "mm", "what a tape reads to, where a site check gives no `within`", kPractice},
    Limit{"gas_from_equipment", 150, "mm", "gas pipe from electrical supply equipment", kBs6891},
    Limit{"gas_from_cable", 25, "mm", "gas pipe from electric cables", kBs6891},
    Limit{"cold_from_hot", 300, "mm", "cold pipe from hot in a floor void",
          "Textbook: Plumbing Book 1 (Hodder 2019) p. 325"},
    Limit{"least_fall", 0.5, "%", "fall of a discharge pipe along its level part (1 in 200)",
          "Approved Document G3, from memory"},
    Limit{"temperature_rise", 60, "K", "how much warmer a hot pipe runs than it was fitted",
          "worked example, Copper Development Association (UK) publication 88, Table 6"},
    Limit{"expansion_movement", 2, "mm", "movement that a straight between fixed ends takes up unseen", kPractice},
    Limit{"clip_level", 0, "mm", "clips apart on a level tube; 0: the published spacing",
          "BS EN 806-4 / BS 8558, from memory; IRC P2605"},
    Limit{"clip_upright", 0, "mm", "clips apart on an upright tube; 0: the published spacing",
          "BS EN 806-4 / BS 8558, from memory; IRC P2605"},
    Limit{"joist_hole_from", 0.25, "of span", "hole no nearer to a support", kApprovedDocumentA},
    Limit{"joist_hole_to", 0.40, "of span", "hole no farther from a support", kApprovedDocumentA},
    Limit{"joist_hole_size", 0.25, "of depth", "hole across", kApprovedDocumentA},
    Limit{"joist_hole_most", 65, "mm", "hole across, at most", kApprovedDocumentA},
    Limit{"joist_holes_apart", 3, "x hole", "hole centres apart", kApprovedDocumentA},
    Limit{"joist_notch_from", 0.07, "of span", "notch no nearer to a support", kApprovedDocumentA},
    Limit{"joist_notch_to", 0.25, "of span", "notch no farther from a support", kApprovedDocumentA},
    Limit{"joist_notch_size", 0.125, "of depth", "notch deep", kApprovedDocumentA},
    Limit{"joist_notch_most", 35, "mm", "notch deep, at most", kApprovedDocumentA},
    Limit{"joist_notch_to_hole", 100, "mm", "notch from hole", kApprovedDocumentA},
    Limit{"joist_least_depth", 100, "mm", "joists no deeper than this are left whole", kApprovedDocumentA},
};

}  // namespace

std::span<const Limit> limits() { return kLimits; }

const Limit* find_limit(std::string_view name) {
  const auto found =
      std::find_if(kLimits.begin(), kLimits.end(), [&](const Limit& limit) { return limit.name == name; });
  return found == kLimits.end() ? nullptr : &*found;
}

LimitInUse limit_in_use(const Job& job, std::string_view name) {
  const Limit* limit = find_limit(name);
  HALFHARD_REQUIRE(limit != nullptr);
  const auto own = job.limits.find(std::string(name));
  if (own == job.limits.end()) return {limit->value, limit->unit, limit->source, "", false};
  return {own->second.value, limit->unit, "set in this job: " + own->second.reason,
          " (limit set in this job: " + own->second.reason + ")", true};
}

}  // namespace halfhard
