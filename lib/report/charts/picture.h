#pragma once

#include <limits>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "drawing/flow.h"
#include "drawing/paper.h"
#include "drawing/typesetter.h"

namespace drystage::report {

/// What a chart by itself stands on: 190 mm wide, so that it goes onto either paper, and as long as
/// it needs.
inline constexpr drawing::Paper picture{.width_pt = 190 * drawing::points_per_mm,
                                        .height_pt = std::numeric_limits<double>::infinity(),
                                        .margin_pt = 4 * drawing::points_per_mm};

/// Words over the whole width, with some space below. Nothing where there are none.
void write(drawing::Flow& flow, const drawing::Typesetter& typesetter, const std::string& words,
           const drawing::Font& font, double gap_pt = 4);

/// The trip's title, and below it people, days and dates.
void write_trip(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                const answers::PlanRun& planned);

/// What the reader was warned of, each by itself.
void write_warnings(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                    const std::vector<std::string>& warnings);

/// What the reader must know of how it was reckoned, each by itself.
void write_remarks(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                   const std::vector<std::string>& remarks);

/// The cautions, at the foot.
void write_cautions(drawing::Flow& flow, const drawing::Typesetter& typesetter);

}  // namespace drystage::report
