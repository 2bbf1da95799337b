#include <algorithm>
#include <initializer_list>
#include <string>
#include <vector>

#include "exporters/bench/bend_rows.h"
#include "exporters/bench/bend_table_files.h"
#include "exporters/sheet/sheet_table.h"

namespace halfhard {
namespace {

constexpr size_t kWidth = 100;

// Characters, not bytes: continuation bytes of UTF-8 do not count.
size_t width(const std::string& text) {
  return static_cast<size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

// Words of a paragraph, lines indented by `indent`, no wider than `most` unless a word is; without the last line's end.
std::string filled(const std::string& paragraph, size_t indent, size_t most = kWidth) {
  std::string out, line(indent, ' ');
  size_t at = 0;
  bool first = true;
  while (at < paragraph.size()) {
    const size_t space = std::min(paragraph.find_first_of(" \n", at), paragraph.size());
    const std::string word = paragraph.substr(at, space - at);
    at = space + 1;
    if (word.empty()) continue;
    if (!first && width(line) + 1 + width(word) > most) {
      out += line + "\n";
      line.assign(indent, ' ');
      first = true;
    }
    line += (first ? "" : " ") + word;
    first = false;
  }
  return out + (first ? "" : line);
}

// Paragraphs, those without words left out.
std::string paragraphs(const std::vector<std::string>& all) {
  std::string out;
  for (const std::string& one : all) {
    const std::string text = filled(one, 0);
    if (!text.empty()) out += text + "\n";
  }
  return out;
}

using Rows = std::vector<std::vector<std::string>>;

std::vector<size_t> widths_of(const Rows& rows) {
  std::vector<size_t> widths(rows.front().size(), 0);
  for (const auto& row : rows) {
    for (size_t i = 0; i < row.size(); ++i) {
      for (const std::string& line : lines_of_cell(row[i])) widths[i] = std::max(widths[i], width(line));
    }
  }
  return widths;
}

size_t total_width(const Rows& rows) {
  size_t total = 0;
  for (const size_t one : widths_of(rows)) total += one + 2;
  return total - 2;
}

// Columns two spaces apart; cells of more than one line stand at the top.
std::string columns(const Rows& rows) {
  const std::vector<size_t> widths = widths_of(rows);
  std::string out;
  for (const auto& row : rows) {
    std::vector<std::vector<std::string>> cells;
    size_t height = 1;
    for (const std::string& cell : row) {
      cells.push_back(lines_of_cell(cell));
      height = std::max(height, cells.back().size());
    }
    for (size_t k = 0; k < height; ++k) {
      std::string line;
      for (size_t i = 0; i < cells.size(); ++i) {
        const std::string text = k < cells[i].size() ? cells[i][k] : "";
        line += text + std::string(widths[i] - width(text) + 2, ' ');
      }
      out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
    }
  }
  return out;
}

// The lines of a cell broken at spaces, no wider than `most` unless a word is.
std::string broken(const std::string& cell, size_t most) {
  std::string out;
  for (const std::string& line : lines_of_cell(cell)) out += (out.empty() ? "" : "\n") + filled(line, 0, most);
  return out;
}

// As wide as the page allows: the columns of words are broken into lines as far as need be.
std::string fitted_columns(const Rows& rows, std::initializer_list<size_t> wordy) {
  Rows fitted = rows;
  for (size_t most = 40; most >= 9 && total_width(fitted) > kWidth; --most) {
    fitted = rows;
    for (auto& row : fitted) {
      for (const size_t i : wordy) row[i] = broken(row[i], most);
    }
  }
  return columns(fitted);
}

std::string without_article(const std::string& text) { return text.starts_with("the ") ? text.substr(4) : text; }

std::string each_on_a_line(std::string readings) {
  for (size_t at = 0; (at = readings.find("; ", at)) != std::string::npos;) readings.replace(at, 2, "\n");
  return readings;
}

// "16 31/32 in" without its unit, which stands at the head of its column.
std::string bare(const std::string& length) { return length.substr(0, length.rfind(' ')); }

std::string figures(const BendTableText& table, LengthUnit unit) {
  const std::string in_unit = unit == LengthUnit::mm ? "\n(mm)" : "\n(inches)";
  std::string rule = table.rows.front().rule;
  rule.replace(rule.rfind(' '), 1, "\n");
  Rows rows = {{"made", "bend", "mark" + in_unit, "from", "hook", "angle", "pull\nto", rule + ",\npulling" + in_unit,
                rule + ",\nlet go" + in_unit, "formed\npart, from\nthe hook", "check" + in_unit}};
  for (const BendRow& row : table.rows) {
    rows.push_back({std::to_string(row.made), std::to_string(row.number), row.mark, without_article(row.mark_from),
                    row.hook, row.angle, row.set_angle, bare(row.rule_while_pulling), bare(row.rule_after),
                    row.clock == "-" ? "straight" : each_on_a_line(row.clock), row.check});
  }
  return fitted_columns(rows, {3, 9});
}

// What a run that fails would be: no mark, no check, nothing to work by.
std::string plain_figures(const BendTableText& table) {
  Rows rows = {{"bend", "angle"}};
  for (const BendRow& row : table.rows) rows.push_back({std::to_string(row.number), row.angle});
  std::sort(rows.begin() + 1, rows.end(),
            [](const auto& a, const auto& b) { return std::stoi(a[0]) < std::stoi(b[0]); });
  return columns(rows);
}

std::string bend_lines(const BendRow& row) {
  std::string out = "\n" + std::to_string(row.made) + ". Bend " + std::to_string(row.number) + "\n";
  if (!row.remark.empty()) out += filled(row.remark, 3) + "\n";
  out += filled(row.mark_text, 3) + "\n";
  out += filled(row.held_text + " " + row.hook_text, 3) + "\n";
  if (!row.clock_text.empty())
    out += filled(row.clock_text + (row.turn_text.empty() ? "" : " " + row.turn_text), 3) + "\n";
  out += filled("Pull to " + row.set_angle + " for " + row.angle + "; a " + row.rule + " hinged at " + row.rule_hinge +
                    " stands " + row.rule_while_pulling + " between its points while pulling, " + row.rule_after +
                    " after letting go.",
                3) +
         "\n";
  out += filled(row.check_text, 3) + "\n";
  if (!row.further_checks.empty()) out += filled(row.further_checks, 3) + "\n";
  return out;
}

}  // namespace

std::string bend_table_text(const Plan& plan, const Run& run) {
  const BendTableText table = bend_table_rows(plan, run);
  const bool may_be_made = table.not_to_be_made.empty();
  std::string out;
  if (!may_be_made) out += paragraphs(reasons_not_to_make(plan, run)) + "\n";
  out += paragraphs({table.heading, plan.title}) + paragraphs(table.about) + "\n";
  out += paragraphs({table.blank_text}) + paragraphs(table.before);
  if (!table.rows.empty()) out += "\n" + (may_be_made ? figures(table, plan.unit) : plain_figures(table));
  if (may_be_made) {
    for (const BendRow& row : table.rows) out += bend_lines(row);
  }
  const std::string last = paragraphs(table.after) + paragraphs({table.trim_text, table.likely_error});
  if (!last.empty()) out += "\n" + last;
  return out + "\n" + paragraphs({"Mind: " + table.cautions});
}

}  // namespace halfhard
