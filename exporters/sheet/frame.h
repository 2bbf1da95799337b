// The border of a sheet (ISO 5457: 20 mm margin at the left for filing, 10 mm elsewhere, line 0.7 mm; from memory) with
// centring marks, and its title block (fields of ISO 7200, at most 180 mm wide; from memory).
#pragma once

#include <string>

#include "exporters/sheet/drawing.h"

namespace halfhard {

// Where the border line runs, sheet mm.
struct Border {
  double left = 0, bottom = 0, right = 0, top = 0;
  double width() const { return right - left; }
  double height() const { return top - bottom; }
};
Border border_of(const SheetSize& size);

struct TitleFields {
  std::string owner, identification, revision, date, created_by, approved_by;
  std::string title, subtitle;  // the job; the pipe or what the sheet shows
  std::string document_type;    // "Fabrication sheet"
  std::string scale;            // "1:5"; empty where nothing is to scale
  std::string digest;           // of the job file
  int sheet = 1, sheets = 1;
  bool third_angle = false;
  bool shows_projection = true;  // false where the sheet has no orthographic views
};
// What a plan says for all its sheets.
TitleFields title_fields(const Plan& plan, std::string subtitle, std::string document_type);

// Border and title block, the block at the bottom right. The drawing has what is above `block_height_mm` for itself,
// and, where the sheet is wider, what is left of the block too.
struct Framed {
  std::vector<Entity> entities;
  Border border;
  double block_width_mm = 0, block_height_mm = 0;
};
Framed frame(const SheetSize& size, const TitleFields& fields);

}  // namespace halfhard
