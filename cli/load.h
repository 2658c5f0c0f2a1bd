#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/timeline.h"
#include "options.h"
#include "plan/plan.h"

namespace drystage::cli {

/// A plan that is right, laid out on the calendar.
struct Loaded {
  plan::Plan plan;
  std::shared_ptr<const engine::Timeline> timeline;
  std::vector<std::string> warnings;
  std::string source;  ///< the text of the file
};

/// Reads and lays out the plan. Everything that is wrong or odd goes to standard error, all of it;
/// nothing comes back when something is wrong. Throws FileError when the file cannot be read.
std::optional<Loaded> load(const CommonOptions& options);

}  // namespace drystage::cli
