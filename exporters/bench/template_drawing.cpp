#include "exporters/bench/template_drawing.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "exporters/bench/not_to_be_made.h"
#include "exporters/sheet/outline_points.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

const Pen kEdge{Layer::outline, LineStyle::continuous, 0.5, std::nullopt};
const Pen kCentre{Layer::centre, LineStyle::chain, 0.25, std::nullopt};
const Pen kBand{Layer::hidden, LineStyle::dashed, 0.25, std::nullopt};
const Pen kMarkPen{Layer::mark, LineStyle::continuous, 0.5, Colour{0.8, 0, 0}};
const Pen kTangent{Layer::mark, LineStyle::dotted, 0.25, std::nullopt};
const Pen kBreak{Layer::outline, LineStyle::continuous, 0.25, std::nullopt};
const Pen kSpacing{Layer::fixture, LineStyle::double_chain, 0.25, std::nullopt};

void append(std::vector<Entity>& to, std::vector<Entity> more) {
  for (Entity& entity : more) to.emplace_back(std::move(entity));
}

// A stroke square across the tube at a place of a piece, `reach` beyond the centre line each way.
Polyline across(const FlatStretch& stretch, const Piece& piece, double into_mm, double reach, const Pen& pen) {
  Vec3 at, along;
  if (const auto* straight = std::get_if<Straight>(&piece.shape)) {
    along = (straight->to - straight->from).normalized();
    at = straight->from + into_mm * along;
  } else {
    const Arc& arc = std::get<Arc>(piece.shape);
    at = arc.point(into_mm / arc.radius);
    along = arc.direction(into_mm / arc.radius);
  }
  const Vec2 middle = stretch.flat(at);
  const Vec2 way(along.dot(stretch.right), along.dot(stretch.up));
  const Vec2 side(-way.y(), way.x());
  return line_between(middle - reach * side, middle + reach * side, pen);
}

void add_marks(const Plan& plan, const Run& run, const FlatStretch& stretch, TemplateDrawing& drawing) {
  const double reach = run.tube->outside_radius_mm() + 4;
  for (const Bend& bend : run.bends) {
    if (bend.number < stretch.first_bend || bend.number > stretch.last_bend) continue;
    const double at = bend.mark_mm - run.spare_datum_mm;  // the spare is not on the template
    for (const Piece& piece : stretch.pieces) {
      const double into = at - piece.starts_at_mm;
      if (into < -1e-9 || into > piece.length_mm + 1e-9) continue;
      const Polyline stroke = across(stretch, piece, std::clamp(into, 0.0, piece.length_mm), reach, kMarkPen);
      drawing.labels.push_back({"mark of bend " + std::to_string(bend.number) + ", " +
                                    shown_length(bend.mark_mm, plan.unit) + " from the start end" +
                                    (run.spare_datum_mm > 0 ? " of the blank" : ""),
                                stroke.points[1], 2.5, false, Layer::mark});
      drawing.entities.emplace_back(stroke);
      break;
    }
  }
}

void add_tangent_points(const Run& run, const FlatStretch& stretch, TemplateDrawing& drawing) {
  const double reach = run.tube->outside_radius_mm() + 2;
  int number = stretch.first_bend;
  for (const Piece& piece : stretch.pieces) {
    const Arc* arc = std::get_if<Arc>(&piece.shape);
    if (arc == nullptr) continue;
    for (const double into : {0.0, piece.length_mm})
      drawing.entities.emplace_back(across(stretch, piece, into, reach, kTangent));
    const Vec3 middle = arc->point(arc->sweep.radians() / 2);
    drawing.labels.push_back({"bend " + std::to_string(number) + ", " + shown_angle(run.bends[number - 1].angle),
                              stretch.flat(middle), 3.5, true, Layer::text});
    ++number;
  }
}

// Where a bank's neighbours lie, if in this plane: their centre lines.
void add_spacing(const Plan& plan, const Run& run, const FlatStretch& stretch, TemplateDrawing& drawing) {
  if (run.bank < 0 || run.bank >= static_cast<int>(plan.banks.size())) return;
  for (const int index : plan.banks[run.bank].runs) {
    const Run& other = *plan.runs[index];
    if (std::abs(other.piece - run.piece) != 1) continue;
    for (const FlatStretch& theirs : flat_stretches(other)) {
      if (theirs.first_bend != stretch.first_bend) continue;
      // Shown only where it lies on the same sheet of paper: in the plane, within a tenth of a millimetre.
      if (std::abs((theirs.origin - stretch.origin).dot(stretch.normal)) > 0.1) continue;
      for (const Piece& piece : theirs.pieces) append(drawing.entities, beside(stretch, piece, 0, kSpacing));
      if (const auto* straight = std::get_if<Straight>(&theirs.pieces.back().shape))
        drawing.labels.push_back(
            {"centre of " + other.name, stretch.flat((straight->from + straight->to) / 2), 2.5, false, kSpacing.layer});
    }
  }
}

void add_tube(const Plan& plan, const Run& run, const FlatStretch& stretch, TemplateDrawing& drawing) {
  const double radius = run.tube->outside_radius_mm(), band = radius + plan.tolerance.length_mm;
  for (const Piece& piece : stretch.pieces) {
    append(drawing.entities, beside(stretch, piece, 0, kCentre));
    for (const double side : {-1.0, 1.0}) {
      append(drawing.entities, beside(stretch, piece, side * radius, kEdge));
      append(drawing.entities, beside(stretch, piece, side * band, kBand));
    }
  }
  drawing.entities.emplace_back(across(stretch, stretch.pieces.front(), 0, radius, kEdge));
  drawing.entities.emplace_back(across(stretch, stretch.pieces.back(), stretch.pieces.back().length_mm, radius, kEdge));
}

// A wavy stroke on either side of what is left out, and how long the straight truly is.
void add_breaks(const Plan& plan, const Run& run, const FlatStretch& stretch, TemplateDrawing& drawing) {
  const double half = run.tube->outside_radius_mm() + plan.tolerance.length_mm + 3;
  for (const StretchBreak& cut : stretch.breaks) {
    const Vec2 from = stretch.flat(cut.from), to = stretch.flat(cut.to);
    const Vec2 way = (to - from).normalized(), side(-way.y(), way.x());
    for (const Vec2& middle : {from, to}) {
      drawing.entities.emplace_back(Polyline{{middle - half * side, middle - 0.3 * half * side + 3 * way,
                                              middle + 0.3 * half * side - 3 * way, middle + half * side},
                                             false,
                                             kBreak});
    }
    drawing.labels.push_back({"this straight is " + shown_length(cut.straight_mm, plan.unit) +
                                  " long: " + shown_length(cut.cut_out_mm, plan.unit) + " of it left out",
                              (from + to) / 2 + half * side, 2.5, true, Layer::text});
  }
  drawing.broken = !stretch.breaks.empty();
}

std::vector<Label> end_labels(const FlatStretch& stretch) {
  const auto flat_end = [&](const Piece& piece, bool start) {
    if (const auto* straight = std::get_if<Straight>(&piece.shape))
      return stretch.flat(start ? straight->from : straight->to);
    const Arc& arc = std::get<Arc>(piece.shape);
    return stretch.flat(arc.point(start ? 0 : arc.sweep.radians()));
  };
  const std::string next = "here bend ";
  const std::string first =
      stretch.datum_end ? "start end" : next + std::to_string(stretch.first_bend - 1) + " turns out of the plane";
  const std::string last =
      stretch.free_end ? "far end" : next + std::to_string(stretch.last_bend + 1) + " turns out of the plane";
  return {{first, flat_end(stretch.pieces.front(), true), 2.5, true, Layer::text},
          {last, flat_end(stretch.pieces.back(), false), 2.5, true, Layer::text}};
}

}  // namespace

TemplateDrawing template_drawing(const Plan& plan, const Run& run, const FlatStretch& stretch) {
  TemplateDrawing drawing;
  const std::string bends = stretch.first_bend == stretch.last_bend ? "bend " + std::to_string(stretch.first_bend)
                                                                    : "bends " + std::to_string(stretch.first_bend) +
                                                                          " to " + std::to_string(stretch.last_bend);
  drawing.title = run.name + ": template of " + bends + ", full size";
  drawing.failure = not_to_be_made_in_short(plan, run);
  drawing.labels = end_labels(stretch);
  add_tube(plan, run, stretch, drawing);
  add_breaks(plan, run, stretch, drawing);
  add_tangent_points(run, stretch, drawing);
  if (drawing.failure.empty()) add_marks(plan, run, stretch, drawing);
  add_spacing(plan, run, stretch, drawing);
  drawing.low = Vec2::Constant(std::numeric_limits<double>::infinity());
  drawing.high = -drawing.low;
  for (const Entity& entity : drawing.entities) {
    if (!belongs_to_piece(entity)) continue;
    for (const Vec2& point : points_of(entity)) {
      drawing.low = drawing.low.cwiseMin(point);
      drawing.high = drawing.high.cwiseMax(point);
    }
  }
  return drawing;
}

bool belongs_to_piece(const Entity& entity) {
  if (const auto* line = std::get_if<Polyline>(&entity)) return line->pen.layer != kSpacing.layer;
  if (const auto* arc = std::get_if<ArcCurve>(&entity)) return arc->pen.layer != kSpacing.layer;
  return false;
}

std::vector<Entity> labels_on(const TemplateDrawing& drawing, const Vec2& low, const Vec2& high) {
  LabelGround ground{low, high, {}};
  for (const Entity& entity : drawing.entities) ground.strokes.push_back(points_of(entity));
  std::vector<Label> labels;
  for (const Label& label : drawing.labels) {
    const bool here = (label.at - low).minCoeff() >= 0 && (high - label.at).minCoeff() >= 0;
    if (here || label.layer != kSpacing.layer) labels.push_back(label);
  }
  return placed_labels(labels, ground).entities;
}

std::vector<Vec2> points_of(const Entity& entity) {
  if (const auto* line = std::get_if<Polyline>(&entity)) return line->points;
  if (const auto* arc = std::get_if<ArcCurve>(&entity)) return points_along(*arc, 1);
  return {};
}

std::vector<Entity> hundred_bar(const Vec2& left, LengthUnit unit) {
  const Pen pen{Layer::frame, LineStyle::continuous, 0.35, std::nullopt};
  std::vector<Entity> out;
  out.emplace_back(line_between(left, left + Vec2(100, 0), pen));
  for (int i = 0; i <= 10; ++i) {
    const double high = i % 10 == 0 ? 5 : i == 5 ? 3.5 : 2;
    out.emplace_back(line_between(left + Vec2(10 * i, 0), left + Vec2(10 * i, high), pen));
  }
  Text text;
  text.content = unit == LengthUnit::mm ? "100 mm: measure this bar" : "100 mm (3 15/16 in): measure this bar";
  text.at = left + Vec2(103, 0.5);
  text.height_mm = 2.5;
  text.layer = Layer::frame;
  out.emplace_back(std::move(text));
  return out;
}

}  // namespace halfhard
