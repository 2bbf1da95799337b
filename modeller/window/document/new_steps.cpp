#include "modeller/window/document/new_steps.h"

#include <cmath>

#include "modeller/job/expression.h"
#include "modeller/job/json_patch.h"
#include "modeller/job/problem.h"

namespace halfhard {
namespace {

// Lengths in the job's unit: round figures, about the same size in either.
struct Sizes {
  double leg, first_of_rest;
};
Sizes sizes_in(LengthUnit unit) {
  if (unit == LengthUnit::inch) return {4, 6};
  return {100, 150};
}

// Round, and enough for the bends on either side of the slope: at 45 degrees an offset's needs 2 R tan 22.5 of slope,
// a passover's R (tan 22.5 + tan 45).
double rise_for(NewStep step, const NewStepFor& pipe) {
  const bool inch = pipe.unit == LengthUnit::inch, offset = step == NewStep::offset;
  const double needed_mm = (offset ? 0.6 : 1.02) * pipe.former_radius_mm, round = inch ? 0.5 : 10;
  return std::max(inch ? 2.0 : 50.0, round * std::ceil(needed_mm / mm_per(pipe.unit) / round));
}

// A way that a shift may take, square to the leg's.
const char* across(std::string_view way) {
  if (way == "up" || way == "down" || way == "back" || way == "front") return "right";
  if (way == "right" || way == "left") return "up";
  return nullptr;
}

JsonValue step_at(const JsonValue& path, int place) {
  JsonValue step = path.first();
  for (int i = 0; step && i < place; ++i) step = step.next();
  return step;
}

bool is_plain_leg(const JsonValue& step) {
  if (!step || step.kind() != JsonKind::group) return false;
  const JsonValue go = step.find("go"), by = step.find("by");
  return go && by && go.kind() == JsonKind::text && across(go.text()) &&
         (by.kind() == JsonKind::number || by.kind() == JsonKind::text);
}

// The two lengths of a leg that is parted by a step that uses `used` of it along the line.
struct Halves {
  std::string first, second;  // JSON
};
Halves halves_of(const JsonValue& by, double used, const Sizes& sizes) {
  if (by.kind() == JsonKind::number) {
    const double half = by.number() / 2;
    return {number_text(half), number_text(half - used)};
  }
  if (by.text() == "rest") return {number_text(sizes.first_of_rest), "\"rest\""};
  const std::string half = "(" + std::string(by.text()) + ") / 2";
  return {text_json(half), text_json(used > 0 ? half + " - " + number_text(used) : half)};
}

std::optional<StepAdded> with_step_in_leg(const JsonTree& tree, const JsonValue& path, int after, NewStep step,
                                          const NewStepFor& pipe) {
  int place = std::max(0, after);
  while (place >= 0 && !is_plain_leg(step_at(path, place))) --place;
  if (place < 0) return std::nullopt;
  const JsonValue leg = step_at(path, place);
  const JsonValue go = leg.find("go"), by = leg.find("by");
  // At 45 degrees an offset uses its own shift along the line, a passover twice its rise.
  const bool offset = step == NewStep::offset;
  const double rise = rise_for(step, pipe), used = !pipe.gives_up ? 0 : offset ? rise : 2 * rise;
  const Halves halves = halves_of(by, used, sizes_in(pipe.unit));
  const std::string added = std::string("{ \"") + (offset ? "offset" : "passover") + "\": { \"" + across(go.text()) +
                            "\": " + number_text(rise) + " }, \"angle\": 45 }";
  const std::string gap = space_before(tree.text(), leg.start());
  // What else the leg says (what the tape touched) goes with its second half.
  const std::string before =
      "{ \"go\": " + std::string(go.raw()) + ", \"by\": " + halves.first + " }," + gap + added + "," + gap;
  return StepAdded{with_spans(tree, {{leg.start(), leg.start(), before}, {by.start(), by.end(), halves.second}}),
                   path.pointer() + "/" + std::to_string(place + 1)};
}

}  // namespace

std::optional<StepPlace> step_place(const JsonTree& tree, const std::string& chosen) {
  JsonValue at = tree.at(chosen);
  for (; at; at = at.parent()) {
    const JsonValue parent = at.parent();
    if (!parent) return std::nullopt;
    if (parent.key() == "path" && parent.kind() == JsonKind::list) {
      int place = 0;
      for (JsonValue each = parent.first(); each && each.index() != at.index(); each = each.next()) ++place;
      return StepPlace{parent.pointer(), place};
    }
    if (parent.key() != "runs" || at.kind() != JsonKind::group) continue;
    const JsonValue path = at.find("path");
    if (!path || path.kind() != JsonKind::list) return std::nullopt;
    return StepPlace{path.pointer(), path.size() - 1};
  }
  return std::nullopt;
}

std::optional<StepAdded> with_step(const JsonTree& tree, const StepPlace& place, NewStep step, const NewStepFor& pipe) {
  const JsonValue path = tree.at(place.path);
  if (!path || path.kind() != JsonKind::list) return std::nullopt;
  if (step == NewStep::offset || step == NewStep::passover)
    return with_step_in_leg(tree, path, place.after, step, pipe);
  const std::string leg = number_text(sizes_in(pipe.unit).leg);
  std::string json = "{ \"bend\": 90, \"roll\": 0, \"by\": " + leg + " }";
  if (step == NewStep::leg) {
    const JsonValue chosen = step_at(path, std::max(0, place.after));
    const JsonValue go = chosen && chosen.kind() == JsonKind::group ? chosen.find("go") : JsonValue();
    json = "{ \"go\": " + (go ? std::string(go.raw()) : "\"up\"") + ", \"by\": " + leg + " }";
  }
  const auto text = with_element_before(tree, place.path, place.after + 1, json);
  if (!text) return std::nullopt;
  return StepAdded{*text, place.path + "/" + std::to_string(place.after + 1)};
}

}  // namespace halfhard
