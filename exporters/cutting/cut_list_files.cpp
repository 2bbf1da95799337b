// The cut list as text to print, as CSV and as JSON.
#include "exporters/cutting/cut_list.h"
#include "exporters/report/json_writer.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

constexpr const char* kNotToBeMade = "NOT TO BE MADE";

std::string tube_text(const Tube& tube) {
  return tube.name + (tube.standard.empty() ? "" : " (" + tube.standard + ", " + tube.size + ")");
}

std::string verdict(const TubeCutList& list, LengthUnit unit) {
  return list.proven ? "no plan uses less stock"
                     : "not proven to be the least: at least " + shown_length(list.lower_bound_mm, unit) + " is needed";
}

// Spreadsheets run cells that begin with these signs as formulas.
std::string csv_cell(std::string text) {
  if (!text.empty() && std::string("=+-@\t\r").find(text[0]) != std::string::npos) text.insert(0, "'");
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string cell = "\"";
  for (const char c : text) cell += c == '"' ? std::string("\"\"") : std::string(1, c);
  return cell + "\"";
}

void write_piece(const CutPiece& piece, JsonWriter& json) {
  json.begin_object();
  json.member("job", piece.job);
  json.member("run", piece.run);
  json.member("length_mm", piece.length_mm);
  if (!piece.not_to_be_made.empty()) json.member("not_to_be_made", piece.not_to_be_made);
  json.end_object();
}

void write_tube(const TubeCutList& list, JsonWriter& json) {
  json.begin_object();
  json.member("tube", list.tube.name);
  json.member("outside_diameter_mm", list.tube.outside_diameter_mm);
  json.member("wall_mm", list.tube.wall_mm);
  json.member("cutter_loss_mm", list.cutter_loss_mm);
  json.member("stock_used_mm", list.stock_used_mm);
  json.member("pieces_mm", list.pieces_mm);
  json.member("kept_mm", list.kept_mm);
  json.member("waste_mm", list.waste_mm());
  json.member("lower_bound_mm", list.lower_bound_mm);
  json.member("proven", list.proven);
  json.key("lengths").begin_array();
  for (const CutBar& bar : list.bars) {
    json.begin_object();
    json.member("stock_mm", bar.stock_mm);
    json.member("times", bar.times);
    json.member("left_over_mm", bar.left_over_mm);
    json.member("keep_left_over", bar.keep_left_over());
    json.key("pieces").begin_array();
    for (const CutPiece& piece : bar.pieces) write_piece(piece, json);
    json.end_array();
    json.end_object();
  }
  json.end_array();
  json.key("too_long").begin_array();
  for (const CutPiece& piece : list.too_long) write_piece(piece, json);
  json.end_array();
  json.key("not_to_be_made").begin_array();
  for (const CutPiece& piece : list.not_to_be_made) write_piece(piece, json);
  json.end_array();
  json.end_object();
}

}  // namespace

std::string left_over_text(const CutBar& bar, LengthUnit unit) {
  if (bar.left_over_mm <= 0) return "nothing left over";
  return "left over " + shown_clearance(bar.left_over_mm, unit) + (bar.keep_left_over() ? ", keep" : "");
}

std::string cut_list_text(const CutList& list) {
  std::string text = "Cut list: " + list.title +
                     "\nCut lengths are of the straight blank. Measure each from a fresh end, not in chains.\n";
  const auto shown = [&](double mm) { return shown_length(mm, list.unit); };
  const auto named = [&](const CutPiece& piece) {
    return shown(piece.length_mm) + "  " + piece.run + " (" + piece.job + ")";
  };
  for (const TubeCutList& tube : list.tubes) {
    text += "\n" + tube_text(tube.tube) + ": ";
    if (tube.bars.empty()) {
      text += "no stock\n";
    } else {
      text += shown(tube.stock_used_mm) + " of stock, " +
              (tube.kept_mm > 0 ? shown_clearance(tube.kept_mm, list.unit) + " left over to keep, " : "") + "waste " +
              shown(tube.waste_mm()) + " (" + verdict(tube, list.unit) + "), " + shown(tube.cutter_loss_mm) +
              " lost a cut\n";
    }
    for (const CutBar& bar : tube.bars) {
      text +=
          "  " + std::to_string(bar.times) + " x " + shown(bar.stock_mm) + ", " + left_over_text(bar, list.unit) + "\n";
      for (const CutPiece& piece : bar.pieces) text += "    " + named(piece) + "\n";
    }
    for (const CutPiece& piece : tube.too_long)
      text += "  Too long for any stock: " + named(piece) + ", " + std::to_string(piece.of_sets) + " off\n";
    for (const CutPiece& piece : tube.not_to_be_made)
      text += std::string("  ") + kNotToBeMade + ": " + named(piece) + ", no stock allotted: " + piece.not_to_be_made +
              "\n";
  }
  return text;
}

std::string cut_list_csv(const CutList& list) {
  std::string text =
      "\xEF\xBB\xBFtube,length number,lengths alike,stock (mm),job,run,piece (mm),left over (mm),status\r\n";
  for (const TubeCutList& tube : list.tubes) {
    int number = 0;
    for (const CutBar& bar : tube.bars) {
      ++number;
      for (const CutPiece& piece : bar.pieces) {
        text += csv_cell(tube.tube.name) + "," + std::to_string(number) + "," + std::to_string(bar.times) + "," +
                exact_number(bar.stock_mm) + "," + csv_cell(piece.job) + "," + csv_cell(piece.run) + "," +
                exact_number(piece.length_mm) + "," + exact_number(bar.left_over_mm) + ",\r\n";
      }
    }
    const auto uncut = [&](const CutPiece& piece, const std::string& status) {
      text += csv_cell(tube.tube.name) + ",," + std::to_string(piece.of_sets) + ",," + csv_cell(piece.job) + "," +
              csv_cell(piece.run) + "," + exact_number(piece.length_mm) + ",," + csv_cell(status) + "\r\n";
    };
    for (const CutPiece& piece : tube.too_long) uncut(piece, "too long for any stock");
    for (const CutPiece& piece : tube.not_to_be_made)
      uncut(piece, std::string(kNotToBeMade) + ": " + piece.not_to_be_made);
  }
  return text;
}

std::string cut_list_json(const CutList& list) {
  JsonWriter json;
  json.begin_object();
  json.member("format", "halfhard-cut-list/1");
  json.member("jobs", list.title);
  json.key("tubes").begin_array();
  for (const TubeCutList& tube : list.tubes) write_tube(tube, json);
  json.end_array();
  json.end_object();
  return json.take();
}

}  // namespace halfhard
