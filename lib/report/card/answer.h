#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/base/levels.h"
#include "answers/base/verdict.h"
#include "answers/mishaps/spell.h"
#include "answers/onward/leaving.h"
#include "answers/onward/way_out.h"
#include "report/needs/report.h"

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

}  // namespace drystage::report
