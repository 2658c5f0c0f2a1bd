#pragma once

#include <vector>

#include "engine/course.h"
#include "engine/remedy.h"
#include "engine/run.h"

namespace drystage::engine::reserves {

/// Whatever else can run out, each a reserve of its own: used by person and day, meal, day, km and
/// hour driven, out of its stores in their order. Whether there is any changes nothing else.
struct Consumables {
  struct Store {
    int store = 0;
    plan::ConsumableStoreReference in_plan{};
    double holds = 0;
  };

  struct Stock {
    int reserve = 0;
    std::vector<Store> stores;  ///< in order of use
    plan::ConsumableUse use;
    std::vector<double> per_km;  ///< by Calendar::legs: with the hours that a km takes there
  };

  struct Compiled {
    std::vector<Stock> stocks;
  };
  struct State {};

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

}  // namespace drystage::engine::reserves
