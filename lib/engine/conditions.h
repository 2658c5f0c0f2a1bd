#pragma once

#include <array>
#include <memory>
#include <span>
#include <vector>

#include "engine/almanac.h"
#include "engine/calendar.h"
#include "engine/drawn.h"
#include "engine/ready_days.h"
#include "engine/weather_day.h"
#include "plan/plan.h"

namespace drystage::engine {

struct DayConditions {
  double max_c = 0;
  double min_c = 0;
  double mean_c = 0;
  double drinking = 1;  ///< times what all people drink, by a draw
};

struct StepConditions {
  double air_c = 0;    ///< mean over the step
  double drink_l = 0;  ///< what the party needs in the step
};

struct PlaceConditions {
  WeatherDay weather{};
  std::array<double, 24> air_c{};  ///< by clock hour
  double drink_l = 0;              ///< per day of staying put
};

struct PartyConditions {
  double loss_g_m2 = 0;  ///< of the day, beyond the temperate base; see water_loss.h
  std::array<double, 24> drink_l_h{};
};

/// The clock hour, 0 to 23, whose conditions are those of a step.
std::size_t clock_hour(const TimeStep& step);

/// What the weather makes of a calendar: air, radiation, and what people drink in it. Each vector
/// goes with the calendar's of the same name. They can be filled anew, or some days of them, for
/// the same calendar.
struct Conditions {
  std::vector<DayConditions> days;
  std::vector<StepConditions> steps;
  std::vector<double> air_density_kg_m3;  ///< by piece of road, as is the next
  std::vector<double> more_headwind_m_s;  ///< than its own
  std::vector<PlaceConditions> place_days;
  std::vector<PartyConditions> party_days;
  std::vector<double> drinking_factors;  ///< by person; see drinking.h
};

/// Makes room for a calendar; allocates nothing where there is room already.
void make_room(Conditions& conditions, const Calendar& calendar);

/// Fills in the days from one to another that is not included: what the plan's weather makes of
/// them, with the factors that `conditions` has. The calendar must have no problems.
void fill_days(Conditions& conditions, const plan::Plan& plan, const Calendar& calendar,
               Almanac& almanac, int from_day, int until_day);

/// What trips on one calendar share, as far as it goes by the weather.
struct ReadyConditions {
  ReadyConditions(const plan::Plan& plan, const Calendar& calendar, Conditions as_planned,
                  ReadyDays& days);

  Conditions planned;               ///< each place day with what is worked out of it
  std::vector<DayFigures> figures;  ///< by PlaceDay, as planned
  std::vector<std::shared_ptr<const ReadyDay>> days;  ///< by PlaceDay
};

/// The same as one trip has them, with the sky of each place day.
void fill_drawn_days(Conditions& conditions, const plan::Plan& plan, const Calendar& calendar,
                     const ReadyConditions& ready, const Drawn& drawn,
                     std::span<const DrawnSky> skies, int from_day, int until_day);

/// What each person of one trip drinks.
void draw_people(Conditions& conditions, const Conditions& planned, const Drawn& drawn);

/// Takes such days from other conditions, of a calendar that is the same up to `until_day`.
void take_days(Conditions& conditions, const Conditions& other, const Calendar& calendar,
               int from_day, int until_day);

}  // namespace drystage::engine
