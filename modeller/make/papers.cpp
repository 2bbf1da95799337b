#include "modeller/make/papers.h"

#include <algorithm>
#include <cctype>
#include <memory>
#include <optional>
#include <set>

#include "exporters/bench/bench_cards.h"
#include "exporters/bench/bend_table_files.h"
#include "exporters/bench/flat_stretch.h"
#include "exporters/bench/marking_sheet.h"
#include "exporters/bench/templates.h"
#include "exporters/cutting/cut_list.h"
#include "exporters/drilling/drilling.h"
#include "exporters/dxf/dxf.h"
#include "exporters/fabrication/fabrication_sheet.h"
#include "exporters/page/job_page.h"
#include "exporters/pdf/pdf.h"
#include "exporters/report/report.h"
#include "exporters/step/step.h"
#include "exporters/svg/svg.h"
#include "modeller/make/drawn_sheets.h"
#include "modeller/make/file_names.h"
#include "modeller/make/page_parts.h"

namespace halfhard {
namespace {

using Drawn = std::shared_ptr<const DrawnSheets>;

// All sheets as the pages of one PDF.
void add_pdf(std::vector<Paper>& papers, const std::string& name, const std::string& title,
             std::function<std::vector<Sheet>()> sheets) {
  papers.push_back({name + ".pdf", [title, sheets] { return pdf({title, sheets()}); }});
}

void add_run_papers(std::vector<Paper>& papers, const Plan& plan, const Run& run, const std::string& name,
                    const Drawn& drawn) {
  papers.push_back({name + ".step", [&] { return step_of_run(plan, run); }});
  papers.push_back({name + "-bend-table.txt", [&] { return bend_table_text(plan, run); }});
  papers.push_back({name + "-bend-table.csv", [&] { return bend_table_csv(plan, run); }});
  papers.push_back({name + "-bend-table.json", [&] { return bend_table_json(plan, run); }});
  const std::vector<Sheet>& drawings = drawn->fabrication.at(run.name);
  papers.push_back({name + ".pdf", [drawn, &drawings, &run] { return pdf({run.name, drawings}); }});
  for (std::size_t i = 0; i < drawings.size(); ++i) {
    const std::string numbered = i == 0 ? name : name + "-sheet-" + std::to_string(i + 1);
    papers.push_back({numbered + ".dxf", [drawn, &drawings, i] { return dxf(drawings[i]); }});
    papers.push_back({numbered + ".svg", [drawn, &drawings, i] { return svg(drawings[i]); }});
  }
  papers.push_back({name + "-blank.dxf", [&] { return dxf(development_sheet(plan, run)); }});
  // Banked pieces stand in different places but are bent alike: one set of cards and templates.
  if (leads_its_pieces(plan, run)) {
    add_pdf(papers, name + "-bench-cards", run.name, [drawn, &run] { return drawn->bench_cards.at(run.name); });
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

// Worked out once, however many papers show it.
using WorkedOut = std::function<const CutList&()>;
WorkedOut cut_list_of(const std::vector<const Plan*>& plans) {
  const auto list = std::make_shared<std::optional<CutList>>();
  return [list, plans]() -> const CutList& {
    if (!*list) *list = cut_list(plans);
    return **list;
  };
}

// `plans`: not empty; the first heads the sheet.
void add_cut_list(std::vector<Paper>& papers, const std::vector<const Plan*>& plans, const WorkedOut& worked_out) {
  papers.push_back({"cut-list.txt", [worked_out] { return cut_list_text(worked_out()); }});
  papers.push_back({"cut-list.csv", [worked_out] { return cut_list_csv(worked_out()); }});
  papers.push_back({"cut-list.json", [worked_out] { return cut_list_json(worked_out()); }});
  papers.push_back({"cut-list.pdf", [worked_out, plans] { return pdf(cut_list_document(worked_out(), *plans[0])); }});
}

void add_drilling(std::vector<Paper>& papers, const Drawn& drawn) {
  UniqueNames names;
  for (const DrillingPaper& paper : drawn->drilling) {
    const std::string name = "drilling-" + names.name_for(paper.name);
    papers.push_back({name + ".pdf", [drawn, &paper] { return pdf({paper.name, {paper.sheet}}); }});
    papers.push_back({name + ".dxf", [drawn, &paper] { return dxf(paper.true_size); }});
  }
}

void add_job_papers(std::vector<Paper>& papers, const Plan& plan, const Drawn& drawn) {
  papers.push_back({"report.json", [&] { return report(plan); }});
  papers.push_back({"job.step", [&] { return step_of_job(plan); }});
  const WorkedOut cut_list = cut_list_of({&plan});
  papers.push_back({"job.html", [drawn, &plan, cut_list] {
                      const bool any = !plan.runs.empty();
                      return job_page(plan, page_parts_of(*drawn, any ? cut_list_document(cut_list(), plan).sheets
                                                                      : std::vector<Sheet>()));
                    }});
  const bool bent =
      std::any_of(plan.runs.begin(), plan.runs.end(), [](const auto& run) { return !run->bends.empty(); });
  if (bent) add_pdf(papers, "marking-sheet", plan.title, [&] { return marking_sheets(plan); });
  if (!plan.runs.empty()) {
    add_pdf(papers, "arrangement", plan.title, [drawn] { return drawn->arrangement; });
    papers.push_back({"arrangement.dxf", [drawn] { return dxf(drawn->arrangement[0]); }});
    add_cut_list(papers, {&plan}, cut_list);
  }
  add_drilling(papers, drawn);
}

// Tells files apart as a file system does that takes upper and lower case for one.
class UsedNames {
 public:
  bool all_free(const std::vector<Paper>& papers) const {
    return std::none_of(papers.begin(), papers.end(), [&](const Paper& paper) { return used_.contains(key(paper)); });
  }
  void take(const std::vector<Paper>& papers) {
    for (const Paper& paper : papers) used_.insert(key(paper));
  }

 private:
  static std::string key(const Paper& paper) {
    std::string key = paper.name;
    std::transform(key.begin(), key.end(), key.begin(), [](unsigned char c) { return std::tolower(c); });
    return key;
  }
  std::set<std::string> used_;
};

}  // namespace

std::vector<Paper> papers_of(const Plan& plan) {
  std::vector<Paper> papers;
  const Drawn drawn = std::make_shared<const DrawnSheets>(drawn_sheets(plan));
  add_job_papers(papers, plan, drawn);
  UsedNames used;
  used.take(papers);
  for (const auto& run : plan.runs) {
    const std::string plain = safe_name(run->name);
    std::vector<Paper> of_run;
    for (int k = 1;; ++k) {
      of_run.clear();
      add_run_papers(of_run, plan, *run, k == 1 ? plain : plain + "_" + std::to_string(k), drawn);
      if (used.all_free(of_run)) break;
    }
    used.take(of_run);
    papers.insert(papers.end(), of_run.begin(), of_run.end());
  }
  return papers;
}

std::vector<Paper> papers_of_all(const std::vector<const Plan*>& plans) {
  std::vector<Paper> papers;
  if (!plans.empty()) add_cut_list(papers, plans, cut_list_of(plans));
  return papers;
}

}  // namespace halfhard
