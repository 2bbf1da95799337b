#include "modeller/job/json_tree.h"

#include <algorithm>

namespace halfhard {

JsonKind JsonValue::kind() const { return tree_->nodes_[index_].kind; }
bool JsonValue::boolean() const { return tree_->nodes_[index_].number != 0; }
double JsonValue::number() const { return tree_->nodes_[index_].number; }
std::string_view JsonValue::text() const { return tree_->nodes_[index_].text; }
std::size_t JsonValue::start() const { return tree_->nodes_[index_].start; }
std::size_t JsonValue::end() const { return tree_->nodes_[index_].end; }
int JsonValue::size() const { return static_cast<int>(tree_->nodes_[index_].count); }
std::string_view JsonValue::key() const { return tree_->nodes_[index_].key; }

std::string_view JsonValue::raw() const { return std::string_view(tree_->text_).substr(start(), end() - start()); }

JsonValue JsonValue::first() const {
  const std::uint32_t first = tree_->nodes_[index_].first;
  return first == JsonTree::kNone ? JsonValue() : JsonValue(tree_, first);
}

JsonValue JsonValue::next() const {
  const std::uint32_t next = tree_->nodes_[index_].next;
  return next == JsonTree::kNone ? JsonValue() : JsonValue(tree_, next);
}

JsonValue JsonValue::parent() const {
  const std::uint32_t parent = tree_->nodes_[index_].parent;
  return parent == JsonTree::kNone ? JsonValue() : JsonValue(tree_, parent);
}

JsonValue JsonValue::find(std::string_view key) const {
  if (kind() != JsonKind::group) return {};
  for (JsonValue member = first(); member; member = member.next()) {
    if (member.key() == key) return member;
  }
  return {};
}

std::string JsonValue::pointer() const {
  std::vector<std::string> parts;
  for (JsonValue value = *this; value.parent(); value = value.parent()) {
    const JsonValue parent = value.parent();
    std::string part = "/";
    if (parent.kind() == JsonKind::group) {
      for (const char c : value.key()) part += c == '~' ? std::string("~0") : c == '/' ? "~1" : std::string(1, c);
    } else {
      part += std::to_string(tree_->nodes_[value.index()].place);
    }
    parts.push_back(std::move(part));
  }
  std::string pointer;
  for (auto part = parts.rbegin(); part != parts.rend(); ++part) pointer += *part;
  return pointer;
}

TextPlace JsonValue::place() const { return tree_->place_of(start()); }

TextPlace JsonValue::key_place() const {
  const JsonValue holder = parent();
  if (!holder || holder.kind() != JsonKind::group) return place();
  return tree_->place_of(tree_->nodes_[index_].key_start);
}

JsonValue JsonTree::at(std::string_view pointer) const {
  JsonValue value = root();
  while (value && !pointer.empty()) {
    if (pointer.front() != '/') return {};
    pointer.remove_prefix(1);
    const std::string_view part = pointer.substr(0, pointer.find('/'));
    pointer.remove_prefix(part.size());
    std::string key;
    for (std::size_t i = 0; i < part.size(); ++i) {
      const bool escape = part[i] == '~' && i + 1 < part.size();
      key += escape ? (part[++i] == '0' ? '~' : '/') : part[i];
    }
    if (value.kind() == JsonKind::group) {
      value = value.find(key);
    } else if (value.kind() == JsonKind::list) {
      JsonValue member = value.first();
      for (int i = 0; member && std::to_string(i) != key; ++i) member = member.next();
      value = member;
    } else {
      return {};
    }
  }
  return value;
}

void JsonTree::find_lines() {
  line_starts_.assign(1, 0);
  for (std::size_t end = text_.find('\n'); end != std::string::npos; end = text_.find('\n', end + 1)) {
    line_starts_.push_back(static_cast<std::uint32_t>(end + 1));
  }
}

TextPlace JsonTree::place_of(std::size_t byte) const {
  const auto after = std::upper_bound(line_starts_.begin(), line_starts_.end(), byte);
  const auto line = static_cast<int>(after - line_starts_.begin());
  std::size_t from = *(after - 1);
  if (line == 1 && text_.starts_with("\xEF\xBB\xBF")) from = std::min<std::size_t>(3, byte);
  int column = 1;
  for (std::size_t i = from; i < std::min(byte, text_.size()); ++i) {
    if ((static_cast<unsigned char>(text_[i]) & 0xC0) != 0x80) ++column;  // continuation bytes are no characters
  }
  return {line, column};
}

}  // namespace halfhard
