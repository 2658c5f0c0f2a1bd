#pragma once

namespace drystage::models {

/// How wide the inside of a vessel is at each height, as far as its contents depend on it.
enum class Walls {
  upright,         ///< as wide at every height: a box, a standing cylinder
  lying_cylinder,  ///< with flat ends, its axis level
};

/// The share of its full volume that a vessel holds when it is wet to `depth_share` of its inside
/// height, both from 0 to 1; what is beyond is taken for the nearer end. The vessel stands level.
///
/// Upright walls: the share of the height. A lying cylinder: the area of a circular segment over
/// that of its circle, (a - sin a) / 2 pi, where a = 2 acos(1 - 2 depth share) is the angle at the
/// centre. Plane geometry, in every handbook of mathematical tables (from memory; the tests have
/// published values).
[[nodiscard]] double filled_share(Walls walls, double depth_share);

/// The inverse: the share of its height to which a vessel is wet when it holds `filled_share` of
/// its full volume. To within 1e-12.
[[nodiscard]] double depth_share(Walls walls, double filled_share);

}  // namespace drystage::models
