// Every tolerance of the program, each with its reason.
#pragma once

namespace halfhard {

// A turn below this is no bend, and directions within it are "the same", "vertical", "square to".
inline constexpr double kSameDirection_deg = 0.01;
// A straight between bends may be this much below 0 (rounding in the job's arithmetic) and then counts as 0.
inline constexpr double kStraightSlack_mm = 1e-6;
// A straight below this is rounding, not tube: it counts as 0, so that no piece is too short to have a direction.
inline constexpr double kNoStraight_mm = 1e-9;
// A rotation this near to -180 degrees is written 180, so that rounding never flips the sign.
inline constexpr double kHalfTurnSnap_deg = 1e-6;
// A clearance fails where it is below what is required by more than this.
inline constexpr double kClearanceSlack_mm = 1e-3;
// No length or coordinate beyond this: double arithmetic still resolves 1e-8 mm there.
inline constexpr double kLargestLength_mm = 1e8;
// Solids that have no more than this in common only touch: as much as the rounding of places worked out from lengths and
// angles can come to, and far below what any rule or tape could tell.
inline constexpr double kTouching_mm = 1e-6;
// The same for the flat end of a tube and a swinging body, for which positions are looked through one by one: a tenth of
// kClearanceSlack_mm, so that no answer depends on it.
inline constexpr double kSweptTouching_mm = 1e-4;
// A nearest place this near to a tube's flat end may be the end itself: beside an edge the distance changes with the
// square of the way along, and rounding hides that much.
inline constexpr double kFlushEnd_mm = 1e-3;
// How closely a STEP body is met by its triangles.
inline constexpr double kTriangleDeviation_mm = 0.02;

}  // namespace halfhard
