#pragma once

#include <vector>

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/day_columns.h"

namespace drystage::report {

/// An evening where there is no room for columns: the facts on top, and below them a cell for each
/// reserve that life depends on, labelled by itself, in as many lines as they need. A block for the
/// facts and one for each line of cells.
std::vector<drawing::Block> evening_block(const drawing::Typesetter& typesetter,
                                          const EveningTable& table, const EveningRow& row,
                                          double width_pt);

}  // namespace drystage::report
