#include "exporters/page/glb_buffer.h"

#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstring>

#include "exporters/page/markup.h"

namespace halfhard {
namespace {

std::string number(double value) {
  char digits[32];
  return {digits, std::to_chars(digits, digits + sizeof digits, static_cast<float>(value) + 0.0f).ptr};
}

std::string triple(const Vec3& v) { return "[" + number(v.x()) + "," + number(v.y()) + "," + number(v.z()) + "]"; }

std::string list(const std::vector<std::string>& items) {
  std::string text = "[";
  for (std::size_t i = 0; i < items.size(); ++i) text += (i > 0 ? "," : "") + items[i];
  return text + "]";
}

// glTF is little-endian whatever the machine is.
void append_u32(std::string& bytes, std::uint32_t value) {
  for (int shift = 0; shift < 32; shift += 8) bytes += static_cast<char>(value >> shift & 0xFF);
}

void append_float(std::string& bytes, double value) {
  const float single = static_cast<float>(value);
  std::uint32_t bits = 0;
  std::memcpy(&bits, &single, sizeof bits);
  append_u32(bytes, bits);
}

// Materials are in linear light.
double linear(double srgb) { return srgb <= 0.04045 ? srgb / 12.92 : std::pow((srgb + 0.055) / 1.055, 2.4); }

}  // namespace

int GlbBuffer::add_material(const PartColour& colour, double metallic, double roughness) {
  std::string text = "{\"pbrMetallicRoughness\":{\"baseColorFactor\":[" + number(linear(colour.red)) + "," +
                     number(linear(colour.green)) + "," + number(linear(colour.blue)) + "," +
                     number(1 - colour.transparency) + "],\"metallicFactor\":" + number(metallic) +
                     ",\"roughnessFactor\":" + number(roughness) + "}";
  if (colour.transparency > 0) text += ",\"alphaMode\":\"BLEND\"";
  materials_.push_back(text + ",\"doubleSided\":true}");
  return static_cast<int>(materials_.size()) - 1;
}

int GlbBuffer::add_mesh(const ShadedMesh& mesh, const Vec3& origin, int material) {
  const auto add_view = [&](std::size_t start, int target) {
    views_.push_back("{\"buffer\":0,\"byteOffset\":" + std::to_string(start) + ",\"byteLength\":" +
                     std::to_string(bytes_.size() - start) + ",\"target\":" + std::to_string(target) + "}");
    return std::to_string(views_.size() - 1);
  };
  constexpr int kFloat = 5126, kUnsignedInt = 5125, kArray = 34962, kIndices = 34963;
  const std::string count = std::to_string(mesh.vertices.size());
  const auto add_vectors = [&](const std::vector<Vec3>& vectors, const Vec3& from) {
    const std::size_t start = bytes_.size();
    Vec3 least = Vec3::Constant(1e30), most = Vec3::Constant(-1e30);
    for (const Vec3& vector : vectors) {
      const Vec3 held = (vector - from).cast<float>().cast<double>();
      for (int i = 0; i < 3; ++i) append_float(bytes_, held[i]);
      least = least.cwiseMin(held);
      most = most.cwiseMax(held);
    }
    accessors_.push_back("{\"bufferView\":" + add_view(start, kArray) + ",\"componentType\":" + std::to_string(kFloat) +
                         ",\"count\":" + count + ",\"type\":\"VEC3\",\"min\":" + triple(least) +
                         ",\"max\":" + triple(most) + "}");
    return std::to_string(accessors_.size() - 1);
  };
  const std::string positions = add_vectors(mesh.vertices, origin);
  const std::string normals = add_vectors(mesh.normals, Vec3::Zero());
  const std::size_t start = bytes_.size();
  for (const auto& triangle : mesh.triangles) {
    for (const int corner : triangle) append_u32(bytes_, static_cast<std::uint32_t>(corner));
  }
  accessors_.push_back("{\"bufferView\":" + add_view(start, kIndices) +
                       ",\"componentType\":" + std::to_string(kUnsignedInt) +
                       ",\"count\":" + std::to_string(3 * mesh.triangles.size()) + ",\"type\":\"SCALAR\"}");
  meshes_.push_back("{\"primitives\":[{\"attributes\":{\"POSITION\":" + positions + ",\"NORMAL\":" + normals +
                    "},\"indices\":" + std::to_string(accessors_.size() - 1) +
                    ",\"material\":" + std::to_string(material) + "}]}");
  return static_cast<int>(meshes_.size()) - 1;
}

void GlbBuffer::add_node(int mesh, const Vec3& at, const std::string& name, int run) {
  std::string text =
      "{\"name\":" + json_text(name) + ",\"mesh\":" + std::to_string(mesh) + ",\"translation\":" + triple(at);
  if (run >= 0) text += ",\"extras\":{\"run\":" + std::to_string(run) + "}";
  nodes_.push_back(text + "}");
}

std::string GlbBuffer::glb() const {
  std::string children;
  for (std::size_t i = 0; i < nodes_.size(); ++i) children += (i > 0 ? "," : "") + std::to_string(i + 1);
  std::vector<std::string> nodes = {
      "{\"name\":\"site\",\"rotation\":[-0.70710678,0,0,0.70710678],\"scale\":[0.001,0.001,0.001]" +
      (children.empty() ? "" : ",\"children\":[" + children + "]") + "}"};
  nodes.insert(nodes.end(), nodes_.begin(), nodes_.end());
  std::string json =
      "{\"asset\":{\"version\":\"2.0\",\"generator\":\"halfhard\"},\"scene\":0,"
      "\"scenes\":[{\"nodes\":[0]}],\"nodes\":" +
      list(nodes);
  if (!meshes_.empty()) {
    json += ",\"meshes\":" + list(meshes_) + ",\"materials\":" + list(materials_) +
            ",\"accessors\":" + list(accessors_) + ",\"bufferViews\":" + list(views_) +
            ",\"buffers\":[{\"byteLength\":" + std::to_string(bytes_.size()) + "}]";
  }
  json += "}";
  while (json.size() % 4 != 0) json += ' ';
  const bool has_bytes = !bytes_.empty();
  std::string file = "glTF";
  append_u32(file, 2);
  append_u32(file, static_cast<std::uint32_t>(12 + 8 + json.size() + (has_bytes ? 8 + bytes_.size() : 0)));
  append_u32(file, static_cast<std::uint32_t>(json.size()));
  file += "JSON" + json;
  if (has_bytes) {  // floats and whole numbers of 4 bytes: always a multiple of 4
    append_u32(file, static_cast<std::uint32_t>(bytes_.size()));
    file.append("BIN\0", 4);
    file += bytes_;
  }
  return file;
}

}  // namespace halfhard
