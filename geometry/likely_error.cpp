#include "geometry/likely_error.h"

#include <cmath>

#include "geometry/shown.h"

namespace halfhard {

LikelyError likely_error(const Run& run, const Tolerance& tolerance) {
  LikelyError error;
  error.assumed.mark_mm = kMarkError_mm;
  error.assumed.angle = tolerance.angle;
  error.assumed.rotation = tolerance.angle;
  error.assumed.radius_mm =
      run.bender->radius_measured ? kMeasuredRadiusError_mm : kUnmeasuredRadiusError_share * run.line.radius_mm();
  error.at_end = end_error(run, error.assumed);
  error.mm = error.at_end.total_mm();
  return error;
}

std::string likely_error_text(const Run& run, const Tolerance& tolerance, LengthUnit unit) {
  if (run.bends.empty()) return "";
  const LikelyError error = likely_error(run, tolerance);
  const double turned_mm = std::hypot(error.at_end.angles_mm, error.at_end.rotations_mm);
  const std::string radius = run.bender->radius_measured ? "the radius" : "the radius, which was not measured,";
  const auto part = [unit](const std::string& what, const std::string& within, double mm) {
    return what + " within " + within + " (" + shown_length(mm, unit) + ")";
  };
  return "Likely error: bent by this table alone, without the checks, the free end may miss by about " +
         shown_length(error.mm, unit) + ". It comes from " +
         part("angles and turns", shown_angle(error.assumed.angle), turned_mm) + ", " +
         part("marks", shown_length(error.assumed.mark_mm, unit), error.at_end.marks_mm) + " and " +
         part(radius, shown_length(error.assumed.radius_mm, unit), error.at_end.radius_mm) + ".";
}

}  // namespace halfhard
