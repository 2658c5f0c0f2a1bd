#pragma once

#include <vector>

#include "engine/course.h"
#include "engine/remedy.h"
#include "engine/run.h"
#include "models/punctures.h"

namespace drystage::engine::reserves {

/// Spare wheels and repairs of each vehicle that says what it has: the punctures that it can still
/// have and go on. Nothing of them is used in a plan's own run. Its margin is what must be there so
/// that they last, with the chance that is asked for, to the next place that mends tyres, or to the
/// end: it falls as the way gets shorter. Where such a place is, all is whole again. Whether there
/// are any changes nothing else but what the vehicle weighs.
struct Tyres {
  // StoreInfo::index of a vehicle's two stores.
  static constexpr int wheels_index = 0;
  static constexpr int repairs_index = 1;

  struct Vehicle {
    int vehicle = 0;  ///< index in the plan
    int reserve = 0;
    int wheels = 0;   ///< store
    int repairs = 0;  ///< store
    int most_wheels = 0;
    int most_repairs = 0;
    double chance = 0;
    int punctured = 0;                         ///< by mishaps, up to now
    std::vector<models::Punctures> to_come{};  ///< by step: from its beginning on
  };

  struct Compiled {
    std::vector<Vehicle> vehicles;
    std::vector<char> mends;  ///< by step: a place that mends tyres is open
  };
  /// By Compiled::vehicles.
  struct OfVehicle {
    int punctured = 0;  ///< of Vehicle::punctured, those that have been met
    int lacking = 0;    ///< for which nothing was there, and which have not been told of yet
    // What was asked last, and the answer:
    models::Punctures expected{};
    models::Spares spares{};
    int needed = -1;
  };
  struct State {
    std::vector<OfVehicle> of;
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

/// Punctures of a vehicle to be expected on so many km of a surface: by its own rate, or the usual
/// one.
models::Punctures punctures_on(const plan::TyreKit& tyres, plan::Surface surface,
                               double distance_km);

/// The chance with which the spares of a reserve of this family are to be enough, 0 to 1.
double chance_asked(const plan::Plan& plan, const ReserveInfo& reserve);

/// Whether a place mends tyres on a date: its supply of them is open and confirmed.
bool mends_tyres(const plan::Place& place, plan::Date date);

/// Of one of the compiled vehicles: how many spares it has before each step as planned, and as read
/// on the way.
std::vector<int> spares_before_each_step(const Tyres::Compiled& compiled, std::size_t vehicle,
                                         const CourseBase& course);

}  // namespace drystage::engine::reserves
