#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/timeline.h"
#include "options.h"
#include "plan/read.h"

namespace drystage::cli {

/// A plan that is right, laid out on the calendar.
struct Loaded {
  plan::Plan plan;
  std::shared_ptr<const engine::Timeline> timeline;
  std::vector<std::string> warnings;
  plan::ReadPlan reading;  ///< what it was read from, without its plan
};

/// Tells standard error what was found wrong or odd, all of it. Throws FileError when the file
/// could not be read, UsageError when a result is to go where something was read from.
void tell(const plan::ReadPlan& reading, const CommonOptions& options);

/// Reads and lays out the plan. Everything that is wrong or odd goes to standard error, all of it;
/// nothing comes back when something is wrong. Throws FileError when the file cannot be read.
std::optional<Loaded> load(const CommonOptions& options);
/// The same for what has been read.
std::optional<Loaded> load(plan::ReadPlan reading, const CommonOptions& options);

}  // namespace drystage::cli
