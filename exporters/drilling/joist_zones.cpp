#include "exporters/drilling/joist_zones.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <string_view>

#include "geometry/words/shown.h"

namespace halfhard {
namespace {

// Approved Document A method, as published by LABC.
constexpr double kHoleFrom = 0.25, kHoleTo = 0.40, kHoleSize = 0.25, kHoleMost_mm = 65;
constexpr double kNotchFrom = 0.07, kNotchTo = 0.25, kNotchSize = 0.125, kNotchMost_mm = 35;
constexpr double kLeftWhole_mm = 100;
// NHBC 6.4.18.
constexpr double kOtherNotchFrom = 0.1, kOtherNotchTo = 0.2, kOtherNotchSize = 0.15;
// IRC R502.8.1.
constexpr double kEdge_mm = 50.8;

std::string joined(std::initializer_list<std::string_view> parts) {
  std::string text;
  for (const std::string_view part : parts) text += part;
  return text;
}

void add_both_ends(std::vector<JoistZone>& zones, bool notch, double from, double to, double low, double high,
                   double span) {
  zones.push_back({notch, {from, low}, {to, high}});
  zones.push_back({notch, {span - to, low}, {span - from, high}});
}

JoistRules british(double span, double depth, LengthUnit unit) {
  const auto shown = [&](double mm) { return shown_clearance_bare(mm, unit); };
  JoistRules rules;
  if (depth <= kLeftWhole_mm) {
    rules.sentences.push_back(
        joined({"No hole and no notch: joists of 100 mm or less are left whole (Approved Document A method, LABC)."}));
    return rules;
  }
  const double hole = std::min(kHoleSize * depth, kHoleMost_mm), notch = std::min(kNotchSize * depth, kNotchMost_mm);
  add_both_ends(rules.zones, false, kHoleFrom * span, kHoleTo * span, depth / 2 - hole / 2, depth / 2 + hole / 2, span);
  add_both_ends(rules.zones, true, kNotchFrom * span, kNotchTo * span, depth - notch, depth, span);
  rules.sentences = {
      joined({"Shaded rising to the right: holes, Approved Document A method (LABC): ",
              shown_least_bare(kHoleFrom * span, unit), " to ", shown(kHoleTo * span),
              " from a support, on the centre line, no larger than ", shown(hole),
              "; centres three diameters apart or more; 100 mm or more from any notch."}),
      joined({"Shaded falling to the right: notches, same method: ", shown_least_bare(kNotchFrom * span, unit), " to ",
              shown(kNotchTo * span), " from a support, no deeper than ", shown(notch), "."}),
      joined({"NHBC 6.4.18 gives for notches ", shown_least_bare(kOtherNotchFrom * span, unit), " to ",
              shown(kOtherNotchTo * span), " from a support and no deeper than ", shown(kOtherNotchSize * depth),
              ". Keep to both."})};
  return rules;
}

JoistRules american(double span, double depth, LengthUnit unit) {
  const auto shown = [&](double mm) { return shown_clearance_bare(mm, unit) + " in"; };
  JoistRules rules;
  if (depth > 2 * kEdge_mm) rules.zones.push_back({false, {0, kEdge_mm}, {span, depth - kEdge_mm}});
  add_both_ends(rules.zones, true, 0, span / 3, depth - depth / 6, depth, span);
  rules.sentences = {
      joined({"Shaded rising to the right: holes, IRC R502.8.1: 2 in or more from either edge, no larger than ",
              shown(depth / 3), "."}),
      joined(
          {"Shaded falling to the right: notches, IRC R502.8.1: not in the middle third of the span, no deeper than ",
           shown(depth / 6), "."})};
  return rules;
}

}  // namespace

JoistRules joist_rules(double span_mm, double depth_mm, LengthUnit unit) {
  JoistRules rules = unit == LengthUnit::inch ? american(span_mm, depth_mm, unit) : british(span_mm, depth_mm, unit);
  rules.sentences.push_back(joined(
      {"These are for plain sawn joists, lightly loaded. Trussed, I-section and laminated timber: ask its maker. "
       "Local building control comes first."}));
  return rules;
}

}  // namespace halfhard
