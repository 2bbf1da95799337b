// Readings of a bent piece as functions of its shape: what each kind of measurement would show.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "modeller/bench/made_piece.h"
#include "modeller/bench/measured.h"

namespace halfhard {

struct ReadingOfPiece {
  std::string name;  // "the angle of bend 2", within a sentence
  double value = 0;  // mm or degrees; a turn within half a turn of the planned one
  double error = 1;  // one standard deviation
  bool is_angle = false;
  int of_bend = -1;  // of an angle or turn read directly, 0-based
  bool is_turn = false;
  int of_leg = -1;  // of a leg read directly, 0-based
  std::function<double(const MadeShape&)> shows;
};

ReadingOfPiece angle_reading(int bend);  // 0-based; value and error are for the caller to set
ReadingOfPiece turn_reading(int bend);
ReadingOfPiece leg_reading(const PieceModel& model, int leg);
ReadingOfPiece gap_reading(const PieceModel& model, std::array<int, 2> legs, Over over, bool far);  // legs 1-based
ReadingOfPiece distance_reading(const TapePlace& from, const TapePlace& to);
ReadingOfPiece height_reading(std::array<int, 2> plane_of, End of);
ReadingOfPiece ends_apart_reading(const PieceModel& model);

// All that was read, in the order of the file.
std::vector<ReadingOfPiece> readings_of(const PieceModel& model, const MeasuredPiece& piece);
// All kinds that could be read of this piece, with the usual errors, those of `piece` left out: for what to measure next.
std::vector<ReadingOfPiece> readings_to_add(const PieceModel& model, const MeasuredPiece& piece);

// The bends of a leg: made, or none. A leg can be read where its neighbours are made or the tube ends.
bool leg_can_be_read(const PieceModel& model, int leg);
// Planned within 1 degree of parallel, either way round, and not one line by bends not made.
bool legs_are_parallel(const PieceModel& model, std::array<int, 2> legs);

}  // namespace halfhard
