#include "exporters/drilling/drilling.h"

#include <algorithm>
#include <cmath>

#include "exporters/drilling/joist_zones.h"
#include "exporters/layout/draw_view.h"
#include "exporters/layout/drilled_face.h"
#include "exporters/layout/label_placer.h"
#include "exporters/layout/view_layout.h"
#include "exporters/sheet/frame.h"
#include "exporters/sheet/text_metrics.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

constexpr double kLevel_mm = 7;       // between dimension lines
constexpr double kFirstLevel_mm = 9;  // from the face to the first
constexpr size_t kMostLevels = 10;    // more are in the table alone
constexpr double kSame_mm = 0.01;     // holes in one line are dimensioned once
constexpr double kText_mm = 2.5;
constexpr double kLowFace_mm = 110;  // of the sheet's height for a long low face

std::string hole_name(const DrilledHole& hole) { return "H" + std::to_string(hole.drilling + 1); }

// The different places of the holes along one axis, ascending; those at the zero left out.
std::vector<double> places(const DrilledFace& face, int axis) {
  std::vector<double> all;
  for (const DrilledHole& hole : face.holes)
    if (std::abs(hole.at[axis]) > kSame_mm) all.push_back(hole.at[axis]);
  std::sort(all.begin(), all.end(), [](double a, double b) { return std::abs(a) < std::abs(b); });
  std::vector<double> different;
  for (const double place : all)
    if (different.empty() || std::abs(place - different.back()) > kSame_mm) different.push_back(place);
  if (different.size() > kMostLevels) different.resize(kMostLevels);
  return different;
}

// A hole on the face at `at`, drawn at 1:scale: a circle, or an ellipse where it leans.
Entity hole_shape(const DrilledHole& hole, const Vec2& at, double scale, const Pen& pen) {
  const double radius = hole.diameter_mm / 2 / scale;
  if (hole.lean.norm() < 0.5) return circle(at, radius, pen);
  const double stretch = 1 / hole.tilt.cos();
  return EllipseArc{at, hole.lean * radius * stretch, 1 / stretch, 0, 360, pen};
}

class FaceSheet {
 public:
  FaceSheet(const Plan& plan, const DrilledFace& face, const std::string& name, int number, int count)
      : plan_(plan), face_(face), name_(name), number_(number), count_(count) {}

  Sheet made() && {
    sheet_.size = kA3Lying;
    sheet_.title = "Drilling: " + name_;
    sheet_.unit = plan_.unit;
    border_ = border_of(kA3Lying);
    top_ = border_.top - 3;
    add_warning();
    add_table();
    choose_scale();
    add_zones();
    add_face();
    add_dimensions();
    add_holes();
    add_title();
    add_frame();
    return std::move(sheet_);
  }

 private:
  void text(const std::string& content, const Vec2& at, double height, bool bold, bool red = false) {
    Text t;
    t.content = content;
    t.at = at;
    t.height_mm = height;
    t.bold = bold;
    if (red) t.colour = Colour{0.75, 0, 0};
    sheet_.add(t);
  }

  void lines(const std::string& content, double x, double& y, double width, bool bold = false) {
    Paragraph p = paragraph(content, {x, y}, width, kText_mm, bold);
    y -= p.height_mm + 2.5;
    sheet_.add(std::move(p.texts));
  }

  void add_warning() {
    const double x = border_.left + 4;
    text("FIND CABLES AND PIPES FIRST", {x, top_ - 7}, 5, true, true);
    top_ -= 10;
    lines(
        "Search both sides of the place with a detector, and look at what is fed above and below it. Switch off and "
        "isolate what may be near; prove it dead. Check the position of each hole on site against the pipe before "
        "drilling: a hole cannot be put back. Eye protection; mind what stands behind.",
        x, top_, border_.width() - 8);
    for (const DrilledHole& hole : face_.holes) {
      const std::string& name = plan_.drillings[static_cast<size_t>(hole.drilling)].run;
      const auto run =
          std::find_if(plan_.runs.begin(), plan_.runs.end(), [&](const auto& r) { return r->name == name; });
      const Finding* failure = run == plan_.runs.end() ? nullptr : plan_.failure_of(**run);
      if (!failure) continue;
      Paragraph words =
          paragraph("NOT TO BE MADE: " + failure->message, {x, top_ - 0.5}, border_.width() - 8, 3.5, true);
      for (Entity& entity : words.texts) std::get<Text>(entity).colour = Colour{0.75, 0, 0};
      top_ -= words.height_mm + 2.5;
      sheet_.add(std::move(words.texts));
      break;
    }
    sheet_.add(line_between({border_.left, top_}, {border_.right, top_}, pen_of(Layer::frame)));
    top_ -= 4;
  }

  std::string zero_words() const {
    const std::string seen = ", drilled from " + face_.seen_from;
    switch (face_.zero) {
      case FaceZero::edges:
        return "Centres are from the " + zero_of(face_) + seen + ".";
      case FaceZero::job_origin:
        return "This face has no edges: centres are from the job's origin" +
               (plan_.origin.empty() ? std::string() : " (" + plan_.origin + ")") + seen + ".";
      case FaceZero::hole:
        break;
    }
    const auto hole_at_zero = std::find_if(face_.holes.begin(), face_.holes.end(),
                                           [](const DrilledHole& hole) { return hole.at.norm() < kSame_mm; });
    const Vec3& at = plan_.drillings[static_cast<size_t>(hole_at_zero->drilling)].centre;
    return "This face has no edges and the job's origin is far off: centres are from hole " + hole_name(*hole_at_zero) +
           ", which stands " + shown_place(at, plan_.unit) + " of the job's origin" + seen + ".";
  }

  void add_table() {
    const std::string from = face_.zero == FaceZero::edges ? "from\n" : "";
    Table table;
    table.rows.push_back(
        {"hole", "pipe", from + measured_from(face_, 0), from + measured_from(face_, 1), "dia.", "note"});
    for (size_t i = 0; i < 6; ++i) table.columns.push_back({20, i < 2 || i == 5 ? AnchorX::left : AnchorX::right});
    for (const DrilledHole& hole : face_.holes) {
      const Drilling& drilling = plan_.drillings[static_cast<size_t>(hole.drilling)];
      table.rows.push_back({hole_name(hole), shortened(drilling.run, 30, kText_mm),
                            shown_length_bare(hole.at.x(), plan_.unit), shown_length_bare(hole.at.y(), plan_.unit),
                            shown_length_bare(hole.diameter_mm, plan_.unit), note_of(hole)});
    }
    table = fitted(table);
    while (top_ - height_mm(table) < border_.bottom + 70 && table.rows.size() > 4) {  // the rest is in the DXF
      table.rows.resize(table.rows.size() - 2);
      table.rows.push_back({"...", "", "", "", "", "more holes: see the DXF"});
      table = fitted(table);
    }
    place_words(table);
  }

  // The table and what is said beside the drawing: on its right, or below a long low face such as a joist's side.
  void place_words(Table table) {
    low_face_ = face_.size.x() > 5 * face_.size.y() && face_.zero == FaceZero::edges;
    const double column = std::max(width_mm(table), 92.0);
    table.top_left = low_face_ ? Vec2(border_.left + 4, top_ - kLowFace_mm) : Vec2(border_.right - 4 - column, top_);
    area_ = low_face_ ? SheetBox{{border_.left + 4, top_ - kLowFace_mm + 14}, {border_.right - 4, top_}}
                      : SheetBox{{border_.left + 4, border_.bottom + 40}, {table.top_left.x() - 6, top_}};
    double x = table.top_left.x(), y = table.top_left.y() - height_mm(table) - 4, width = column;
    if (low_face_) {
      x += width_mm(table) + 8;
      y = table.top_left.y();
      width = border_.right - 4 - x;
    }
    sheet_.add(table);
    lines((plan_.unit == LengthUnit::mm ? "In mm. " : "In inches. ") + zero_words(), x, y, width);
    lines("The diameter leaves room round the pipe (and its lagging) for a sleeve or for movement.", x, y, width);
    if (face_.fixture->joist && along_breadth()) {
      rules_ = joist_rules(face_.size.x(), face_.size.y(), plan_.unit, plan_.rules);
      for (const std::string& sentence : rules_.sentences) lines(sentence, x, y, width);
    } else if (face_.fixture->joist) {
      lines("This hole runs along the depth of the joist: the timber rules allow no such hole.", x, y, width, true);
    }
  }

  bool along_breadth() const { return std::abs(face_.view.look.dot(face_.fixture->joist->breadth_direction)) > 0.9; }

  std::string note_of(const DrilledHole& hole) const {
    if (hole.tilt > Angle::degrees(0.5)) return "leans " + shown_angle(hole.tilt);
    const double r = hole.diameter_mm / 2;
    if (face_.zero == FaceZero::edges &&
        (hole.at.x() < r || hole.at.y() < r || hole.at.x() > face_.size.x() - r || hole.at.y() > face_.size.y() - r))
      return "breaks the edge";
    return "";
  }

  // What is drawn in true mm: the face, or the holes of an endless one with what they are measured from.
  void choose_scale() {
    low_ = Vec2::Zero();
    high_ = face_.size;
    for (const DrilledHole& hole : face_.holes) {
      const Vec2 reach = Vec2::Constant(hole.diameter_mm);
      low_ = low_.cwiseMin(hole.at - reach);
      high_ = high_.cwiseMax(hole.at + reach);
    }
    across_ = places(face_, 0);
    up_ = places(face_, 1);
    const double levels_left = kFirstLevel_mm + kLevel_mm * static_cast<double>(up_.size()) + 3;
    const double levels_below = kFirstLevel_mm + kLevel_mm * static_cast<double>(across_.size()) + 3;
    const SheetBox room{area_.low + Vec2(levels_left, levels_below), area_.high - Vec2(8, 8)};
    const Vec2 size = (high_ - low_).cwiseMax(1);
    scale_ = standard_scale(size, room.size());
    sheet_.scale = scale_;
    shift_ = room.centre() - (low_ + high_) / 2 / scale_;
  }

  Vec2 put(const Vec2& true_mm) const { return true_mm / scale_ + shift_; }

  void add_zones() {
    for (const JoistZone& zone : rules_.zones) {
      const Vec2 a = put(zone.low), b = put(zone.high);
      const Pen pen{Layer::fixture, LineStyle::continuous, 0.18, Colour{0.45, 0.45, 0.45}};
      Area area;
      area.loops = {{a, {b.x(), a.y()}, b, {a.x(), b.y()}}};
      area.hatching = Hatching{zone.notch ? 135.0 : 45.0, 1.5};
      area.pen = pen;
      sheet_.add(area);
      sheet_.add(rectangle(a, b, pen));
      placer_.mark({a, {b.x(), a.y()}, b, {a.x(), b.y()}, a, b});
    }
  }

  void add_face() {
    for (const FlatShape& curve : face_.outline) {
      const FlatShape on_sheet = placed(curve, 1 / scale_, Angle(), shift_);
      sheet_.add(entity_of(on_sheet, pen_of(Layer::outline)));
      placer_.mark(flattened(on_sheet, 0.1));
    }
    if (face_.zero == FaceZero::job_origin) {
      const Vec2 at = put(Vec2::Zero());
      sheet_.add(circle(at, 1.5, pen_of(Layer::mark)));
      cross(at, 3);
      placer_.reserve({at - Vec2(3, 3), at + Vec2(3, 3)});
      name_at(at, "job's origin");
    }
  }

  void cross(const Vec2& at, double arm) {
    Pen pen = pen_of(Layer::centre);
    pen.width_mm = 0.18;
    pen.style = LineStyle::continuous;
    sheet_.add(line_between(at - Vec2(arm, 0), at + Vec2(arm, 0), pen));
    sheet_.add(line_between(at - Vec2(0, arm), at + Vec2(0, arm), pen));
    placer_.mark({at - Vec2(arm, 0), at + Vec2(arm, 0)});
    placer_.mark({at - Vec2(0, arm), at + Vec2(0, arm)});
  }

  // From the left and the lower edge, each from the edge and never in chains; the shortest nearest to the face.
  void add_dimensions() {
    for (const int axis : {0, 1}) {
      const std::vector<double>& all = axis == 0 ? across_ : up_;
      const int other = 1 - axis;
      for (size_t i = 0; i < all.size(); ++i) {
        Vec2 from = Vec2::Zero(), to = Vec2::Zero();
        from[other] = to[other] = low_[other];
        to[axis] = all[i];
        // The extension line starts at the hole of this place that is nearest to the dimension line.
        double nearest = 1e300;
        for (const DrilledHole& hole : face_.holes)
          if (std::abs(hole.at[axis] - all[i]) <= kSame_mm) nearest = std::min(nearest, hole.at[other]);
        to[other] = nearest;
        Dimension d;
        d.kind = DimensionKind::linear;
        d.direction_deg = axis == 0 ? 0 : 90;
        d.first = put(from);
        d.second = put(to);
        d.scale = scale_;
        Vec2 through = put(low_);
        through[other] -= kFirstLevel_mm + kLevel_mm * static_cast<double>(i);
        d.line_through = through;
        sheet_.add(with_text(d, plan_.unit));
        Vec2 end = d.second;
        end[other] = through[other];
        placer_.mark({d.second, end});
      }
    }
  }

  void add_holes() {
    for (const DrilledHole& hole : face_.holes) {
      const Vec2 at = put(hole.at);
      sheet_.add(hole_shape(hole, at, scale_, pen_of(Layer::mark)));
      const double radius = hole.diameter_mm / 2 / scale_;
      cross(at, radius + 1.5);
      placer_.reserve({at - Vec2::Constant(radius), at + Vec2::Constant(radius)});
    }
    for (const DrilledHole& hole : face_.holes) {
      const std::string words = hole_name(hole) + "  \u00f8" + shown_length_bare(hole.diameter_mm, plan_.unit);
      const double radius = hole.diameter_mm / 2 / scale_ + 0.05;
      label(words, put(hole.at), radius);
    }
    name_support();
  }

  void name_at(const Vec2& at, const std::string& words) { label(words, at, 3.1); }

  // A joist's two ends look alike: the one that the figures start from is named.
  void name_support() {
    if (face_.fixture->joist && face_.zero == FaceZero::edges)
      label(measured_from(face_, 0), put({0, face_.size.y()}), 0.05);
  }

  void label(const std::string& words, const Vec2& centre, double radius) {
    std::vector<Vec2> anchors;
    for (const double degrees : {45.0, 135.0, 315.0, 225.0}) {
      const Angle angle = Angle::degrees(degrees);
      anchors.push_back(centre + radius * 1.45 * Vec2(angle.cos(), angle.sin()));
    }
    const Vec2 size(text_width_mm(words, kText_mm) + 1, kText_mm + 1.6);
    const auto place = placer_.with_leader(anchors, size, area_);
    if (!place) return;
    Text t;
    t.content = words;
    t.at = place->box.centre();
    t.height_mm = kText_mm;
    t.anchor_x = AnchorX::centre;
    t.anchor_y = AnchorY::middle;
    t.clears_ground = place->on_lines;
    sheet_.add(t);
    const Vec2 back = place->anchor - t.at;
    const double reach = std::max({std::abs(back.x()) / (size.x() / 2), std::abs(back.y()) / (size.y() / 2), 1.0});
    sheet_.add(line_between(place->anchor, Vec2(t.at + back / reach),
                            {Layer::text, LineStyle::continuous, 0.18, std::nullopt}));
  }

  // Below the face, in as many lines as a long name asks for.
  void add_title() {
    const std::string words = name_ + ", drilled and seen from " + face_.seen_from + "  " + scale_text(scale_);
    const Vec2 top_left(area_.low.x(), area_.low.y() - 3.5);
    sheet_.add(paragraph(words, top_left, area_.size().x() - 4, 3.5, true).texts);
  }

  void add_frame() {
    TitleFields fields = title_fields(plan_, "holes: " + name_, "Drilling sheet");
    fields.scale = scale_text(scale_);
    fields.sheet = number_;
    fields.sheets = count_;
    fields.shows_projection = false;
    sheet_.add(frame(kA3Lying, fields).entities);
  }

  const Plan& plan_;
  const DrilledFace& face_;
  std::string name_;
  int number_, count_;
  Sheet sheet_;
  Border border_;
  LabelPlacer placer_;
  JoistRules rules_;
  std::vector<double> across_, up_;
  SheetBox area_;
  Vec2 low_ = Vec2::Zero(), high_ = Vec2::Zero(), shift_ = Vec2::Zero();
  double top_ = 0, scale_ = 1;
  bool low_face_ = false;
};

Sheet true_size_sheet(const Plan& plan, const DrilledFace& face, const std::string& name) {
  Sheet sheet;
  sheet.title = name + ", 1:1";
  sheet.unit = plan.unit;
  sheet.scale = 1;
  Vec2 high = face.size;
  for (const FlatShape& curve : face.outline) sheet.add(entity_of(curve, pen_of(Layer::outline)));
  for (const DrilledHole& hole : face.holes) {
    sheet.add(hole_shape(hole, hole.at, 1, pen_of(Layer::mark)));
    const double arm = hole.diameter_mm / 2 + 3;
    sheet.add(line_between(hole.at - Vec2(arm, 0), hole.at + Vec2(arm, 0), pen_of(Layer::centre)));
    sheet.add(line_between(hole.at - Vec2(0, arm), hole.at + Vec2(0, arm), pen_of(Layer::centre)));
    Text text;
    text.content = hole_name(hole);
    text.height_mm = 5;
    text.at = hole.at + Vec2(arm, 2);
    sheet.add(text);
    high = high.cwiseMax(hole.at + Vec2(arm + 20, arm + 10));
  }
  sheet.size = {"1:1", high.x(), high.y()};
  return sheet;
}

}  // namespace

std::vector<DrillingPaper> drilling_papers(const Plan& plan) {
  const std::vector<DrilledFace> faces = drilled_faces(plan);
  std::vector<DrillingPaper> papers;
  for (size_t i = 0; i < faces.size(); ++i) {
    const DrilledFace& face = faces[i];
    std::string name = face.fixture->name;
    const auto alike = std::count_if(faces.begin(), faces.end(),
                                     [&](const DrilledFace& other) { return other.fixture == face.fixture; });
    if (alike > 1) name += ", " + (face.seen_from.empty() ? "face " + std::to_string(i + 1) : face.seen_from);
    papers.push_back({name, FaceSheet(plan, face, name, static_cast<int>(i) + 1, static_cast<int>(faces.size())).made(),
                      true_size_sheet(plan, face, name)});
  }
  return papers;
}

}  // namespace halfhard
