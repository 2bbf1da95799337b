// The job file's keys in the trade's words: what a field is called, the help at the cursor, and what may be added.
#pragma once

#include <string>
#include <vector>

#include "geometry/plan/plan.h"

namespace halfhard {

struct FieldWords {
  std::string label, help;
};
FieldWords field_words(const std::string& key);

// Whether what is typed for this key is always text, never a length, angle or expression.
bool is_text_field(const std::string& key);

// What may be added to a part of the job that does not have it: key, and the JSON that it starts with.
struct Addable {
  std::string key, json;
};
// `where` is the list that the part stands in: "runs", "fixtures", "connections", "tubes", "benders", "banks", "path".
// Lengths to start with are common sizes in the job's own unit.
std::vector<Addable> addable_fields(const std::string& where, LengthUnit unit);

// "up 150", "offset right pitch at 45": a path step in one line, from its JSON members in order.
std::string step_words(const std::vector<std::pair<std::string, std::string>>& members);

}  // namespace halfhard
