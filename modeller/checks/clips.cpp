#include "modeller/checks/clips.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "geometry/words/shown.h"
#include "modeller/checks/saying.h"
#include "modeller/rules/limits.h"

namespace halfhard {
namespace {

struct SizeRow {
  double outside_diameter_mm, level_mm, upright_mm;
};
constexpr const char* kEuropean = "BS EN 806-4 / BS 8558, from memory";
constexpr const char* kAmerican = "IRC P2605";
constexpr std::array kRows = {SizeRow{0, 1200, 1800}, SizeRow{22, 1800, 2400}, SizeRow{35, 2400, 3000}};
constexpr SizeRow kAmericanRow = {0, 6 * 304.8, 10 * 304.8};
constexpr double kSizeSlack_mm = 0.3;

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

std::string listed(const std::vector<Clip>& clips, const Job& job) {
  std::string text;
  for (std::size_t i = 0; i < clips.size(); ++i) {
    if (i > 0) text += i + 1 == clips.size() ? " and " : ", ";
    text += shown_length_bare(clips[i].along_mm, job.unit);
  }
  return text + (job.unit == LengthUnit::mm ? " mm" : " in");
}

}  // namespace

ClipSpacing clip_spacing(const Tube& tube) {
  if (tube.standard == "ASTM B88") return {kAmericanRow.level_mm, kAmericanRow.upright_mm, kAmerican, ""};
  const SizeRow* row = &kRows.front();
  for (const SizeRow& candidate : kRows) {
    if (tube.outside_diameter_mm >= candidate.outside_diameter_mm - kSizeSlack_mm) row = &candidate;
  }
  return {row->level_mm, row->upright_mm, kEuropean, ""};
}

ClipSpacing clip_spacing(const Tube& tube, const Job& job) {
  ClipSpacing spacing = clip_spacing(tube);
  const LimitInUse level = limit_in_use(job, "clip_level"), upright = limit_in_use(job, "clip_upright");
  if (level.value > 0) spacing.level_mm = level.value;
  if (upright.value > 0) spacing.upright_mm = upright.value;
  if (level.value > 0 || upright.value > 0) {
    spacing.source = level.value > 0 ? level.source : upright.source;
    spacing.remark = level.value > 0 ? level.remark : upright.remark;
  }
  return spacing;
}

std::vector<Clip> clip_places(const Run& run, const ClipSpacing& spacing) {
  std::vector<Clip> clips;
  for (const double along : places_along(Held(run, spacing))) {
    clips.push_back({run.name, along, run.line.point_at(along), run.line.direction_at(along)});
  }
  return clips;
}

std::vector<Clip> clip_places(const Run& run) { return clip_places(run, clip_spacing(*run.tube)); }

void check_clips(const RunContext& context, std::vector<Finding>& findings) {
  const auto& [run, job] = context;
  const ClipSpacing spacing = clip_spacing(*run.tube, job);
  const Held held(run, spacing);
  const std::vector<Clip> clips = clip_places(run, spacing);
  const Figure allowed{0, spacing.level_mm, "mm", spacing.source};
  const std::string apart =
      length(spacing.level_mm, job) + " apart level and " + length(spacing.upright_mm, job) + " upright";
  if (clips.empty()) {
    findings.push_back(say("clips", Severity::note, run,
                           in_quotes(run.name) + " has no straight long enough for a clip: hold it by its fittings.",
                           allowed));
    return;
  }
  double before = 0, widest = 0, widest_limit = spacing.level_mm;
  const auto stretch = [&](double until, double limit) {
    if (until - before > limit + kEnough_mm && until - before > widest) widest = until - before, widest_limit = limit;
    before = until;
  };
  for (const Clip& clip : clips) stretch(clip.along_mm, held.limit_mm(before, clip.along_mm));
  stretch(held.length_mm(), held.end_limit_mm(before));
  if (widest > 0) {
    findings.push_back(say("clip-spacing", Severity::warn, run,
                           in_quotes(run.name) + " goes " + length_beside(widest, widest_limit, job) +
                               " with no straight to clip where " + length(widest_limit, job) +
                               " is the most: hold it by a bracket at a bend" + spacing.remark + ".",
                           {widest, widest_limit, "mm", spacing.source}));
  }
  const std::string where = clips.size() <= 6 ? "at " + listed(clips, job) + " along it from the mouth at its datum end"
                                              : "in " + std::to_string(clips.size()) + " places";
  findings.push_back(
      say("clips", Severity::note, run,
          "Clip " + in_quotes(run.name) + " " + where + " (at most " + apart + ")" + spacing.remark + ".",
          {static_cast<double>(clips.size()), 0, "clips", spacing.source}));
}

}  // namespace halfhard
