#include "viewer/draw_plan.h"

#include <algorithm>

#include "viewer/solids.h"

namespace halfhard {
namespace {

bool wanted(const Run& run, const std::string& only) { return only.empty() || run.name == only || run.family == only; }

double diameter_at(const Plan& plan, const Connection& connection) {
  for (const auto& run : plan.runs)
    if (run->from.name == connection.name || (run->to && run->to->name == connection.name))
      return run->tube->outside_diameter_mm;
  constexpr double kOrdinary_mm = 15;
  return kOrdinary_mm;
}

Vec3 middle_of(const Fixture& fixture, const Bounds& room) {
  const Bounds bounds = body_bounds(fixture);
  if (!bounds.empty()) return (bounds.low + bounds.high) / 2;
  const auto* plane = std::get_if<HalfSpace>(&fixture.body.shape);
  if (!plane || room.empty()) return Vec3::Zero();
  const Vec3 centre = (room.low + room.high) / 2;  // a wall's name stands behind the work
  const Vec3 upper = {centre.x(), centre.y(), room.high.z()};
  return upper - (upper - plane->at).dot(plane->facing) * plane->facing;
}

std::vector<Vec3> pipe_places(const std::vector<const Run*>& runs) {
  std::vector<Vec3> places;
  for (const Run* run : runs)
    for (const Vec3& point : run->line.points())
      for (const double side : {-run->outside_radius_mm(), run->outside_radius_mm()})
        places.push_back(point + Vec3::Constant(side));
  return places;
}

std::string caption_of(const Plan& plan) {
  int failing = 0;
  for (const Finding& finding : plan.findings) failing += finding.severity == Severity::fail;
  if (failing == 0) return plan.title;
  const std::string lead = plan.title.empty() ? "" : plan.title + ": ";
  return lead + "NOT TO BE MADE, " + std::to_string(failing) +
         (failing == 1 ? " failing finding" : " failing findings");
}

void add_drillings(Drawn& drawn, const Plan& plan, const std::string& only) {
  auto part = std::make_shared<Part>();
  part->kind = PartKind::tool;
  Layer layer{Paint::drilling, {}, {}};
  for (const Drilling& hole : plan.drillings) {
    if (!only.empty() && hole.run != only) continue;
    add_cone_edges(layer.lines, hole.centre, hole.centre + hole.depth_mm * hole.direction, hole.diameter_mm / 2,
                   hole.diameter_mm / 2, 8);
  }
  if (layer.lines.empty()) return;
  part->layers.push_back(std::move(layer));
  drawn.parts.push_back(std::move(part));
}

void add_chosen(Drawn& drawn, const Plan& plan, const DrawOptions& options, const Bounds& room) {
  if (options.chosen.empty()) return;
  for (const auto& run : plan.runs)
    if (wanted(*run, options.only_run) && (run->name == options.chosen || run->family == options.chosen))
      drawn.parts.push_back(std::make_shared<Part>(draw_chosen_stretch(*run, options.chosen_bend)));
  for (const auto& fixture : plan.fixtures) {
    if (fixture->name != options.chosen) continue;
    Part part = draw_fixture(*fixture, room);
    part.kind = PartKind::chosen;
    for (Layer& layer : part.layers) {
      layer.paint = Paint::chosen;
      layer.mesh = {};  // its outline only: a wash would hide what is behind it
    }
    drawn.parts.push_back(std::make_shared<Part>(std::move(part)));
  }
  for (const auto& connection : plan.connections) {
    if (connection->name != options.chosen) continue;
    Part part{PartKind::chosen, connection->name, {{Paint::chosen, {}, {}}}};
    const double around = 1.6 * diameter_at(plan, *connection);
    const Vec3 half = around * connection->towards;
    add_cone(part.layers[0].mesh, connection->at - half, connection->at + half, around, around, 32);
    part.layers[0].halo = true;
    drawn.parts.push_back(std::make_shared<Part>(std::move(part)));
  }
}

// How far walls are shown: past what stands about the pipes, as far as that is of their own size.
Bounds room_about(const Plan& plan, const std::vector<Vec3>& framing) {
  Bounds near, room;
  for (const Vec3& place : framing) near.add(place);
  if (near.empty()) return near;
  constexpr double kSurroundings = 0.3;
  near = near.grown(60 + kSurroundings * (near.high - near.low).norm());
  for (const Vec3& place : framing) room.add(place);
  for (const auto& fixture : plan.fixtures)
    if (const Bounds body = body_bounds(*fixture); !body.empty())
      for (const Vec3& corner : corners_of(body)) room.add(Vec3(corner.cwiseMax(near.low).cwiseMin(near.high)));
  return room.grown(0.06 * (room.high - room.low).norm() + 20);
}

}  // namespace

Bounds picture_bounds(const Plan& plan, const std::vector<const Run*>& runs) {
  Bounds bounds;
  for (const Vec3& place : pipe_places(runs)) bounds.add(place);
  for (const auto& connection : plan.connections) bounds.add(connection->at);
  for (const auto& fixture : plan.fixtures) {
    const Bounds body = body_bounds(*fixture);
    if (!body.empty()) bounds.add(body);
  }
  return bounds;
}

std::vector<Vec3> picture_framing(const Plan& plan, const std::vector<const Run*>& runs) {
  std::vector<Vec3> places = pipe_places(runs);
  if (runs.size() == plan.runs.size())
    for (const auto& connection : plan.connections) places.push_back(connection->at);
  if (!places.empty()) return places;
  for (const auto& fixture : plan.fixtures)
    if (const Bounds body = body_bounds(*fixture); !body.empty())
      for (const Vec3& corner : corners_of(body)) places.push_back(corner);
  return places;
}

void add_stretches(std::vector<PipeStretch>& pipes, const CentreLine& line, double radius_mm) {
  for (size_t i = 0; i + 1 < line.points().size(); ++i)
    pipes.push_back({line.points()[i], line.points()[i + 1], radius_mm});
}

// Fixtures and connections depend on more than themselves (the room, the tube's size); they are few and cheap, and are
// kept only while that is the same, so that the screen need not take them up again.
Drawn PlanDrawer::draw(const Plan& plan, const DrawOptions& options) {
  Drawn drawn;
  drawn.unit = plan.unit;
  next_.clear();
  std::vector<const Run*> runs;
  for (const auto& run : plan.runs)
    if (wanted(*run, options.only_run)) runs.push_back(run.get());
  drawn.bounds = picture_bounds(plan, runs);
  drawn.framing = picture_framing(plan, runs);
  const Bounds room = room_about(plan, drawn.framing);
  const auto keep = [&](const std::shared_ptr<const void>& shown, const Bounds& where, double size, auto make) {
    const auto found = kept_.find(shown.get());
    const bool same = found != kept_.end() && found->second.where.low == where.low &&
                      found->second.where.high == where.high && found->second.size == size;
    const Kept kept = same ? found->second : Kept{shown, where, size, std::make_shared<const Part>(make())};
    next_[shown.get()] = kept;
    drawn.parts.push_back(kept.part);
  };

  for (const auto& run : plan.runs) {
    if (!wanted(*run, options.only_run)) continue;
    keep(run, Bounds(), 0, [&] { return draw_run(*run); });
    add_stretches(drawn.pipes, run->line, run->tube->outside_radius_mm());
  }
  drawn.labels = run_labels(runs, options);
  std::vector<Vec3> middles;
  for (const auto& fixture : plan.fixtures) {
    const bool endless = std::holds_alternative<HalfSpace>(fixture->body.shape);
    keep(fixture, endless ? room : Bounds(), 0, [&] { return draw_fixture(*fixture, room); });
    middles.push_back(middle_of(*fixture, room));
  }
  for (Label& label : fixture_labels(plan, middles)) drawn.labels.push_back(std::move(label));
  for (const auto& connection : plan.connections) {
    const double size = diameter_at(plan, *connection);
    keep(connection, Bounds(), size, [&] { return draw_connection(*connection, size); });
    drawn.labels.push_back({LabelKind::connection, connection->name, connection->at});
  }
  kept_ = std::move(next_);

  Failures failures = draw_failures(plan, runs, options.clearances);
  for (Part& part : failures.bands) drawn.parts.push_back(std::make_shared<Part>(std::move(part)));
  for (Label& label : failures.labels) drawn.labels.push_back(std::move(label));
  gather_failures(drawn.labels);
  keep_the_foremost(drawn.labels);
  drawn.dimensions = std::move(failures.dimensions);
  add_drillings(drawn, plan, options.only_run);
  add_chosen(drawn, plan, options, room);
  if (options.caption) drawn.caption = caption_of(plan);
  drawn.failing = plan.fails();
  return drawn;
}

}  // namespace halfhard
