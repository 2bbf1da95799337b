#include "modeller/job/json_patch.h"

#include <algorithm>
#include <charconv>
#include <cstdio>

namespace halfhard {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

std::string spliced(const std::string& text, std::size_t from, std::size_t to, const std::string& piece) {
  return text.substr(0, from) + piece + text.substr(to);
}

// Where a member starts: at its key, or at its value in a list.
std::size_t member_start(const JsonTree& tree, const JsonValue& value) {
  const std::string& text = tree.text();
  if (value.parent().kind() != JsonKind::group) return value.start();
  std::size_t at = value.start();
  while (at > 0 && text[at - 1] != ':') --at;
  if (at > 0) --at;  // the colon
  while (at > 0 && is_blank(text[at - 1])) --at;
  if (at > 0) --at;  // the closing quote
  while (at > 0) {
    --at;
    if (text[at] != '"') continue;
    std::size_t strokes = 0;
    while (strokes < at && text[at - 1 - strokes] == '\\') ++strokes;
    if (strokes % 2 == 0) break;
  }
  return at;
}

JsonValue last_member(const JsonValue& parent) {
  JsonValue last = parent.first();
  while (last && last.next()) last = last.next();
  return last;
}

std::optional<std::string> with_last(const JsonTree& tree, const JsonValue& parent, const std::string& piece) {
  const std::string& text = tree.text();
  const JsonValue last = last_member(parent);
  if (!last) return spliced(text, parent.start() + 1, parent.end() - 1, " " + piece + " ");
  return spliced(text, last.end(), last.end(), "," + space_before(text, member_start(tree, last)) + piece);
}

}  // namespace

std::string space_before(const std::string& text, std::size_t at) {
  std::size_t from = at;
  while (from > 0 && is_blank(text[from - 1])) --from;
  return from < at ? text.substr(from, at - from) : " ";
}

std::optional<std::string> with_value(const JsonTree& tree, const std::string& pointer, const std::string& json) {
  const JsonValue value = tree.at(pointer);
  if (!value) return std::nullopt;
  return spliced(tree.text(), value.start(), value.end(), json);
}

std::optional<std::string> with_member(const JsonTree& tree, const std::string& group, const std::string& key,
                                       const std::string& json) {
  const JsonValue parent = tree.at(group);
  if (!parent || parent.kind() != JsonKind::group) return std::nullopt;
  if (const JsonValue there = parent.find(key)) return spliced(tree.text(), there.start(), there.end(), json);
  return with_last(tree, parent, text_json(key) + ": " + json);
}

std::optional<std::string> with_element(const JsonTree& tree, const std::string& list, const std::string& json) {
  const JsonValue parent = tree.at(list);
  if (!parent || parent.kind() != JsonKind::list) return std::nullopt;
  return with_last(tree, parent, json);
}

std::optional<std::string> with_element_before(const JsonTree& tree, const std::string& list, int index,
                                               const std::string& json) {
  const JsonValue parent = tree.at(list);
  if (!parent || parent.kind() != JsonKind::list) return std::nullopt;
  JsonValue at = parent.first();
  for (int i = 0; at && i < index; ++i) at = at.next();
  if (!at) return with_last(tree, parent, json);
  return spliced(tree.text(), at.start(), at.start(), json + "," + space_before(tree.text(), at.start()));
}

std::optional<std::string> without(const JsonTree& tree, const std::string& pointer) {
  const JsonValue value = tree.at(pointer);
  if (!value || !value.parent()) return std::nullopt;
  const std::string& text = tree.text();
  std::size_t from = member_start(tree, value), to = value.end();
  std::size_t after = to;
  while (after < text.size() && is_blank(text[after])) ++after;
  if (after < text.size() && text[after] == ',') {
    to = after + 1;
    while (to < text.size() && is_blank(text[to])) ++to;
    return spliced(text, from, to, "");
  }
  while (from > 0 && is_blank(text[from - 1])) --from;
  if (from > 0 && text[from - 1] == ',') --from;
  return spliced(text, from, to, "");
}

ChangedSpan key_span(const JsonTree& tree, const JsonValue& member, const std::string& key) {
  const std::string& text = tree.text();
  std::size_t to = member.start();
  while (text[to - 1] != ':') --to;
  --to;
  while (is_blank(text[to - 1])) --to;
  return {member_start(tree, member), to, text_json(key)};
}

std::string with_spans(const JsonTree& tree, std::vector<ChangedSpan> changes) {
  std::stable_sort(changes.begin(), changes.end(),
                   [](const ChangedSpan& a, const ChangedSpan& b) { return a.from < b.from; });
  std::string text;
  std::size_t done = 0;
  for (const ChangedSpan& change : changes) {
    text.append(tree.text(), done, change.from - done);
    text += change.text;
    done = change.to;
  }
  return text.append(tree.text(), done);
}

std::string number_json(const std::string& typed) {
  std::size_t from = 0, to = typed.size();
  while (from < to && is_blank(typed[from])) ++from;
  while (to > from && is_blank(typed[to - 1])) --to;
  const std::string bare = typed.substr(from, to - from);
  double value = 0;
  const auto read = std::from_chars(bare.data(), bare.data() + bare.size(), value);
  const std::size_t first = !bare.empty() && bare[0] == '-' ? 1 : 0;
  const bool digit = bare.size() > first && bare[first] >= '0' && bare[first] <= '9';
  // JSON knows no ".5", "5." or "007"; as texts they are expressions and read all the same.
  const bool leading_zero =
      bare.size() > first + 1 && bare[first] == '0' && bare[first + 1] >= '0' && bare[first + 1] <= '9';
  const std::size_t point = bare.find('.');
  const bool after_point =
      point == std::string::npos || (point + 1 < bare.size() && bare[point + 1] >= '0' && bare[point + 1] <= '9');
  if (read.ec == std::errc() && read.ptr == bare.data() + bare.size() && digit && !leading_zero && after_point)
    return bare;
  return text_json(bare);
}

std::string text_json(const std::string& text) {
  std::string json = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      json += '\\';
      json += c;
    } else if (static_cast<unsigned char>(c) < 0x20) {
      char escaped[8];
      std::snprintf(escaped, sizeof escaped, "\\u%04x", static_cast<unsigned>(static_cast<unsigned char>(c)));
      json += escaped;
    } else {
      json += c;
    }
  }
  return json + "\"";
}

std::string joined_pointer(const std::string& pointer, const std::string& key) {
  std::string joined = pointer + "/";
  for (const char c : key) {
    if (c == '~')
      joined += "~0";
    else if (c == '/')
      joined += "~1";
    else
      joined += c;
  }
  return joined;
}

}  // namespace halfhard
