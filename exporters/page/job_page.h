// The job page: one HTML file that opens offline on a phone, with the model to turn, and everything to read: findings,
// each pipe's bend table, bench cards, sheets, cautions. It needs no script for anything but the model.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "geometry/plan/plan.h"

namespace halfhard {

// A drawing to show: what it is called and its SVG, made by this program.
struct PageSheet {
  std::string title;
  std::string svg;
};

struct PageParts {
  std::vector<PageSheet> job_sheets;  // of the whole job: arrangement, drilling
  // By run name; pieces that share papers need them once, under the first piece's name.
  std::map<std::string, std::vector<PageSheet>> sheets;
  std::map<std::string, std::vector<PageSheet>> bench_cards;
};

// Every text of the job is escaped. Same plan and parts, same bytes.
std::string job_page(const Plan& plan, const PageParts& parts);

}  // namespace halfhard
