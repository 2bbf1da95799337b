#include "exporters/step/splice.h"

#include <algorithm>
#include <charconv>
#include <map>

namespace halfhard {
namespace {

// An entity's text after "#n=", up to but without the ";", and the numbers that it refers to, in order of mention.
struct SourceEntity {
  std::string_view body;
  std::vector<int> references;
};

using Source = std::map<int, SourceEntity>;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Reads "#123" at `at`, which stands on the #; 0 where there is no number.
int read_number(std::string_view text, std::size_t& at) {
  const char* begin = text.data() + at + 1;
  int number = 0;
  const auto [end, error] = std::from_chars(begin, text.data() + text.size(), number);
  if (error != std::errc()) return 0;
  at = end - text.data();
  return number;
}

// The end of the text that is quoted at `at`, behind its last quote; npos where it does not end.
std::size_t behind_quoted(std::string_view text, std::size_t at) {
  const std::size_t end = text.find('\'', at + 1);
  return end == std::string_view::npos ? end : end + 1;  // a doubled quote is two texts side by side
}

std::optional<Source> read_source(std::string_view text) {
  Source source;
  std::size_t at = 0;
  while ((at = text.find('#', at)) != std::string_view::npos) {
    const int number = read_number(text, at);
    if (number <= 0) return std::nullopt;
    while (at < text.size() && (text[at] == ' ' || text[at] == '=' || text[at] == '\n' || text[at] == '\r')) ++at;
    SourceEntity entity;
    const std::size_t begin = at;
    while (at < text.size() && text[at] != ';') {
      if (text[at] == '\'') {
        at = behind_quoted(text, at);
        if (at == std::string_view::npos) return std::nullopt;
      } else if (text[at] == '#') {
        const int reference = read_number(text, at);
        if (reference <= 0) return std::nullopt;
        entity.references.push_back(reference);
      } else {
        ++at;
      }
    }
    if (at >= text.size()) return std::nullopt;
    entity.body = text.substr(begin, at - begin);
    if (!source.emplace(number, std::move(entity)).second) return std::nullopt;
  }
  return source;
}

bool is_solid(std::string_view body) {
  return body.starts_with("MANIFOLD_SOLID_BREP") || body.starts_with("BREP_WITH_VOIDS");
}

// The numbers that solids reach, each behind all that it refers to; empty where one is missing or refers to itself.
class Reached {
 public:
  explicit Reached(const Source& source) : source_(source) {}

  // A stack of our own: a hostile file could nest deeper than the program's.
  bool add(int root) {
    std::vector<std::pair<int, std::size_t>> open = {{root, 0}};
    while (!open.empty()) {
      auto& [number, next] = open.back();
      const auto entity = source_.find(number);
      if (entity == source_.end()) return false;
      if (next == 0 && !state_.emplace(number, kOpen).second) {
        if (state_[number] == kOpen) return false;
        open.pop_back();
        continue;
      }
      if (next == entity->second.references.size()) {
        state_[number] = kDone;
        order_.push_back(number);
        open.pop_back();
        continue;
      }
      open.emplace_back(entity->second.references[next++], 0);
    }
    return true;
  }

  const std::vector<int>& order() const { return order_; }

 private:
  enum State { kOpen, kDone };
  const Source& source_;
  std::map<int, State> state_;
  std::vector<int> order_;
};

EntityRef write_renumbered(Part21Text& text, std::string_view body, const std::map<int, EntityRef>& written) {
  text.start_entity();
  std::size_t copied = 0;
  for (std::size_t at = 0; at < body.size();) {
    if (body[at] == '\'') {
      at = behind_quoted(body, at);
    } else if (body[at] == '#' && at + 1 < body.size() && is_digit(body[at + 1])) {
      text.append(body.substr(copied, at - copied));
      text.append(written.at(read_number(body, at)));
      copied = at;
    } else {
      ++at;
    }
  }
  text.append(body.substr(copied));
  return text.end_entity();
}

}  // namespace

std::vector<EntityRef> splice_solids(Part21Text& text, std::string_view step_data) {
  const std::optional<Source> source = read_source(step_data);
  if (!source) return {};
  Reached reached(*source);
  std::vector<int> roots;
  for (const auto& [number, entity] : *source) {
    if (!is_solid(entity.body)) continue;
    if (!reached.add(number)) return {};
    roots.push_back(number);
  }
  std::map<int, EntityRef> written;
  for (const int number : reached.order()) {
    written[number] = write_renumbered(text, source->at(number).body, written);
  }
  std::vector<EntityRef> solids;
  for (const int root : roots) solids.push_back(written.at(root));
  return solids;
}

std::optional<Frame> frame_of(const TriangleBody& body) {
  if (!body.exact) return std::nullopt;
  const auto frame_on = [](const Vec3& a, const Vec3& b, const Vec3& c) {
    Mat3 axes;
    axes.col(0) = (b - a).normalized();
    axes.col(2) = (b - a).cross(c - a).normalized();
    axes.col(1) = axes.col(2).cross(axes.col(0));
    return axes;
  };
  const auto& then = body.exact->at;
  std::array<Vec3, 3> now;
  for (int i = 0; i < 3; ++i) {
    const int corner = body.exact->corners[i];
    if (corner < 0 || corner >= static_cast<int>(body.vertices.size())) return std::nullopt;
    now[i] = body.vertices[corner];
  }
  const Mat3 before = frame_on(then[0], then[1], then[2]);
  const Mat3 after = frame_on(now[0], now[1], now[2]);
  Frame frame;
  frame.axes = after * before.transpose();
  // A body that was only shifted gets a frame that is not turned by a rounding error.
  if ((frame.axes - Mat3::Identity()).cwiseAbs().maxCoeff() < 1e-12) frame.axes = Mat3::Identity();
  frame.origin = now[0] - frame.axes * then[0];
  for (int i = 0; i < 3; ++i) {
    const double size = 1 + then[i].norm() + frame.origin.norm();
    if (!((frame.axes * then[i] + frame.origin - now[i]).norm() < 1e-9 * size)) return std::nullopt;
  }
  return frame;
}

}  // namespace halfhard
