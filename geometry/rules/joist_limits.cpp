#include "geometry/rules/joist_limits.h"

#include <algorithm>

namespace halfhard {
namespace {

constexpr double kEnough_mm = 1e-6;  // rounding in the job's arithmetic never leaves a joist whole
constexpr double kIrcEdge_mm = 2 * 25.4;

}  // namespace

JoistLimits approved_document_a(double span_mm, double depth_mm, const Rules& rules) {
  JoistLimits limits;
  limits.name = "Approved Document A method (LABC)";
  limits.left_whole = depth_mm <= rules.joist_least_depth.value + kEnough_mm;
  if (limits.left_whole) return limits;
  limits.hole = {rules.joist_hole_from.value * span_mm, rules.joist_hole_to.value * span_mm,
                 std::min(rules.joist_hole_size.value * depth_mm, rules.joist_hole_most.value)};
  limits.notch = {rules.joist_notch_from.value * span_mm, rules.joist_notch_to.value * span_mm,
                  std::min(rules.joist_notch_size.value * depth_mm, rules.joist_notch_most.value)};
  limits.hole_on_centre_line = true;
  return limits;
}

JoistLimits nhbc(double span_mm, double depth_mm) {
  JoistLimits limits;
  limits.name = "NHBC 6.4.18";
  limits.notch = {0.1 * span_mm, 0.2 * span_mm, 0.15 * depth_mm};
  return limits;
}

JoistLimits irc(double span_mm, double depth_mm) {
  JoistLimits limits;
  limits.name = "IRC R502.8.1";
  limits.hole = {0, span_mm / 2, depth_mm / 3};
  limits.notch = {0, span_mm / 3, depth_mm / 6};
  limits.hole_from_edge_mm = kIrcEdge_mm;
  return limits;
}

}  // namespace halfhard
