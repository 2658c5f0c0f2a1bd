#pragma once

#include <vector>

#include "engine/event.h"
#include "plan/plan.h"

namespace drystage::engine {

struct Schedule;

/// Who and what is with the party for some steps. Vectors are in the order of the plan.
struct Company {
  std::vector<char> vehicles;  ///< drive with the party: have joined, and are not left standing
  std::vector<char> parted;    ///< vehicles that are not of the party, not yet or no more
  std::vector<char> trailers;  ///< by vehicle: stands somewhere, without it
  std::vector<char> people;    ///< are there
  /// Drives of the itinerary whose Drive::leaves stand somewhere. (What they are is asked of the
  /// plan: plans that differ in their stores share a calendar.)
  std::vector<int> left_by;
  bool operator==(const Company&) const = default;
};

/// How the company changes along a schedule.
struct CompanyOnTheWay {
  std::vector<Company> companies;  ///< in the order of time; at least one
  std::vector<int> of_segment;     ///< by Schedule::segments: index into them
  std::vector<Event> events;       ///< who joins and goes home, what is left and picked up
};

/// Follows it. Who joins or goes home on a day does so with that day's first or last step; at a
/// place, on arrival there. What is left is picked up where the party comes to that place again, on
/// the itinerary or on the way back.
CompanyOnTheWay company_on_the_way(const plan::Plan& plan, const Schedule& schedule);

/// The vehicle that a person rides in: their own, or the first that drives where theirs does not;
/// -1 where the person is not there.
int ride_of(const plan::Plan& plan, const Company& company, std::size_t person);

}  // namespace drystage::engine
