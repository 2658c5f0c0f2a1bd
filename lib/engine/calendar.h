#pragma once

#include <cstddef>
#include <vector>

#include "engine/company.h"
#include "engine/event.h"
#include "engine/route_point.h"
#include "engine/schedule.h"
#include "models/road_load.h"
#include "plan/diagnostic.h"
#include "plan/plan.h"

namespace drystage::engine {

/// One step: an hour or less in which one thing happens in one place.
struct TimeStep {
  std::size_t index = 0;  ///< its place in Calendar::steps
  int day = 0;
  double from_h = 0;  ///< local clock
  double dt_h = 0;    ///< 0 for a stop that takes no time
  double dark_h = 0;  ///< hours since sunset at the start; negative before it
  double utility_l = 0;
  double potable_utility_l = 0;  ///< the part of it that must be potable
  double meals = 0;
  double distance_km = 0;
  int drive = -1;      ///< index into Calendar::pieces while driving
  int ground = -1;     ///< part of a leg under the wheels, or driven last: Leg::first_ground
  int leg = 0;         ///< leg being driven, or the next one; legs.size() after the last
  int place_day = 0;   ///< index into Calendar::place_days
  int party_day = -1;  ///< index into Calendar::party_days; -1 of a step that takes no time
  int stop = -1;       ///< itinerary index of a resupply done before the step
  int company = 0;     ///< index into Calendar::companies
  bool last_of_day = false;
  bool camp = false;  ///< not between two drives of one day
};

/// A piece of road that one step covers.
struct RoadPiece {
  plan::Surface surface{};
  double speed_km_h = 0;
  double distance_km = 0;
  double climb_m = 0;
  double descent_m = 0;
  double steepness = models::usual_steepness;
  double headwind_m_s = 0;
  plan::Tyres tyres = plan::Tyres::usual;
  double elevation_m = 0;
  double fuel_factor = 1;  ///< how much more than usual the ground takes
};

/// One drive of the itinerary, whole: for margins that are distances.
struct Leg {
  int item = 0;  ///< itinerary index
  int from = 0;  ///< place where it begins
  std::vector<RoadPiece> parts{};
  int first_ground = 0;  ///< number of its first part, counting through all legs
  int company = 0;       ///< index into Calendar::companies: of who sets out on it
  double distance_km = 0;
};

/// Staying put for a day at one place with the same people: for margins that are times.
struct PlaceDay {
  int day = 0;
  int climate = 0;
  int place = -1;  ///< -1 in the bush
  Position at{};
  double utility_l = 0;  ///< per day
  double meals = 0;
  int company = 0;     ///< index into Calendar::companies: whose people they are
  int people = 0;      ///< how many those are
  bool mains = false;  ///< mains is to be had, and there is a charger for it
  int camp = 0;        ///< index into Calendar::party_days: of staying put
};

/// A day of the party at one place and with one activity.
struct PartyDay {
  int day = 0;
  int place_day = 0;  ///< index into Calendar::place_days
  int activity = 0;
};

/// One day of the trip.
struct DayInfo {
  ScheduledDay schedule;
  double night_m = 0;  ///< elevation of the place where the night is spent
  int first_step = 0;
};

/// When and where: what delays and routes change. The weather changes nothing of it. Daylight comes
/// from date and place, driving hours and speeds from the plan, and what is open from the date; so
/// one calendar serves a trip in any weather (conditions.h).
struct Calendar {
  std::vector<DayInfo> days;
  std::vector<TimeStep> steps;
  std::vector<RoadPiece> pieces;
  std::vector<Leg> legs;
  std::vector<PlaceDay> place_days;  ///< day by day
  std::vector<PartyDay> party_days;  ///< day by day
  std::vector<Company> companies;    ///< in the order of time; at least one
  std::vector<Event> events;  ///< nights in the bush, mornings waited for, who joins and leaves
  WayGone gone;               ///< how the days up to the last reading went
  double meal_kj = 0;         ///< energy of one meal of an average adult
  std::vector<plan::Diagnostic> problems;  ///< anything here makes the calendar unusable
};

/// Things of a calendar by their index, from one to another that is not included.
struct IndexRange {
  std::size_t from = 0;
  std::size_t until = 0;
};

/// The steps of the days from one to another that is not included.
IndexRange steps_of_days(const Calendar& calendar, int from_day, int until_day);

/// The days that steps fall on, and the place days and party days of days.
IndexRange days_of_steps(const Calendar& calendar, const IndexRange& steps);
IndexRange place_days_of(const Calendar& calendar, const IndexRange& days);
IndexRange party_days_of(const Calendar& calendar, const IndexRange& days);

/// The first step that begins at or after a moment; the number of steps when there is none.
std::size_t step_at(const Calendar& calendar, int day, double hour);

/// The step at which a reading counts: of an evening, after the day's drive. Days and hours beyond
/// the calendar give the number of steps.
std::size_t step_of(const plan::Reading& reading, const Calendar& calendar);

/// How a calendar is laid out.
struct CalendarLayout {
  double most_step_h = 1;          ///< longest step; 0 < h <= 1
  std::vector<Detour> detours{};   ///< in time order
  const Calendar* same = nullptr;  ///< a calendar that has the same days before ...
  int same_days = 0;               ///< ... this one; they are taken from there
  Almanac* almanac = nullptr;      ///< where the sun is looked up, if there is one
};

/// Lays the plan out. Problems found: a month that a climate lacks, a trip longer than `most_days`,
/// figures of fuel that cannot be, readings where nobody can have been (engine/way_gone.h).
Calendar lay_calendar(const plan::Plan& plan, const CalendarLayout& layout);

}  // namespace drystage::engine
