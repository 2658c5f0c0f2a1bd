#pragma once

#include "drawing/page.h"
#include "report/card/answer.h"
#include "report/card/parts.h"
#include "units/format.h"

namespace drystage::report {

/// The sheet to carry: on the front a row for each day with boxes to write in, on the back what to
/// do when a reading is too low. Then the parts that are asked for; the page to leave at home is a
/// sheet of its own. Every figure is rounded so that nothing looks better than it is.
drawing::Drawing card(const CardAnswer& answer, const drawing::Paper& paper, units::System system,
                      const CardParts& with = {});

}  // namespace drystage::report
