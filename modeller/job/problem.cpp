#include "modeller/job/problem.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdio>

namespace halfhard {
namespace {

constexpr std::size_t kLongestShown = 60;
constexpr std::size_t kLongestPointer = 200;
constexpr std::size_t kLongestCompared = 64;  // a longer name is no slip of a short one, and comparing is quadratic

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

// Without case and spaces: "15MM" is as near to "15 mm" as can be.
std::string plain_form(std::string_view text) {
  std::string plain;
  for (char c : text) {
    if (c != ' ' && c != '_' && c != '-') plain += lower(c);
  }
  return plain;
}

// Optimal string alignment: insertions, deletions, changes and swaps of neighbours each count one.
int slips(const std::string& a, const std::string& b) {
  std::vector<std::vector<int>> d(a.size() + 1, std::vector<int>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = static_cast<int>(i);
  for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int change = a[i - 1] == b[j - 1] ? 0 : 1;
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
      }
    }
  }
  return d[a.size()][b.size()];
}

// How many slips still pass for a slip: one in a short word, two in one of four letters, then a third.
int most_slips(const std::string& word) { return word.size() < 4 ? 1 : std::max(2, static_cast<int>(word.size() / 3)); }

// "heating" for "heating flow", "upwards" for "up".
bool begins_the_other(const std::string& a, const std::string& b) {
  return std::min(a.size(), b.size()) >= 2 && (a.starts_with(b) || b.starts_with(a));
}

template <typename Name>
std::string nearest_of(std::string_view typed, std::span<const Name> names) {
  if (typed.empty() || typed.size() > kLongestCompared) return "";
  const std::string wanted = plain_form(typed);
  std::string best;
  int fewest = most_slips(wanted) + 1;
  for (const Name& name : names) {
    if (name.empty() || name.size() > kLongestCompared) continue;
    const std::string plain = plain_form(name);
    const int count =
        begins_the_other(wanted, plain) ? std::min(most_slips(wanted), slips(wanted, plain)) : slips(wanted, plain);
    if (count < fewest) {
      fewest = count;
      best = std::string(name);
    }
  }
  return best;
}

template <typename Name>
std::string list_of(std::span<const Name> names, std::size_t most) {
  std::string text;
  for (std::size_t i = 0; i < std::min(most, names.size()); ++i) text += (i ? ", " : "") + in_quotes(names[i]);
  if (names.size() > most) text += ", ...";
  return text;
}

}  // namespace

std::string JobProblem::message() const {
  std::string text = "found " + found + ", allowed " + allowed;
  if (!nearest.empty()) text += " (did you mean " + in_quotes(nearest) + "?)";
  return text;
}

std::string JobProblem::shown() const {
  std::string text = printable(file);
  if (line > 0) text += ":" + std::to_string(line);
  text += ": ";
  if (!pointer.empty())
    text += printable(pointer.substr(0, kLongestPointer)) + (pointer.size() > kLongestPointer ? "...: " : ": ");
  return text + message();
}

void in_order_of_the_file(std::vector<JobProblem>& problems) {
  std::ranges::stable_sort(problems, [](const JobProblem& a, const JobProblem& b) {
    return std::pair(a.line, a.column) < std::pair(b.line, b.column);
  });
}

int exit_status_of(const std::vector<JobProblem>& problems) {
  int status = 0;
  for (const JobProblem& problem : problems) status = std::max(status, problem.exit_status);
  return status;
}

std::string nearest_name(std::string_view typed, std::span<const std::string_view> names) {
  return nearest_of(typed, names);
}
std::string nearest_name(std::string_view typed, std::span<const std::string> names) {
  return nearest_of(typed, names);
}

std::string printable(std::string_view text) {
  std::string shown;
  const auto escaped = [&](const char* form, unsigned byte) {
    std::array<char, 8> escape{};
    std::snprintf(escape.data(), escape.size(), form, byte);
    shown += escape.data();
  };
  for (std::size_t at = 0; at < text.size();) {
    const auto byte = static_cast<unsigned char>(text[at]);
    const std::size_t length = byte < 0x80 ? 1 : byte >= 0xF0 ? 4 : byte >= 0xE0 ? 3 : byte >= 0xC0 ? 2 : 0;
    bool whole = length > 0 && at + length <= text.size();
    for (std::size_t i = 1; whole && i < length; ++i) whole = (static_cast<unsigned char>(text[at + i]) & 0xC0) == 0x80;
    if (byte < 0x20 || byte == 0x7f) {
      escaped("\\u%04x", byte);
      ++at;
    } else if (!whole) {
      escaped("\\x%02x", byte);
      ++at;
    } else {
      shown += text.substr(at, length);
      at += length;
    }
  }
  return shown;
}

std::string in_quotes(std::string_view text) {
  std::string_view kept = text;
  if (text.size() > kLongestShown) {
    std::size_t end = kLongestShown;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;  // never inside a character
    kept = text.substr(0, end);
  }
  return "\"" + printable(kept) + (kept.size() < text.size() ? "..." : "") + "\"";
}

std::string in_quotes_json(std::string_view text) {
  std::string literal = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') literal += '\\';
    literal += printable(std::string_view(&c, 1));
  }
  return literal + "\"";
}

std::string names_in_quotes(std::span<const std::string_view> names, std::size_t most) { return list_of(names, most); }
std::string names_in_quotes(std::span<const std::string> names, std::size_t most) { return list_of(names, most); }

std::string number_text(double value) {
  std::array<char, 40> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), value == 0 ? 0.0 : value).ptr;
  return std::string(text.data(), end);
}

}  // namespace halfhard
