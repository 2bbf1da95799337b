#include "modeller/catalogue/tube_sizes.h"

#include <algorithm>
#include <cmath>

namespace halfhard {
namespace {

constexpr double kInch = 25.4;

constexpr std::string_view kMaker = "a tube maker's size list to EN 1057";
constexpr std::string_view kSecondMaker = "a second tube maker's size list to EN 1057";
constexpr std::string_view kThirdMaker = "a tube maker's table to SFS-EN 1057";
constexpr std::string_view kMemory = "EN 1057 table of sizes, from memory";
constexpr std::string_view kAstm = "ASTM B88 dimensions, engineeringtoolbox.com, ASTM copper tubes";
constexpr std::string_view kAstmM = "ASTM B88 dimensions of type M, from memory; agrees with a web copy of the table";

constexpr auto kSizes = std::to_array<TubeSize>({
    {"EN 1057", "6 x 0.6", 6, 0.6, kMaker},
    {"EN 1057", "6 x 0.8", 6, 0.8, kMemory},
    {"EN 1057", "6 x 1.0", 6, 1.0, kMemory},
    {"EN 1057", "8 x 0.6", 8, 0.6, kMaker},
    {"EN 1057", "8 x 0.8", 8, 0.8, kMemory},
    {"EN 1057", "8 x 1.0", 8, 1.0, kMemory},
    {"EN 1057", "10 x 0.6", 10, 0.6, kMaker},
    {"EN 1057", "10 x 0.7", 10, 0.7, kMemory},
    {"EN 1057", "10 x 0.8", 10, 0.8, kMemory},
    {"EN 1057", "10 x 1.0", 10, 1.0, kMemory},
    {"EN 1057", "12 x 0.6", 12, 0.6, kMaker},
    {"EN 1057", "12 x 0.7", 12, 0.7, kMemory},
    {"EN 1057", "12 x 0.8", 12, 0.8, kSecondMaker},
    {"EN 1057", "12 x 1.0", 12, 1.0, kMemory},
    {"EN 1057", "14 x 0.8", 14, 0.8, kMemory},
    {"EN 1057", "14 x 1.0", 14, 1.0, kMemory},
    {"EN 1057", "15 x 0.7", 15, 0.7, kMaker},
    {"EN 1057", "15 x 0.8", 15, 0.8, kMemory},
    {"EN 1057", "15 x 1.0", 15, 1.0, kMaker},
    {"EN 1057", "16 x 1.0", 16, 1.0, kMemory},
    {"EN 1057", "18 x 0.8", 18, 0.8, kMemory},
    {"EN 1057", "18 x 1.0", 18, 1.0, kMemory},
    {"EN 1057", "22 x 0.9", 22, 0.9, kMaker},
    {"EN 1057", "22 x 1.0", 22, 1.0, kThirdMaker},
    {"EN 1057", "22 x 1.1", 22, 1.1, kMemory},
    {"EN 1057", "22 x 1.2", 22, 1.2, kMaker},
    {"EN 1057", "22 x 1.5", 22, 1.5, kMemory},
    {"EN 1057", "28 x 0.9", 28, 0.9, kMaker},
    {"EN 1057", "28 x 1.0", 28, 1.0, kMemory},
    {"EN 1057", "28 x 1.2", 28, 1.2, kMaker},
    {"EN 1057", "28 x 1.5", 28, 1.5, kMemory},
    {"EN 1057", "35 x 1.0", 35, 1.0, kSecondMaker},
    {"EN 1057", "35 x 1.2", 35, 1.2, kMaker},
    {"EN 1057", "35 x 1.5", 35, 1.5, kSecondMaker},
    {"EN 1057", "42 x 1.0", 42, 1.0, kSecondMaker},
    {"EN 1057", "42 x 1.2", 42, 1.2, kMaker},
    {"EN 1057", "42 x 1.5", 42, 1.5, kSecondMaker},
    {"EN 1057", "54 x 1.0", 54, 1.0, kSecondMaker},
    {"EN 1057", "54 x 1.2", 54, 1.2, kMaker},
    {"EN 1057", "54 x 1.5", 54, 1.5, kMemory},
    {"EN 1057", "54 x 2.0", 54, 2.0, kSecondMaker},
    {"ASTM B88", "1/4 K", 0.375 * kInch, 0.035 * kInch, kAstm},
    {"ASTM B88", "1/4 L", 0.375 * kInch, 0.030 * kInch, kAstm},
    {"ASTM B88", "3/8 K", 0.5 * kInch, 0.049 * kInch, kAstm},
    {"ASTM B88", "3/8 L", 0.5 * kInch, 0.035 * kInch, kAstm},
    {"ASTM B88", "3/8 M", 0.5 * kInch, 0.025 * kInch, kAstmM},
    {"ASTM B88", "1/2 K", 0.625 * kInch, 0.049 * kInch, kAstm},
    {"ASTM B88", "1/2 L", 0.625 * kInch, 0.040 * kInch, kAstm},
    {"ASTM B88", "1/2 M", 0.625 * kInch, 0.028 * kInch, kAstmM},
    {"ASTM B88", "5/8 K", 0.75 * kInch, 0.049 * kInch, kAstm},
    {"ASTM B88", "5/8 L", 0.75 * kInch, 0.042 * kInch, kAstm},
    {"ASTM B88", "3/4 K", 0.875 * kInch, 0.065 * kInch, kAstm},
    {"ASTM B88", "3/4 L", 0.875 * kInch, 0.045 * kInch, kAstm},
    {"ASTM B88", "3/4 M", 0.875 * kInch, 0.032 * kInch, kAstmM},
    {"ASTM B88", "1 K", 1.125 * kInch, 0.065 * kInch, kAstm},
    {"ASTM B88", "1 L", 1.125 * kInch, 0.050 * kInch, kAstm},
    {"ASTM B88", "1 M", 1.125 * kInch, 0.035 * kInch, kAstmM},
    {"ASTM B88", "1 1/4 K", 1.375 * kInch, 0.065 * kInch, kAstm},
    {"ASTM B88", "1 1/4 L", 1.375 * kInch, 0.055 * kInch, kAstm},
    {"ASTM B88", "1 1/4 M", 1.375 * kInch, 0.042 * kInch, kAstmM},
    {"ASTM B88", "1 1/2 K", 1.625 * kInch, 0.072 * kInch, kAstm},
    {"ASTM B88", "1 1/2 L", 1.625 * kInch, 0.060 * kInch, kAstm},
    {"ASTM B88", "1 1/2 M", 1.625 * kInch, 0.049 * kInch, kAstmM},
    {"ASTM B88", "2 K", 2.125 * kInch, 0.083 * kInch, kAstm},
    {"ASTM B88", "2 L", 2.125 * kInch, 0.070 * kInch, kAstm},
    {"ASTM B88", "2 M", 2.125 * kInch, 0.058 * kInch, kAstmM},
});

constexpr std::string_view kRadiusSource = "DIN EN 1057 table for R250, IKZ-Praxis 2/2000 p. 8";
constexpr std::string_view kRadiusMemory = "least radius for R250, from memory";
constexpr std::string_view kHandbook = "Copper Tube Handbook, bending guide, drawn tube";
// A tube of an own size counts as the published one where it is this near.
constexpr double kSameSize_mm = 0.3;

constexpr auto kRadii = std::to_array<LeastRadius>({
    {"EN 1057", "R250", 6, 30, kRadiusSource},
    {"EN 1057", "R250", 8, 35, kRadiusSource},
    {"EN 1057", "R250", 10, 40, kRadiusSource},
    {"EN 1057", "R250", 12, 45, kRadiusSource},
    {"EN 1057", "R250", 14, 50, kRadiusSource},
    {"EN 1057", "R250", 15, 55, kRadiusSource},
    {"EN 1057", "R250", 16, 60, kRadiusSource},
    {"EN 1057", "R250", 18, 70, kRadiusSource},
    {"EN 1057", "R250", 22, 77, kRadiusMemory},
    {"EN 1057", "R250", 28, 114, kRadiusMemory},
    {"ASTM B88", "drawn", 0.500 * kInch, 1.75 * kInch, kHandbook},
    {"ASTM B88", "drawn", 0.625 * kInch, 2.5 * kInch, kHandbook},
    {"ASTM B88", "drawn", 0.875 * kInch, 3 * kInch, kHandbook},
});

// Without spaces, x for its other forms, and a metric wall without a needless ".0".
std::string plain_size(std::string_view size) {
  std::string plain;
  for (std::size_t i = 0; i < size.size(); ++i) {
    if (size.substr(i).starts_with("\xC3\x97")) {  // the multiplication sign
      plain += 'x';
      ++i;
    } else if (size[i] == 'X') {
      plain += 'x';
    } else if (size[i] != ' ') {
      plain += size[i];
    }
  }
  if (plain.find('x') != std::string::npos && plain.ends_with(".0")) plain.resize(plain.size() - 2);
  return plain;
}

}  // namespace

std::span<const TubeSize> tube_sizes() { return kSizes; }

const TubeSize* find_tube_size(std::string_view standard, std::string_view size) {
  // "1 1/4 L" and "11/4 L" are told apart by asking for the exact text first.
  const bool spaced = standard == "ASTM B88";
  const std::string wanted = plain_size(size);
  for (const TubeSize& known : kSizes) {
    if (known.standard != standard) continue;
    if (known.size == size || (plain_size(known.size) == wanted && !(spaced && known.size.starts_with("1 1")))) {
      return &known;
    }
  }
  return nullptr;
}

std::span<const LeastRadius> least_radii() { return kRadii; }

std::optional<LeastRadius> least_radius(const Tube& tube) {
  const std::string_view standard = tube.standard == "ASTM B88" ? "ASTM B88" : "EN 1057";
  const auto known = std::ranges::find_if(kRadii, [&](const LeastRadius& row) {
    return row.standard == standard && std::abs(row.outside_diameter_mm - tube.outside_diameter_mm) < kSameSize_mm;
  });
  if (known == kRadii.end()) return std::nullopt;
  return *known;
}

}  // namespace halfhard
