// The six site words as unit vectors, and any vector as the words that make it up.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/base/vec.h"
#include "modeller/job/job.h"

namespace halfhard {

// right, left, back, front, up, down; nothing else.
std::optional<Vec3> direction_of_word(std::string_view word);

// The components of `shift` along the site axes that are not zero (above 1e-9 mm), as positive words, in the order
// right/left, back/front, up/down.
std::vector<WordShift> words_of(const Vec3& shift);

}  // namespace halfhard
