#include "modeller/window/hand_values.h"

namespace halfhard {

QString shown(std::string_view text) { return QString::fromUtf8(text.data(), static_cast<int>(text.size())); }

QString value_text(const JsonValue& value) {
  return shown(value.kind() == JsonKind::text ? value.text() : value.raw());
}

bool is_leaf(const JsonValue& value) { return value.kind() != JsonKind::list && value.kind() != JsonKind::group; }

// A place or a pair of words: a short list of plain values, shown in one row.
bool is_short_list(const JsonValue& value) {
  if (value.kind() != JsonKind::list || value.size() == 0 || value.size() > 3) return false;
  for (JsonValue member = value.first(); member; member = member.next())
    if (!is_leaf(member)) return false;
  return true;
}

// The job's own values are called by their exact names, which may be any word, a field's own too.
bool is_named_value(const JsonValue& value) {
  const JsonValue group = value.parent();
  return group && group.key() == "values" && group.parent() && !group.parent().parent();
}

FieldWords words_for(const JsonValue& value, const std::string& key) {
  if (is_named_value(value)) return {key, "A value of the job: write its name in any sum"};
  return field_words(key);
}

// Whether a text stands for a name or word here, not for an expression.
bool holds_text(const JsonValue& value, const std::string& key) {
  if (is_named_value(value)) return false;
  if (is_text_field(key)) return true;
  // An end that names a connection; what a tape touched.
  return (key == "from" || key == "to" || key == "swing" || key == "measured") && value.kind() == JsonKind::text;
}

}  // namespace halfhard
