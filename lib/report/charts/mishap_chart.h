#pragma once

#include "drawing/page.h"
#include "report/mishaps/report.h"
#include "units/format.h"

namespace drystage::report {

/// What `drystage mishaps` says of a plan as a picture: whether it survives, and a box for each
/// failure that does harm on each day on which it can strike, with a pattern for the worst that
/// comes of it. Days stand one beside the other as long as there is room, then in a further matrix
/// below; what has no row is told in words. One page as long as it needs, 190 mm wide; where it
/// would be longer than A4, pages of that length with the days' heads on each.
drawing::Drawing mishap_chart(const MishapsAnswer& answer, units::System system);

}  // namespace drystage::report
