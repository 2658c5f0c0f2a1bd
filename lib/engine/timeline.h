#pragma once

#include <array>
#include <string>
#include <vector>

#include "engine/event.h"
#include "engine/schedule.h"
#include "engine/weather_day.h"
#include "models/road_load.h"
#include "plan/diagnostic.h"
#include "plan/plan.h"

namespace drystage::engine {

/// One step: an hour or less in which one thing happens in one weather.
struct TimeStep {
  std::size_t index = 0;  ///< its place in Timeline::steps
  int day = 0;
  double from_h = 0;   ///< local clock
  double dt_h = 0;     ///< 0 for a stop that takes no time
  double air_c = 0;    ///< mean over the step
  double dark_h = 0;   ///< hours since sunset at the start; negative before it
  double drink_l = 0;  ///< what the party needs in the step
  double utility_l = 0;
  double potable_utility_l = 0;  ///< the part of it that must be potable
  double meals = 0;
  double distance_km = 0;
  int drive = -1;     ///< index into Timeline::pieces while driving
  int ground = -1;    ///< part of a leg under the wheels, or driven last; see Leg::first_ground
  int leg = 0;        ///< leg being driven, or the next one; legs.size() after the last
  int place_day = 0;  ///< index into Timeline::place_days
  int stop = -1;      ///< itinerary index of a resupply done before the step
  bool last_of_day = false;
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
  double air_density_kg_m3 = 0;
  double fuel_factor = 1;  ///< how much more than usual the ground takes
};

/// One drive of the itinerary, whole: for margins that are distances.
struct Leg {
  int item = 0;  ///< itinerary index
  int from = 0;  ///< place where it begins
  std::vector<RoadPiece> parts{};
  int first_ground = 0;  ///< number of its first part, counting through all legs
  double distance_km = 0;
};

/// Staying put for a day at one place, in the weather of one day: for margins that are times.
struct PlaceDay {
  int day = 0;
  int climate = 0;
  int place = -1;  ///< -1 in the bush
  double latitude_deg = 0;
  WeatherDay weather{};
  std::array<double, 24> air_c{};
  double sunset_h = 0;
  double drink_l = 0;  ///< per day
  double utility_l = 0;
  double meals = 0;
  double mean_c = 0;
  bool mains = false;  ///< mains is to be had, and there is a charger for it
};

struct DayInfo {
  ScheduledDay schedule;
  double max_c = 0;
  double min_c = 0;
  double mean_c = 0;
  double night_m = 0;  ///< elevation of the place where the night is spent
  int first_step = 0;
};

/// Everything of a trip that no store can change: calendar, road, weather, and what people need in
/// it. It is the costly part of compiling; plans that differ only in their stores share it.
struct Timeline {
  std::vector<DayInfo> days;
  std::vector<TimeStep> steps;
  std::vector<RoadPiece> pieces;
  std::vector<Leg> legs;
  std::vector<PlaceDay> place_days;
  std::vector<Event> events;
  double meal_kj = 0;                      ///< energy of one meal of an average adult
  std::vector<double> drinking_factors;    ///< by person; see drinking.h
  std::vector<plan::Diagnostic> problems;  ///< anything here makes the timeline unusable
  std::vector<plan::Diagnostic> remarks;   ///< warnings
};

/// How a plan is laid out.
struct Layout {
  double most_step_h = 1;         ///< longest step; 0 < h <= 1
  std::vector<Detour> detours{};  ///< in time order
  const Timeline* same{};         ///< a timeline that has the same days before ...
  int same_days = 0;              ///< ... this one; they are taken from there
};

/// Lays out the plan and its needs. Problems found: a month that a climate lacks, a trip longer
/// than `most_days`.
Timeline lay_timeline(const plan::Plan& plan, const Layout& layout);
Timeline lay_timeline(const plan::Plan& plan, double most_step_h = 1.0);

/// The first step that begins at or after a moment; the number of steps when there is none.
std::size_t step_at(const Timeline& timeline, int day, double hour);

}  // namespace drystage::engine
