#include "modeller/checks/saying.h"

#include <cmath>
#include <utility>

#include "geometry/words/shown.h"

namespace halfhard {

Finding say(const char* id, Severity severity, const Run& run, std::string message, Figure figure) {
  return {id,
          severity,
          run.name,
          std::move(message),
          figure.value,
          figure.limit,
          std::move(figure.unit),
          std::move(figure.source),
          run.pointer};
}

Finding at_place(Finding finding, const Vec3& at) {
  finding.at = at;
  return finding;
}

Vec3 place_of_bend(const Run& run, int number) {
  const Bend& bend = run.bends[number - 1];
  return run.line.point_at((bend.start_of_bend_mm + bend.end_of_bend_mm) / 2 - run.spare_datum_mm -
                           run.datum_insertion_mm());
}

Vec3 place_of_end(const Run& run, End end) {
  return end == End::datum ? run.line.points().front() : run.line.points().back();
}

Finding say_of_job(const char* id, Severity severity, std::string message, Figure figure, std::string pointer) {
  return {id,
          severity,
          "",
          std::move(message),
          figure.value,
          figure.limit,
          std::move(figure.unit),
          std::move(figure.source),
          std::move(pointer)};
}

std::string in_quotes(const std::string& name) { return "'" + name + "'"; }

std::string at_bend(const Run& run, int number) { return in_quotes(run.name) + ": bend " + std::to_string(number); }

std::string end_in_words(End end) { return end == End::datum ? "start end" : "far end"; }

std::string length(double mm, const Job& job) { return shown_length(mm, job.unit); }

std::string length_beside(double mm, double beside_mm, const Job& job) {
  const std::string shown = length(mm, job);
  if (mm == beside_mm || shown != length(beside_mm, job)) return shown;
  const double unit_mm = job.unit == LengthUnit::mm ? 1 : 25.4;
  const double value = mm / unit_mm, beside = beside_mm / unit_mm;
  const int decimals = shown_number(value, 3) == shown_number(beside, 3) ? 7 : 3;
  return shown_number(value, decimals) + (job.unit == LengthUnit::mm ? " mm" : " in");
}

std::string length_at_least(double mm, const Job& job) {
  return shown_least_bare(mm, job.unit) + (job.unit == LengthUnit::mm ? " mm" : " in");
}

std::string length_at_most(double mm, const Job& job) { return shown_clearance(mm, job.unit); }

std::string angle_beside(Angle angle, Angle beside) {
  const std::string shown = shown_angle(angle);
  if (angle == beside || shown != shown_angle(beside)) return shown;
  return shown_number(angle.degrees(), 4) + "°";
}

std::string per_cent(double value) { return shown_number(value, 1) + " %"; }

std::string place(const Vec3& at, const Job& job) {
  return "(" + shown_length_bare(at.x(), job.unit) + ", " + shown_length_bare(at.y(), job.unit) + ", " +
         shown_length_bare(at.z(), job.unit) + ")";
}

}  // namespace halfhard
