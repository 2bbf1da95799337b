#include "exporters/fabrication/fabrication_sheet.h"

#include <algorithm>
#include <optional>

#include "exporters/bench/bend_rows.h"
#include "exporters/bench/not_to_be_made.h"
#include "exporters/fabrication/point_labels.h"
#include "exporters/fabrication/sheet_texts.h"
#include "exporters/fabrication/view_dimensions.h"
#include "exporters/layout/draw_view.h"
#include "exporters/sheet/frame.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

constexpr double kPad_mm = 4;

void draw_view(Sheet& sheet, const Plan& plan, const Run& run, const PlacedView& view, ViewDimensions& wanted) {
  DimensionPlacer placer(view.cell.low, view.cell.high);
  for (const ViewCurve& curve : view.projection.curves) {
    if (curve.kind == CurveKind::fold) continue;
    const Pen pen = pen_of(curve.kind == CurveKind::centre_line ? Layer::centre
                           : curve.visible                      ? Layer::outline
                                                                : Layer::hidden);
    const Entity entity = entity_of(view.on_sheet(curve.shape), pen);
    placer.mark(entity);
    sheet.add(entity);
  }
  // Its title across the foot of its cell, in as many lines as a narrow cell asks for.
  const std::string words = view.title + "  " + scale_text(view.scale);
  const double room = view.cell.size().x() - 2;
  const std::vector<std::string> lines = wrapped(words, room, 2.5, true);
  for (std::size_t k = 0; k < lines.size(); ++k) {
    Text title;
    title.content = lines[k];
    title.height_mm = 2.5;
    title.bold = true;
    title.anchor_x = AnchorX::centre;
    title.at = {view.cell.centre().x(), view.cell.low.y() + 1.5 + 4 * static_cast<double>(lines.size() - 1 - k)};
    placer.mark(title);
    sheet.add(title);
  }
  // Chains and legs first: their lines cross the view and cannot stand aside as a ring can.
  if (!view.isometric) sheet.add(length_dimensions(plan, run, view, wanted, placer));
  sheet.add(bend_rings(run, view, placer));
  if (!view.isometric) sheet.add(bend_dimensions(plan, run, view, wanted, placer));
  if (view.isometric || wanted.across) sheet.add(end_labels(run, view, plan.unit, placer));
}

Scene scene_of_run(const Run& run) {
  Scene scene;
  scene.tubes.push_back({0, run.line, run.tube->outside_radius_mm()});
  return scene;
}

constexpr double kIsometricPad_mm = 12;

// How much smaller than the views an isometric may be and still tell something: a few bends are told apart in a small one.
double most_smaller(const Run& run) { return run.line.bend_count() <= 4 ? 4 : 2.5; }

struct DrawnViews {
  double scale = 1;
  std::optional<double> isometric;  // its scale, where it found room beside the others
};
// `pad_mm`: round each view, for a chain, what is overall, and what stands beyond.
DrawnViews draw_views(Sheet& sheet, const Plan& plan, const Run& run, const SheetBox& area, double pad_mm) {
  const LayoutWishes wishes{pad_mm, kIsometricPad_mm, most_smaller(run), {}};
  const ViewLayout layout = lay_out_views(scene_of_run(run), area, plan.title_block.third_angle, wishes);
  sheet.scale = layout.scale;
  DrawnViews drawn{layout.scale, std::nullopt};
  bool radius = true;
  for (std::size_t i = 0; i < layout.views.size(); ++i) {
    // The front view carries right and up, the plan carries back; so every shift is told once.
    ViewDimensions wanted{i == 0, i <= 1, radius};
    draw_view(sheet, plan, run, layout.views[i], wanted);
    radius = wanted.radius;
    if (layout.views[i].isometric) drawn.isometric = layout.views[i].scale;
  }
  return drawn;
}

Sheet empty_sheet(const Plan& plan, const Run& run, const SheetSize& size) {
  Sheet sheet;
  sheet.size = size;
  sheet.title = run.name + ", fabrication";
  sheet.unit = plan.unit;
  return sheet;
}

// One way to lay the sheets out, and how well the pipe is seen on them.
struct Composition {
  std::vector<Sheet> sheets;
  DrawnViews views;
  bool too_narrow = false;  // a table is wider than its column
  bool better_than(const Composition& other) const {
    if (views.scale != other.views.scale) return views.scale < other.views.scale;
    const double iso = views.isometric.value_or(1e9), other_iso = other.views.isometric.value_or(1e9);
    return iso != other_iso ? iso < other_iso : sheets.size() < other.sheets.size();
  }
};

class Composer {
 public:
  Composer(const Plan& plan, const Run& run, const SheetSize& paper)
      : plan_(plan), run_(run), paper_(paper), fields_(title_fields(plan, run.name, "Fabrication sheet")) {
    const Framed framed = frame(paper, fields_);
    border_ = framed.border;
    block_ = {framed.block_width_mm, framed.block_height_mm};
    for (const Finding* failure : failures_of(plan, run)) failure_ += (failure_.empty() ? "" : " ") + failure->message;
  }

  // Views above, texts below in one column over the whole width; nothing where the pipe needs more than one sheet.
  std::optional<Composition> on_one_sheet() const {
    const double foot = border_.bottom + block_.y() + kPad_mm;
    const auto boxes = [&](double height) {
      return std::vector<SheetBox>{{{border_.left + 3, foot}, {border_.right - 3, foot + height}}};
    };
    const auto made = stacked(boxes);
    if (!made || made->too_narrow || made->sheets.size() > 1 || made->views.scale > kSmallestOnA4) return std::nullopt;
    return made;
  }
  // Views above over the whole width, texts below in two columns, left of the title block and above it.
  std::optional<Composition> in_two_columns() const {
    return stacked([&](double height) {
      const double split = border_.right - block_.x() - kPad_mm;
      const double top = border_.bottom + block_.y() + height;
      return std::vector<SheetBox>{
          {{border_.left + 3, border_.bottom + 3}, {split, top}},
          {{split + kPad_mm + 2, border_.bottom + block_.y() + kPad_mm}, {border_.right - 3, top}}};
    });
  }
  // Views at the left, texts in a column of this width at the right.
  Composition beside(double width) const {
    const double left = border_.right - width - 2;
    const bool beside_block = width >= block_.x() - kPad_mm;
    const double block = border_.bottom + block_.y();
    const SheetBox views{{border_.left + 2, (beside_block ? border_.bottom : block) + 2}, {left - 4, border_.top - 2}};
    return composed(views, {{{left, block + kPad_mm}, {border_.right - 2, border_.top - kPad_mm}}});
  }

 private:
  // A4 serves a pipe whose texts leave its views this much of it, at this scale or larger.
  static constexpr double kLeastForViews_mm = 90;
  static constexpr double kSmallestOnA4 = 5;
  static constexpr double kPadOfViews_mm = 18, kNarrowPad_mm = 13;  // on A3, on A4
  // Less room below the texts than this, and an isometric has a sheet of its own.
  static constexpr double kIsometricRoom_mm = 60;

  // On further sheets the texts have all of the paper.
  std::vector<SheetBox> later_boxes() const {
    const double above_block = border_.bottom + block_.y() + kPad_mm, top = border_.top - kPad_mm;
    const double split = border_.right - block_.x() - kPad_mm;
    if (split < border_.left + 60) return {{{border_.left + 3, above_block}, {border_.right - 3, top}}};
    return {{{border_.left + 3, border_.bottom + 3}, {split, top}},
            {{split + kPad_mm + 2, above_block}, {border_.right - 3, top}}};
  }

  // With the texts as low as they go. `boxes`: for a height of the texts.
  template <typename Boxes>
  std::optional<Composition> stacked(const Boxes& boxes) const {
    const double most = border_.height() - block_.y() - kLeastForViews_mm;
    const auto fits = [&](double height) {
      std::vector<Sheet> trial = {empty_sheet(plan_, run_, paper_)};
      TextColumns columns(boxes(height), later_boxes(), trial, trial[0], failure_);
      write_sheet_texts(columns, plan_, run_);
      return trial.size() == 1;
    };
    if (!fits(most)) return std::nullopt;
    double low = 0, high = most;
    while (high - low > 2) {
      const double middle = (low + high) / 2;
      (fits(middle) ? high : low) = middle;
    }
    const std::vector<SheetBox> texts = boxes(high);
    const double foot = texts.front().high.y() + kPad_mm;
    return composed({{border_.left + 2, foot + 2}, {border_.right - 2, border_.top - 2}}, texts);
  }

  Composition composed(const SheetBox& views, const std::vector<SheetBox>& texts) const {
    const Sheet empty = empty_sheet(plan_, run_, paper_);
    Composition made;
    made.sheets = {empty};
    made.views = draw_views(made.sheets[0], plan_, run_, views, paper_.width_mm < 250 ? kNarrowPad_mm : kPadOfViews_mm);
    TextColumns columns(texts, later_boxes(), made.sheets, empty, failure_);
    write_sheet_texts(columns, plan_, run_);
    made.too_narrow = columns.too_narrow();
    if (!made.views.isometric) add_isometric(made, columns);
    frame_all(made.sheets);
    return made;
  }

  // Where it found no room beside the other views: below the texts, else on a sheet of its own.
  void add_isometric(Composition& made, TextColumns& columns) const {
    const Scene scene = scene_of_run(run_);
    const auto fits = [&] {
      const SheetBox room = columns.room();
      return room.size().y() >= kIsometricRoom_mm && room.size().x() >= kIsometricRoom_mm &&
             isometric_in(scene, room, {15, kIsometricPad_mm, 1, {}}).scale <=
                 most_smaller(run_) * made.sheets[0].scale;
    };
    const bool own_sheet = !fits();
    if (own_sheet) columns.start_sheet();
    SheetBox room = columns.room();
    if (own_sheet && later_boxes().size() > 1) room.high.x() = border_.right - 3;
    if (own_sheet) room.low.y() = border_.bottom + block_.y() + kPad_mm;
    const PlacedView isometric = isometric_in(scene, room, {15, kIsometricPad_mm, 1, {}});
    ViewDimensions none;
    draw_view(made.sheets.back(), plan_, run_, isometric, none);
    if (!own_sheet) made.views.isometric = isometric.scale;
  }

  void frame_all(std::vector<Sheet>& sheets) const {
    TitleFields fields = fields_;
    fields.sheets = static_cast<int>(sheets.size());
    const std::string scale = scale_text(sheets[0].scale);
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      fields.sheet = static_cast<int>(i) + 1;
      fields.scale = i == 0 ? scale : "";
      fields.shows_projection = i == 0;
      sheets[i].add(frame(sheets[i].size, fields).entities);
    }
  }

  const Plan& plan_;
  const Run& run_;
  SheetSize paper_;
  TitleFields fields_;
  std::string failure_;
  Border border_;
  Vec2 block_ = Vec2::Zero();  // size of the title block
};

}  // namespace

std::vector<Sheet> fabrication_sheets(const Plan& plan, const Run& run) {
  if (auto made = Composer(plan, run, kA4Upright).on_one_sheet()) return std::move(made->sheets);
  constexpr double kWide_mm = 176, kNarrow_mm = 134;  // columns: as wide as the title block; as narrow as a bend table
  const Composer a3(plan, run, kA3Lying);
  Composition best = a3.beside(kWide_mm);
  const Composition narrow = a3.beside(kNarrow_mm);
  if (!narrow.too_narrow && narrow.better_than(best)) best = narrow;
  if (const auto stacked = a3.in_two_columns(); stacked && stacked->better_than(best)) best = *stacked;
  return std::move(best.sheets);
}

Sheet development_sheet(const Plan& plan, const Run& run) {
  constexpr double kMargin = 40;
  Sheet sheet;
  sheet.size = {"own", run.blank_length_mm + 2 * kMargin, 160};
  sheet.title = run.name + ", blank laid straight";
  sheet.unit = plan.unit;
  const double y = 60, r = run.tube->outside_radius_mm();
  const Vec2 start(kMargin, y);
  sheet.add(rectangle(start - Vec2(0, r), start + Vec2(run.blank_length_mm, r), pen_of(Layer::outline)));
  sheet.add(line_between(start - Vec2(5, 0), start + Vec2(run.blank_length_mm + 5, 0), pen_of(Layer::centre)));
  const std::string failure = not_to_be_made(plan, run);
  const std::string heading = run.name + ": blank laid straight, full size; the start end is on the left";
  sheet.add(
      paragraph(failure.empty() ? heading : failure, {kMargin, 152}, std::max(150.0, run.blank_length_mm), 3.5, true)
          .texts);
  Dimension length;
  length.first = start - Vec2(0, r);
  length.second = length.first + Vec2(run.blank_length_mm, 0);
  length.line_through = start - Vec2(0, r + 12);
  sheet.add(with_text(length, plan.unit));
  for (const Bend& bend : run.bends) {
    for (const double at : {bend.start_of_bend_mm, bend.end_of_bend_mm})
      sheet.add(line_between(start + Vec2(at, -r), start + Vec2(at, r), pen_of(Layer::hidden)));
    if (!failure.empty()) continue;  // no marks on what is not to be made
    const Vec2 mark = start + Vec2(bend.mark_mm, 0);
    sheet.add(line_between(mark - Vec2(0, r), mark + Vec2(0, r + 4), pen_of(Layer::mark)));
    Text text;
    text.content =
        std::to_string(bend.number) + ": " + shown_length_bare(bend.mark_mm, plan.unit) + " from the start end";
    text.at = mark + Vec2(0, r + 6);
    text.rotation_deg = 90;
    text.anchor_y = AnchorY::middle;
    text.layer = Layer::mark;
    sheet.add(text);
  }
  return sheet;
}

}  // namespace halfhard
