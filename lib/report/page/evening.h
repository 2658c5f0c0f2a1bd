#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "report/card/answer.h"
#include "report/page/figures.h"
#include "units/format.h"

namespace drystage::report::page {

/// One evening in a line: "Day 3, Wed 10 Mar, Shell Pan"; 0 is the one before setting out.
std::string evening_words(const answers::PlanRun& planned, std::size_t evening);

/// Every evening as a section: where, what comes before that night (supplies, rules for leaving and
/// turning back, warnings), the figures of each reserve with fields for readings, and the way out
/// from that camp. Names in the answer are set apart already (isolated_answer.h).
std::string evening_sections(const CardAnswer& answer, const std::vector<Shown>& reserves,
                             units::System system);

}  // namespace drystage::report::page
