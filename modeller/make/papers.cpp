#include "modeller/make/papers.h"

#include <algorithm>
#include <map>

#include "exporters/arrangement/arrangement.h"
#include "exporters/bench/bench_cards.h"
#include "exporters/bench/bend_table.h"
#include "exporters/bench/flat_stretch.h"
#include "exporters/bench/marking_sheet.h"
#include "exporters/bench/templates.h"
#include "exporters/dxf/dxf.h"
#include "exporters/fabrication/fabrication_sheet.h"
#include "exporters/page/job_page.h"
#include "exporters/pdf/pdf.h"
#include "exporters/report/report.h"
#include "exporters/step/step.h"
#include "exporters/svg/svg.h"
#include "modeller/make/file_names.h"
#include "modeller/make/page_parts.h"

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
  // Banked pieces stand in different places but are one pipe: one set of drawings.
  if (leads_its_pieces(plan, run)) {
    add_pdf(papers, name + "-fabrication", run.name, [&] { return fabrication_sheets(plan, run); });
    papers.push_back({name + "-fabrication.dxf", [&] { return dxf(fabrication_sheets(plan, run)[0]); }});
    papers.push_back({name + "-fabrication.svg", [&] { return svg(fabrication_sheets(plan, run)[0]); }});
    papers.push_back({name + "-blank.dxf", [&] { return dxf(development_sheet(plan, run)); }});
    add_pdf(papers, name + "-bench-cards", run.name, [&] { return bench_cards(plan, run); });
    const size_t stretches = flat_stretches(run).size();
    if (stretches > 0) {
      add_pdf(papers, name + "-template-A4", run.name, [&] { return template_tiles(plan, run, kA4Upright); });
    }
    for (size_t i = 0; i < stretches; ++i) {
      papers.push_back({name + "-template-" + std::to_string(i + 1) + ".dxf",
                        [&plan, &run, i] { return dxf(template_sheets(plan, run)[i]); }});
    }
  }
}

void add_job_papers(std::vector<Paper>& papers, const Plan& plan) {
  papers.push_back({"report.json", [&] { return report(plan); }});
  papers.push_back({"job.step", [&] { return step_of_job(plan); }});
  papers.push_back({"job.html", [&] { return job_page(plan, page_parts_of(plan)); }});
  const bool bent =
      std::any_of(plan.runs.begin(), plan.runs.end(), [](const auto& run) { return !run->bends.empty(); });
  if (bent) add_pdf(papers, "marking-sheet", plan.title, [&] { return marking_sheets(plan); });
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
