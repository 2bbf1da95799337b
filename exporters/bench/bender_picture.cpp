#include "exporters/bench/bender_picture.h"

#include <algorithm>
#include <cmath>

#include "exporters/bench/labels.h"
#include "exporters/bench/shortened_piece.h"
#include "geometry/bending/clock.h"
#include "geometry/views/view.h"

namespace halfhard {
namespace {

constexpr int kTube = 1, kBender = 2, kMark = 3;

// What is kept of a long straight: enough to show which way it points, and the lever beside it.
ShortenedPiece shortened(const BenderPicture& picture) {
  return ShortenedPiece(picture.piece, 2.7 * picture.piece.line.radius_mm());
}

Box block(const Vec3& low, const Vec3& high, const Mat3& axes, const Vec3& origin) {
  return {origin + axes * ((low + high) / 2), axes, (high - low) / 2};
}

// The former turns nothing: it stands, with the hook block and the fixed handle. The guide and the lever swing by
// `pulled` about its centre. All in the bender's frame, scaled by the tube's and the former's radius.
void add_bender(Scene& scene, double former_radius, double tube_radius, Angle pulled) {
  const double r = tube_radius, groove = former_radius - r;
  const Vec3 centre(0, former_radius, 0);
  const auto add = [&scene](Shape shape) { scene.bodies.push_back({kBender, std::move(shape)}); };
  add(Cylinder{centre - Vec3(0, 0, 0.8 * r), centre + Vec3(0, 0, 0.8 * r), groove});
  add(Cylinder{centre + Vec3(0, 0, 0.8 * r), centre + Vec3(0, 0, 1.6 * r), groove * 0.22});  // the pin
  const Mat3 still = Mat3::Identity();
  // Hook: behind the curve, on the outside of the tube.
  add(block({-3.2 * r, -1.9 * r, -1.2 * r}, {-0.6 * r, -r, 1.2 * r}, still, Vec3::Zero()));
  // Guide and lever, as they lie before the pull, then swung about the pin: x turns towards y.
  const Mat3 swung = Eigen::AngleAxisd(pulled.radians(), Vec3::UnitZ()).toRotationMatrix();
  const auto at = [&](const Vec3& p) { return Vec3(centre + swung * (p - centre)); };
  add(block({0.8 * r, -2.1 * r, -1.2 * r}, {5.2 * r, -r, 1.2 * r}, swung, at(Vec3::Zero())));
  add(Cylinder{at({5.2 * r, -1.6 * r, 0}), at({5.2 * r + 2.6 * former_radius, -3.2 * r, 0}), 0.7 * r});
}

// Where the mark is ringed: a thin collar about the tube.
void add_mark(Scene& scene, const CentreLine& line, double at_mm, double tube_radius) {
  const Vec3 centre = line.point_at(at_mm), along = line.direction_at(at_mm);
  scene.bodies.push_back({kMark, Cylinder{centre - 0.6 * along, centre + 0.6 * along, tube_radius * 1.12}});
}

// Looking as the person does: from in front, above and a little to one side.
View person_view(const BenderStands& stands) {
  const Mat3 axes = stands_as_seen(stands).value_or(*stands_as_seen({"left", "towards you"}));
  const Vec3 look = axes.transpose() * Vec3(0.38, 0.72, -0.58).normalized();
  return View::along(look, axes.transpose() * Vec3::UnitZ());
}

struct Paper {
  double scale = 1;
  Vec2 shift = Vec2::Zero();
  Vec2 at(const Vec2& flat) const { return scale * flat + shift; }
};

// Room kept free around the drawing, for labels: as little as they leave, the most where nothing else helps.
const Vec2 kMargins[] = {{7, 5}, {11, 7}, {16, 10}, {24, 13}};
constexpr double kTolerable = 15;  // of PlacedLabels::crowding: about a stroke crossed
const Vec2 kUsualMargin = kMargins[1];

double scale_to_fit(const Vec2& view_size, const Vec2& room) {
  return std::min(room.x() / std::max(1.0, view_size.x()), room.y() / std::max(1.0, view_size.y()));
}

Paper fitted_paper(const Vec2& low_view, const Vec2& high_view, const Vec2& low, const Vec2& high, const Vec2& margin) {
  Paper paper;
  paper.scale = scale_to_fit(high_view - low_view, high - low - margin);
  paper.shift = (low + high) / 2 - paper.scale * (low_view + high_view) / 2;
  return paper;
}

Pen pen_for(const ViewCurve& curve) {
  if (curve.object == kMark) return {Layer::mark, LineStyle::continuous, 0.7, Colour{0.8, 0, 0}};
  if (curve.object == kBender) return {Layer::fixture, LineStyle::continuous, 0.25, std::nullopt};
  return {Layer::outline, LineStyle::continuous, 0.5, std::nullopt};
}

Label end_label(const std::string& text, const Vec2& at) { return {text, at, 2.5, true, Layer::text}; }

// A wavy stroke across a leg that goes on.
Polyline break_line(const View& view, const Paper& paper, const Vec3& at, const Vec3& along, double tube_radius) {
  const Vec2 middle = paper.at(view.flat(at));
  Vec2 way = view.flat(along);
  if (way.norm() < 1e-6) way = Vec2::UnitX();
  way.normalize();
  const Vec2 across(-way.y(), way.x());
  const double half = std::max(1.6, 1.5 * paper.scale * tube_radius);
  return {{middle - half * across, middle - 0.3 * half * across + 0.35 * half * way,
           middle + 0.3 * half * across - 0.35 * half * way, middle + half * across},
          false,
          {Layer::outline, LineStyle::continuous, 0.25, std::nullopt}};
}

void add_arrow(std::vector<Entity>& out, const Vec2& tip, const Vec2& back) {
  const Vec2 way = (back - tip).normalized(), across(-way.y(), way.x());
  const Pen pen{Layer::dimension, LineStyle::continuous, 0.25, std::nullopt};
  out.emplace_back(Area{{{tip, tip + 2.2 * way + 0.4 * across, tip + 2.2 * way - 0.4 * across}}, std::nullopt, pen});
}

struct Stroke {
  Vec2 from, to;
};

// A dimension in the view, before it is scaled to the paper.
struct ViewedCheck {
  Stroke line;
  std::vector<Stroke> witness, edge;  // thin and dashed
};

ViewedCheck viewed(const LocatedCheck& check, const ShortenedPiece& piece, const View& view, double tube_radius) {
  ViewedCheck seen;
  const Vec3 aside = 3.2 * tube_radius * check.aside;
  Vec3 from = piece.moved(check.from);
  const Vec3 to = piece.moved(check.to);
  if (check.edge_along.norm() > 0) {
    // The straight edge goes on along the leg's outside until it stands square across from the other leg.
    const Vec3 edge = piece.moved(check.edge);
    from = edge + (to - edge).dot(check.edge_along) * check.edge_along;
    seen.edge.push_back({view.flat(edge), view.flat(from)});
  }
  if (aside.norm() > 0) {
    for (const Vec3& place : {from, to}) seen.witness.push_back({view.flat(place), view.flat(place + 1.15 * aside)});
  }
  seen.line = {view.flat(from + aside), view.flat(to + aside)};
  return seen;
}

void add_check(std::vector<Entity>& out, std::vector<Label>& labels, LabelGround& ground, const ViewedCheck& check,
               const std::string& label, const Paper& paper) {
  const auto add = [&](const Stroke& stroke, LineStyle style) {
    const Polyline line =
        line_between(paper.at(stroke.from), paper.at(stroke.to), {Layer::dimension, style, 0.25, std::nullopt});
    ground.strokes.push_back(line.points);
    out.emplace_back(line);
  };
  for (const Stroke& stroke : check.edge) add(stroke, LineStyle::dashed);
  for (const Stroke& stroke : check.witness) add(stroke, LineStyle::continuous);
  const Vec2 first = paper.at(check.line.from), second = paper.at(check.line.to);
  if ((second - first).norm() < 1) return;
  add(check.line, LineStyle::continuous);
  add_arrow(out, first, second);
  add_arrow(out, second, first);
  labels.push_back({label, (first + second) / 2, 3.5, true, Layer::dimension});
}

// Two wavy strokes where a straight was cut in its middle, one where the tube's end lies farther off.
void add_breaks(std::vector<Entity>& out, const ShortenedPiece& piece, const View& view, const Paper& paper,
                double tube_radius) {
  for (const ShortenedPiece::Break& cut : piece.breaks()) {
    out.emplace_back(break_line(view, paper, cut.at, cut.along, tube_radius));
    if (!cut.at_end)
      out.emplace_back(break_line(view, paper, cut.at + tube_radius * cut.along, cut.along, tube_radius));
  }
}

Scene scene_of(const BenderPicture& picture, const ShortenedPiece& piece) {
  Scene scene;
  scene.tubes.push_back({kTube, piece.line(), picture.tube_radius_mm});
  if (picture.with_bender) add_bender(scene, piece.line().radius_mm(), picture.tube_radius_mm, picture.piece.pulled);
  if (picture.mark_label)
    add_mark(scene, piece.line(), piece.moved_along(picture.piece.mark_at_mm), picture.tube_radius_mm);
  return scene;
}

ViewOptions view_options() {
  ViewOptions options;
  options.centre_lines = false;
  options.hidden = false;
  options.chord_error_mm = 0.1;
  return options;
}

// All that is drawn, in the view; `low` and `high` hold it.
struct Seen {
  ShortenedPiece piece;
  View view;
  Projection flat;
  std::optional<ViewedCheck> check;
  Vec2 low, high;
};

Seen seen(const BenderPicture& picture) {
  const ShortenedPiece piece = shortened(picture);
  const View view = person_view(picture.stands);
  Seen all{piece, view, project(scene_of(picture, piece), view, view_options()), std::nullopt, {}, {}};
  all.low = all.flat.low;
  all.high = all.flat.high;
  if (!picture.check) return all;
  all.check = viewed(*picture.check, piece, view, picture.tube_radius_mm);
  std::vector<Stroke> strokes = all.check->witness;
  strokes.insert(strokes.end(), all.check->edge.begin(), all.check->edge.end());
  strokes.push_back(all.check->line);
  for (const Stroke& stroke : strokes) {
    all.low = all.low.cwiseMin(stroke.from).cwiseMin(stroke.to);
    all.high = all.high.cwiseMax(stroke.from).cwiseMax(stroke.to);
  }
  return all;
}

struct Laid {
  std::vector<Entity> entities;
  double crowding = 0;
};

Laid laid(const BenderPicture& picture, const Seen& all, const Vec2& low, const Vec2& high, const Vec2& margin) {
  const View& view = all.view;
  const Paper paper = fitted_paper(all.low, all.high, low, high, margin);
  Laid result;
  std::vector<Entity>& out = result.entities;
  LabelGround ground{low, high, {}};
  for (const ViewCurve& curve : all.flat.curves) {
    const std::vector<Vec2> points = flattened(placed(curve.shape, paper.scale, Angle(), paper.shift), 0.03);
    out.emplace_back(Polyline{points, false, pen_for(curve)});
    ground.strokes.push_back(points);
  }
  std::vector<Label> labels;
  const CentreLine& line = all.piece.line();
  add_breaks(out, all.piece, view, paper, picture.tube_radius_mm);
  if (all.check) add_check(out, labels, ground, *all.check, picture.check_label, paper);
  if (picture.mark_label) {
    const Vec3 mark = line.point_at(all.piece.moved_along(picture.piece.mark_at_mm));
    labels.push_back({*picture.mark_label, paper.at(view.flat(mark)), 2.5, false, Layer::mark});
  }
  labels.push_back(end_label("start end", paper.at(view.flat(line.points().front()))));
  labels.push_back(end_label("far end", paper.at(view.flat(line.points().back()))));
  if (picture.with_bender) {
    const double r = picture.tube_radius_mm;
    const Mat3 swung = Eigen::AngleAxisd(picture.piece.pulled.radians(), Vec3::UnitZ()).toRotationMatrix();
    const Vec3 pin(0, line.radius_mm(), 0);
    const Vec3 handle = pin + swung * (Vec3(5.2 * r + 2.4 * line.radius_mm(), -3.1 * r, 0) - pin);
    labels.push_back({"lever", paper.at(view.flat(handle)), 2.5, false, Layer::text});
    labels.push_back({"hook", paper.at(view.flat({-1.9 * r, -1.9 * r, 0})), 2.5, false, Layer::text});
  }
  PlacedLabels texts = placed_labels(labels, ground);
  for (Entity& entity : texts.entities) out.emplace_back(std::move(entity));
  result.crowding = texts.crowding;
  return result;
}

}  // namespace

double picture_scale(const BenderPicture& picture, const Vec2& size) {
  const Seen all = seen(picture);
  return scale_to_fit(all.high - all.low, size - kUsualMargin);
}

std::vector<Entity> bender_picture(const BenderPicture& picture, const Vec2& low, const Vec2& high) {
  const Seen all = seen(picture);
  std::optional<Laid> best;
  for (const Vec2& margin : kMargins) {
    Laid one = laid(picture, all, low, high, margin);
    if (best && one.crowding >= best->crowding) continue;
    best = std::move(one);
    if (best->crowding <= kTolerable) break;
  }
  return std::move(best->entities);
}

}  // namespace halfhard
