// A cut through the picture: everything on the near side of a plane is taken away.
#pragma once

#include <optional>
#include <string>

#include "geometry/base/vec.h"
#include "geometry/plan/plan.h"

namespace halfhard {

// Keeps what lies at `at_mm` or further along `towards` (a unit site direction) from the site's origin.
struct Section {
  Vec3 towards = Vec3::UnitY();
  double at_mm = 0;

  bool keeps(const Vec3& place) const { return towards.dot(place) >= at_mm; }
  friend bool operator==(const Section&, const Section&) = default;
};

// "back 300": keeps what lies 300 mm (or inches) and more to the back. A site word, then a number in `unit`, parted by
// spaces or "=".
// Nothing where the text is not of that form.
std::optional<Section> section_from_text(const std::string& text, LengthUnit unit = LengthUnit::mm);

}  // namespace halfhard
