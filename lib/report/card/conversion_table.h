#pragma once

#include <string>
#include <vector>

#include "drawing/flow.h"
#include "drawing/typesetter.h"

namespace drystage::report {

/// Litres and both gallons, kilometres and miles, each in the others, for a round number of each:
/// heads, and rows of the same length. Volumes are rounded down, distances up: what there is looks
/// no more than it is, and a road no shorter.
std::vector<std::string> conversion_heads();
std::vector<std::vector<std::string>> conversion_rows();

/// The same as a table with a title.
void write_conversion_table(drawing::Flow& flow, const drawing::Typesetter& typesetter);

}  // namespace drystage::report
