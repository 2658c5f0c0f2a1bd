#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "answers/base/trial.h"
#include "units/format.h"

namespace drystage::report {

/// A place on the trip where something can be had, and the days on which the party is there.
struct SupplyVisit {
  int place = 0;
  int first_day = 0;  ///< 0-based
  int last_day = 0;
};

/// Every visit of a place that supplies anything, in time order; of one that is driven through too.
std::vector<SupplyVisit> supply_visits(const answers::Trial& trial);

/// What can be had at a visit, and how sure it is: supplies of which the same is to be said stand
/// together.
struct SupplyRow {
  std::string what;  ///< "diesel, petrol (at most 40 L), utility water (brackish)"
  std::string open;  ///< "open Mon, Wed; SHUT on day 4"
  bool confirmed = true;
};
std::vector<SupplyRow> supply_rows(const answers::Trial& trial, const SupplyVisit& visit,
                                   units::System system);

/// Where a commodity can be had for sure (confirmed, and open while the party is there), with the
/// days on which it is open: "Marrabel (day 1), Tessarin (days 13 to 14, at most 60 L; SHUT on day
/// 12)". A limit is rounded down. Empty where nowhere.
std::string sure_places(const answers::Trial& trial, plan::Commodity commodity,
                        units::System system);

/// "day 4", "days 4 to 6", of days from 0.
std::string days_words(int first_day, int last_day);

/// Words that stay on one line: their blanks are no-break spaces.
std::string unbroken(std::string_view words);

}  // namespace drystage::report
