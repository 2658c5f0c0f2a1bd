#pragma once

#include "drawing/page.h"
#include "report/mishaps/report.h"
#include "report/odds/report.h"
#include "report/run/report.h"
#include "report/size/report.h"
#include "report/weigh/report.h"
#include "units/format.h"

namespace drystage::report {

/// What `drystage run` says of a plan as a picture: the trip, the verdict, what decides on each
/// day, how each reserve goes through the days, and how fuel and drinking water go along the way.
/// One page, 190 mm wide and as long as it needs.
drawing::Drawing run_chart(const RunAnswer& answer, units::System system);

/// What `drystage mishaps` says of a plan as a picture: whether it survives, and a box for each
/// failure that does harm on each day on which it can strike, with a pattern for the worst that
/// comes of it. Days stand one beside the other as long as there is room, then in a further matrix
/// below; what has no row is told in words. One page as long as it needs, 190 mm wide; where it
/// would be longer than A4, pages of that length with the days' heads on each.
drawing::Drawing mishap_chart(const MishapsAnswer& answer, units::System system);

/// What more and less safety weighs, or costs, as a picture: a point for each number of days by
/// which margins are moved, at the mass of the least set, with what the plan itself has as an
/// upright line; below it what each set takes more or less, and what was not found. Masses are
/// rounded up. Where no set was found it says so. One page, 190 mm wide.
drawing::Drawing trade_off_chart(const SizeAnswer& answer, units::System system);

/// What `drystage weigh` says of a plan as a picture: each vehicle from the side with what lies
/// where, and through the days what it weighs in all and on each axle, with the limits. One page,
/// 190 mm wide.
drawing::Drawing weigh_chart(const WeighAnswer& answer, units::System system);

/// What `drystage odds` says of a plan as a picture: for each reserve of which there is something
/// to tell, between which levels 5 and 95 of 100 trips lie through the days, with the middle and
/// the margin; and below it on which day they first fall below. One page, 190 mm wide.
drawing::Drawing odds_chart(const OddsAnswer& answer, units::System system);

}  // namespace drystage::report
