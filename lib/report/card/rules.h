#pragma once

#include <string>
#include <vector>

#include "report/card/answer.h"
#include "report/needs/report.h"
#include "units/format.h"

namespace drystage::report {

/// A line across the days where a place that supplies something is left: what must be on board
/// then, or on what it hangs whether it may be left.
struct LeaveRule {
  int day = 0;      ///< the day, from 0, on which the place is left; of the outset 0
  double hour = 0;  ///< its clock hour; 0 at the outset
  std::string
      headline{};  ///< "LEAVE Red Tables, 08:00, WITH AT LEAST 81 L of petrol (lead wagon)."
};

/// In time order:
/// - each place with a confirmed supply of what life depends on, where more must be on board on
///   leaving than had to be on the evening before it was reached: who goes by that figure, or takes
///   nothing there, would leave with too little;
/// - each place that may be left with what the plan has only if a supply ahead is there that nobody
///   has confirmed.
/// Amounts are rounded up.
std::vector<LeaveRule> leave_rules(const CardAnswer& answer, units::System system);

/// Where the plan itself has less than must be had because a supply ahead is not confirmed, though
/// with it all holds: in a sentence for the top of the sheet. Empty where it never has.
std::string below_must_words(const CardAnswer& answer);

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
