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

/// Reads the plan, from its file or from standard input, after changing what the overrides say.
/// What comes from standard input may be read again, and includes files of the working folder.
plan::ReadPlan read_plan(const CommonOptions& options,
                         const std::vector<plan::Override>& overrides);
/// The same for what may be a kit.
plan::ReadPlan read_kit(const CommonOptions& options);

/// Tells standard error what was found wrong or odd, all of it. Throws FileError when the file
/// could not be read or a result would go over a file of the user's, UsageError when it is to go
/// where something was read from.
void tell(const plan::ReadPlan& reading, const CommonOptions& options);

/// Reads and lays out the plan. Everything that is wrong or odd goes to standard error, all of it;
/// nothing comes back when something is wrong. Throws FileError when the file cannot be read.
std::optional<Loaded> load(const CommonOptions& options);
/// The same for what has been read.
std::optional<Loaded> load(plan::ReadPlan reading, const CommonOptions& options);

}  // namespace drystage::cli
