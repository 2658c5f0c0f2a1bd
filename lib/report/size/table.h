#pragma once

#include <string>

#include "report/size/report.h"

namespace drystage::report {

/// A row for each thing of a set: what the plan has, what is to be loaded, its mass (cost and
/// space where they are given), and below it what the plan has too much or too little and what one
/// fewer would do. Where cans of one size stand in for those of another, they are compared by what
/// all of them hold. What is kept has one row. Then the totals of the set and of what the plan has
/// of the same. Columns are as
/// wide as what stands in them; a name that does not fit is broken to further lines.
std::string size_table(const SizeAnswer& answer, const answers::SizedPlan& set,
                       const TextOptions& options);

}  // namespace drystage::report
