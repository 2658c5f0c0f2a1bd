#pragma once

#include <vector>

#include "answers/base/levels.h"
#include "answers/base/plan_run.h"
#include "answers/onward/needs.h"
#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "units/format.h"

namespace drystage::report {

/// How each reserve goes through the trip, a chart each: those that life depends on first, then the
/// others as in the course. Across stand the days, upward what there is, up to what can be held, in
/// the units to show: the plan as a solid line, its margin as a dotted one, and what must be on
/// board each morning as dots, joined by dashes where they must last to the same moment. Signs over
/// the frame mark days below the margin, and mornings on which the plan has too little. A trip of
/// many days is cut into charts of days that are 4 mm wide or more, and one longer than the paper
/// is wide into several. Each block is one chart; nothing in it leaves its width. `needs` may be
/// null: then nothing is shown of what must be on board.
std::vector<drawing::Block> level_charts(const drawing::Typesetter& typesetter,
                                         const answers::PlanRun& planned,
                                         const answers::Levels& levels, const answers::Needs* needs,
                                         double width_pt, units::System system);

}  // namespace drystage::report
