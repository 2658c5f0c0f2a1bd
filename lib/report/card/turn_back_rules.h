#pragma once

#include <string>
#include <vector>

#include "report/needs/report.h"
#include "units/format.h"

namespace drystage::report {

/// A line across the days: the way back ends there, or opens.
struct TurnBackRule {
  int day = 0;             ///< the day, from 0, on which it is met
  double hour = 0;         ///< among the stops of that day: its clock hour
  bool opens = false;      ///< else it ends
  std::string headline{};  ///< what, when and where
  std::string words{};     ///< how far back, which reserve decides, and what comes after: for
                           ///< the page at home
};

/// Where what life depends on lets the party turn back no longer, and where it does again, in time
/// order. Times that must not be passed are rounded down, those to be waited for up.
std::vector<TurnBackRule> turn_back_rules(const NeedsAnswer& answer, units::System system);

/// What is to be said of turning back for the whole trip: that it is always possible, that nothing
/// is driven, which reserves no place behind is sure to supply. Empty where the rules say it all.
std::string turn_back_words(const NeedsAnswer& answer);

}  // namespace drystage::report
