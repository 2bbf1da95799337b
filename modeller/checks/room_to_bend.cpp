#include "modeller/checks/room_to_bend.h"

#include <algorithm>
#include <cmath>

#include "geometry/bending/bend_table.h"
#include "geometry/words/shown.h"
#include "modeller/checks/loading.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

std::string end_spoken(End end) { return end == End::datum ? "start end" : "far end"; }

std::string listed(const std::vector<int>& numbers) {
  std::string text;
  for (std::size_t i = 0; i < numbers.size(); ++i)
    text += (i == 0 ? "" : i + 1 == numbers.size() ? " and " : ", ") + std::to_string(numbers[i]);
  return text;
}

std::string way_in_words(const Run& run, const WayToBend& way) {
  std::string text, order;
  bool same_order = true;
  for (std::size_t i = 0; i < way.order.size(); ++i) {
    order += (i ? ", " : "") + std::to_string(way.order[i]);
    same_order = same_order && run.bends[static_cast<std::size_t>(way.order[i] - 1)].made == static_cast<int>(i) + 1;
  }
  if (!same_order) text = "make the bends in the order " + order;
  for (const End end : {End::datum, End::free}) {
    std::vector<int> changed;
    for (const Bend& bend : run.bends) {
      const End hook = way.hook[static_cast<std::size_t>(bend.number - 1)];
      if (hook == end && hook != bend.hook) changed.push_back(bend.number);
    }
    if (changed.empty()) continue;
    text += (text.empty() ? "hook the " : " and hook the ") + end_spoken(end) + " for bend" +
            (changed.size() > 1 ? "s " : " ") + listed(changed);
  }
  return text;
}

bool turning_over_helps(const Run& run, const BenderContact& contact) {
  return !contact.itself && contact.part >= BenderPart::bench && !touches_anything(run, contact.made, true);
}

// What would help against this one touch.
std::string help(const Run& run, const RoomFound::Touch& touch, const std::optional<WayToBend>& way) {
  const BenderContact& contact = touch.contact;
  const Bend& bend = *run.bends_as_made()[static_cast<std::size_t>(contact.made - 1)];
  if (way) return way_in_words(run, *way);
  if (touch.turned_over_clear)
    return "turn the bender over so that it swings to the other side, or clear the bench there";
  if (contact.by_default) return "look at your own bender there, and give its measures in the job";
  return "make it in two pieces with a joint beside bend " + std::to_string(bend.number);
}

const char* id_of(const BenderContact& contact) {
  if (contact.itself) return "meets-itself-in-bender";
  return contact.part >= BenderPart::bench ? "meets-bench" : "meets-bender";
}

Finding finding_of(const Run& run, const RoomFound::Touch& touch, const std::optional<WayToBend>& way) {
  const BenderContact& contact = touch.contact;
  const Bend& bend = *run.bends_as_made()[static_cast<std::size_t>(contact.made - 1)];
  const std::string what = contact.hook_side ? "the part bent behind the hook" : "the tube on the lever side";
  const std::string touches = contact.itself ? "the pipe itself" : bender_part_word(contact.part);
  const std::string when =
      contact.pulled.degrees() < 0.05 ? "as it is laid in" : "when it is pulled to " + shown_angle(contact.pulled);
  const bool fails = contact.itself || !contact.by_default;
  const std::string source = contact.itself       ? "the shape of the pipe"
                             : contact.by_default ? "usual figures of a bender"
                                                  : "bender " + in_quotes(run.bender->name);
  return at_place(say(id_of(contact), fails ? Severity::fail : Severity::warn, run,
                      at_bend(run, bend.number) + ", made " + std::to_string(contact.made) + " of " +
                          std::to_string(run.bends.size()) + " with the " + end_spoken(bend.hook) +
                          " on the hook: " + what + " touches " + touches + " " + when +
                          (contact.by_default && !contact.itself ? " (by the usual size of that)" : "") + "; " +
                          help(run, touch, way) + ".",
                      {contact.pulled.degrees(), bend.set_angle.degrees(), "deg", source}),
                  place_of_bend(run, bend.number));
}

// The same numbers for pieces alike up to rounding, wherever they stand.
std::vector<double> shape_of(const Run& run) {
  std::vector<double> shape = {run.tube->outside_diameter_mm, run.line.radius_mm(), run.datum_insertion_mm(),
                               run.free_insertion_mm(),       run.spare_datum_mm,   run.spare_free_mm};
  for (const ShapeRow& row : shape_rows(run.line))
    shape.insert(shape.end(), {row.straight_mm, row.rotation.degrees(), row.angle.degrees()});
  for (const Bend& bend : run.bends)
    shape.insert(shape.end(), {static_cast<double>(bend.made), static_cast<double>(bend.hook)});
  for (double& each : shape) each = std::round(each * 1e7) / 1e7;
  return shape;
}

RoomFound look(const Run& run) {
  RoomFound found;
  for (int made = 1; made <= static_cast<int>(run.bends.size()); ++made)
    if (const auto contact = first_contact(run, made))
      found.touches.push_back({*contact, turning_over_helps(run, *contact)});
  // Other orders are looked through only where turning the bender over is not enough.
  if (!std::ranges::all_of(found.touches, &RoomFound::Touch::turned_over_clear)) found.way = clear_way(run);
  return found;
}

}  // namespace

void check_room_to_bend(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  RoomFound own;
  RoomFound& found = context.room ? *context.room : own;
  std::vector<double> shape = shape_of(run);
  if (found.shape != shape || !(found.bender == *run.bender)) {
    found = look(run);
    found.shape = std::move(shape);
    found.bender = *run.bender;
  }
  for (const RoomFound::Touch& touch : found.touches) findings.push_back(finding_of(run, touch, found.way));
}

}  // namespace halfhard
