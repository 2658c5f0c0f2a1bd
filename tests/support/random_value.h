#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/keys.h"
#include "plan/tree.h"
#include "support/random_plan.h"

namespace drystage::support {

/// The names that a plan has given, by what they name as the table of keys says it: "vehicle".
using Names = std::map<std::string, std::vector<std::string>, std::less<>>;

/// A value for a declared key, of its kind and usual for it. None where a plan has nothing that it
/// could name, and for what takes more to know: an inside, dip marks, a climate, a new name.
std::optional<plan::Node> random_value(plan::Key key, const Pick& pick, const Names& names);

/// Puts optional keys that are absent into a map of the plan and into the maps within it. Which
/// keys go together is heeded as far as it is declared.
void add_keys(plan::Node& map, std::string_view path, const Pick& pick, const Names& names);

}  // namespace drystage::support
