#include "viewer/draw_bending.h"

#include <algorithm>
#include <cmath>

#include "geometry/require.h"
#include "geometry/shown.h"
#include "viewer/solids.h"

namespace halfhard {
namespace {

double reach_of(const FormedPiece& piece) {
  double reach = 0;
  for (const Vec3& point : piece.line.points()) reach = std::max(reach, point.norm());
  return reach;
}

// The former: a round block whose groove holds the tube at the bend's radius, the hook that grips it, the guide that
// follows the pull, and the lever.
void add_bender(Part& part, const Run& run, Angle pulled) {
  const double radius = run.line.radius_mm(), tube = run.tube->outside_radius_mm();
  const Vec3 centre(0, radius, 0), axis = Vec3::UnitZ();
  Layer body{Paint::bender, {}, {}}, edges{Paint::edge, {}, {}};
  const double inner = std::max(5.0, radius - tube);
  add_cone(body.mesh, centre - 1.5 * tube * axis, centre + 1.5 * tube * axis, inner, inner, 64);
  add_cone_edges(edges.lines, centre - 1.5 * tube * axis, centre + 1.5 * tube * axis, inner, inner, 0);
  // Hook: behind the start of the curve, over the outside of the tube.
  const double reach = std::max(20.0, 1.8 * tube);
  Box hook{Vec3(-reach, -1.5 * tube, 0), Mat3::Identity(), Vec3(reach / 2, 0.45 * tube, 1.3 * tube)};
  add_box(body.mesh, edges.lines, hook);
  // Guide and lever: swing about the former's centre with the pull.
  const Eigen::AngleAxisd swing(pulled.radians(), axis);
  Mat3 axes = swing.toRotationMatrix();
  const Vec3 guide_at = centre + swing * Vec3(reach, -radius - 1.5 * tube, 0);
  add_box(body.mesh, edges.lines, Box{guide_at, axes, Vec3(reach, 0.45 * tube, 1.3 * tube)});
  const Vec3 lever_from = centre + swing * Vec3(2 * reach, -radius - 2.4 * tube, 0);
  const Vec3 lever_to = lever_from + swing * Vec3(6 * radius, 0, 0);
  add_cone(body.mesh, lever_from, lever_to, 0.6 * tube + 4, 0.6 * tube + 4, 20);
  part.layers.push_back(std::move(body));
  part.layers.push_back(std::move(edges));
}

void add_bench(Part& part, double reach) {
  Layer top{Paint::bench, {}, {}}, edges{Paint::edge, {}, {}};
  const double half = std::clamp(0.6 * reach, 250.0, 900.0);
  add_box(top.mesh, edges.lines,
          Box{Vec3(0, 0.3 * half, -kBenchBelow_mm - 15), Mat3::Identity(), Vec3(half, 0.7 * half, 15)});
  part.layers.push_back(std::move(top));
  part.layers.push_back(std::move(edges));
}

// Where along the piece it is below the bench's top within the bench's own area.
std::vector<double> into_the_bench(const FormedPiece& piece, double radius, double reach) {
  const double half = std::clamp(0.6 * reach, 250.0, 900.0);
  std::vector<double> places;
  for (double at = 0; at <= piece.line.length_mm(); at += 4) {
    const Vec3 place = piece.line.point_at(at);
    const bool over = std::abs(place.x()) < half && place.y() > -0.4 * half && place.y() < half;
    if (over && place.z() - radius < -kBenchBelow_mm) places.push_back(at);
  }
  return places;
}

// The former's block met by another part of the piece than the bend in it.
std::vector<double> into_the_former(const FormedPiece& piece, const Run& run) {
  const double tube = run.tube->outside_radius_mm(), inner = std::max(5.0, run.line.radius_mm() - tube);
  const double own_bend = run.line.radius_mm() * piece.pulled.radians() + 3 * tube;
  std::vector<double> places;
  for (double at = 0; at <= piece.line.length_mm(); at += 3) {
    if (std::abs(at - piece.hook_at_mm) < own_bend + 2 * tube) continue;
    const Vec3 place = piece.line.point_at(at);
    const double from_axis = std::hypot(place.x(), place.y() - run.line.radius_mm());
    if (from_axis < inner + tube - 0.5 && std::abs(place.z()) < 2.5 * tube) places.push_back(at);
  }
  return places;
}

Part bands_at(const FormedPiece& piece, const std::vector<double>& places, double radius) {
  Part part{PartKind::failing, "", {}};
  Layer dark{Paint::hazard_dark, {}, {}}, bright{Paint::hazard_bright, {}, {}};
  const double from = places.front(), to = std::max(places.back(), places.front() + 10);
  bool is_dark = true;
  for (double at = from; at < to; at += 10, is_dark = !is_dark)
    append((is_dark ? dark : bright).mesh, sleeve(piece.line, at, std::min(at + 10, to), radius + 0.6));
  part.layers = {std::move(dark), std::move(bright)};
  return part;
}

std::string words_for(const Run& run, const Bend& bend, const BendingMoment& moment, LengthUnit unit) {
  const std::string end = bend.hook == End::datum ? "datum end" : "free end";
  std::string text = "Bend " + std::to_string(bend.number) + ", made " + std::to_string(moment.step) + " of " +
                     std::to_string(run.bends.size()) + ": ";
  if (moment.pulled <= 0) {
    text += end + " behind the hook, mark at " + shown_length(bend.mark_mm, unit) + " from the datum end";
    if (!run.bender->line_up.empty()) text += " held " + run.bender->line_up;
    if (moment.step > 1) text += ", tube turned " + shown_angle(bend.rotation) + " from the bend before";
    return text;
  }
  const double angle = moment.pulled * bend.set_angle.degrees();
  return text + "pulled to " + shown_angle(Angle::degrees(angle)) + "; set is " + shown_angle(bend.set_angle) +
         ", after letting go " + shown_angle(bend.angle);
}

}  // namespace

DrawnBending draw_bending(const Run& run, const BendingMoment& moment, LengthUnit unit) {
  HALFHARD_REQUIRE(moment.step >= 1 && moment.step <= static_cast<int>(run.bends.size()));
  const Bend& bend = *run.bends_as_made()[moment.step - 1];
  const FormedPiece piece = moment.pulled <= 0 ? before_bend(run, moment.step)
                                               : while_pulling(run, moment.step, std::min(1.0, moment.pulled));
  DrawnBending result;
  result.drawn.unit = unit;
  const double tube = run.tube->outside_radius_mm(), reach = reach_of(piece);
  auto copper = std::make_shared<Part>(Part{PartKind::run, run.name, {}});
  copper->layers.push_back({Paint::copper, ring_mesh(piece.line, tube, run.tube->inside_diameter_mm() / 2, 0.2), {}});
  copper->layers.push_back(
      {Paint::mark, sleeve(piece.line, piece.mark_at_mm - 1.5, piece.mark_at_mm + 1.5, tube + 0.4), {}});
  auto bender = std::make_shared<Part>(Part{PartKind::tool, "bender", {}});
  add_bender(*bender, run, piece.pulled);
  auto bench = std::make_shared<Part>(Part{PartKind::tool, "bench", {}});
  add_bench(*bench, reach);
  result.drawn.parts = {copper, bender, bench};

  const auto bench_places = into_the_bench(piece, tube, reach), former_places = into_the_former(piece, run);
  if (!bench_places.empty()) result.trouble = "the piece runs into the bench here: turn it, or clear the bench's edge";
  if (!former_places.empty())
    result.trouble = "the piece runs into the bender here: make this bend earlier, or from the other end";
  for (const auto* places : {&bench_places, &former_places}) {
    if (places->empty()) continue;
    result.drawn.parts.push_back(std::make_shared<Part>(bands_at(piece, *places, tube)));
    result.drawn.labels.push_back({LabelKind::failing,
                                   places == &bench_places ? "runs into the bench" : "runs into the bender",
                                   piece.line.point_at(places->front())});
  }
  result.drawn.labels.push_back({LabelKind::connection, bend.hook == End::datum ? "hook: datum end" : "hook: free end",
                                 Vec3(-std::max(20.0, 1.8 * tube), -1.5 * tube, 0)});
  result.drawn.labels.push_back(
      {LabelKind::clearance, "mark " + shown_length(bend.mark_mm, unit), piece.line.point_at(piece.mark_at_mm)});
  result.drawn.labels.push_back({LabelKind::run,
                                 "pulled " + shown_angle(piece.pulled) + " of " + shown_angle(bend.set_angle),
                                 Vec3(0, run.line.radius_mm(), 0)});
  for (size_t i = 0; i < piece.bends.size(); ++i)
    if (piece.bends[i] != piece.in_bender)
      result.drawn.labels.push_back({LabelKind::bend, std::to_string(piece.bends[i]), piece.line.points()[i + 1]});
  for (const Vec3& point : piece.line.points()) result.drawn.framing.push_back(point);
  result.drawn.framing.push_back(Vec3(0, 2 * run.line.radius_mm(), 0));
  for (const Vec3& place : result.drawn.framing) result.drawn.bounds.add(place);
  result.drawn.bounds = result.drawn.bounds.grown(kBenchBelow_mm + 400);
  result.words = words_for(run, bend, moment, unit);
  result.drawn.caption = result.trouble.empty() ? "" : result.trouble;
  result.drawn.failing = !result.trouble.empty();
  return result;
}

}  // namespace halfhard
