#include "viewer/places.h"

#include "viewer/draw_plan.h"
#include "viewer/solids.h"

namespace halfhard {
namespace {

NamedPlace place_of(PartKind kind, const std::string& name, const std::string& words, const Vec3& at) {
  NamedPlace place;
  place.picked.kind = kind;
  place.picked.name = name;
  place.picked.at = at;
  place.words = name + ", " + words;
  return place;
}

NamedThing places_of(const Run& run) {
  NamedThing places;
  const auto add = [&](const std::string& words, double along_mm) {
    places.push_back(place_of(PartKind::run, run.name, words, run.line.point_at(along_mm)));
    places.back().picked.along_mm = along_mm;
  };
  const double before = run.spare_datum_mm + run.datum_insertion_mm();
  add("start end", 0);
  for (const Bend& bend : run.bends)
    add("bend " + std::to_string(bend.number), (bend.start_of_bend_mm + bend.end_of_bend_mm) / 2 - before);
  add("far end", run.line.length_mm());
  return places;
}

NamedThing places_of(const Fixture& fixture) {
  NamedThing places;
  const auto add = [&](const std::string& words, const Vec3& at) {
    places.push_back(place_of(PartKind::fixture, fixture.name, words, at));
  };
  if (const auto* bar = std::get_if<Cylinder>(&fixture.body.shape)) {
    add("middle of one end", bar->from);
    add("middle of the other end", bar->to);
  } else if (const auto* plane = std::get_if<HalfSpace>(&fixture.body.shape)) {
    add("its face", plane->at);
  } else if (const auto* box = std::get_if<Box>(&fixture.body.shape)) {
    int number = 0;
    for (const Vec3& corner : corners_of({-box->half, box->half}))
      add("corner " + std::to_string(++number), box->centre + box->axes * corner);
  } else {
    const Bounds room = body_bounds(fixture);
    add("middle", room.empty() ? Vec3(0, 0, 0) : Vec3((room.low + room.high) / 2));
  }
  return places;
}

}  // namespace

std::vector<NamedThing> named_things(const Plan& plan) {
  std::vector<NamedThing> things;
  for (const auto& run : plan.runs) things.push_back(places_of(*run));
  for (const auto& connection : plan.connections)
    things.push_back({place_of(PartKind::connection, connection->name, "its face", connection->at)});
  for (const auto& fixture : plan.fixtures) things.push_back(places_of(*fixture));
  return things;
}

}  // namespace halfhard
