#pragma once

#include <string>

#include "report/needs/report.h"
#include "support/plan_text.h"

namespace drystage::support {

/// A trip of a few days from Base by Red Tables, 200 km, to Far Well, 115 km on: water, fuel and
/// stores, and supplies at both ends.
PlanText three_places();

/// The answer that every need of it is 10, that there is 20 of everything, and that all must last
/// to Far Well on the fourth day; no stretch to turn back on. For tests to fill by hand.
report::NeedsAnswer plain_needs(const PlanText& text);

/// The need of a reserve on a day (from 0), to be changed.
answers::Need& need_of(report::NeedsAnswer& answer, std::size_t day, const std::string& reserve);

/// A moment on the second leg of three_places, 115 km long.
answers::Moment after_red_tables(int day, double hour, double done_km);

/// A moment at a place, by its number.
answers::Moment at_place(int day, double hour, int place);

/// From Base to Far Well, without a last moment.
answers::SupplyStretch stretch_of(const report::NeedsAnswer& answer, const std::string& reserve);

}  // namespace drystage::support
