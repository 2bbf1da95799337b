#include "modeller/make/papers.h"

#include <map>

#include "exporters/arrangement/arrangement.h"
#include "exporters/bench/bench_cards.h"
#include "exporters/bench/bend_table.h"
#include "exporters/dxf/dxf.h"
#include "exporters/pdf/pdf.h"
#include "exporters/report/report.h"
#include "exporters/step/step.h"
#include "exporters/svg/svg.h"
#include "modeller/make/file_names.h"

namespace halfhard {
namespace {

// One place for every sheet as PDF (all pages together) and, where asked, each page as DXF and SVG.
void add_pdf(std::vector<Paper>& papers, const std::string& name, const std::string& title,
             std::function<std::vector<Sheet>()> sheets) {
  papers.push_back({name + ".pdf", [title, sheets] { return pdf({title, sheets()}); }});
}

void add_run_papers(std::vector<Paper>& papers, const Plan& plan, const Run& run, const std::string& name) {
  papers.push_back({name + ".step", [&] { return step_of_run(plan, run); }});
  papers.push_back({name + "-bend-table.txt", [&] { return bend_table_text(plan, run); }});
  papers.push_back({name + "-bend-table.csv", [&] { return bend_table_csv(plan, run); }});
  papers.push_back({name + "-bend-table.json", [&] { return bend_table_json(plan, run); }});
  if (leads_its_pieces(plan, run)) {
    add_pdf(papers, name + "-bench-cards", run.name, [&] { return bench_cards(plan, run); });
  }
}

void add_job_papers(std::vector<Paper>& papers, const Plan& plan) {
  papers.push_back({"report.json", [&] { return report(plan); }});
  papers.push_back({"job.step", [&] { return step_of_job(plan); }});
  if (!plan.runs.empty()) add_pdf(papers, "arrangement", plan.title, [&] { return arrangement_sheets(plan); });
}

}  // namespace

std::vector<Paper> papers_of(const Plan& plan) {
  std::vector<Paper> papers;
  add_job_papers(papers, plan);
  UniqueNames names;
  for (const Paper& paper : papers) names.name_for(paper.name.substr(0, paper.name.rfind('.')));
  for (const auto& run : plan.runs) add_run_papers(papers, plan, *run, names.name_for(run->name));
  return papers;
}

}  // namespace halfhard
