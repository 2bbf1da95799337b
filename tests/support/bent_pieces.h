// Pieces as a bench would make them: a plan's run with errors by chance, and readings of it by chance.
#pragma once

#include <cmath>
#include <numbers>
#include <random>

#include "modeller/bench/made_piece.h"
#include "modeller/bench/measured.h"
#include "modeller/bench/readings.h"

namespace halfhard::support {

// std:: distributions differ between libraries; this does not.
class Bench {
 public:
  explicit Bench(unsigned seed) : engine_(seed) {}
  double unit() { return engine_() / 4294967296.0; }
  double normal(double spread) {
    const double u = (engine_() + 1.0) / 4294967297.0, v = unit();
    return spread * std::sqrt(-2 * std::log(u)) * std::cos(2 * std::numbers::pi * v);
  }
  std::mt19937& engine() { return engine_; }

  // Angles out by `angles_deg`, turns and marks by what the piece's spread says.
  Eigen::VectorXd bent(const PieceModel& model, double angles_deg, const MeasuredPiece& piece) {
    Eigen::VectorXd made = model.planned();
    for (int bend = 0; bend < model.bend_count(); ++bend) {
      if (model.angle_at(bend) < 0) continue;
      made[model.angle_at(bend)] += normal(angles_deg);
      made[model.hook_at(bend)] += normal(piece.mark_spread_mm);
      if (model.turn_at(bend) >= 0) made[model.turn_at(bend)] += normal(piece.turn_spread.degrees());
    }
    return made;
  }
  double read(const ReadingOfPiece& reading, const MadeShape& shape, const MeasuredPiece& piece) {
    return reading.shows(shape) + normal(reading.is_angle ? piece.angle_error.degrees() : piece.length_error_mm);
  }

  // Every angle and, where wanted, every turn of what is made, read into `piece`.
  void read_bends(const PieceModel& model, const MadeShape& shape, bool turns, MeasuredPiece& piece) {
    for (int bend = 0; bend < model.bend_count(); ++bend) {
      if (model.angle_at(bend) < 0) continue;
      MeasuredBend read_bend;
      read_bend.number = bend + 1;
      read_bend.angle = Angle::degrees(read(angle_reading(bend), shape, piece));
      if (turns && model.turn_at(bend) >= 0)
        read_bend.rotation = Angle::degrees(read(turn_reading(bend), shape, piece));
      piece.bends.push_back(read_bend);
    }
  }
  void read_legs(const PieceModel& model, const MadeShape& shape, MeasuredPiece& piece) {
    for (int leg = 0; leg <= model.bend_count(); ++leg)
      if (leg_can_be_read(model, leg)) piece.legs.push_back({leg + 1, read(leg_reading(model, leg), shape, piece)});
  }
  void read_gap(const PieceModel& model, const MadeShape& shape, std::array<int, 2> legs, Over over,
                MeasuredPiece& piece) {
    piece.gaps.push_back({legs, over, read(gap_reading(model, legs, over, false), shape, piece),
                          read(gap_reading(model, legs, over, true), shape, piece)});
  }

 private:
  std::mt19937 engine_;
};

}  // namespace halfhard::support
