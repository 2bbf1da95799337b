#include "exporters/bench/template_tiling.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <tuple>

namespace halfhard {
namespace {

constexpr double kMostPages = 120;  // more than this nobody lays together
constexpr double kMostCells = 600;  // and a grid of more is not looked through
constexpr double kAround_mm = 12;   // paper left around the piece, at least, both sides together
constexpr double kSliver_mm = 10;
constexpr int kShifts = 9;  // places of the grid that are tried each way

using Strokes = std::vector<std::vector<Vec2>>;

Strokes strokes_of(const TemplateDrawing& drawing) {
  Strokes strokes;
  for (const Entity& entity : drawing.entities) {
    if (belongs_to_piece(entity)) strokes.push_back(points_of(entity));
  }
  return strokes;
}

// What of the piece lies in a rectangle: its size, or nothing.
std::optional<Vec2> extent_in(const Strokes& strokes, const Vec2& low, const Vec2& high) {
  Vec2 least = Vec2::Constant(std::numeric_limits<double>::infinity()), most = -least;
  for (const auto& stroke : strokes) {
    for (size_t i = 0; i + 1 < stroke.size(); ++i) {
      Vec2 from = stroke[i], to = stroke[i + 1];
      if (!clip(low, high, from, to)) continue;
      least = least.cwiseMin(from).cwiseMin(to);
      most = most.cwiseMax(from).cwiseMax(to);
    }
  }
  if (least.x() > most.x()) return std::nullopt;
  return Vec2(most - least);
}

struct Grid {
  Vec2 window, step;
  double columns, rows;  // whole numbers; double, because a run may be a hundred kilometres long
  Vec2 whole() const { return step.cwiseProduct(Vec2(columns - 1, rows - 1)) + window; }
};

Grid grid_of(const Vec2& size, const Vec2& window, double overlap_mm) {
  const Vec2 step = window - Vec2::Constant(overlap_mm);
  const auto count = [](double length, double room, double by) {
    return length <= room ? 1.0 : 1 + std::ceil((length - room) / by);
  };
  return {window, step, count(size.x(), window.x(), step.x()), count(size.y(), window.y(), step.y())};
}

struct Laid {
  std::vector<PageWindow> pages;
  int slivers = 0;
};

// A page is printed for what none of its neighbours shows: within its window less the overlaps.
Laid laid(const Strokes& strokes, const Grid& grid, const Vec2& origin, double overlap_mm) {
  Laid found;
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      PageWindow page;
      page.column = column;
      page.row = row;
      page.low = origin + grid.step.cwiseProduct(Vec2(column, row));
      page.high = page.low + grid.window;
      const Vec2 low = page.low + overlap_mm * Vec2(column > 0 ? 1 : 0, row > 0 ? 1 : 0);
      const Vec2 high = page.high - overlap_mm * Vec2(column + 1 < grid.columns ? 1 : 0, row + 1 < grid.rows ? 1 : 0);
      const std::optional<Vec2> extent = extent_in(strokes, low, high);
      if (!extent) continue;
      found.slivers += extent->minCoeff() < kSliver_mm ? 1 : 0;
      found.pages.push_back(page);
    }
  }
  return found;
}

// A stroke along an overlap, narrower than it, may be on no page yet.
void add_missing(std::vector<PageWindow>& pages, const Strokes& strokes, const Grid& grid, const Vec2& origin) {
  constexpr double kBetween_mm = 2;
  const auto need = [&](const Vec2& at) {
    for (const PageWindow& page : pages) {
      if (page.holds(at)) return;
    }
    PageWindow page;
    const Vec2 place = (at - origin).cwiseQuotient(grid.step);
    page.column = static_cast<int>(std::clamp(std::floor(place.x()), 0.0, grid.columns - 1));
    page.row = static_cast<int>(std::clamp(std::floor(place.y()), 0.0, grid.rows - 1));
    page.low = origin + grid.step.cwiseProduct(Vec2(page.column, page.row));
    page.high = page.low + grid.window;
    pages.push_back(page);
  };
  for (const auto& stroke : strokes) {
    for (size_t i = 0; i + 1 < stroke.size(); ++i) {
      const Vec2 way = stroke[i + 1] - stroke[i];
      const int parts = 1 + static_cast<int>(way.norm() / kBetween_mm);
      for (int k = 0; k <= parts; ++k) need(stroke[i] + way * k / parts);
    }
  }
  std::sort(pages.begin(), pages.end(), [](const PageWindow& a, const PageWindow& b) {
    return std::tie(a.row, a.column) < std::tie(b.row, b.column);
  });
}

}  // namespace

bool clip(const Vec2& low, const Vec2& high, Vec2& from, Vec2& to) {
  double enter = 0, leave = 1;
  const Vec2 way = to - from;
  for (int axis = 0; axis < 2; ++axis) {
    if (way[axis] == 0) {
      if (from[axis] < low[axis] || from[axis] > high[axis]) return false;
      continue;
    }
    const double a = (low[axis] - from[axis]) / way[axis], b = (high[axis] - from[axis]) / way[axis];
    enter = std::max(enter, std::min(a, b));
    leave = std::min(leave, std::max(a, b));
  }
  if (enter >= leave) return false;
  const Vec2 start = from;
  from = start + enter * way;
  to = start + leave * way;
  return true;
}

Tiling tiling(const TemplateDrawing& drawing, const Vec2& window, double overlap_mm) {
  const Vec2 size = drawing.high - drawing.low + Vec2::Constant(kAround_mm);
  const Grid grid = grid_of(size, window, overlap_mm);
  Tiling result;
  if (grid.columns * grid.rows > kMostCells) {
    result.too_many = true;
    return result;
  }
  result.columns = static_cast<int>(grid.columns);
  result.rows = static_cast<int>(grid.rows);
  const Strokes strokes = strokes_of(drawing);
  const Vec2 centred = drawing.low - (grid.whole() - (drawing.high - drawing.low)) / 2;
  const Vec2 play = (grid.whole() - size) / 2;
  std::optional<Laid> best;
  Vec2 origin = centred;
  double best_away = 0;
  for (int i = 0; i < kShifts; ++i) {
    for (int j = 0; j < kShifts; ++j) {
      const Vec2 share(2.0 * i / (kShifts - 1) - 1, 2.0 * j / (kShifts - 1) - 1);
      const Vec2 place = centred + share.cwiseProduct(play);
      Laid one = laid(strokes, grid, place, overlap_mm);
      const double away = share.norm();
      if (best &&
          std::tuple(one.pages.size(), one.slivers, away) >= std::tuple(best->pages.size(), best->slivers, best_away))
        continue;
      best = std::move(one);
      best_away = away;
      origin = place;
    }
  }
  result.pages = std::move(best->pages);
  add_missing(result.pages, strokes, grid, origin);
  result.low = origin;
  result.high = origin + grid.whole();
  if (static_cast<double>(result.pages.size()) > kMostPages) {
    result.pages.clear();
    result.too_many = true;
  }
  return result;
}

}  // namespace halfhard
