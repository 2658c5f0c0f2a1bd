#pragma once

#include <optional>
#include <vector>

#include "engine/course.h"
#include "engine/remedy.h"
#include "engine/reserves/generator.h"
#include "engine/run.h"

namespace drystage::engine::reserves {

/// Whatever else can run out, each a reserve of its own: used by person and day, meal, day, km,
/// hour driven, dose and degree of the air, out of its stores in their order. Of what fills, the
/// level is the room that is left. What must be kept cold is lost where its store is too warm.
struct Consumables {
  struct Store {
    int store = 0;
    plan::ConsumableStoreReference in_plan{};
    double holds = 0;
    int cabinet = -1;       ///< whose cold it has; -1: it is as warm as the air
    std::size_t state = 0;  ///< its place in State::out_of_range_h
  };

  struct Stock {
    int reserve = 0;
    std::vector<Store> stores;  ///< in order of use
    plan::ConsumableUse use;
    std::optional<plan::KeepingRange> keeps;
    std::vector<double> leg_per_km;     ///< by Calendar::legs: with the hours that a km takes there
    std::vector<double> ground_per_km;  ///< by part of every leg: the same
    std::vector<Generator> generators;  ///< that burn it
  };

  struct Compiled {
    std::vector<Stock> stocks;
    std::size_t stores = 0;  ///< of all of them
  };
  struct State {
    /// By store: for how long what is in it has been warmer or colder than it may be, in all.
    std::vector<double> out_of_range_h;
  };

  static Compiled compile(const plan::Plan& plan, CourseBase& course);
  static State begin(const Compiled& compiled, Run& run);
  static void supply(const Compiled& compiled, State& state, Run& run, int order);
  static void advance(const Compiled& compiled, State& state, Run& run, const TimeStep& step);
  static void heed(Compiled& compiled, const plan::Plan& plan, const CourseBase& course);
  static void meet(const Compiled& compiled, State& state, Run& run);
  static void lose_excess(const Compiled& compiled, State& state, Run& run);
  static void set_level(const Compiled& compiled, State& state, Run& run, int reserve,
                        double level);
  static void set_store(const Compiled& compiled, State& state, Run& run, int store, double level);
  static std::vector<Remedy> remedies(const Compiled& compiled, const plan::Plan& plan, int reserve,
                                      double lacking);
};

// --- how much is used (consumables_use.cc) ---

/// What a km of a part of a leg takes, with the hours that it takes there.
double per_km(const plan::ConsumableUse& use, const RoadPiece& part);

/// What a day of staying put takes, in the weather of a place's day.
double per_day(const Consumables::Stock& stock, const PlaceDay& here, const PlaceConditions& air,
               const Factors& factors);

/// What goes evenly through a step.
double evenly_used(const plan::ConsumableUse& use, const Calendar& calendar, const TimeStep& step,
                   double air_c, const Factors& factors);

/// Whether a dose is taken at a clock hour of a step's day, within the step.
bool takes_dose(const plan::Doses& doses, double at_h, const TimeStep& step);

}  // namespace drystage::engine::reserves
