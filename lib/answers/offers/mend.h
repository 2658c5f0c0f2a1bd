#pragma once

#include <optional>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/offers/option.h"

namespace drystage::answers {

/// The smallest set of changes found, by trying, that makes every reserve of a plan hold; named as
/// on the mended plan's calendar.
struct Mend {
  std::vector<Change> changes;
  std::vector<Option> parts;  ///< what makes them, one for each
  bool moves_days = false;    ///< nights among them: days are counted on the mended calendar
  Verdict verdict;            ///< of the mended plan
  engine::CourseBase course;  ///< of the mended plan, to read the verdict with
  engine::Record record;
};

/// Tries changes to a plan that does not hold, the smallest first: taking more at a stop that is
/// passed anyway, starting with everything full, one more container, can, panel or day's food, a
/// larger bank, one night fewer or more; then several of them. Each is run by the engine; one that
/// loads a vehicle beyond its limit, or further beyond it, on any day is no mend. Of several
/// together none can be left out, and of none one step less is enough. Nothing when none of them is
/// enough, or when every reserve holds already.
std::optional<Mend> smallest_mend(const PlanRun& planned);

}  // namespace drystage::answers
