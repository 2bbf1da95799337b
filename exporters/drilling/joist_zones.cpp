#include "exporters/drilling/joist_zones.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <string_view>

#include "geometry/rules/joist_limits.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

std::string joined(std::initializer_list<std::string_view> parts) {
  std::string text;
  for (const std::string_view part : parts) text += part;
  return text;
}

// At both ends of the joist.
void add_zones(std::vector<JoistZone>& zones, bool notch, const CutLimits& cut, double low, double high, double span) {
  zones.push_back({notch, {cut.from_mm, low}, {cut.to_mm, high}});
  zones.push_back({notch, {span - cut.to_mm, low}, {span - cut.from_mm, high}});
}

// Whose rule, and that the job has figures of its own where it has.
std::string source_of(const JoistLimits& limits, const std::initializer_list<const Rule*>& rules) {
  for (const Rule* rule : rules)
    if (rule->of_job) return std::string(limits.name) + " with limits set in this job";
  return limits.name;
}

JoistRules british(double span, double depth, LengthUnit unit, const Rules& in_force) {
  const auto least = [&](double mm) { return shown_least_bare(mm, unit); };
  const auto most = [&](double mm) { return shown_clearance_bare(mm, unit); };
  const JoistLimits first = approved_document_a(span, depth, in_force), second = nhbc(span, depth);
  JoistRules rules;
  if (first.left_whole) {
    rules.sentences.push_back(
        joined({"No hole and no notch: joists of ", shown_length(in_force.joist_least_depth.value, unit),
                " or less are left whole (", source_of(first, {&in_force.joist_least_depth}), ")."}));
    return rules;
  }
  const CutLimits &hole = *first.hole, &notch = *first.notch;
  add_zones(rules.zones, false, hole, depth / 2 - hole.most_mm / 2, depth / 2 + hole.most_mm / 2, span);
  add_zones(rules.zones, true, notch, depth - notch.most_mm, depth, span);
  rules.sentences = {
      joined({"Shaded rising to the right: holes, ",
              source_of(first, {&in_force.joist_hole_from, &in_force.joist_hole_to, &in_force.joist_hole_size,
                                &in_force.joist_hole_most, &in_force.joist_holes_apart, &in_force.joist_notch_to_hole}),
              ": ", least(hole.from_mm), " to ", most(hole.to_mm),
              " from a support, on the centre line, no larger than ", most(hole.most_mm), "; centres ",
              shown_number(in_force.joist_holes_apart.value, 1), " diameters apart or more; ",
              least(in_force.joist_notch_to_hole.value), " or more from any notch."}),
      joined({"Shaded falling to the right: notches, ",
              source_of(first, {&in_force.joist_notch_from, &in_force.joist_notch_to, &in_force.joist_notch_size,
                                &in_force.joist_notch_most}),
              ": ", least(notch.from_mm), " to ", most(notch.to_mm), " from a support, no deeper than ",
              most(notch.most_mm), "."}),
      joined({second.name, " gives for notches ", least(second.notch->from_mm), " to ", most(second.notch->to_mm),
              " from a support and no deeper than ", most(second.notch->most_mm), ". Keep to both."})};
  return rules;
}

JoistRules american(double span, double depth, LengthUnit unit) {
  const auto most = [&](double mm) { return shown_clearance(mm, unit); };
  const JoistLimits limits = irc(span, depth);
  const double edge = limits.hole_from_edge_mm;
  JoistRules rules;
  if (depth > 2 * edge) rules.zones.push_back({false, {0, edge}, {span, depth - edge}});
  add_zones(rules.zones, true, *limits.notch, depth - limits.notch->most_mm, depth, span);
  rules.sentences = {
      joined({"Shaded rising to the right: holes, ", limits.name, ": ", shown_length(edge, unit),
              " or more from either edge, no larger than ", most(limits.hole->most_mm), "."}),
      joined({"Shaded falling to the right: notches, ", limits.name,
              ": not in the middle third of the span, no deeper than ", most(limits.notch->most_mm), "."})};
  return rules;
}

}  // namespace

JoistRules joist_rules(double span_mm, double depth_mm, LengthUnit unit, const Rules& in_force) {
  JoistRules rules =
      unit == LengthUnit::inch ? american(span_mm, depth_mm, unit) : british(span_mm, depth_mm, unit, in_force);
  rules.sentences.push_back(joined(
      {"These are for plain sawn joists, lightly loaded. Trussed, I-section and laminated timber: ask its maker. "
       "Local building control comes first."}));
  return rules;
}

}  // namespace halfhard
