#include "modeller/window/document/rename.h"

#include <vector>

#include "modeller/job/json_patch.h"

namespace halfhard {
namespace {

// Texts that call a part by its name, as the job's reader looks names up.
class References {
 public:
  References(const JsonTree& tree, std::string_view list, std::string_view name)
      : root_(tree.root()), list_(list), name_(name) {}

  std::vector<JsonValue> all() {
    if (list_ == "runs") each("banks", [&](const JsonValue& bank) { take(bank.find("of")); });
    if (list_ == "tubes") {
      each("runs", [&](const JsonValue& run) { take(run.find("tube")); });
      each("benders", [&](const JsonValue& bender) { take(bender.find("calibrated_with")); });
    }
    if (list_ == "benders") each("runs", [&](const JsonValue& run) { take(run.find("bender")); });
    if (list_ == "connections") ends();
    if (list_ == "fixtures") {
      each("connections", [&](const JsonValue& connection) { of_connection(connection); });
      each("runs", [&](const JsonValue& run) {
        of_connection(run.find("from"));
        of_connection(run.find("to"));
      });
    }
    return std::move(found_);
  }

 private:
  template <class Visit>
  void each(std::string_view key, Visit visit) {
    const JsonValue parts = root_.find(key);
    if (!parts) return;
    for (JsonValue part = parts.first(); part; part = part.next())
      if (part.kind() == JsonKind::group) visit(part);
  }
  void take(const JsonValue& value) {
    if (value && value.kind() == JsonKind::text && value.text() == name_) found_.push_back(value);
  }
  void ends() {
    each("runs", [&](const JsonValue& run) {
      take(run.find("from"));
      take(run.find("to"));
      const JsonValue path = run.find("path");
      if (!path || path.kind() != JsonKind::list) return;
      for (JsonValue step = path.first(); step; step = step.next())
        if (step.kind() == JsonKind::group) take(step.find("to"));
    });
    each("site_checks", [&](const JsonValue& check) {
      take(check.find("from"));
      take(check.find("to"));
    });
  }
  // What it joins, and the planes that its place is taped from.
  void of_connection(const JsonValue& connection) {
    if (!connection || connection.kind() != JsonKind::group) return;
    for (const char* key : {"joins", "at"}) {
      const JsonValue list = connection.find(key);
      if (!list || list.kind() != JsonKind::list) continue;
      for (JsonValue member = list.first(); member; member = member.next()) {
        if (key == std::string_view("joins")) take(member);  // a text in `at` is an expression
        if (member.kind() == JsonKind::group) take(member.find("off"));
      }
    }
  }

  JsonValue root_;
  std::string_view list_, name_;
  std::vector<JsonValue> found_;
};

bool named_by_key(std::string_view list) { return list == "connections" || list == "tubes" || list == "benders"; }
bool named_inside(std::string_view list) { return list == "runs" || list == "fixtures"; }

}  // namespace

std::optional<std::string> part_with_a_name(const JsonTree& tree, const std::string& pointer) {
  JsonValue part = tree.at(pointer);
  if (part && part.kind() == JsonKind::text && part.key() == "name") part = part.parent();
  if (!part || part.kind() != JsonKind::group || !part.parent() || !part.parent().parent()) return std::nullopt;
  if (part.parent().parent().parent()) return std::nullopt;
  const std::string_view list = part.parent().key();
  const bool inside = named_inside(list) && part.parent().kind() == JsonKind::list && part.find("name");
  const bool by_key = named_by_key(list) && part.parent().kind() == JsonKind::group;
  if (!inside && !by_key) return std::nullopt;
  return part.pointer();
}

std::string name_of_part(const JsonTree& tree, const std::string& part) {
  const JsonValue value = tree.at(part);
  if (!value || !value.parent()) return "";
  if (named_by_key(value.parent().key())) return std::string(value.key());
  const JsonValue name = value.kind() == JsonKind::group ? value.find("name") : JsonValue();
  return name && name.kind() == JsonKind::text ? std::string(name.text()) : "";
}

std::optional<Renamed> renamed(const JsonTree& tree, const std::string& part, const std::string& name) {
  const auto there = part_with_a_name(tree, part);
  if (!there) return std::nullopt;
  const JsonValue value = tree.at(*there);
  const std::string before = name_of_part(tree, *there);
  std::vector<ChangedSpan> changes;
  std::string pointer = *there;
  if (named_by_key(value.parent().key())) {
    changes.push_back(key_span(tree, value, name));
    pointer = joined_pointer(value.parent().pointer(), name);
  } else {
    const JsonValue inside = value.find("name");
    changes.push_back({inside.start(), inside.end(), text_json(name)});
  }
  for (const JsonValue& reference : References(tree, value.parent().key(), before).all())
    changes.push_back({reference.start(), reference.end(), text_json(name)});
  return Renamed{with_spans(tree, std::move(changes)), pointer};
}

}  // namespace halfhard
