#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace drystage::units {

/// Adds an item to a list in words: "a", then "a, b".
void add_to(std::string& list, std::string_view item, std::string_view between = ", ");

/// The items as a list in words: "a, b or c" with " or " as `last`, else `between` throughout.
std::string listed(const std::vector<std::string>& items, std::string_view last = {},
                   std::string_view between = ", ");

/// Each different item once, where it first stands. Items that only begin or end alike all stay.
std::vector<std::string> each_once(std::vector<std::string> items);

}  // namespace drystage::units
