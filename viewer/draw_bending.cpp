#include "viewer/draw_bending.h"

#include <algorithm>
#include <cmath>

#include "geometry/base/require.h"
#include "geometry/base/tolerances.h"
#include "geometry/bending/clock.h"
#include "geometry/words/shown.h"
#include "viewer/draw_plan.h"
#include "viewer/solids.h"

namespace halfhard {
namespace {

constexpr double kMostFramed_mm = 1500;  // of a long tube only so much either way is framed, or bends would be dots

Mat3 seen_by_the_person(const Run& run) {
  return stands_as_seen(run.bender->stands).value_or(*stands_as_seen({"left", "towards you"}));
}

// No bench where it would have to have a hole: for a tube that stands upright, or a lever that swings down past it.
Bench bench_for(const Mat3& seen, double reach) {
  const bool level = std::abs(seen.col(0).z()) < 0.5 && seen.col(1).z() > -0.5;
  return {level ? std::clamp(0.6 * reach, 250.0, 900.0) : 0};
}

FormedPiece piece_at(const Run& run, const BendingMoment& moment) {
  if (moment.pulled > 0) return while_pulling(run, moment.step, std::min(1.0, moment.pulled));
  FormedPiece piece = before_bend(run, moment.step);
  const auto turn = turn_for(run, moment.step);
  if (!turn || moment.turned >= 1) return piece;
  const Eigen::AngleAxisd back(-(1 - moment.turned) * turn->radians(), Vec3::UnitX());
  std::vector<Vec3> points = piece.line.points();
  for (Vec3& point : points) point = back * point;
  piece.line = CentreLine::through(std::move(points), piece.line.radius_mm());
  return piece;
}

// Every step's piece, so that the picture stands still while the tube moves.
std::vector<Vec3> framing_of(const Run& run) {
  std::vector<Vec3> places;
  for (int step = 1; step <= static_cast<int>(run.bends.size()); ++step)
    for (const FormedPiece& piece : {before_bend(run, step), while_pulling(run, step, 1)})
      for (const Vec3& point : piece.line.points())
        places.push_back(point.cwiseMax(-kMostFramed_mm).cwiseMin(kMostFramed_mm));
  places.push_back(Vec3(0, 2 * run.line.radius_mm(), 0));
  places.push_back(Vec3(lever_reach_mm(run), 0, 0));
  return places;
}

double reach_of(const std::vector<Vec3>& places) {
  double reach = 0;
  for (const Vec3& place : places) reach = std::max(reach, place.norm());
  return reach;
}

std::vector<double> into_the_bench(const FormedPiece& piece, const Bench& bench, const Mat3& seen, double radius) {
  std::vector<double> places;
  if (bench.half_mm <= 0) return places;
  for (double at = 0; at <= piece.line.length_mm(); at += 4)
    if (bench.meets(seen * piece.line.point_at(at), radius)) places.push_back(at);
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

Part copper_of(const Run& run, const FormedPiece& piece) {
  const double tube = run.tube->outside_radius_mm();
  Part part{PartKind::run, run.name, {}};
  part.layers.push_back({Paint::copper, ring_mesh(piece.line, tube, run.tube->inside_diameter_mm() / 2, 0.2), {}});
  part.layers.push_back(
      {Paint::mark, sleeve(piece.line, piece.mark_at_mm - 1.5, piece.mark_at_mm + 1.5, tube + 0.4), {}});
  return part;
}

Part turned(Part part, const Mat3& seen) {
  for (Layer& layer : part.layers) {
    for (Vec3& vertex : layer.mesh.vertices) vertex = seen * vertex;
    for (Vec3& normal : layer.mesh.normals) normal = seen * normal;
    for (auto& line : layer.lines)
      for (Vec3& end : line) end = seen * end;
  }
  return part;
}

std::string turn_words(const Run& run, int step) {
  const auto turn = turn_for(run, step);
  if (!turn || std::abs(turn->degrees()) < kSameDirection_deg) return "";
  return "turned " + shown_angle(Angle::degrees(std::abs(turn->degrees()))) + " from bend " +
         std::to_string(run.bends_as_made()[step - 2]->number);
}

std::string words_for(const Run& run, const Bend& bend, const BendingMoment& moment, LengthUnit unit) {
  const std::string end = bend.hook == End::datum ? "start end" : "far end";
  std::string text = "Bend " + std::to_string(bend.number) + ", made " + std::to_string(moment.step) + " of " +
                     std::to_string(run.bends.size()) + ": ";
  if (moment.pulled > 0) {
    const double angle = moment.pulled * bend.set_angle.degrees();
    return text + "pulled to " + shown_angle(Angle::degrees(angle)) + "; set is " + shown_angle(bend.set_angle) +
           ", after letting go " + shown_angle(bend.angle);
  }
  text += end + " behind the hook, mark at " + shown_length(bend.mark_mm, unit) + " from the start end";
  if (!run.bender->line_up.empty()) text += ", lined up " + run.bender->line_up;
  const std::string turn = turn_words(run, moment.step);
  if (!turn.empty()) text += "; tube " + turn;
  for (const ClockReading& reading : clock_readings(run, moment.step))
    text += "; seen from the hook, bend " + std::to_string(reading.bend) + "'s leg lies " + reading.text();
  return text;
}

std::vector<Label> labels_for(const Run& run, const Bend& bend, const FormedPiece& piece, const BendingMoment& moment,
                              LengthUnit unit) {
  const double tube = run.tube->outside_radius_mm();
  const std::string turn = turn_words(run, moment.step);
  std::vector<Label> labels;
  labels.push_back(
      {LabelKind::connection,
       "hook: " + std::string(bend.hook == End::datum ? "start end" : "far end") + (turn.empty() ? "" : ", " + turn),
       Vec3(-hook_reach_mm(run), -1.5 * tube, 0)});
  labels.push_back(
      {LabelKind::clearance, "mark " + shown_length(bend.mark_mm, unit), piece.line.point_at(piece.mark_at_mm)});
  labels.push_back({LabelKind::run, "pulled " + shown_angle(piece.pulled) + " of " + shown_angle(bend.set_angle),
                    Vec3(0, run.line.radius_mm(), 0)});
  for (const Piece& each : piece.line.pieces()) {
    if (!std::holds_alternative<Arc>(each.shape)) continue;
    const int number = piece.bends[each.last_leg - 1];
    if (number != piece.in_bender)
      labels.push_back(
          {LabelKind::bend, std::to_string(number), piece.line.point_at(each.starts_at_mm + each.length_mm / 2)});
  }
  return labels;
}

}  // namespace

// The bend made before starts in the plane of the pull and is turned out of it. Its plane stands at minus this bend's
// rotation where the tube is bent onwards, at plus its own where backwards, about the direction of travel, which runs
// from the hook where the datum end is behind it.
std::optional<Angle> turn_for(const Run& run, int step) {
  if (step < 2) return std::nullopt;
  const std::vector<const Bend*> made = run.bends_as_made();
  const Bend &now = *made[step - 1], &before = *made[step - 2];
  double degrees = 0;
  if (now.number == before.number + 1)
    degrees = -now.rotation.degrees();
  else if (now.number == before.number - 1)
    degrees = before.rotation.degrees();
  else
    return std::nullopt;
  return Angle::degrees(now.hook == End::datum ? degrees : -degrees);
}

DrawnBending draw_bending(const Run& run, const BendingMoment& moment, LengthUnit unit) {
  HALFHARD_REQUIRE(moment.step >= 1 && moment.step <= static_cast<int>(run.bends.size()));
  const Bend& bend = *run.bends_as_made()[moment.step - 1];
  const FormedPiece piece = piece_at(run, moment);
  const Mat3 seen = seen_by_the_person(run);
  const double tube = run.tube->outside_radius_mm();
  DrawnBending result;
  Drawn& drawn = result.drawn;
  drawn.unit = unit;
  drawn.site_axes = false;
  drawn.framing = framing_of(run);
  const Bench bench = bench_for(seen, reach_of(drawn.framing));
  const auto put = [&](Part part) { drawn.parts.push_back(std::make_shared<Part>(turned(std::move(part), seen))); };
  put(copper_of(run, piece));
  add_stretches(drawn.pipes, piece.line, tube);
  put(draw_bender(run, piece.pulled));
  const auto bench_places = into_the_bench(piece, bench, seen, tube), former_places = into_the_former(piece, run);
  // What runs into the bench lies under its top, and has to be seen.
  if (bench.half_mm > 0) drawn.parts.push_back(std::make_shared<Part>(bench.draw(!bench_places.empty())));
  if (!bench_places.empty()) result.trouble = "the piece runs into the bench here: turn it, or clear the bench's edge";
  if (!former_places.empty())
    result.trouble = "the piece runs into the bender here: make this bend earlier, or from the other end";
  drawn.labels = labels_for(run, bend, piece, moment, unit);
  for (const auto* places : {&bench_places, &former_places}) {
    if (places->empty()) continue;
    put(bands_at(piece, *places, tube));
    drawn.labels.push_back({LabelKind::failing,
                            places == &bench_places ? "runs into the bench" : "runs into the bender",
                            piece.line.point_at(places->front())});
  }
  for (Label& label : drawn.labels) label.at = seen * label.at;
  for (Vec3& place : drawn.framing) place = seen * place;
  for (PipeStretch& pipe : drawn.pipes) pipe = {seen * pipe.from, seen * pipe.to, pipe.radius_mm};
  for (const Vec3& place : drawn.framing) drawn.bounds.add(place);
  drawn.bounds = drawn.bounds.grown(kBenchBelow_mm + 400);
  result.words = words_for(run, bend, moment, unit);
  drawn.caption = result.trouble;
  drawn.failing = !result.trouble.empty();
  return result;
}

}  // namespace halfhard
