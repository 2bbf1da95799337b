#include "modeller/window/field_choices.h"

#include <map>

#include "geometry/plan/fixture.h"
#include "modeller/catalogue/tube_sizes.h"

namespace halfhard {
namespace {

QStringList keys_of(const JsonTree& tree, const char* pointer) {
  QStringList words;
  if (const JsonValue group = tree.at(pointer))
    for (JsonValue part = group.first(); part; part = part.next())
      words << QString::fromUtf8(part.key().data(), static_cast<int>(part.key().size()));
  return words;
}

QStringList services() {
  QStringList words;
  for (int service = static_cast<int>(Service::cold); service <= static_cast<int>(Service::other); ++service)
    words << service_word(static_cast<Service>(service));
  return words;
}

QStringList sizes() {
  QStringList words;
  for (const TubeSize& size : tube_sizes())
    words << QString::fromUtf8(size.size.data(), static_cast<int>(size.size.size()));
  return words;
}

}  // namespace

QStringList words_to_choose(const JsonTree& tree, const std::string& key) {
  static const QStringList kWays{"right", "left", "back", "front", "up", "down"};
  static const std::map<std::string, QStringList> kFixed = {
      {"go", kWays},
      {"towards", kWays},
      {"facing", kWays},
      {"about", kWays},
      {"hook", {"datum", "free"}},
      {"marking", {"all", "each"}},
      {"match", {"pieces", "gaps"}},
      {"height", {"intersection", "crown"}},
      {"length_unit", {"mm", "in"}},
      {"measured", {"outside", "inside"}},
      {"until", {"centre", "outside", "inside"}},
      {"standard", {"EN 1057", "ASTM B88"}},
      {"surface", {"finished", "bare"}},
  };
  if (const auto fixed = kFixed.find(key); fixed != kFixed.end()) return fixed->second;
  if (key == "tube" || key == "calibrated_with") return keys_of(tree, "/tubes");
  if (key == "bender") return keys_of(tree, "/benders");
  if (key == "from" || key == "to") return keys_of(tree, "/connections");
  if (key == "service") return services();
  if (key == "size") return sizes();
  return {};
}

}  // namespace halfhard
