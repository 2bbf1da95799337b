#include "modeller/solids/triangle_stream.h"

#include <charconv>
#include <cmath>
#include <cstring>

namespace halfhard {
namespace {

constexpr std::string_view kMagic = "halfhard-triangles/1\n";

template <typename Number>
void append_bytes(std::string& bytes, const Number* numbers, std::size_t count) {
  bytes.append(reinterpret_cast<const char*>(numbers), count * sizeof(Number));
}

// Takes what it reads off the front of `bytes`; false where there is too little.
template <typename Number>
bool take(std::string_view& bytes, Number* numbers, std::size_t count) {
  if (bytes.size() / sizeof(Number) < count) return false;
  std::memcpy(numbers, bytes.data(), count * sizeof(Number));
  bytes.remove_prefix(count * sizeof(Number));
  return true;
}

template <typename Number>
bool take_text(std::string_view& bytes, Number& number, char behind) {
  const auto [end, error] = std::from_chars(bytes.data(), bytes.data() + bytes.size(), number);
  if (error != std::errc() || end == bytes.data() + bytes.size() || *end != behind) return false;
  bytes.remove_prefix(end - bytes.data() + 1);
  return true;
}

bool take_exact(std::string_view& bytes, std::size_t size, TriangleBody& body) {
  if (size == 0) return true;
  if (bytes.size() < size) return false;
  ExactShape exact;
  exact.step_data = bytes.substr(0, size);
  bytes.remove_prefix(size);
  if (!take(bytes, exact.corners.data(), 3)) return false;
  for (Vec3& at : exact.at) {
    if (!take(bytes, at.data(), 3)) return false;
  }
  body.exact = std::make_shared<const ExactShape>(std::move(exact));
  return true;
}

}  // namespace

std::string written_triangles(const TriangleBody& body) {
  std::string bytes(kMagic);
  char number[32];
  const auto append_text = [&](auto value, char behind) {
    bytes.append(number, std::to_chars(number, number + sizeof number, value).ptr);
    bytes += behind;
  };
  append_text(body.deviation_mm, ' ');
  append_text(body.vertices.size(), ' ');
  append_text(body.triangles.size(), ' ');
  append_text(body.exact ? body.exact->step_data.size() : std::size_t{0}, '\n');
  for (const Vec3& vertex : body.vertices) append_bytes(bytes, vertex.data(), 3);
  for (const auto& triangle : body.triangles) append_bytes(bytes, triangle.data(), 3);
  if (body.exact && !body.exact->step_data.empty()) {
    bytes += body.exact->step_data;
    append_bytes(bytes, body.exact->corners.data(), 3);
    for (const Vec3& at : body.exact->at) append_bytes(bytes, at.data(), 3);
  }
  return bytes;
}

std::optional<TriangleBody> read_triangles(std::string_view bytes) {
  if (!bytes.starts_with(kMagic)) return std::nullopt;
  bytes.remove_prefix(kMagic.size());
  TriangleBody body;
  std::size_t vertices = 0, triangles = 0, data = 0;
  if (!take_text(bytes, body.deviation_mm, ' ') || !take_text(bytes, vertices, ' ') ||
      !take_text(bytes, triangles, ' ') || !take_text(bytes, data, '\n')) {
    return std::nullopt;
  }
  if (vertices > bytes.size() / (3 * sizeof(double)) || triangles > bytes.size() / (3 * sizeof(int))) {
    return std::nullopt;
  }
  body.vertices.resize(vertices);
  body.triangles.resize(triangles);
  for (Vec3& vertex : body.vertices) {
    if (!take(bytes, vertex.data(), 3) || !vertex.allFinite()) return std::nullopt;
  }
  for (auto& triangle : body.triangles) {
    if (!take(bytes, triangle.data(), 3)) return std::nullopt;
    for (const int corner : triangle) {
      if (corner < 0 || corner >= static_cast<int>(vertices)) return std::nullopt;
    }
  }
  if (!take_exact(bytes, data, body) || !bytes.empty()) return std::nullopt;
  return body;
}

}  // namespace halfhard
