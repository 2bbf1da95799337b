#include "exporters/fabrication/point_labels.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/words/shown.h"

namespace halfhard {
namespace {

constexpr double kRing_mm = 2.7, kText_mm = 2.5;
constexpr double kBeside_mm = 1;      // a ring or label this near needs no leader
constexpr double kSeenToBend = 0.35;  // cosine between a bend's axis and the look
constexpr int kWays = 16;

// Ways round a place, the one nearest to `first` foremost.
std::vector<Vec2> ways_from(const Vec2& first) {
  const double start = std::atan2(first.y(), first.x());
  std::vector<Vec2> ways;
  for (int k = 0; k < kWays; ++k) {
    const int step = (k + 1) / 2 * (k % 2 == 0 ? 1 : -1);
    const double angle = start + step * 2 * std::numbers::pi / kWays;
    ways.emplace_back(std::cos(angle), std::sin(angle));
  }
  return ways;
}

Polyline leader(const Vec2& from, const Vec2& to) {
  return line_between(from, to, {Layer::text, LineStyle::continuous, 0.18, std::nullopt});
}

Placement ring(int number, const Vec2& bend, const Vec2& way, double off, double tube_radius) {
  const Vec2 centre = bend + (tube_radius + off + kRing_mm) * way;
  Text text;
  text.content = std::to_string(number);
  text.at = centre;
  text.height_mm = kText_mm;
  text.bold = true;
  text.anchor_x = AnchorX::centre;
  text.anchor_y = AnchorY::middle;
  Placement placement{{text, circle(centre, kRing_mm, {Layer::text, LineStyle::continuous, 0.25, std::nullopt})},
                      {box_between(centre - Vec2(kRing_mm, kRing_mm), centre + Vec2(kRing_mm, kRing_mm))}};
  if (off > kBeside_mm) placement.entities.emplace_back(leader(bend, bend + (tube_radius + off) * way));
  return placement;
}

Placement lines_at(const std::vector<std::string>& lines, const Vec2& end, const Vec2& way, double off) {
  double half = 0;
  for (const std::string& line : lines) half = std::max(half, text_width_mm(line, kText_mm) / 2);
  const double step = 1.5 * kText_mm;
  const double half_height = (step * static_cast<double>(lines.size() - 1) + kText_mm) / 2;
  const Vec2 centre = end + off * way + Vec2(way.x() * half, way.y() * half_height);
  Placement placement;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Text text;
    text.content = lines[i];
    text.height_mm = kText_mm;
    text.anchor_x = AnchorX::centre;
    text.anchor_y = AnchorY::middle;
    text.at = centre + Vec2(0, half_height - kText_mm / 2 - step * static_cast<double>(i));
    placement.entities.emplace_back(text);
  }
  const Vec2 reach(half, half_height);
  const Vec2 edge = end.cwiseMax(centre - reach).cwiseMin(centre + reach);
  const Vec2 back = (end - edge).normalized();
  if ((edge - end).norm() > 3) placement.entities.emplace_back(leader(end, edge + 0.8 * back));
  return placement;
}

double insertion_mm(const Run& run, End end) {
  return end == End::datum ? run.datum_insertion_mm() : run.free_insertion_mm();
}

}  // namespace

std::string end_name(const Run& run, End end) {
  const std::string name = end == End::datum ? "start end" : "far end";
  return insertion_mm(run, end) > 0 ? "mouth at " + name : name;
}

std::vector<Entity> bend_rings(const Run& run, const PlacedView& view, DimensionPlacer& placer) {
  std::vector<Entity> out;
  const double tube = run.tube->outside_radius_mm() * view.per_mm();
  int number = 0;
  for (const Piece& piece : run.line.pieces()) {
    const auto* arc = std::get_if<Arc>(&piece.shape);
    if (arc == nullptr) continue;
    ++number;
    if (!view.isometric && std::abs(arc->axis().dot(view.view.look)) < kSeenToBend) continue;
    const Vec2 at = view.on_sheet(arc->point(arc->sweep.radians() / 2));
    Vec2 inwards = view.on_sheet(arc->centre) - at;
    if (inwards.norm() < 1e-6) inwards = Vec2::UnitY();
    std::vector<Placement> candidates;
    for (const double off : {0.8, 3.0, 5.0, 8.0, 12.0, 17.0})
      for (const Vec2& way : ways_from(inwards)) candidates.push_back(ring(number, at, way, off, tube));
    placer.place(candidates, out);
  }
  return out;
}

std::vector<Entity> end_labels(const Run& run, const PlacedView& view, LengthUnit unit, DimensionPlacer& placer) {
  std::vector<Entity> out;
  const double tube = run.tube->outside_radius_mm() * view.per_mm();
  const auto& points = run.line.points();
  for (const End end : {End::datum, End::free}) {
    std::vector<std::string> lines = {end_name(run, end)};
    const double inserted = insertion_mm(run, end);
    if (inserted > 0) lines.push_back("+ " + shown_length(inserted, unit) + " in the fitting");
    const Vec2 at = view.on_sheet(end == End::datum ? points.front() : points.back());
    const Vec2 next = view.on_sheet(end == End::datum ? points[1] : points[points.size() - 2]);
    const Vec2 outwards = (at - next).norm() > 1e-6 ? Vec2(at - next) : Vec2(Vec2::UnitX());
    std::vector<Placement> candidates;
    for (double off = tube + 1; off < tube + 26; off += 2)
      for (const Vec2& way : ways_from(outwards)) candidates.push_back(lines_at(lines, at, way, off));
    placer.place(candidates, out);
  }
  return out;
}

}  // namespace halfhard
