#include "modeller/bench/readings.h"

#include <algorithm>
#include <cmath>

namespace halfhard {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

std::string leg_name(const PieceModel& model, int leg) {
  const bool first = leg == 0, last = leg == model.bend_count();
  if (first) return "leg 1 (start end to bend 1)";
  const std::string from = "leg " + std::to_string(leg + 1) + " (bend " + std::to_string(leg) + " to ";
  return from + (last ? "far end)" : "bend " + std::to_string(leg + 1) + ")");
}

std::string end_name(End end) { return end == End::datum ? "the start end" : "the far end"; }

// Where a leg's straight starts and ends, bends that are not made passed over; fitting faces at the tube's ends.
Vec3 leg_starts(const MadeShape& shape, int leg) {
  for (int bend = leg - 1; bend >= 0; --bend)
    if (shape.made[at(bend)]) return shape.ends[at(bend)];
  return shape.datum_face;
}
Vec3 leg_ends(const MadeShape& shape, int leg) {
  for (int bend = leg; bend < static_cast<int>(shape.made.size()); ++bend)
    if (shape.made[at(bend)]) return shape.starts[at(bend)];
  return shape.free_face;
}

Vec3 place_of(const MadeShape& shape, const TapePlace& place) {
  if (const auto* bend = std::get_if<AtBend>(&place)) return shape.backs[at(bend->number - 1)];
  return std::get<End>(place) == End::datum ? shape.datum_end : shape.free_end;
}

std::string place_name(const TapePlace& place) {
  if (const auto* bend = std::get_if<AtBend>(&place)) return "the back of bend " + std::to_string(bend->number);
  return end_name(std::get<End>(place));
}

}  // namespace

ReadingOfPiece angle_reading(int bend) {
  ReadingOfPiece reading;
  reading.name = "the angle of bend " + std::to_string(bend + 1);
  reading.is_angle = true;
  reading.of_bend = bend;
  reading.shows = [bend](const MadeShape& shape) { return shape.angle[at(bend)].degrees(); };
  return reading;
}

ReadingOfPiece turn_reading(int bend) {
  ReadingOfPiece reading;
  reading.name = "the turn from the bend before to bend " + std::to_string(bend + 1);
  reading.is_angle = reading.is_turn = true;
  reading.of_bend = bend;
  reading.shows = [bend](const MadeShape& shape) { return shape.turn[at(bend)].degrees(); };
  return reading;
}

ReadingOfPiece leg_reading(const PieceModel& model, int leg) {
  ReadingOfPiece reading;
  reading.name = leg_name(model, leg);
  reading.of_leg = leg;
  const double radius = model.run().line.radius_mm();
  reading.shows = [leg, radius](const MadeShape& shape) {
    const int bends = static_cast<int>(shape.made.size());
    const Vec3 from = leg == 0 ? shape.datum_face : shape.ends[at(leg - 1)];
    const Vec3 to = leg == bends ? shape.free_face : shape.starts[at(leg)];
    double length = (to - from).dot(shape.along[at(leg)]);
    if (leg > 0) length += radius * shape.angle[at(leg - 1)].tan_of_half();
    if (leg < bends) length += radius * shape.angle[at(leg)].tan_of_half();
    return length;
  };
  return reading;
}

ReadingOfPiece gap_reading(const PieceModel& model, std::array<int, 2> legs, Over over, bool far) {
  ReadingOfPiece reading;
  reading.name = "the gap from leg " + std::to_string(legs[0]) + " to leg " + std::to_string(legs[1]) +
                 (far ? " at the far end of it" : " near the bend");
  const double diameter = model.run().tube->outside_diameter_mm;
  const double added = over == Over::centre ? 0 : over == Over::outside ? diameter : -diameter;
  const int first = legs[0] - 1, second = legs[1] - 1;
  const bool at_start = (second > first) != far;
  reading.shows = [=](const MadeShape& shape) {
    const Vec3 place = at_start ? leg_starts(shape, second) : leg_ends(shape, second);
    return (place - leg_starts(shape, first)).cross(shape.along[at(first)]).norm() + added;
  };
  return reading;
}

ReadingOfPiece distance_reading(const TapePlace& from, const TapePlace& to) {
  ReadingOfPiece reading;
  reading.name = "the distance from " + place_name(from) + " to " + place_name(to);
  reading.shows = [=](const MadeShape& shape) { return (place_of(shape, to) - place_of(shape, from)).norm(); };
  return reading;
}

ReadingOfPiece height_reading(std::array<int, 2> plane_of, End of) {
  ReadingOfPiece reading;
  reading.name = "the height of " + end_name(of) + " with legs " + std::to_string(plane_of[0]) + " and " +
                 std::to_string(plane_of[1]) + " flat on the bench";
  const int a = plane_of[0] - 1, b = plane_of[1] - 1;
  reading.shows = [=](const MadeShape& shape) {
    const Vec3 normal = shape.along[at(a)].cross(shape.along[at(b)]).normalized();
    // Legs askew touch the bench half-way: the plane lies midway between them.
    const double plane = (leg_starts(shape, a) + leg_starts(shape, b)).dot(normal) / 2;
    return (of == End::datum ? shape.datum_end : shape.free_end).dot(normal) - plane;
  };
  return reading;
}

ReadingOfPiece ends_apart_reading(const PieceModel& model) {
  ReadingOfPiece reading;
  reading.name = "how far the ends are apart";
  const double datum = model.run().datum_insertion_mm(), free = model.run().free_insertion_mm();
  reading.shows = [=](const MadeShape& shape) {
    return (shape.free_face + free * shape.along.back() - shape.datum_face + datum * shape.along.front()).norm();
  };
  return reading;
}

bool leg_can_be_read(const PieceModel& model, int leg) {
  return (leg == 0 || model.made()[at(leg - 1)]) && (leg == model.bend_count() || model.made()[at(leg)]);
}

bool legs_are_parallel(const PieceModel& model, std::array<int, 2> legs) {
  const auto [from, to] = std::minmax(legs[0], legs[1]);
  if (from == to) return false;
  const MadeShape shape = model.shape(model.planned());
  bool bent = false;
  for (int bend = from - 1; bend < to - 1; ++bend) bent = bent || model.made()[at(bend)];
  const double across = shape.along[at(from - 1)].cross(shape.along[at(to - 1)]).norm();
  return bent && across <= Angle::degrees(1).sin();
}

namespace {

class Gathering {
 public:
  Gathering(const PieceModel& model, const MeasuredPiece& piece) : model_(model), piece_(piece) {}

  void add(ReadingOfPiece reading, double value) {
    reading.value = value;
    reading.error = reading.is_angle ? piece_.angle_error.degrees() : piece_.length_error_mm;
    readings.push_back(std::move(reading));
  }
  void add_planned(ReadingOfPiece reading) {
    const double value = reading.shows(model_.shape(model_.planned()));
    add(std::move(reading), value);
  }
  std::vector<ReadingOfPiece> readings;

 private:
  const PieceModel& model_;
  const MeasuredPiece& piece_;
};

}  // namespace

std::vector<ReadingOfPiece> readings_of(const PieceModel& model, const MeasuredPiece& piece) {
  Gathering all(model, piece);
  for (const MeasuredBend& bend : piece.bends) {
    const int i = bend.number - 1;
    if (!model.made()[at(i)]) continue;
    if (bend.angle) all.add(angle_reading(i), bend.angle->degrees());
    if (bend.rotation && model.turn_at(i) >= 0)
      all.add(turn_reading(i), nearest_turn_deg(bend.rotation->degrees(), model.planned()[model.turn_at(i)]));
  }
  for (const MeasuredLeg& leg : piece.legs) all.add(leg_reading(model, leg.number - 1), leg.mm);
  for (const MeasuredGap& gap : piece.gaps) {
    if (gap.near_mm) all.add(gap_reading(model, gap.legs, gap.over, false), *gap.near_mm);
    if (gap.far_mm) all.add(gap_reading(model, gap.legs, gap.over, true), *gap.far_mm);
  }
  for (const MeasuredDistance& each : piece.distances) all.add(distance_reading(each.from, each.to), each.mm);
  for (const MeasuredHeight& each : piece.heights) all.add(height_reading(each.plane_of, each.of), each.mm);
  if (piece.ends_apart_mm) all.add(ends_apart_reading(model), *piece.ends_apart_mm);
  return std::move(all.readings);
}

std::vector<ReadingOfPiece> readings_to_add(const PieceModel& model, const MeasuredPiece& piece) {
  Gathering all(model, piece);
  const auto has = [](const auto& list, auto matches) { return std::ranges::any_of(list, matches); };
  for (int i = 0; i < model.bend_count(); ++i) {
    if (!model.made()[at(i)]) continue;
    const auto read = [&](auto which) {
      return has(piece.bends, [&](const MeasuredBend& bend) { return bend.number == i + 1 && (bend.*which); });
    };
    if (!read(&MeasuredBend::angle)) all.add_planned(angle_reading(i));
    if (model.turn_at(i) >= 0 && !read(&MeasuredBend::rotation)) all.add_planned(turn_reading(i));
  }
  for (int a = 1; a <= model.bend_count() + 1; ++a) {
    for (int b = a + 1; b <= model.bend_count() + 1; ++b) {
      const std::array<int, 2> legs = {a, b};
      if (!legs_are_parallel(model, legs)) continue;
      const auto read = [&](auto which) {
        return has(piece.gaps, [&](const MeasuredGap& gap) { return gap.legs == legs && (gap.*which); });
      };
      if (!read(&MeasuredGap::near_mm)) all.add_planned(gap_reading(model, legs, Over::outside, false));
      if (!read(&MeasuredGap::far_mm)) all.add_planned(gap_reading(model, legs, Over::outside, true));
    }
  }
  for (int leg = 0; leg <= model.bend_count(); ++leg) {
    const bool read = has(piece.legs, [&](const MeasuredLeg& each) { return each.number == leg + 1; });
    if (!read && leg_can_be_read(model, leg)) all.add_planned(leg_reading(model, leg));
  }
  if (!piece.ends_apart_mm) all.add_planned(ends_apart_reading(model));
  return std::move(all.readings);
}

}  // namespace halfhard
