#include "exporters/layout/draw_view.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "exporters/sheet/text_metrics.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

constexpr double kText_mm = 2.5;
constexpr double kShortest_mm = 0.03;  // on paper; shorter curves are specks
constexpr double kSame_mm = 0.3;       // on paper: pipes nearer than this are right behind one another
const Colour kFixtureGrey{0.45, 0.45, 0.45};

Pen fixture_pen() { return {Layer::fixture, LineStyle::continuous, 0.18, kFixtureGrey}; }
Pen hidden_fixture_pen() { return {Layer::fixture, LineStyle::dashed, 0.18, kFixtureGrey}; }
Pen mark_pen() { return {Layer::mark, LineStyle::continuous, 0.35, std::nullopt}; }
Pen leader_pen() { return {Layer::text, LineStyle::continuous, 0.18, std::nullopt}; }

class Drawing {
 public:
  Drawing(const Arrangement& arrangement, const PlacedView& view, const ViewDuties& duties, LabelPlacer& placer)
      : all_(arrangement), plan_(*arrangement.plan), view_(view), duties_(duties), placer_(placer) {}

  std::vector<Entity> made() && {
    place_curves();
    place_clips();
    place_holes();
    place_title();
    label_callouts();
    label_holes();
    label_pipes();
    if (duties_.connections) label_connections();
    label_fixtures();
    return std::move(out_);
  }

 private:
  // Of what is wholly hidden in a view its hidden edges, and those of every joist: a plan of a floor without them
  // would tell nothing. Else they would be a thicket.
  bool shown_hidden(const ViewCurve& curve) const {
    if (view_.isometric || curve.kind != CurveKind::outline) return false;
    const Fixture& fixture = *plan_.fixtures[static_cast<size_t>(curve.object - kFirstFixtureObject)];
    return fixture.joist || std::none_of(view_.projection.curves.begin(), view_.projection.curves.end(),
                                         [&](const ViewCurve& c) { return c.object == curve.object && c.visible; });
  }

  Pen pen_of_fixture(int object) const {
    Pen pen = fixture_pen();
    const Fixture& fixture = *plan_.fixtures[static_cast<size_t>(object - kFirstFixtureObject)];
    if (!std::holds_alternative<std::monostate>(fixture.body.motion)) pen.style = LineStyle::double_chain;
    return pen;
  }

  void place_curves() {
    for (const ViewCurve& curve : view_.projection.curves) {
      const FlatShape shape = view_.on_sheet(curve.shape);
      if (length_mm(shape) < kShortest_mm) continue;
      if (curve.object >= kFirstFixtureObject) {
        const bool behind = !curve.visible && shown_hidden(curve);
        if (!curve.visible && !behind) continue;
        out_.push_back(entity_of(shape, behind ? hidden_fixture_pen() : pen_of_fixture(curve.object)));
        if (behind) seen_[curve.object].push_back(shape);
      } else if (!place_run_curve(curve, shape)) {
        continue;
      }
      placer_.mark(flattened(shape, 0.1));
      if (curve.visible && curve.kind == CurveKind::outline) seen_[curve.object].push_back(shape);
    }
  }

  bool place_run_curve(const ViewCurve& curve, const FlatShape& shape) {
    const RunStyle& style = all_.styles[style_of(all_.styles, curve.object)];
    if (curve.kind == CurveKind::centre_line) {
      out_.push_back(entity_of(shape, run_centre_pen(style)));
    } else if (curve.visible) {
      out_.push_back(entity_of(shape, run_outline_pen(style)));
    } else {
      // Drawn small, two dashed lines a pipe would be a thicket; the centre line shows where it goes on.
      const double across =
          2 * plan_.runs[static_cast<size_t>(curve.object)]->tube->outside_radius_mm() * view_.per_mm();
      if (view_.isometric || across < 2.5 || curve.kind == CurveKind::fold) return false;
      Pen pen = pen_of(Layer::hidden);
      pen.width_mm = 0.18;
      pen.colour = style.colour;
      out_.push_back(entity_of(shape, pen));
    }
    return true;
  }

  void mark_line(const Vec2& from, const Vec2& to, const Pen& pen) {
    out_.push_back(line_between(from, to, pen));
    placer_.mark({from, to});
  }

  void place_clips() {
    for (const Clip& clip : plan_.clips) {
      const auto run =
          std::find_if(plan_.runs.begin(), plan_.runs.end(), [&](const auto& r) { return r->name == clip.run; });
      if (run == plan_.runs.end()) continue;
      const Vec2 at = view_.on_sheet(clip.at), way = view_.view.flat(clip.direction);
      const double half = (*run)->tube->outside_radius_mm() * view_.per_mm() + 1.2;
      if (way.norm() < 0.2) {
        const Vec2 corner(half, half);
        out_.push_back(rectangle(at - corner, at + corner, mark_pen()));
        placer_.reserve({at - corner, at + corner});
        continue;
      }
      const Vec2 across = Vec2(-way.y(), way.x()).normalized() * half, foot = way.normalized() * 0.7;
      mark_line(at - across, at + across, mark_pen());
      mark_line(at - across - foot, at - across + foot, mark_pen());
      mark_line(at + across - foot, at + across + foot, mark_pen());
    }
  }

  void place_holes() {
    Pen cross = mark_pen();
    cross.width_mm = 0.18;
    for (const Drilling& hole : plan_.drillings) {
      const Vec2 at = view_.on_sheet(hole.centre), way = view_.view.flat(hole.direction);
      const double radius = hole.diameter_mm / 2 * view_.per_mm();
      if (way.norm() < 0.3) {
        out_.push_back(circle(at, radius, mark_pen()));
        const double arm = radius + 1.5;
        mark_line(at - Vec2(arm, 0), at + Vec2(arm, 0), cross);
        mark_line(at - Vec2(0, arm), at + Vec2(0, arm), cross);
      } else {
        // The wall of the hole, both sides of the pipe.
        const Vec2 end = view_.on_sheet(Vec3(hole.centre + hole.depth_mm * hole.direction));
        const Vec2 side = Vec2(-way.y(), way.x()).normalized() * radius;
        if ((end - at).norm() < 0.3) continue;
        mark_line(at + side, end + side, cross);
        mark_line(at - side, end - side, cross);
      }
    }
  }

  void place_title() {
    Text text;
    text.content = view_.title + "  " + scale_text(view_.scale);
    text.height_mm = 3.5;
    text.anchor_x = AnchorX::centre;
    const SheetBox box = view_.box();
    const double half = text_width_mm(text.content, text.height_mm) / 2 + 1;
    const double x = std::clamp(box.centre().x(), view_.cell.low.x() + half,
                                std::max(view_.cell.low.x() + half, view_.cell.high.x() - half));
    text.at = {x, std::max(view_.cell.low.y() + 2.5, box.low.y() - 15)};
    placer_.reserve({text.at - Vec2(half, 1.5), text.at + Vec2(half, 4.5)});
    out_.push_back(text);
  }

  void dot(const Vec2& at) {
    std::vector<Vec2> ring;
    for (int i = 0; i < 8; ++i)
      ring.push_back(at + 0.5 * Vec2(std::cos(i * std::numbers::pi / 4), std::sin(i * std::numbers::pi / 4)));
    out_.push_back(Area{{ring}, std::nullopt, leader_pen()});
  }

  void put_text(const std::string& content, const SheetBox& box, bool on_lines, bool bold = false) {
    Text text;
    text.content = content;
    text.at = box.centre();
    text.height_mm = kText_mm;
    text.anchor_x = AnchorX::centre;
    text.anchor_y = AnchorY::middle;
    text.bold = bold;
    text.clears_ground = on_lines;
    out_.push_back(text);
  }

  // A label with a leader; false where there is no room for it.
  bool label(const std::string& content, const std::vector<Vec2>& anchors, bool ringed, bool bold = false,
             double reach_mm = 45) {
    const double width = text_width_mm(content, kText_mm, bold);
    const double side = ringed ? std::max(width + 2.4, 5.4) : 0;
    const Vec2 size = ringed ? Vec2(side, 5.4) : Vec2(width + 1, kText_mm + 1.6);
    const auto place = placer_.with_leader(anchors, size, view_.cell.grown(-0.5), reach_mm);
    if (!place) return false;
    const Vec2 centre = place->box.centre();
    if (ringed) ring(place->box);
    put_text(content, place->box, place->on_lines, bold);
    // To the near edge of the box, straight towards its middle.
    const Vec2 back = place->anchor - centre;
    const double reach = std::max(std::abs(back.x()) / (size.x() / 2), std::abs(back.y()) / (size.y() / 2));
    const bool round = ringed && side <= 5.4;
    const Vec2 edge = round ? Vec2(centre + back.normalized() * 2.7) : Vec2(centre + back / std::max(reach, 1.0));
    out_.push_back(line_between(place->anchor, edge, leader_pen()));
    dot(place->anchor);
    return true;
  }

  void ring(const SheetBox& box) {
    Pen pen = leader_pen();
    pen.width_mm = 0.25;
    if (box.size().x() <= 5.4 + 1e-9) {
      out_.push_back(circle(box.centre(), 2.7, pen));
      return;
    }
    const Vec2 left(box.low.x() + 2.7, box.centre().y()), right(box.high.x() - 2.7, box.centre().y());
    out_.push_back(ArcCurve{left, 2.7, 90, 180, pen});
    out_.push_back(ArcCurve{right, 2.7, 270, 180, pen});
    out_.push_back(line_between(left + Vec2(0, 2.7), right + Vec2(0, 2.7), pen));
    out_.push_back(line_between(left - Vec2(0, 2.7), right - Vec2(0, 2.7), pen));
  }

  void label_callouts() {
    for (const Callout* callout : duties_.callouts) {
      const Clearance& c = *callout->clearance;
      const Vec2 a = view_.on_sheet(c.at_first), b = view_.on_sheet(c.at_second);
      Pen pen = mark_pen();
      if ((a - b).norm() > 0.2) mark_line(a, b, pen);
      label(callout->letter + ": " + shown_clearance_bare(c.distance_mm, plan_.unit), {(a + b) / 2}, false, true);
    }
  }

  // Holes one behind another are named together.
  void label_holes() {
    std::vector<std::vector<int>> groups;
    for (const size_t i : duties_.holes) {
      const Vec2 at = view_.on_sheet(plan_.drillings[i].centre);
      const auto same = std::find_if(groups.begin(), groups.end(), [&](const std::vector<int>& group) {
        return (view_.on_sheet(plan_.drillings[static_cast<size_t>(group.front())].centre) - at).norm() < kSame_mm;
      });
      if (same != groups.end())
        same->push_back(static_cast<int>(i));
      else
        groups.push_back({static_cast<int>(i)});
    }
    for (const std::vector<int>& group : groups) {
      const Drilling& hole = plan_.drillings[static_cast<size_t>(group.front())];
      const double r = hole.diameter_mm / 2 * view_.per_mm();
      const Vec2 at = view_.on_sheet(hole.centre);
      std::vector<Vec2> anchors;
      for (const double degrees : {45.0, 135.0, 225.0, 315.0}) {
        const Angle angle = Angle::degrees(degrees);
        anchors.push_back(at + r * Vec2(angle.cos(), angle.sin()));
      }
      std::string words;
      for (const int i : group) words += (words.empty() ? "H" : ", H") + std::to_string(i + 1);
      for (const double reach : {45.0, 150.0})
        if (label(words, anchors, false, false, reach)) break;
    }
  }

  // Points on what is seen of these objects, the longest curves first.
  std::vector<Vec2> anchors_on(const std::vector<int>& objects) const {
    std::vector<FlatShape> shapes;
    for (const int object : objects)
      if (const auto found = seen_.find(object); found != seen_.end())
        shapes.insert(shapes.end(), found->second.begin(), found->second.end());
    std::stable_sort(shapes.begin(), shapes.end(),
                     [](const FlatShape& a, const FlatShape& b) { return length_mm(a) > length_mm(b); });
    std::vector<Vec2> anchors;
    for (size_t i = 0; i < std::min<size_t>(6, shapes.size()); ++i) {
      const std::vector<Vec2> points = flattened(shapes[i], 0.1);
      if (points.size() == 2) {
        for (const double t : {0.5, 0.3, 0.7}) anchors.push_back(points[0] + t * (points[1] - points[0]));
      } else {
        anchors.push_back(points[points.size() / 2]);
      }
    }
    return anchors;
  }

  bool right_behind(int a, int b) const {
    const auto& p = view_.projection.tubes[static_cast<size_t>(a)].points;
    const auto& q = view_.projection.tubes[static_cast<size_t>(b)].points;
    if (p.size() != q.size()) return false;
    for (size_t i = 0; i < p.size(); ++i)
      if ((p[i] - q[i]).norm() * view_.per_mm() > kSame_mm) return false;
    return true;
  }

  void label_pipes() {
    std::vector<std::vector<int>> groups;
    for (int run = 0; run < static_cast<int>(plan_.runs.size()); ++run) {
      const auto same = std::find_if(groups.begin(), groups.end(),
                                     [&](const std::vector<int>& group) { return right_behind(group.front(), run); });
      if (same != groups.end())
        same->push_back(run);
      else
        groups.push_back({run});
    }
    for (const std::vector<int>& group : groups) {
      const std::vector<Vec2> anchors = anchors_on(group);
      if (!anchors.empty()) label(numbers_text(group), anchors, true, true);
    }
  }

  void label_connections() {
    for (const RunStyle& style : all_.styles) {
      const Run& run = *plan_.runs[static_cast<size_t>(style.runs.front())];
      if (!run.from.name.empty()) label(shortened(run.from.name, 40, kText_mm), {view_.on_sheet(run.from.at)}, false);
      if (run.to && !run.to->name.empty())
        label(shortened(run.to->name, 40, kText_mm), {view_.on_sheet(run.to->at)}, false);
    }
  }

  // The box around what is seen of a fixture.
  SheetBox box_of_object(int object) const {
    SheetBox box{Vec2::Constant(1e300), Vec2::Constant(-1e300)};
    if (const auto found = seen_.find(object); found != seen_.end()) {
      for (const FlatShape& shape : found->second) {
        const auto [low, high] = box_around(shape);
        box.low = box.low.cwiseMin(low);
        box.high = box.high.cwiseMax(high);
      }
    }
    return box;
  }

  void label_fixtures() {
    for (size_t i = 0; i < plan_.fixtures.size(); ++i) {
      const int object = kFirstFixtureObject + static_cast<int>(i);
      if (!seen_.count(object)) continue;
      const std::string name = shortened(plan_.fixtures[i]->name, 45, kText_mm);
      const Vec2 size(text_width_mm(name, kText_mm) + 1, kText_mm + 1.6);
      const SheetBox own = box_of_object(object);
      // Not in a smaller one that stands before or within it: the name would be taken for that one's.
      std::vector<SheetBox> smaller;
      for (size_t j = 0; j < plan_.fixtures.size(); ++j) {
        const SheetBox other = box_of_object(kFirstFixtureObject + static_cast<int>(j));
        if (j != i && other.low.x() <= other.high.x() && other.size().prod() < own.size().prod())
          smaller.push_back(other);
      }
      // Seen askew, a fixture does not fill the box around it.
      const auto box = view_.isometric ? std::nullopt : placer_.within(own.grown(-0.5), size, smaller);
      if (box)
        put_text(name, *box, false);
      else
        label(name, anchors_on({object}), false);
    }
  }

  const Arrangement& all_;
  const Plan& plan_;
  const PlacedView& view_;
  const ViewDuties& duties_;
  LabelPlacer& placer_;
  std::vector<Entity> out_;
  std::map<int, std::vector<FlatShape>> seen_;  // visible outlines by object, on the sheet
};

}  // namespace

std::vector<Entity> draw_view(const Arrangement& arrangement, const PlacedView& view, const ViewDuties& duties,
                              LabelPlacer& placer) {
  return Drawing(arrangement, view, duties, placer).made();
}

Pen run_outline_pen(const RunStyle& style) { return {Layer::outline, LineStyle::continuous, 0.35, style.colour}; }
Pen run_centre_pen(const RunStyle& style) { return {Layer::centre, style.style, 0.25, style.colour}; }

Entity entity_of(const FlatShape& shape, const Pen& pen) {
  if (const auto* line = std::get_if<FlatLine>(&shape)) return Polyline{{line->from, line->to}, false, pen};
  if (const auto* arc = std::get_if<FlatArc>(&shape))
    return ArcCurve{arc->centre, arc->radius_mm, arc->start.degrees(), std::min(360.0, arc->sweep.degrees()), pen};
  if (const auto* arc = std::get_if<FlatEllipseArc>(&shape))
    return EllipseArc{
        arc->centre, arc->major, arc->minor_ratio, arc->start.degrees(), std::min(360.0, arc->sweep.degrees()), pen};
  return Polyline{std::get<FlatPolyline>(shape).points, false, pen};
}

}  // namespace halfhard
