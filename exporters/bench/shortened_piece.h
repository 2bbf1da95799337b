// A piece with its long straights cut short for a picture: every leg keeps its direction, so that the piece is turned as
// it truly is; what lies around the hook stays where it is.
#pragma once

#include <vector>

#include "geometry/bending/forming.h"

namespace halfhard {

class ShortenedPiece {
 public:
  // Straights longer than 1.3 times `keep_mm` are cut to it; those beside the hook keep that much on either side of it.
  ShortenedPiece(const FormedPiece& piece, double keep_mm);

  const CentreLine& line() const { return line_; }
  // Where what stood at `place`, on or near the tube, stands now; what stood at a stretch that was cut out stands close to
  // the cut.
  Vec3 moved(const Vec3& place) const;
  // Along the shortened line, from along the true one. Requires a place that was not cut out.
  double moved_along(double s_mm) const;

  // Where a straight was cut, in the shortened piece.
  struct Break {
    Vec3 at, along;
    bool at_end;  // the end of the tube lies farther off
  };
  std::vector<Break> breaks() const;

 private:
  struct Cut {
    double at_mm, removed_mm;  // along the true line
    Vec3 along;
    double from_mm, until_mm;  // of the straight
    // How much of what was cut out lies before a place, the edges of the cut drawn out a little.
    double removed_before(double s_mm) const;
  };
  void cut(double from_mm, double until_mm, double keep_mm);
  Vec3 shift(double s_mm) const;

  CentreLine whole_, line_;
  double hook_at_mm_ = 0;
  std::vector<Cut> cuts_;
};

}  // namespace halfhard
