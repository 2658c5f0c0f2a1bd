#pragma once

#include <vector>

#include "engine/event.h"
#include "engine/route_point.h"
#include "plan/plan.h"

namespace drystage::engine {

inline constexpr double tiny_h = 1e-9;  ///< less than this is no time at all

/// A stretch of one day in which one thing happens.
struct Segment {
  int day = 0;
  double from_h = 0;  ///< local clock of that day
  double to_h = 0;
  RoutePoint begin;
  RoutePoint end;
  int drive = -1;  ///< itinerary index while driving, else -1
  int part = -1;   ///< surface part of that drive
  double distance_km = 0;
  int resupply = -1;  ///< itinerary index of a resupply done at `from_h`, else -1
};

struct ScheduledDay {
  plan::Date date;
  RoutePoint from;
  RoutePoint to;
  double distance_km = 0;
  double drive_h = 0;
  double sunrise_h = 0;
  double sunset_h = 0;
  int activity = 0;  ///< index into Plan::activities
};

/// The itinerary laid out on the calendar.
struct Schedule {
  std::vector<ScheduledDay> days;
  std::vector<Segment> segments;  ///< in time order, covering every hour of every day
  std::vector<Event> events;      ///< nights in the bush, and mornings waited for
};

/// Something that comes between: at a moment, after the stops that fall on it, everything halts for
/// a while, and then the itinerary goes on, where it was or elsewhere. What is laid out before that
/// moment is the same as without it.
struct Detour {
  double at_h = 0;      ///< hours since the trip's first midnight
  double halt_h = 0;    ///< nothing moves for so long; of a halt in a night, which is slept
                        ///< wherever that is, only whole days put the morning off
  int go_on_with = -1;  ///< itinerary index to go on with instead; -1: where it was. A drive along
                        ///< a leg that is broken off, on or back, begins where the party stands
};

/// Days on which the party drove for longer than the plan has it, by night too.
struct Hurry {
  double from_h = 0;  ///< hours since the trip's first midnight
  double until_h = 0;
  double more_h = 0;  ///< on the day's driving hours
};

/// What the days gone by had that the plan did not.
struct WayGone {
  std::vector<Detour> halts;         ///< in time order
  std::vector<int> nights_left_out;  ///< by itinerary index; empty: none
  std::vector<Hurry> hurries;
};

class Almanac;

/// Longest trip that is laid out.
inline constexpr int most_days = 3660;

/// Lays the itinerary out day by day. Legs longer than the day's driving hours or daylight are
/// split, with camps between. A trip runs from midnight of its first day to midnight of its last.
/// The plan must be valid; days beyond `most_days` are not laid out. `detours` are in time order,
/// after those of the days gone by. Where an almanac is given, the sun is looked up there.
Schedule lay_out(const plan::Plan& plan, const std::vector<Detour>& detours = {},
                 Almanac* almanac = nullptr, const WayGone& gone = {});

}  // namespace drystage::engine
