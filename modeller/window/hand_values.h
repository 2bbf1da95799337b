// What a value of the job is to the panel that shows it: its text, its shape, its words.
#pragma once

#include <QString>
#include <string>

#include "modeller/job/json_tree.h"
#include "modeller/window/field_words.h"

namespace halfhard {

QString shown(std::string_view text);
QString value_text(const JsonValue& value);
bool is_leaf(const JsonValue& value);
// A place or a pair of words: a short list of plain values, shown in one row.
bool is_short_list(const JsonValue& value);
// The job's own values are called by their exact names, which may be any word, a field's own too.
bool is_named_value(const JsonValue& value);
FieldWords words_for(const JsonValue& value, const std::string& key);
// Whether a text stands for a name or word here, not for an expression.
bool holds_text(const JsonValue& value, const std::string& key);

}  // namespace halfhard
