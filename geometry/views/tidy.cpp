#include "geometry/views/tidy.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>

namespace halfhard::views {
namespace {

constexpr double kSame_mm = 2e-3;

struct Span {
  double from, to;
};

// A line that some curves lie on.
struct Track {
  Vec2 origin, way;
  std::vector<size_t> members;
};

double along(const Track& track, const Vec2& p) { return track.way.dot(p - track.origin); }

bool on(const Track& track, const Vec2& p) {
  const Vec2 d = p - track.origin;
  return std::abs(track.way.x() * d.y() - track.way.y() * d.x()) < kSame_mm;
}

std::vector<Span> united(std::vector<Span> spans) {
  std::sort(spans.begin(), spans.end(), [](const Span& a, const Span& b) { return a.from < b.from; });
  std::vector<Span> result;
  for (const Span& span : spans) {
    if (!result.empty() && span.from <= result.back().to + kSame_mm)
      result.back().to = std::max(result.back().to, span.to);
    else
      result.push_back(span);
  }
  return result;
}

std::vector<Span> without(const std::vector<Span>& spans, const std::vector<Span>& taken) {
  std::vector<Span> result;
  for (Span span : spans) {
    for (const Span& cut : taken) {
      if (cut.to <= span.from || cut.from >= span.to) continue;
      if (cut.from > span.from) result.push_back({span.from, cut.from});
      span.from = cut.to;
    }
    if (span.to > span.from) result.push_back(span);
  }
  std::erase_if(result, [](const Span& span) { return span.to - span.from < kSame_mm; });
  return result;
}

// Lines sorted into tracks by direction; the longest first, so that short ones are judged against long ones.
std::vector<Track> tracks_of(const std::vector<ViewCurve>& curves) {
  std::vector<size_t> lines;
  for (size_t i = 0; i < curves.size(); ++i)
    if (std::holds_alternative<FlatLine>(curves[i].shape)) lines.push_back(i);
  const auto line = [&](size_t i) -> const FlatLine& { return std::get<FlatLine>(curves[i].shape); };
  std::stable_sort(lines.begin(), lines.end(), [&](size_t a, size_t b) {
    return (line(a).to - line(a).from).squaredNorm() > (line(b).to - line(b).from).squaredNorm();
  });
  std::vector<Track> tracks;
  std::map<int, std::vector<size_t>> by_angle;  // degrees, 0 to 179
  for (const size_t i : lines) {
    const Vec2 run = line(i).to - line(i).from;
    double degrees = std::atan2(run.y(), run.x()) * 180 / std::numbers::pi;
    if (degrees < 0) degrees += 180;
    const int bin = static_cast<int>(degrees) % 180;
    std::optional<size_t> found;
    for (const int near : {bin, (bin + 1) % 180, (bin + 179) % 180}) {
      for (const size_t t : by_angle[near])
        if (!found && on(tracks[t], line(i).from) && on(tracks[t], line(i).to)) found = t;
    }
    if (!found) {
      found = tracks.size();
      tracks.push_back({line(i).from, run.normalized(), {}});
      by_angle[bin].push_back(*found);
    }
    tracks[*found].members.push_back(i);
  }
  return tracks;
}

}  // namespace

void tidy_lines(std::vector<ViewCurve>& curves) {
  std::vector<bool> dropped(curves.size(), false);
  std::vector<ViewCurve> added;
  for (Track& track : tracks_of(curves)) {
    if (track.members.size() < 2) continue;
    std::sort(track.members.begin(), track.members.end());
    using Key = std::tuple<bool, CurveKind, int>;  // visible first
    std::map<Key, std::vector<Span>> groups;
    for (const size_t i : track.members) {
      const FlatLine& line = std::get<FlatLine>(curves[i].shape);
      const auto [from, to] = std::minmax({along(track, line.from), along(track, line.to)});
      groups[{!curves[i].visible, curves[i].kind, curves[i].object}].push_back({from, to});
      dropped[i] = true;
    }
    std::vector<Span> seen;
    for (const auto& [key, spans] : groups)
      if (!std::get<0>(key) && std::get<1>(key) != CurveKind::centre_line)
        seen.insert(seen.end(), spans.begin(), spans.end());
    seen = united(std::move(seen));
    for (const auto& [key, spans] : groups) {
      const auto [is_hidden, kind, object] = key;
      std::vector<Span> left = united(spans);
      if (is_hidden) left = without(left, seen);
      for (const Span& span : left)
        added.push_back({FlatLine{track.origin + span.from * track.way, track.origin + span.to * track.way}, kind,
                         !is_hidden, object});
    }
  }
  std::vector<ViewCurve> kept;
  for (size_t i = 0; i < curves.size(); ++i)
    if (!dropped[i]) kept.push_back(std::move(curves[i]));
  kept.insert(kept.end(), std::make_move_iterator(added.begin()), std::make_move_iterator(added.end()));
  curves = std::move(kept);
}

}  // namespace halfhard::views
