// The cut list as text to print, as CSV and as JSON.
#include "exporters/cutting/cut_list.h"
#include "exporters/report/json_writer.h"
#include "geometry/shown.h"

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
  json.member("not_to_be_made", piece.not_to_be_made);
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
  json.member("waste_mm", list.waste_mm());
  json.member("lower_bound_mm", list.lower_bound_mm);
  json.member("proven", list.proven);
  json.key("lengths").begin_array();
  for (const CutBar& bar : list.bars) {
    json.begin_object();
    json.member("stock_mm", bar.stock_mm);
    json.member("times", bar.times);
    json.member("left_over_mm", bar.left_over_mm);
    json.key("pieces").begin_array();
    for (const CutPiece& piece : bar.pieces) write_piece(piece, json);
    json.end_array();
    json.end_object();
  }
  json.end_array();
  json.key("too_long").begin_array();
  for (const CutPiece& piece : list.too_long) write_piece(piece, json);
  json.end_array();
  json.end_object();
}

}  // namespace

std::string cut_list_text(const CutList& list) {
  std::string text = "Cut list: " + list.title +
                     "\nCut lengths are of the straight blank. Measure each from a fresh end, not in chains.\n";
  for (const TubeCutList& tube : list.tubes) {
    text += "\n" + tube_text(tube.tube) + ": " + shown_length(tube.stock_used_mm, list.unit) + " of stock, waste " +
            shown_length(tube.waste_mm(), list.unit) + " (" + verdict(tube, list.unit) + "), " +
            shown_length(tube.cutter_loss_mm, list.unit) + " lost a cut\n";
    for (const CutBar& bar : tube.bars) {
      text += "  " + std::to_string(bar.times) + " x " + shown_length(bar.stock_mm, list.unit) + ", left over " +
              shown_length(bar.left_over_mm, list.unit) + "\n";
      for (const CutPiece& piece : bar.pieces) {
        text += "    " + shown_length(piece.length_mm, list.unit) + "  " + piece.run + " (" + piece.job + ")" +
                (piece.not_to_be_made ? std::string("  ") + kNotToBeMade : "") + "\n";
      }
    }
    for (const CutPiece& piece : tube.too_long) {
      text += "  Too long for any stock: " + shown_length(piece.length_mm, list.unit) + "  " + piece.run + " (" +
              piece.job + "), " + std::to_string(piece.of_sets) + " off\n";
    }
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
                exact_number(piece.length_mm) + "," + exact_number(bar.left_over_mm) + "," +
                (piece.not_to_be_made ? kNotToBeMade : "") + "\r\n";
      }
    }
    for (const CutPiece& piece : tube.too_long) {
      text += csv_cell(tube.tube.name) + ",," + std::to_string(piece.of_sets) + ",," + csv_cell(piece.job) + "," +
              csv_cell(piece.run) + "," + exact_number(piece.length_mm) + ",,too long for any stock\r\n";
    }
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
