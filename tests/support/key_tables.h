#pragma once

#include <string>
#include <string_view>

namespace drystage::support {

/// A page of Markdown with the tables of keys written anew from their declaration. A table stands
/// between `<!-- keys: MAP, MAP -->`, the paths of the maps whose keys it has, and `<!-- end -->`;
/// paths are shown from the first of the maps on. `<!-- ranges -->` is for what every amount
/// usually is and may be at all.
std::string with_key_tables(std::string_view page);

}  // namespace drystage::support
