// What is written into a picture: alike pieces once, equal gaps once, bend numbers only where the hand or the mouse is,
// and no more than can be read at a glance.
#include <algorithm>
#include <map>
#include <set>

#include "viewer/draw_plan.h"
#include "viewer/label_layout.h"

namespace halfhard {
namespace {

constexpr size_t kMostLabels = 13;  // besides those of what fails

std::string family_of(const Run& run) { return run.family.empty() ? run.name : run.family; }

bool is(const Run& run, const std::string& name) { return !name.empty() && (run.name == name || run.family == name); }

// "trap 3" without its number, so that alike fixtures are told from others.
std::string stem_of(const std::string& name) {
  const size_t end = name.find_last_not_of("0123456789");
  if (end == std::string::npos || end + 1 == name.size() || name[end] != ' ') return name;
  return name.substr(0, end);
}

std::string times(int count, const std::string& name) {
  return count > 1 ? std::to_string(count) + " \u00D7 " + name : name;
}

Vec3 longest_straight(const Run& run) {
  int longest = 0;
  for (int leg = 1; leg < run.line.leg_count(); ++leg)
    if (run.line.straight_mm(leg) > run.line.straight_mm(longest)) longest = leg;
  for (const Piece& piece : run.line.pieces())
    if (!std::holds_alternative<Arc>(piece.shape) && piece.first_leg == longest)
      return run.line.point_at(piece.starts_at_mm + piece.length_mm / 2);
  return run.line.point_at(run.line.length_mm() / 2);
}

void add_bend_numbers(std::vector<Label>& labels, const Run& run) {
  for (const Piece& piece : run.line.pieces())
    if (std::holds_alternative<Arc>(piece.shape))
      labels.push_back({LabelKind::bend, std::to_string(piece.last_leg),
                        run.line.point_at(piece.starts_at_mm + piece.length_mm / 2)});
}

}  // namespace

std::vector<Label> run_labels(const std::vector<const Run*>& runs, const DrawOptions& options) {
  std::map<std::string, int> counts;
  for (const Run* run : runs) ++counts[family_of(*run)];
  std::vector<Label> labels;
  std::set<std::string> named, numbered;
  for (const Run* run : runs) {
    const std::string family = family_of(*run);
    if (named.insert(family).second)
      labels.push_back({LabelKind::run, times(counts[family], family), longest_straight(*run)});
    // Of the pieces of a chosen bank the first speaks for all; with nothing chosen, one of each kind.
    const bool chosen = run->name == options.hovered || (is(*run, options.chosen) && numbered.insert(family).second) ||
                        (options.chosen.empty() && numbered.insert(family).second);
    if (chosen) add_bend_numbers(labels, *run);
  }
  return labels;
}

std::vector<Label> fixture_labels(const Plan& plan, const std::vector<Vec3>& middles) {
  std::map<std::string, int> counts;
  for (const auto& fixture : plan.fixtures) ++counts[stem_of(fixture->name)];
  std::vector<Label> labels;
  std::set<std::string> named;
  const auto is_face = [&](size_t i) { return plan.fixtures[i]->kind == FixtureKind::plane; };
  std::vector<size_t> order;  // walls and floors last: they are known without their names
  for (const bool face : {false, true})
    for (size_t i = 0; i < plan.fixtures.size(); ++i)
      if (is_face(i) == face) order.push_back(i);
  for (const size_t i : order) {
    const std::string stem = stem_of(plan.fixtures[i]->name);
    constexpr int kMany = 3;  // fewer are called by their own names
    if (counts[stem] < kMany)
      labels.push_back({LabelKind::fixture, plan.fixtures[i]->name, middles[i]});
    else if (named.insert(stem).second)
      labels.push_back({LabelKind::fixture, times(counts[stem], stem), middles[i]});
  }
  return labels;
}

// Signs of what fails at one place become one, with how many more there are.
void gather_failures(std::vector<Label>& labels) {
  constexpr double kOnePlace_mm = 40;
  std::vector<Label> gathered;
  std::vector<int> more;
  for (Label& label : labels) {
    size_t same = gathered.size();
    if (label.kind == LabelKind::failing || label.kind == LabelKind::warning)
      for (same = 0; same < gathered.size(); ++same)
        if (gathered[same].kind == label.kind && (gathered[same].at - label.at).norm() < kOnePlace_mm) break;
    if (same == gathered.size()) {
      gathered.push_back(std::move(label));
      more.push_back(0);
    } else if (gathered[same].text != label.text) {
      ++more[same];
    }
  }
  for (size_t i = 0; i < gathered.size(); ++i)
    if (more[i] > 0) gathered[i].text += "\n+ " + std::to_string(more[i]) + " more here";
  labels = std::move(gathered);
}

// What matters least is left unsaid first; it is said under the mouse.
void keep_the_foremost(std::vector<Label>& labels) {
  std::vector<const Label*> order;
  for (const Label& label : labels)
    if (label.kind != LabelKind::failing) order.push_back(&label);
  if (order.size() <= kMostLabels) return;
  std::stable_sort(order.begin(), order.end(),
                   [](const Label* a, const Label* b) { return importance_of(a->kind) > importance_of(b->kind); });
  std::set<const Label*> dropped(order.begin() + kMostLabels, order.end());
  std::vector<Label> kept;
  for (const Label& label : labels)
    if (!dropped.count(&label)) kept.push_back(label);
  labels = std::move(kept);
}

}  // namespace halfhard
