#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "answers/base/plan_run.h"
#include "units/format.h"

namespace drystage::report {

/// What is to be taken on at one stop, in a line.
struct SupplyLine {
  std::string words;
  bool unsure = false;  ///< something is not confirmed, or shut that day
  bool shut = false;    ///< all of it
  double hour = 0;      ///< clock hour of the stop
};

/// Every stop of a day (from 0): at what time, whether on arrival or before leaving, and where; of
/// each order what and how much to take, that nobody has confirmed it, or that it is shut that day.
/// How much is what the plan expects, rounded up. A stop at the outset, before the trip's first
/// hour, is told apart from the others of the first day.
std::vector<SupplyLine> supply_lines(const answers::PlanRun& planned, std::size_t day,
                                     bool at_outset, units::System system);

/// When a supply is open, of what matters from one day to another: "open Mon to Fri, shut Mon 10
/// May", "open every day".
std::string opening_words(const plan::Supply& supply, plan::Date first, plan::Date last);

/// A place on the trip where something can be had, and the days on which the party is there.
struct SupplyVisit {
  int place = 0;
  int first_day = 0;  ///< 0-based
  int last_day = 0;
};

/// Every visit of a place that supplies anything, in time order; of one that is driven through too.
std::vector<SupplyVisit> supply_visits(const answers::PlanRun& planned);

/// What can be had at a visit, and how sure it is: supplies of which the same is to be said stand
/// together.
struct SupplyRow {
  std::string what;  ///< "diesel, petrol (at most 40 L), utility water (brackish)"
  std::string open;  ///< "open Mon, Wed; SHUT on day 4"
  bool confirmed = true;
};
std::vector<SupplyRow> supply_rows(const answers::PlanRun& planned, const SupplyVisit& visit,
                                   units::System system);

/// A place of the trip, and all that can be had there while the party is there.
struct PlaceLine {
  std::string name;      ///< with its position: "Sandover Store, 23.4° S, 130.2° E"
  std::string days;      ///< "days 8, 9"
  std::string sure{};    ///< confirmed, with limits and when it is open, if not every day
  std::string unsure{};  ///< the same of what nobody has confirmed
};

/// Every place that supplies something, in the order of the trip: once, unless something else is to
/// be said of a later visit.
std::vector<PlaceLine> place_lines(const answers::PlanRun& planned, units::System system);

/// The places of the trip that supply nothing, for their positions: "Red Tables, 24° S, 131° E;
/// ..."
std::string other_places(const answers::PlanRun& planned);

/// A place and its position, which rescuers ask for.
std::string place_and_position(const plan::Place& place);

/// "23.9° S, 132.0417° W": to four digits after the point (about 10 m), without zeros at the end.
std::string coordinate_words(const plan::Place& place);

/// Words that stay on one line: their blanks are no-break spaces.
std::string unbroken(std::string_view words);

}  // namespace drystage::report
