// The bend table of one run as files: text to print, CSV for a spreadsheet, JSON for a program. Pure: same input, same
// bytes.
#pragma once

#include <string>

#include "geometry/plan/plan.h"

namespace halfhard {

// Plain UTF-8 text, lines of at most 100 characters, LF. Rounded for people. Of a run that fails it says why, and gives
// nothing to work by: no mark, no check, no length to cut.
std::string bend_table_text(const Plan& plan, const Run& run);

// UTF-8 with BOM, comma, CRLF, decimal point, units in the header, exact numbers in mm and degrees. Rows in the order
// of the work: the blank, the bends as made, what is trimmed, the likely error. In a run that fails the marks are empty
// and the last column says why. Texts that a spreadsheet would run begin with an apostrophe.
std::string bend_table_csv(const Plan& plan, const Run& run);

// Exact, mm and degrees. In a run that fails "not_to_be_made" holds the first finding and "more" those beside it, and the
// marks are null.
std::string bend_table_json(const Plan& plan, const Run& run);

}  // namespace halfhard
