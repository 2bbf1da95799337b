// From a thing in the view, or a finding, to its place in the job and the eye upon it.
#include "modeller/job/json_patch.h"
#include "modeller/window/main_window.h"

namespace halfhard {

// The part that a place in the text belongs to and that has a line of its own: "/runs/0/path/3/angle" is "/runs/0/path/3".
std::string MainWindow::pointer_to_part(std::string pointer) const {
  while (!pointer.empty() && !items_->has(pointer)) pointer.resize(pointer.rfind('/'));
  return pointer;
}

void MainWindow::fly_to_finding(int index) {
  if (!document_.plan() || index < 0 || index >= static_cast<int>(document_.plan()->findings.size())) return;
  const Finding finding = document_.plan()->findings[index];
  choose(pointer_to_part(finding.pointer));
  const Run* run = chosen_run();
  if (!run) return;
  view_->fly_to(finding.at.value_or(run->line.point_at(run->line.length_mm() / 2)), 150);
}

// Where in the job's text a thing in the view stands; empty for none.
std::string MainWindow::pointer_of(const Picked& at) const {
  const JsonTree& tree = document_.tree();
  const auto by_name = [&](const char* list, const std::string& name) -> std::string {
    const JsonValue parts = tree.at(list);
    if (!parts) return "";
    for (JsonValue part = parts.first(); part; part = part.next())
      if (part.kind() == JsonKind::group)
        if (const JsonValue there = part.find("name"); there && there.text() == name) return part.pointer();
    return "";
  };
  if (at.kind == PartKind::connection) return joined_pointer("/connections", at.name);
  if (at.kind == PartKind::fixture) return by_name("/fixtures", at.name);
  if (at.kind != PartKind::run || !document_.plan()) return "";
  for (const auto& run : document_.plan()->runs)
    if (run->name == at.name) return by_name("/runs", run->family);
  return "";
}

void MainWindow::picked(const Picked& at) {
  if (step_ > 0) return;
  const std::string pointer = pointer_of(at);
  if (pointer.empty()) return;
  int bend = 0;
  if (at.kind == PartKind::run) {
    for (const auto& run : document_.plan()->runs) {
      if (run->name != at.name) continue;
      const double before = run->spare_datum_mm + run->datum_insertion_mm();
      for (const Bend& each : run->bends)
        if (at.along_mm >= each.start_of_bend_mm - before && at.along_mm <= each.end_of_bend_mm - before)
          bend = each.number;
    }
  }
  choose(pointer, bend);
}

}  // namespace halfhard
