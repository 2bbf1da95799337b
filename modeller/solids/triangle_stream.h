// What halfhard-solids writes on its standard output, for the program that started it on the same machine:
//   halfhard-triangles/1\n
//   <deviation in mm> <vertices> <triangles> <characters of STEP data>\n        as text
//   three doubles a vertex, three ints a triangle, as the machine holds them
//   the DATA section of a STEP file of the same solids, and, where there is any, its corners:
//   three ints and nine doubles (see ExactShape)
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "geometry/distance/body.h"

namespace halfhard {

std::string written_triangles(const TriangleBody& body);

// Nothing where the bytes are not exactly such a stream.
std::optional<TriangleBody> read_triangles(std::string_view bytes);

}  // namespace halfhard
