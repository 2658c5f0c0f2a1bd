#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/leaving.h"
#include "answers/levels.h"
#include "answers/spell.h"
#include "answers/verdict.h"
#include "answers/way_out.h"
#include "drawing/page.h"
#include "drawing/paper.h"
#include "report/needs_report.h"
#include "units/format.h"

namespace drystage::report {

/// All that goes onto the sheet to carry.
struct CardAnswer {
  NeedsAnswer needs;  ///< with the plan as it was run, and what the reader was warned of
  std::optional<answers::Verdict> without_unconfirmed;  ///< when the plan leans on such supplies
  std::optional<answers::Spells> spells{};              ///< what a hot and a dull week do
  answers::Levels levels;
  answers::WaysOutTable ways_out{};          ///< on, at once and back, from every evening
  std::vector<answers::Leaving> leavings{};  ///< what must be on board as supplies are left
  std::string source{};  ///< the plan's file and what was changed in it: to tell sheets apart
};

/// The sheet to carry: the front with a row for each day and boxes to write in, the back with
/// charts, packing list, dip tables and what to do when a reading is too low, and a page to leave
/// at home. Every figure that is shown is rounded so that nothing looks better than it is.
drawing::Drawing card(const CardAnswer& answer, const drawing::Paper& paper, units::System system);

}  // namespace drystage::report
