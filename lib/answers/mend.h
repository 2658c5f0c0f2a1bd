#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/trial.h"

namespace drystage::answers {

/// A change to a plan, small enough to be made in the driveway.
struct Change {
  engine::ChangeName name;
  double size = 0;  ///< by which changes are ranked: about the mass added, kg (see changes.cc)
};

/// The smallest set of changes found, by trying, that makes a plan hold.
struct Mend {
  std::vector<Change> changes;
  Verdict verdict;            ///< of the mended plan
  engine::CourseBase course;  ///< of the mended plan, to read the verdict with
  engine::Record record;
};

/// Tries changes to a plan that does not hold, the smallest first: taking more at a stop that is
/// passed anyway, starting with everything full, one more container, can, panel or day's food, a
/// larger bank, one night fewer or more; then several of them. Each is run by the engine; one that
/// loads a vehicle beyond its limit on any day is no mend. Nothing when none of them is enough, or
/// when the plan holds already.
std::optional<Mend> smallest_mend(const Trial& trial);

}  // namespace drystage::answers
