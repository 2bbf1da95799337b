#include <initializer_list>

#include "exporters/bench/bend_rows.h"
#include "exporters/bench/bend_table_files.h"
#include "exporters/report/json_writer.h"
#include "geometry/bending/clock.h"

namespace halfhard {
namespace {

// A cell of text. Spreadsheets run cells that begin with these signs as formulas.
std::string cell(std::string text) {
  if (!text.empty() && std::string("=+-@\t\r").find(text[0]) != std::string::npos) text.insert(0, "'");
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + "\"";
}

std::string row(std::initializer_list<std::string> cells) {
  std::string line;
  for (const std::string& one : cells) line += (line.empty() ? "" : ",") + one;
  return line + "\r\n";
}

// A work step that is one length: blank, trim, likely error. The first cell is never empty, so `row` counts right.
std::string length_row(const std::string& step, const Run& run, double mm, const std::string& status) {
  std::string line = step + "," + cell(run.name) + "," + exact_number(mm);
  for (int i = 0; i < 20; ++i) line += ",";
  return line + "," + cell(status) + "\r\n";
}

std::string bend_row(const Run& run, const Bend& bend, const std::string& status) {
  const bool made = status.empty();
  std::string clock_deg, clock_words, points;
  for (const ClockReading& reading : clock_readings(run, bend.made)) {
    clock_deg += (clock_deg.empty() ? "" : " ") + exact_number(reading.clockwise.degrees());
    clock_words +=
        (clock_words.empty() ? "" : "; ") + ("bend " + std::to_string(reading.bend)) + " at " + reading.hour();
    if (const auto words = points_in_words(run.bender->stands, reading.clockwise)) {
      points += (points.empty() ? "" : "; ") + *words;
    }
  }
  return row({"bend",
              cell(run.name),
              "",
              std::to_string(bend.made),
              std::to_string(bend.number),
              made ? exact_number(bend.mark_mm) : "",
              made ? exact_number(bend.mark_from_outside_mm) : "",
              std::to_string(bend.mark_from_bend),
              cell(run.bender->line_up),
              end_word(bend.hook),
              exact_number(bend.angle.degrees()),
              exact_number(bend.set_angle.degrees()),
              exact_number(bend.rule_points_set_mm),
              exact_number(bend.rule_points_mm),
              exact_number(bend.rotation.degrees()),
              clock_deg,
              cell(clock_words),
              cell(points),
              exact_number(bend.radius_mm),
              exact_number(bend.straight_before_mm),
              cell(bend.check.text),
              exact_number(bend.check.mm),
              exact_number(bend.check.tolerance_mm),
              cell(status)});
}

}  // namespace

std::string bend_table_csv(const Plan& plan, const Run& run) {
  const std::string status = not_to_be_made(plan, run);
  std::string out = "\xEF\xBB\xBF";
  out += row({"step",
              "run",
              "length (mm)",
              "made",
              "bend",
              "mark from start end (mm)",
              "mark from outside of bend before (mm)",
              "bend before (0: tube end on the hook side)",
              "mark held to",
              "end on the hook",
              "angle (deg)",
              "set angle (deg)",
              "600 mm rule while pulling (mm)",
              "600 mm rule after letting go (mm)",
              "rotation (deg)",
              "formed part clockwise from 12 (deg)",
              "formed part",
              "formed part points",
              "radius (mm)",
              "straight before (mm)",
              "check",
              "check (mm)",
              "check tolerance (mm)",
              "status"});
  out += length_row("blank", run, run.blank_length_mm, status);
  for (const Bend* bend : run.bends_as_made()) out += bend_row(run, *bend, status);
  if (run.spare_datum_mm > 0) out += length_row("trim start end", run, run.spare_datum_mm, status);
  if (run.spare_free_mm > 0) out += length_row("trim far end", run, run.spare_free_mm, status);
  if (!run.bends.empty()) out += length_row("likely error", run, likely_error_mm(plan, run), status);
  return out;
}

}  // namespace halfhard
