#pragma once

#include <vector>

#include "engine/course.h"
#include "engine/own_use.h"
#include "engine/remedy.h"
#include "engine/reserves/generator.h"
#include "engine/run.h"
#include "models/road_load.h"

namespace drystage::engine::reserves {

/// Fuel, one reserve for each vehicle. The level is what can be used: the unusable remainder of
/// each tank is on board and weighs, but does not count. A can that is for several vehicles counts
/// for the one that carries it. It is poured into another only so far as that one would otherwise
/// fall below its margin, and the giver does not: so if any way of sharing keeps all margins, this
/// one does. What another would lack altogether it gives in any case.
struct Fuel {
  struct Tank {
    int store = 0;
    plan::TankReference tank{};  ///< in the plan
    double unusable_l = 0;
    double holds_l = 0;
  };

  /// Litres per km as fixed + per_kg x mass moved.
  struct PerKm {
    double fixed_l = 0;
    double per_kg_l = 0;

    void add(const PerKm& more, double factor) {
      fixed_l += more.fixed_l * factor;
      per_kg_l += more.per_kg_l * factor;
    }
    [[nodiscard]] double litres(double kg) const { return fixed_l + per_kg_l * kg; }
  };

  /// Part of a leg.
  struct Ground {
    plan::Surface surface{};
    int leg = 0;   ///< index into Calendar::legs
    PerKm level;   ///< its surface, on the level
    PerKm of_leg;  ///< its share, with its climbs, of what a km of the whole leg takes
  };

  /// A can that another vehicle carries and this one may be filled from.
  struct SharedCan {
    Tank can;
    int reserve = 0;  ///< of the vehicle that carries it
  };

  struct Vehicle {
    int reserve = 0;
    double towed_kg = 0;                     ///< moves with it, and is no part of its mass
    std::vector<Tank> tanks;                 ///< in order of use
    std::vector<SharedCan> shared;           ///< in order of use
    RoadModel model;                         ///< what its own figures say
    std::vector<models::FuelDemand> pieces;  ///< by Calendar::pieces, in the weather of the day
    std::vector<PerKm> legs;                 ///< by Calendar::legs, with their climbs
    std::vector<Ground> grounds;             ///< by part of every leg
    bool lost = false;                       ///< left behind: drives no more
    int taker = -1;                          ///< then: the vehicle that takes its fuel
  };

  struct Compiled {
    std::vector<Vehicle> vehicles;
    std::vector<Generator> generators;
  };

  struct State {
    std::vector<int> poured_day;  ///< by store: the day on which it was told last
  };

  static Compiled compile(const plan::Plan& plan, CourseBase& course);
  static void refill(Compiled& compiled, const plan::Plan& plan, const CourseBase& course,
                     const IndexRange& steps);
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

}  // namespace drystage::engine::reserves
