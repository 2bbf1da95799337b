#include "geometry/rules/clip_places.h"

#include <algorithm>
#include <cmath>

namespace halfhard {
namespace {

constexpr double kEnough_mm = 1e-6;  // rounding never makes a stretch too long

struct Stretch {
  double from_mm, to_mm;
};

// The line as clips see it.
class Held {
 public:
  Held(const Run& run, const ClipSpacing& spacing) : run_(run), spacing_(spacing) {
    const double margin = run.tube->outside_diameter_mm;
    for (const Piece& piece : run.line.pieces()) {
      if (!std::holds_alternative<Straight>(piece.shape)) continue;
      const Stretch stretch{piece.starts_at_mm + margin, piece.starts_at_mm + piece.length_mm - margin};
      if (stretch.to_mm >= stretch.from_mm) allowed_.push_back(stretch);
    }
  }

  const std::vector<Stretch>& allowed() const { return allowed_; }

  // How far apart two neighbours may stand: the upright spacing where all between them is upright.
  double limit_mm(double from_mm, double to_mm) const {
    for (const Piece& piece : run_.line.pieces()) {
      if (piece.starts_at_mm >= to_mm || piece.starts_at_mm + piece.length_mm <= from_mm) continue;
      const auto* straight = std::get_if<Straight>(&piece.shape);
      if (!straight || std::abs((straight->to - straight->from).z()) < 0.7 * piece.length_mm) return spacing_.level_mm;
    }
    return spacing_.upright_mm;
  }

  // What the last stretch to the end of the tube may be.
  double end_limit_mm(double from_mm) const { return limit_mm(from_mm, length_mm()) * end_share(); }
  double end_share() const { return run_.to ? 1.0 : 0.5; }  // an open end hangs free

  double length_mm() const { return run_.line.length_mm(); }

  bool spaced(const std::vector<double>& places) const {
    double before = 0;
    for (const double place : places) {
      if (place - before > limit_mm(before, place) + kEnough_mm) return false;
      before = place;
    }
    return length_mm() - before <= end_limit_mm(before) + kEnough_mm;
  }

  // The farthest place after `from_mm` that keeps the spacing; failing that the next place there is.
  std::optional<double> next(double from_mm) const {
    std::optional<double> farthest, nearest;
    for (const Stretch& stretch : allowed_) {
      for (const double reach : {spacing_.level_mm, spacing_.upright_mm}) {
        const double place = std::min(stretch.to_mm, from_mm + reach);
        if (place <= from_mm + kEnough_mm || place < stretch.from_mm) continue;
        if (place - from_mm <= limit_mm(from_mm, place) + kEnough_mm) farthest = std::max(farthest.value_or(0), place);
      }
      const double after = std::max(stretch.from_mm, from_mm + run_.tube->outside_diameter_mm);
      if (after <= stretch.to_mm && !nearest) nearest = after;
    }
    return farthest ? farthest : nearest;
  }

  double snapped(double place) const {
    double best = place, least = INFINITY;
    for (const Stretch& stretch : allowed_) {
      const double there = std::clamp(place, stretch.from_mm, stretch.to_mm);
      if (std::abs(there - place) < least) least = std::abs(there - place), best = there;
    }
    return best;
  }

 private:
  const Run& run_;
  const ClipSpacing& spacing_;
  std::vector<Stretch> allowed_;
};

std::vector<double> places_along(const Held& held) {
  std::vector<double> places;
  if (held.allowed().empty()) return places;
  double at = 0;
  while (held.length_mm() - at > held.end_limit_mm(at) + kEnough_mm) {
    const std::optional<double> next = held.next(at);
    if (!next) break;
    places.push_back(at = *next);
  }
  if (places.empty()) {
    const auto longest = std::max_element(held.allowed().begin(), held.allowed().end(),
                                          [](auto& a, auto& b) { return a.to_mm - a.from_mm < b.to_mm - b.from_mm; });
    return {(longest->from_mm + longest->to_mm) / 2};
  }
  std::vector<double> even;
  const double each = held.length_mm() / (static_cast<double>(places.size()) + held.end_share());
  for (std::size_t i = 1; i <= places.size(); ++i) even.push_back(held.snapped(each * static_cast<double>(i)));
  const bool apart = std::adjacent_find(even.begin(), even.end(), std::greater_equal<>()) == even.end();
  return apart && held.spaced(even) ? even : places;
}

}  // namespace

std::vector<Clip> clip_places(const Run& run, const ClipSpacing& spacing) {
  std::vector<Clip> clips;
  for (const double along : places_along(Held(run, spacing))) {
    clips.push_back({run.name, along, run.line.point_at(along), run.line.direction_at(along)});
  }
  return clips;
}

std::optional<UnheldStretch> unheld_stretch(const Run& run, const ClipSpacing& spacing,
                                            const std::vector<Clip>& clips) {
  const Held held(run, spacing);
  UnheldStretch widest;
  double before = 0;
  const auto stretch = [&](double until, double limit) {
    if (until - before > limit + kEnough_mm && until - before > widest.length_mm) widest = {until - before, limit};
    before = until;
  };
  for (const Clip& clip : clips) stretch(clip.along_mm, held.limit_mm(before, clip.along_mm));
  stretch(held.length_mm(), held.end_limit_mm(before));
  return widest.length_mm > 0 ? std::optional(widest) : std::nullopt;
}

}  // namespace halfhard
