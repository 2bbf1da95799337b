// Changes to a person's own job text: only the bytes of what changes are replaced; all else, order and layout included,
// stays. Pure functions from a text with its places to a new text. Pointers are JSON pointers; nothing is returned where
// there is no such place. What is put in must be JSON.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "modeller/job/json_tree.h"

namespace halfhard {

std::optional<std::string> with_value(const JsonTree& tree, const std::string& pointer, const std::string& json);
// Adds a member at the end of a group, or an element at the end of a list, laid out like the one before it.
std::optional<std::string> with_member(const JsonTree& tree, const std::string& group, const std::string& key,
                                       const std::string& json);
std::optional<std::string> with_element(const JsonTree& tree, const std::string& list, const std::string& json);
// Puts an element before place `index` of a list; at its end where the list is no longer than that.
std::optional<std::string> with_element_before(const JsonTree& tree, const std::string& list, int index,
                                               const std::string& json);
// Takes out a member or element with its comma.
std::optional<std::string> without(const JsonTree& tree, const std::string& pointer);

// Bytes `from` to `to` of a tree's text, to be replaced; several at once, in any order, none across another.
struct ChangedSpan {
  std::size_t from = 0, to = 0;
  std::string text;
};
std::string with_spans(const JsonTree& tree, std::vector<ChangedSpan> changes);
// What another key of a group's member changes. Requires that it is one.
ChangedSpan key_span(const JsonTree& tree, const JsonValue& member, const std::string& key);

// The white space that stands before a byte of a text, so that the next can be laid out alike; a space for none.
std::string space_before(const std::string& text, std::size_t at);

// What a person typed where a number stands: itself where it is a JSON number, else a text (an expression, a length with
// its unit).
std::string number_json(const std::string& typed);
std::string text_json(const std::string& text);
// "/runs/0" and "a/b" to "/runs/0/a~1b".
std::string joined_pointer(const std::string& pointer, const std::string& key);

}  // namespace halfhard
