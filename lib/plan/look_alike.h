#pragma once

#include <string_view>

namespace drystage::plan {

/// Whether two names look alike to a reader although they may be written otherwise: invisible
/// characters, letters of another script, capitals and small letters, 0 and O, 1, l and I.
bool look_alike(std::string_view a, std::string_view b);

}  // namespace drystage::plan
