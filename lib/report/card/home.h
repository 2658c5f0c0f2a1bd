#pragma once

#include <string>

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/answer.h"
#include "units/format.h"

namespace drystage::report {

/// The page to leave with somebody who raises the alarm: blanks to fill in (when overdue, whom to
/// call, the emergency number of the region, of which none is ever printed), people and vehicles,
/// what must not be without electricity, the route day by day with how long water and food last all
/// of them from each night on, where the places are, until when turning back is possible, where
/// they mean to stock up, and the cautions. Names stand whole.
void write_home(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                const CardAnswer& answer, units::System system);

/// How long a reserve lasts, in days, rounded down: "5.1", "12"; "-" where nothing is used.
std::string lasting_words(double days);

/// "23.9° S, 132.0417° W": to four digits after the point (about 10 m), without zeros at the end.
std::string coordinate_words(const plan::Place& place);

}  // namespace drystage::report
