#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "plan/keys.h"
#include "plan/plan.h"

namespace drystage::plan {

/// What a thing of a plan says under one of its keys.
struct KeyValue {
  /// An amount in canonical units, a text, names, or what a vessel is measured by; or nothing.
  using Said = std::variant<std::monostate, double, std::string, std::vector<std::string>, Shape,
                            std::vector<DipMark>>;

  Key key;
  Said said{};
  std::string_view
      within{};             ///< the map within the thing that has the key, if not the thing itself
  std::string_view unit{};  ///< if not the key's own
  bool usual = false;       ///< what holds without it too
};
using KeyValues = std::vector<KeyValue>;

/// A thing that `size` may change: every key it may have, in the order in which a new one is
/// written. A key says nothing where it does not go with the others, and where what holds without
/// it depends on them and is what holds.
struct KeyedThing {
  std::string name;
  KeyValues values;
};

/// A list of such things, and where it stands in the plan.
struct KeyedList {
  std::string_view sort;          ///< of its things, in words
  std::vector<std::string> keys;  ///< that lead to it, from an item of a section or from the plan
  std::string_view section{};     ///< in whose items it stands; none: in the plan itself
  std::size_t item = 0;           ///< of the section
  std::vector<std::string_view> beside{};  ///< it comes after the first of these sections
  std::vector<KeyedThing> things{};
};

/// All of a plan, what lies deeper in it first. By these, and nothing else, things are written and
/// compared. What they say may not outlive the plan.
std::vector<KeyedList> keyed_lists(const Plan& plan);

/// How a value is written; not for what a vessel is measured by.
std::string written(const KeyValue& value);

}  // namespace drystage::plan
