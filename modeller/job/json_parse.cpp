// JsonTree::parse: nlohmann's SAX reader does the grammar; this file keeps the places.
#include <limits>
#include <nlohmann/json.hpp>
#include <unordered_set>

#include "modeller/job/json_tree.h"

namespace halfhard {
namespace {

constexpr std::size_t kLargestText = std::size_t{1} << 30;

// The first byte that is not valid UTF-8 (RFC 3629: no overlong forms, no surrogates), or npos.
std::size_t invalid_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const auto c = static_cast<unsigned char>(text[i]);
    if (c < 0x80) {
      ++i;
      continue;
    }
    const int more = c >= 0xC2 && c <= 0xDF ? 1 : c >= 0xE0 && c <= 0xEF ? 2 : c >= 0xF0 && c <= 0xF4 ? 3 : 0;
    if (more == 0 || text.size() - i <= static_cast<std::size_t>(more)) return i;
    const auto second = static_cast<unsigned char>(text[i + 1]);
    const unsigned char low = c == 0xE0 ? 0xA0 : c == 0xF0 ? 0x90 : 0x80;
    const unsigned char high = c == 0xED ? 0x9F : c == 0xF4 ? 0x8F : 0xBF;
    if (second < low || second > high) return i;
    for (int k = 2; k <= more; ++k) {
      if ((static_cast<unsigned char>(text[i + static_cast<std::size_t>(k)]) & 0xC0) != 0x80) return i;
    }
    i += static_cast<std::size_t>(more) + 1;
  }
  return std::string_view::npos;
}

// Walks the text for nlohmann and counts how far it has read.
class CountingIterator {
 public:
  using iterator_category = std::input_iterator_tag;
  using value_type = char;
  using difference_type = std::ptrdiff_t;
  using pointer = const char*;
  using reference = const char&;

  CountingIterator(const char* at, const char** reached) : at_(at), reached_(reached) {}
  reference operator*() const { return *at_; }
  CountingIterator& operator++() {
    ++at_;
    if (reached_) *reached_ = at_;
    return *this;
  }
  CountingIterator operator++(int) {
    CountingIterator before = *this;
    ++*this;
    return before;
  }
  friend bool operator==(const CountingIterator& a, const CountingIterator& b) { return a.at_ == b.at_; }
  friend bool operator!=(const CountingIterator& a, const CountingIterator& b) { return a.at_ != b.at_; }

 private:
  const char* at_;
  const char** reached_;
};

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

}  // namespace

// The SAX handler. Every event's token ends where the reader has got to (numbers: one character before, see number()),
// and starts at the next character after the event before that is no white space, colon or comma.
class JsonTreeMaker {
 public:
  JsonTreeMaker(JsonTree& tree, const std::string& file, std::vector<JobProblem>& problems)
      : tree_(tree), file_(file), problems_(problems), reached_(tree.text_.data()) {
    if (tree.text_.starts_with("\xEF\xBB\xBF")) cursor_ = 3;
  }

  bool run() {
    const char* begin = tree_.text_.data();
    const char* end = begin + tree_.text_.size();
    return nlohmann::json::sax_parse(CountingIterator(begin, &reached_), CountingIterator(end, nullptr), this);
  }

  bool null() { return add(JsonKind::null, 0); }
  bool boolean(bool value) { return add(JsonKind::boolean, value ? 1 : 0); }
  bool number_integer(nlohmann::json::number_integer_t value) { return number(static_cast<double>(value)); }
  bool number_unsigned(nlohmann::json::number_unsigned_t value) { return number(static_cast<double>(value)); }
  bool number_float(double value, const std::string&) { return number(value); }
  bool binary(nlohmann::json::binary_t&) { return false; }  // never called for text

  bool string(std::string& value) {
    const std::size_t start = token_start();
    add(JsonKind::text, 0);
    tree_.nodes_.back().text = kept(start, value);
    return true;
  }

  bool key(std::string& value) {
    const std::size_t start = token_start();
    cursor_ = reached();
    key_ = kept(start, value);
    key_start_ = static_cast<std::uint32_t>(start);
    return true;
  }

  bool start_object(std::size_t) { return open(JsonKind::group); }
  bool start_array(std::size_t) { return open(JsonKind::list); }
  bool end_array() { return close(); }
  bool end_object() {
    find_duplicates(JsonValue(&tree_, open_.back()));
    return close();
  }

  bool parse_error(std::size_t position, const std::string&, const nlohmann::json::exception& error) {
    // `position` counts the characters read, so the faulty one is the last of them.
    const std::size_t byte = std::min(position > 0 ? position - 1 : 0, tree_.text_.size());
    if (error.id == 406) {
      add_problem(byte, "a number too large to hold", "numbers up to 1e308");
      return false;
    }
    const std::string_view here = std::string_view(tree_.text_).substr(std::min(byte, tree_.text_.size()));
    const std::string_view before = std::string_view(tree_.text_).substr(0, byte);
    if (here.starts_with("//") || here.starts_with("/*") || before.ends_with("/") || here.starts_with("#")) {
      add_problem(byte, "a comment or a stray sign", "JSON, which has no comments");
    } else {
      add_problem(byte, unexpected(error.what(), here.empty()), "JSON" + expected(error.what()));
    }
    return false;
  }

 private:
  std::size_t reached() const { return static_cast<std::size_t>(reached_ - tree_.text_.data()); }

  std::size_t token_start() const {
    std::size_t start = cursor_;
    const std::string& text = tree_.text_;
    while (start < text.size() && (is_space(text[start]) || text[start] == ':' || text[start] == ',')) ++start;
    return start;
  }

  // The text itself where nothing was escaped, so that most texts are stored once.
  std::string_view kept(std::size_t start, std::string& value) {
    const std::string_view raw = std::string_view(tree_.text_).substr(start + 1, value.size());
    if (raw == value && tree_.text_[start + 1 + value.size()] == '"') return raw;
    return tree_.unescaped_.emplace_back(std::move(value));
  }

  bool number(double value) {
    add(JsonKind::number, value);
    JsonTree::Node& node = tree_.nodes_.back();
    // The reader looks one character beyond a number, unless the text ends there.
    const std::string_view part = "0123456789+-.eE";
    while (node.end > node.start && part.find(tree_.text_[node.end - 1]) == std::string_view::npos) --node.end;
    cursor_ = node.end;
    return true;
  }

  bool add(JsonKind kind, double number) {
    JsonTree::Node node;
    node.kind = kind;
    node.number = number;
    node.start = static_cast<std::uint32_t>(token_start());
    node.end = static_cast<std::uint32_t>(reached());
    cursor_ = node.end;
    const auto index = static_cast<std::uint32_t>(tree_.nodes_.size());
    if (!open_.empty()) {
      node.parent = open_.back();
      JsonTree::Node& parent = tree_.nodes_[node.parent];
      if (parent.kind == JsonKind::group) {
        node.key = key_;
        node.key_start = key_start_;
      }
      node.place = parent.count;
      (parent.count++ == 0 ? parent.first : tree_.nodes_[last_.back()].next) = index;
      last_.back() = index;
    }
    tree_.nodes_.push_back(node);
    return true;
  }

  bool open(JsonKind kind) {
    if (open_.size() >= static_cast<std::size_t>(kDeepestNesting)) {
      add_problem(token_start(), "lists and groups nested deeper than " + std::to_string(kDeepestNesting),
                  "at most " + std::to_string(kDeepestNesting) + " within each other");
      return false;
    }
    add(kind, 0);
    open_.push_back(static_cast<std::uint32_t>(tree_.nodes_.size() - 1));
    last_.push_back(JsonTree::kNone);
    return true;
  }

  bool close() {
    tree_.nodes_[open_.back()].end = static_cast<std::uint32_t>(reached());
    cursor_ = reached();
    open_.pop_back();
    last_.pop_back();
    return true;
  }

  void find_duplicates(JsonValue group) {
    std::unordered_set<std::string_view> seen;
    for (JsonValue member = group.first(); member; member = member.next()) {
      if (seen.insert(member.key()).second) continue;
      const TextPlace place = member.key_place();
      problems_.push_back({file_, place.line, place.column, member.pointer(),
                           "the key " + in_quotes(member.key()) + " a second time", "each key once", "", 2});
    }
  }

  void add_problem(std::size_t byte, std::string found, std::string allowed) {
    const TextPlace place = tree_.place_of(byte);
    problems_.push_back({file_, place.line, place.column, "", std::move(found), std::move(allowed), "", 2});
  }

  // nlohmann: "... - unexpected '}'; expected string literal", or "... - invalid literal; last read: 'tru}'".
  static std::string unexpected(std::string_view what, bool at_end) {
    if (at_end) return "the end of the file";
    const std::size_t dash = what.find(" - ");
    if (dash == std::string_view::npos) return "what is not JSON";
    what.remove_prefix(dash + 3);
    if (what.starts_with("unexpected ")) {
      what =
          what.substr(11, what.find("; expected") == std::string_view::npos ? what.npos : what.find("; expected") - 11);
      return std::string(what);
    }
    const std::size_t read = what.find("; last read: ");
    std::string found(what.substr(0, read));
    if (found.starts_with("invalid string: ")) found = "a text with a fault in it: " + found.substr(16);
    if (found == "invalid literal") found = "a word that is not JSON";
    if (read != std::string_view::npos)
      found += ": " + std::string(what.substr(read + 13, what.find("; expected") - read - 13));
    return printable(found.substr(0, 120));
  }

  static std::string expected(std::string_view what) {
    const std::size_t place = what.find("; expected ");
    if (place == std::string_view::npos) return "";
    std::string text(what.substr(place + 11));
    if (text == "string literal") text = "a key in double quotes";
    if (text == "end of input") text = "nothing more after the last bracket";
    return ": " + text;
  }

  JsonTree& tree_;
  const std::string& file_;
  std::vector<JobProblem>& problems_;
  const char* reached_;
  std::size_t cursor_ = 0;
  std::string_view key_;
  std::uint32_t key_start_ = 0;
  std::vector<std::uint32_t> open_, last_;
};

std::shared_ptr<const JsonTree> JsonTree::parse(std::string text, const std::string& file,
                                                std::vector<JobProblem>& problems) {
  std::shared_ptr<JsonTree> tree(new JsonTree(std::move(text)));
  if (tree->text_.size() > kLargestText) {
    problems.push_back({file, 0, 0, "", "a file of more than 1 GiB", "a job of at most 1 GiB", "", 2});
    return tree;
  }
  tree->find_lines();
  if (const std::size_t bad = invalid_utf8(tree->text_); bad != std::string_view::npos) {
    const TextPlace place = tree->place_of(bad);
    problems.push_back({file, place.line, place.column, "", "a byte that is not UTF-8", "a file in UTF-8", "", 2});
    return tree;
  }
  if (!JsonTreeMaker(*tree, file, problems).run()) tree->nodes_.clear();
  return tree;
}

}  // namespace halfhard
