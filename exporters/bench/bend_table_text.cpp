#include <algorithm>
#include <vector>

#include "exporters/bench/bend_rows.h"
#include "exporters/bench/bend_table.h"

namespace halfhard {
namespace {

constexpr size_t kWidth = 100;

// Characters, not bytes: continuation bytes of UTF-8 do not count.
size_t width(const std::string& text) {
  return static_cast<size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

// Words of a paragraph, lines indented by `indent`, no wider than kWidth unless a word is.
std::string filled(const std::string& paragraph, size_t indent) {
  std::string out, line(indent, ' ');
  size_t at = 0;
  bool first = true;
  while (at < paragraph.size()) {
    const size_t space = std::min(paragraph.find_first_of(" \n", at), paragraph.size());
    const std::string word = paragraph.substr(at, space - at);
    at = space + 1;
    if (word.empty()) continue;
    if (!first && width(line) + 1 + width(word) > kWidth) {
      out += line + "\n";
      line.assign(indent, ' ');
      first = true;
    }
    line += (first ? "" : " ") + word;
    first = false;
  }
  return first ? out : out + line + "\n";
}

std::string columns(const std::vector<std::vector<std::string>>& rows) {
  std::vector<size_t> widths(rows.front().size(), 0);
  for (const auto& row : rows) {
    for (size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], width(row[i]));
  }
  std::string out;
  for (const auto& row : rows) {
    std::string line;
    for (size_t i = 0; i < row.size(); ++i) line += row[i] + std::string(widths[i] - width(row[i]) + 2, ' ');
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  return out;
}

std::string bend_lines(const BendRow& row) {
  std::string out = "\n" + std::to_string(row.made) + ". Bend " + std::to_string(row.number) + "\n";
  out += filled(row.mark_text, 3);
  out += filled(row.held_text + " " + row.hook_text, 3);
  if (!row.clock_text.empty()) out += filled(row.clock_text, 3);
  out += filled("Pull to " + row.set_angle + " for " + row.angle + "; a 600 mm rule stands " + row.rule_while_pulling +
                    " between its points while pulling, " + row.rule_after + " after letting go.",
                3);
  out += filled(row.check_text, 3);
  if (!row.remark.empty()) out += filled(row.remark, 3);
  return out;
}

}  // namespace

std::string bend_table_text(const Plan& plan, const Run& run) {
  const BendTableText table = bend_table_rows(plan, run);
  std::string out;
  if (!table.not_to_be_made.empty()) out += filled(table.not_to_be_made, 0) + "\n";
  out += filled(table.heading, 0);
  if (!plan.title.empty()) out += filled(plan.title, 0);
  for (const std::string& line : table.about) out += filled(line, 0);
  out += "\n" + filled(table.blank_text, 0);
  for (const std::string& line : table.before) out += filled(line, 0);
  if (!table.rows.empty()) {
    std::vector<std::vector<std::string>> rows = {
        {"made", "bend", "mark", "hook", "angle", "set", "rule pulling", "rule after", "turned", "check"}};
    for (const BendRow& row : table.rows) {
      rows.push_back({std::to_string(row.made), std::to_string(row.number), row.mark, row.hook, row.angle,
                      row.set_angle, row.rule_while_pulling, row.rule_after, row.rotation, row.check});
    }
    out += "\n" + columns(rows);
  }
  for (const BendRow& row : table.rows) out += bend_lines(row);
  if (!table.after.empty() || !table.trim_text.empty() || !table.likely_error.empty()) out += "\n";
  for (const std::string& line : table.after) out += filled(line, 0);
  if (!table.trim_text.empty()) out += filled(table.trim_text, 0);
  if (!table.likely_error.empty()) out += filled(table.likely_error, 0);
  return out;
}

}  // namespace halfhard
