// A JSON text as a tree that remembers where everything stands: byte ranges, lines, columns and JSON pointers, keys in
// the order written. Made for messages and for saving by patching the person's own text.
//
// Accepts RFC 8259 JSON in UTF-8, with or without BOM; no comments. Duplicate keys, invalid UTF-8, nesting deeper than
// kDeepestNesting and numbers beyond a double are problems. Duplicate keys are all reported, other faults end the
// reading. The tree is flat in memory: no depth of nesting can exhaust the stack.
#pragma once

#include <cstdint>
#include <deque>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "modeller/job/problem.h"

namespace halfhard {

inline constexpr int kDeepestNesting = 64;  // a job needs 8

enum class JsonKind : std::uint8_t { null, boolean, number, text, list, group };

class JsonTree;

// Line and column, 1-based; columns count characters.
struct TextPlace {
  int line = 0, column = 0;
};

// A value in a tree, or nothing. A handle: cheap to copy, good for as long as its tree lives.
class JsonValue {
 public:
  JsonValue() = default;
  JsonValue(const JsonTree* tree, std::uint32_t index) : tree_(tree), index_(index) {}

  explicit operator bool() const { return tree_ != nullptr; }
  std::uint32_t index() const { return index_; }  // place in the tree, document order; the root is 0

  JsonKind kind() const;
  bool boolean() const;
  double number() const;
  std::string_view text() const;  // of a text, escapes resolved
  std::string_view raw() const;   // as it stands in the file, quotes included

  int size() const;                            // members of a list or group
  JsonValue first() const;                     // first member, or nothing
  JsonValue next() const;                      // next member of the same parent, or nothing
  JsonValue parent() const;                    // or nothing at the root
  std::string_view key() const;                // of a group's member
  JsonValue find(std::string_view key) const;  // first member with this key, or nothing

  std::string pointer() const;
  TextPlace place() const;      // of the value
  TextPlace key_place() const;  // of its key, of the value itself where it has none
  std::size_t start() const;    // byte range of the value in the file's text
  std::size_t end() const;

 private:
  const JsonTree* tree_ = nullptr;
  std::uint32_t index_ = 0;
};

class JsonTree {
 public:
  // Always returns a tree; where `problems` gains one that is not a duplicate key the tree holds nothing.
  static std::shared_ptr<const JsonTree> parse(std::string text, const std::string& file,
                                               std::vector<JobProblem>& problems);

  JsonValue root() const { return nodes_.empty() ? JsonValue() : JsonValue(this, 0); }
  // The value at a JSON pointer, or nothing.
  JsonValue at(std::string_view pointer) const;
  const std::string& text() const { return text_; }
  std::size_t size() const { return nodes_.size(); }
  TextPlace place_of(std::size_t byte) const;

  JsonTree(const JsonTree&) = delete;
  JsonTree& operator=(const JsonTree&) = delete;

 private:
  friend class JsonValue;
  friend class JsonTreeMaker;
  static constexpr std::uint32_t kNone = 0xFFFFFFFF;
  struct Node {
    std::uint32_t parent = kNone, next = kNone, first = kNone, count = 0;
    std::uint32_t place = 0;  // among its parent's members
    std::uint32_t start = 0, end = 0, key_start = 0;
    JsonKind kind = JsonKind::null;
    double number = 0;           // booleans: 0 or 1
    std::string_view key, text;  // into text_, or into unescaped_ where there were escapes
  };
  explicit JsonTree(std::string text) : text_(std::move(text)) {}
  void find_lines();

  std::string text_;
  std::deque<std::string> unescaped_;
  std::vector<Node> nodes_;
  std::vector<std::uint32_t> line_starts_;
};

}  // namespace halfhard
