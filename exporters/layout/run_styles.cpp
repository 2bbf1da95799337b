#include "exporters/layout/run_styles.h"

#include <algorithm>
#include <array>

namespace halfhard {
namespace {

constexpr std::array kStyles = {LineStyle::continuous, LineStyle::dashed,       LineStyle::chain,
                                LineStyle::dotted,     LineStyle::double_chain, LineStyle::long_dashed};
// Dark enough to print as black.
const std::array<Colour, 7> kColours = {Colour{0.70, 0.20, 0.05}, Colour{0.05, 0.25, 0.65}, Colour{0.10, 0.40, 0.15},
                                        Colour{0.45, 0.10, 0.50}, Colour{0.50, 0.35, 0.00}, Colour{0.00, 0.40, 0.45},
                                        Colour{0.60, 0.05, 0.35}};

}  // namespace

std::vector<RunStyle> run_styles(const Plan& plan) {
  std::vector<RunStyle> styles;
  for (size_t i = 0; i < plan.runs.size(); ++i) {
    const std::string& family = plan.runs[i]->family;
    auto found = std::find_if(styles.begin(), styles.end(), [&](const RunStyle& s) { return s.family == family; });
    if (found == styles.end()) {
      const size_t n = styles.size();
      styles.push_back({family, {}, kColours[n % kColours.size()], kStyles[n % kStyles.size()]});
      found = styles.end() - 1;
    }
    found->runs.push_back(static_cast<int>(i));
  }
  return styles;
}

size_t style_of(const std::vector<RunStyle>& styles, int run) {
  for (size_t i = 0; i < styles.size(); ++i)
    if (std::find(styles[i].runs.begin(), styles[i].runs.end(), run) != styles[i].runs.end()) return i;
  return 0;
}

std::string numbers_text(const std::vector<int>& runs) {
  std::string text;
  for (size_t i = 0; i < runs.size();) {
    size_t last = i;
    while (last + 1 < runs.size() && runs[last + 1] == runs[last] + 1) ++last;
    if (!text.empty()) text += ", ";
    text += std::to_string(runs[i] + 1);
    if (last > i) text += (last == i + 1 ? ", " : "-") + std::to_string(runs[last] + 1);
    i = last + 1;
  }
  return text;
}

}  // namespace halfhard
