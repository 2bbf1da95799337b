#include "exporters/arrangement/arrangement.h"

#include <algorithm>

#include "exporters/arrangement/lists.h"
#include "exporters/layout/draw_view.h"
#include "exporters/sheet/frame.h"
#include "exporters/sheet/text_metrics.h"
#include "geometry/words/cautions.h"

namespace halfhard {
namespace {

constexpr double kInside_mm = 3;  // from the border line to anything drawn

struct Page {
  Sheet sheet;
  bool has_views = false;
  double scale = 1;
};

// What stands across the top of every sheet of a job that fails; empty where none does.
Paragraph banner_of(const Plan& plan) {
  const Border b = border_of(kA3Lying);
  std::string reason;
  for (const Finding& finding : plan.findings)
    if (finding.severity == Severity::fail && reason.empty()) reason = finding.message;
  if (!plan.fails()) return {};
  Paragraph banner = paragraph("NOT TO BE MADE: " + reason, {b.left + 4, b.top - 4}, b.width() - 8, 3.5, true);
  for (Entity& entity : banner.texts) std::get<Text>(entity).colour = Colour{0.75, 0, 0};
  return banner;
}

SheetBox drawing_area(const Plan& plan) {
  const Border b = border_of(kA3Lying);
  constexpr double kBlock_mm = 27;  // of the title block, see frame.cpp; checked where the frame is drawn
  const double banner = banner_of(plan).height_mm;
  return {{b.left + kInside_mm, b.bottom + kBlock_mm + kInside_mm},
          {b.right - kInside_mm, b.top - kInside_mm - (banner > 0 ? banner + kInside_mm : 0)}};
}

Text small(const std::string& content, const Vec2& at) {
  Text text;
  text.content = content;
  text.at = at;
  text.height_mm = 1.8;
  return text;
}

// Left of the title block: how pipes are told apart, what the marks mean.
void add_legend(Sheet& sheet, const Plan& plan, const std::vector<RunStyle>& styles, double right) {
  const Border b = border_of(kA3Lying);
  const double top = b.bottom + 27 - 1, left = b.left + 4;
  constexpr double kRow_mm = 3.9, kColumn_mm = 72;
  constexpr size_t kRows = 6;
  const size_t most = 2 * kRows;
  for (size_t i = 0; i < std::min(styles.size(), most); ++i) {
    const Vec2 at(left + static_cast<double>(i / kRows) * kColumn_mm,
                  top - 2.6 - static_cast<double>(i % kRows) * kRow_mm);
    Pen pen = run_centre_pen(styles[i]);
    pen.width_mm = 0.35;
    sheet.add(line_between(at + Vec2(0, 0.9), at + Vec2(16, 0.9), pen));
    const Run& run = *plan.runs[static_cast<size_t>(styles[i].runs.front())];
    std::string words = numbers_text(styles[i].runs) + "  " + styles[i].family + ", " + run.tube->name;
    if (run.service != Service::none) words += std::string(", ") + service_word(run.service);
    if (i + 1 == most && styles.size() > most) words = "and more: see the list of pipes";
    sheet.add(small(shortened(words, kColumn_mm - 20, 1.8), at + Vec2(18, 0)));
  }
  const double x = left + 2 * kColumn_mm;
  const std::vector<std::string> notes = {"Ringed: number of the pipe.",
                                          "A, B: gap at a tight place, as listed.",
                                          "H1: hole to drill.  H in a pipe: clip.",
                                          "Grey: fixtures, at rest, the long ones cut off.",
                                          "Line style: on the centre line.",
                                          "Two dots and a dash: door or drawer, at rest."};
  for (size_t i = 0; i < notes.size(); ++i)
    sheet.add(small(shortened(notes[i], right - x - 2, 1.8), {x, top - 2.6 - static_cast<double>(i) * kRow_mm}));
}

void finish(std::vector<Page>& pages, const Plan& plan, const std::vector<RunStyle>& styles) {
  for (size_t i = 0; i < pages.size(); ++i) {
    Page& page = pages[i];
    TitleFields fields = title_fields(plan, page.has_views ? "all pipes" : "lists", "Arrangement");
    fields.sheet = static_cast<int>(i) + 1;
    fields.sheets = static_cast<int>(pages.size());
    fields.shows_projection = page.has_views;
    if (page.has_views) fields.scale = scale_text(page.scale);
    Framed framed = frame(kA3Lying, fields);
    page.sheet.title = "Arrangement, sheet " + std::to_string(i + 1);
    page.sheet.size = kA3Lying;
    page.sheet.unit = plan.unit;
    page.sheet.scale = page.scale;
    page.sheet.add(std::move(framed.entities));
    page.sheet.add(banner_of(plan).texts);
    if (page.has_views) add_legend(page.sheet, plan, styles, framed.border.right - framed.block_width_mm);
  }
}

}  // namespace

std::vector<Sheet> arrangement_sheets(const Plan& plan) {
  const Arrangement arrangement{&plan, run_styles(plan), callouts(plan)};
  const SheetBox area = drawing_area(plan);
  LayoutWishes wishes;
  wishes.see_through = moving_in(plan);
  const ViewLayout layout = lay_out_views(scene_of(plan), area, plan.title_block.third_angle, wishes);

  std::vector<Page> pages;
  const auto add_views = [&](const std::vector<PlacedView>& views, double scale, bool with_duties) {
    Page page;
    page.has_views = true;
    page.scale = scale;
    LabelPlacer placer;
    std::vector<ViewDuties> duties(views.size());
    if (with_duties)
      duties = share_duties(arrangement, views);
    else if (!duties.empty())
      duties.front().connections = true;
    for (size_t i = 0; i < views.size(); ++i) page.sheet.add(draw_view(arrangement, views[i], duties[i], placer));
    pages.push_back(std::move(page));
  };
  add_views(layout.views, layout.scale, true);
  if (!layout.apart.empty()) add_views(layout.apart, layout.apart.front().scale, false);

  TableBlock pipes = list_of_pipes(plan);
  pipes.note += std::string(" ") + caution_paragraph(cautions(plan));
  const std::vector<TableBlock> blocks = {pipes,
                                          list_of_clearances(plan, arrangement.callouts),
                                          list_of_connections(plan),
                                          list_of_holes(plan),
                                          list_of_clips(plan),
                                          list_of_site_checks(plan)};
  for (std::vector<Entity>& entities : flow_tables(blocks, area)) {
    Page page;
    page.sheet.add(std::move(entities));
    pages.push_back(std::move(page));
  }
  finish(pages, plan, arrangement.styles);

  std::vector<Sheet> sheets;
  for (Page& page : pages) sheets.push_back(std::move(page.sheet));
  return sheets;
}

}  // namespace halfhard
