#include "exporters/page/job_page.h"

#include <algorithm>
#include <iterator>

#include "exporters/bench/bend_rows.h"
#include "exporters/page/glb.h"
#include "exporters/page/markup.h"
#include "exporters/page/page_assets.h"
#include "geometry/words/alike_findings.h"
#include "geometry/words/cautions.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

std::string element(const std::string& name, const std::string& content, const std::string& attributes = "") {
  return "<" + name + (attributes.empty() ? "" : " " + attributes) + ">" + content + "</" + name + ">\n";
}

std::string paragraph(const std::string& text, const std::string& attributes = "") {
  return text.empty() ? "" : element("p", html_text(text), attributes);
}

const char* severity_sign(Severity severity) {
  switch (severity) {
    case Severity::fail:
      return "✗ Fails";
    case Severity::warn:
      return "! Mind";
    case Severity::note:
      break;
  }
  return "· Note";
}

class PageWriter {
 public:
  PageWriter(const Plan& plan, const PageParts& parts) : plan_(plan), parts_(parts) {}

  std::string page() {
    std::string body = header();
    std::string content = model() + findings(plan_.findings, "Findings") + pipe_list() + sheet_section();
    for (std::size_t i = 0; i < plan_.runs.size(); ++i) content += run_section(*plan_.runs[i], static_cast<int>(i));
    content += caution_section();
    body += element("main", content);
    body += footer();
    return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
           "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
           "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
           "script-src 'unsafe-inline'; img-src data: blob:; connect-src data: blob:\">\n" +
           element("title", html_text(title())) + "<style>\n" + std::string(page::kPageStyle) +
           "</style>\n</head>\n<body>\n" + body + data() + "</body>\n</html>\n";
  }

 private:
  std::string title() const { return plan_.title.empty() ? plan_.stem : plan_.title; }

  std::string header() const {
    std::string text = element("h1", html_text(title()));
    if (plan_.fails()) {
      text += element("div", "NOT TO BE MADE: this job fails its checks. See the findings.", "class=\"banner\"");
    }
    if (!plan_.origin.empty()) text += paragraph("Measured from: " + plan_.origin + ".", "class=\"soft\"");
    std::string about;
    const TitleBlock& block = plan_.title_block;
    for (const auto& [label, value] : {std::pair<const char*, const std::string&>{"", block.owner},
                                       {"", block.identification},
                                       {"revision ", block.revision},
                                       {"", block.date},
                                       {"job ", plan_.digest}}) {
      if (!value.empty()) about += (about.empty() ? "" : " · ") + std::string(label) + value;
    }
    return element("header", text + paragraph(about, "class=\"soft\""));
  }

  std::string model() const {
    std::string buttons;
    for (const auto& [view, name] : {std::pair("iso", "Corner"), std::pair("front", "Front"),
                                     std::pair("above", "Above"), std::pair("side", "Side")}) {
      buttons += std::string("<button type=\"button\" data-view=\"") + view + "\">" + name + "</button>";
    }
    buttons += "<label><input type=\"checkbox\" id=\"show-fixtures\" checked> show what stands on site</label>";
    const char* without = "This browser draws no 3-D models (WebGL is off). Tables, cards and sheets are below.";
    return std::string("<div id=\"model\"><p id=\"model-note\" data-without=\"") + without +
           "\">Drag to turn, pinch or wheel to come nearer, tap a pipe for its name.</p><noscript><p>" + without +
           "</p></noscript></div>\n" + element("div", buttons, "class=\"tools\"");
  }

  // Of the whole job, or of one pipe; `only_new` leaves out what is said alike of a pipe before it.
  std::string findings(const std::vector<Finding>& all, const std::string& heading, const std::string& where = "",
                       bool only_new = false) const {
    std::string items;
    for (const Severity severity : {Severity::fail, Severity::warn, Severity::note}) {
      for (const auto& group : alike_findings(all, severity)) {
        const auto here = std::find_if(group.begin(), group.end(), [&](const Finding* each) {
          return where.empty() || each->where == where || each->also == where;
        });
        if (here == group.end() || (only_new && here != group.begin())) continue;
        const Finding& finding = **here;
        std::string text = element("strong", severity_sign(severity)) + " ";
        text += html_text(where.empty() ? told(group) : finding.message);
        if (!finding.source.empty())
          text += " " + element("span", "(" + html_text(finding.source) + ")", "class=\"soft\"");
        items += element("li", text, std::string("class=\"") + severity_word(severity) + "\"");
      }
    }
    if (items.empty())
      return where.empty() ? element("section", element("h2", heading) + paragraph("Nothing to report.")) : "";
    const std::string list = element("ul", items, "class=\"findings\"");
    return where.empty() ? element("section", element("h2", heading) + list) : element("h3", heading) + list;
  }

  std::string pipe_list() const {
    std::string rows = "<tr><th>Pipe</th><th>Tube</th><th>For</th><th>Bends</th><th>Cut length</th><th></th></tr>\n";
    for (std::size_t i = 0; i < plan_.runs.size(); ++i) {
      const Run& run = *plan_.runs[i];
      const std::string link = "<a href=\"#run-" + std::to_string(i) + "\">" + html_text(run.name) + "</a>";
      rows += "<tr><td>" + link + "</td><td>" + html_text(run.tube->name) + "</td><td>" + service_word(run.service) +
              "</td><td>" + std::to_string(run.bends.size()) + "</td><td>" +
              html_text(shown_length(run.cut_length_mm, plan_.unit)) + "</td><td>" +
              (plan_.failure_of(run) ? "NOT TO BE MADE" : "") + "</td></tr>\n";
    }
    return element("section", element("h2", "Pipes") + element("div", element("table", rows), "class=\"scroll\""));
  }

  std::string sheet_section() {
    const std::string sheets = figures(parts_.job_sheets, "Sheets of the whole job");
    return sheets.empty() ? "" : element("section", sheets);
  }

  std::string run_section(const Run& run, int index) {
    const BendTableText table = bend_table_rows(plan_, run);
    std::string text = element("h2", html_text(run.name));
    if (!table.not_to_be_made.empty()) text += element("div", html_text(table.not_to_be_made), "class=\"banner\"");
    const std::vector<int> alike = pieces_alike(plan_, run);
    const bool like_another = !alike.empty() && alike.front() != index;
    if (like_another) {
      const std::string link = "<a href=\"#run-" + std::to_string(alike.front()) + "\">" +
                               html_text(plan_.runs[alike.front()]->name) + "</a>";
      text += element("p", "Made by the same table and cards as " + link + ".");
    } else {
      for (const std::string& sentence : table.about) text += paragraph(sentence, "class=\"soft\"");
      text += bend_table(table) + figures(cards_of(run), "Bench cards") + figures(sheets_of(run), "Sheets");
    }
    text += findings(plan_.findings, "What the checks say of it", run.name, like_another);
    return element("section", text,
                   "id=\"run-" + std::to_string(index) + "\" class=\"" + (like_another ? "run alike" : "run") + "\"");
  }

  static std::string bend_table(const BendTableText& table) {
    std::string text = paragraph(table.blank_text);
    for (const std::string& sentence : table.before) text += paragraph(sentence);
    if (!table.rows.empty()) {
      // What is the same for every bend stands above the table: on a phone there is no room to repeat it.
      const auto same = [&](std::string BendRow::*member) {
        return std::all_of(table.rows.begin(), table.rows.end(),
                           [&](const BendRow& row) { return row.*member == table.rows.front().*member; });
      };
      const bool one_from = same(&BendRow::mark_from), one_held = same(&BendRow::held_to);
      std::string always;
      if (one_from) always += "Every mark is measured from " + table.rows.front().mark_from + ". ";
      if (one_held && !table.rows.front().held_to.empty())
        always += "It is held to: " + table.rows.front().held_to + ".";
      text += paragraph(always);
      std::string rows = std::string("<tr><th>Bend</th><th>Mark</th>") + (one_from ? "" : "<th>from</th>") +
                         (one_held ? "" : "<th>Held to</th>") +
                         "<th>On the hook</th><th>Angle</th><th>Pull to</th><th>Rule, pulling</th><th>Rule, after</th>"
                         "<th>Formed part, from the hook</th><th>Check</th></tr>\n";
      for (const BendRow& row : table.rows) rows += bend_row(row, !one_from, !one_held);
      text += element("div", element("table", rows), "class=\"scroll\"");
      std::string steps;
      for (const BendRow& row : table.rows) steps += bend_words(row);
      text += element("details", element("summary", "The same in words") + element("ol", steps));
    }
    return text + paragraph(table.trim_text) + paragraph(table.likely_error);
  }

  static std::string bend_row(const BendRow& row, bool with_from, bool with_held) {
    std::string cells =
        element("td", std::to_string(row.number)) + element("td", html_text(row.mark), "class=\"figure\"");
    if (with_from) cells += element("td", html_text(row.mark_from));
    if (with_held) cells += element("td", html_text(row.held_to));
    for (const std::string& cell : {row.hook, row.angle}) cells += element("td", html_text(cell));
    cells += element("td", html_text(row.set_angle), "class=\"figure\"");
    for (const std::string& cell : {row.rule_while_pulling, row.rule_after, row.clock, row.check}) {
      cells += element("td", html_text(cell));
    }
    return element("tr", cells);
  }

  static std::string bend_words(const BendRow& row) {
    std::string text = "Bend " + std::to_string(row.number) + ".";
    for (const std::string& sentence :
         {row.mark_text, row.held_text, row.hook_text, row.clock_text, row.check_text, row.remark}) {
      if (!sentence.empty()) text += " " + sentence;
    }
    return element("li", html_text(text));
  }

  std::vector<PageSheet> cards_of(const Run& run) const { return named(parts_.bench_cards, run.name); }
  std::vector<PageSheet> sheets_of(const Run& run) const { return named(parts_.sheets, run.name); }

  static std::vector<PageSheet> named(const std::map<std::string, std::vector<PageSheet>>& all,
                                      const std::string& name) {
    const auto found = all.find(name);
    return found == all.end() ? std::vector<PageSheet>() : found->second;
  }

  std::string figures(const std::vector<PageSheet>& sheets, const std::string& heading) {
    std::string text;
    for (const PageSheet& sheet : sheets) {
      const std::string drawing = inline_svg(sheet.svg, ++drawings_);
      text += element("details", element("summary", html_text(sheet.title)) + element("figure", drawing),
                      "class=\"drawing\"");
    }
    return text.empty() ? "" : element("h3", heading) + text;
  }

  std::string caution_section() const {
    std::string items;
    for (const std::string& caution : halfhard::cautions(plan_)) items += element("li", html_text(caution));
    return element("section", element("h2", "Cautions") + element("ul", items));
  }

  std::string footer() const {
    return element("footer",
                   paragraph("Made by halfhard from the job file alone. Needs no network.", "class=\"soft\"") +
                       element("details",
                               element("summary", "Licence of the viewer library three.js, which this page carries") +
                                   element("pre", html_lines(page::kViewerLicence)),
                               "class=\"licence\""));
  }

  // html_text with its line ends kept.
  static std::string html_lines(std::string_view text) {
    std::string lines;
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t end = std::min(text.find('\n', at), text.size());
      lines += html_text(text.substr(at, end - at)) + "\n";
      at = end + 1;
    }
    return lines;
  }

  std::string data() const {
    return "<script type=\"application/octet-stream\" id=\"model-data\">" + base64(glb_of_job(plan_)) +
           "</script>\n<script>\n" + std::string(page::kViewerScript) + "</script>\n";
  }

  const Plan& plan_;
  const PageParts& parts_;
  int drawings_ = 0;
};

}  // namespace

std::string job_page(const Plan& plan, const PageParts& parts) { return PageWriter(plan, parts).page(); }

}  // namespace halfhard
