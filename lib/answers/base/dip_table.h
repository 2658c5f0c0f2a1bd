#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/item.h"
#include "plan/plan.h"

namespace drystage::answers {

/// In what a stick is marked: its rows stand at round numbers of these.
enum class StickMarks { centimetres, inches };

struct DipRow {
  double depth_cm = 0;    ///< so far the stick is wet
  double volume_l = 0;    ///< so much is in it then, not rounded
  double usable_l = 0;    ///< and so much of that can be used
  bool own_mark = false;  ///< a mark of the plan's, as measured
};

/// How one vessel is read with a dipstick while it stands level.
struct DipTable {
  plan::Item vessel{};  ///< a container or a tank
  std::string name{};
  std::string vehicle{};   ///< that carries it; empty if the plan has none
  std::string contents{};  ///< "drinking water", "utility water", "diesel", "petrol"
  double holds_l = 0;
  bool measured = false;  ///< by the plan's marks; else by its shape
  double unusable_l = 0;  ///< of fuel: what stays in it for ever
  /// A stick wet no further than this says that nothing usable is left. None if all can be used, or
  /// if the marks do not say.
  std::optional<double> unusable_depth_cm{};
  /// What may lie below the stick's foot, by a mark at depth 0. No row is made of it: a dry stick
  /// says only that it is no more than that.
  double below_stick_l = 0;
  /// Rising, the first above depth 0. The last is the full vessel where it is known at which depth
  /// that is, else the last mark: above it the table says nothing.
  std::vector<DipRow> rows{};
  bool ends_full = false;  ///< the last row is the full vessel
};

/// Depth and volume of every water container and fuel tank that has a shape or dip marks, in the
/// plan's order, water first. Rows stand at each mark of the plan's own, at the full height of a
/// shape, and at the least round step (1, 2, 5, ... 100 cm, or 1/2, 1, 2, 5, ... 50 inches) that
/// makes no more than 25 rows with those. A round row that would stand less than a tenth of a step
/// from one of those is left out.
///
/// By its shape (models/tank_shape.h) a vessel holds what the plan says it `holds` when it is wet
/// to its full height: the volumes are the shape's, scaled to that. By marks it holds what was
/// measured at each, and between them what models/dip_curve.h says.
std::vector<DipTable> dip_tables(const plan::Plan& plan,
                                 StickMarks stick = StickMarks::centimetres);

}  // namespace drystage::answers
