#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "engine/course.h"
#include "engine/own_stock.h"
#include "engine/remedy.h"
#include "engine/run.h"

namespace drystage::engine::reserves {

/// Drinking and utility water: two pools that never mix by themselves. Drinking containers serve
/// nothing else. When they are empty, what is potable in utility containers is drunk, never what is
/// brackish, and the record says of each container when that begins. Uses that ask for potable
/// water get none that is brackish; all others take brackish water first. Brackish water makes a
/// container utility-only until it has been emptied and cleaned. A vehicle that keeps its own has
/// such a pair of pools for those who ride in it.
struct Water {
  struct Can {
    int store = 0;
    int container = 0;       ///< index in the plan
    std::size_t number = 0;  ///< among the cans of all pools
    double holds_l = 0;
    bool drinking = true;
    bool brackish = false;
    int moved_into = -1;  ///< vehicle that has taken it over from one that was left behind
  };

  /// Containers that serve the same people, and these.
  struct Pool {
    std::size_t number = 0;
    int owner = -1;         ///< vehicle; -1: all who keep no water of their own
    int drinking = 0;       ///< reserve
    int utility = -1;       ///< reserve; -1 when the plan has neither store nor use for it
    std::vector<Can> cans;  ///< in order of use
    std::vector<OwnWater>
        needs{};  ///< by step; none: the pool is the party's, whose needs are known
  };

  struct Compiled {
    std::vector<Pool> pools;  ///< the common one first
  };

  struct CanState {
    bool drinking = true;
    bool brackish = false;
    bool drunk_from = false;  ///< a utility container: told that it is being drunk from
  };

  /// Which containers are drawn on.
  enum class From { drinking, potable_utility, brackish };

  struct PoolState {
    /// By `From`: no can before this one gives anything, until water is taken on.
    std::array<std::size_t, 3> first{};
    int told_potable_short = -1;  ///< the day on which it was told last that brackish water is left
  };

  struct State {
    std::vector<CanState> cans;    ///< by Can::number
    std::vector<PoolState> pools;  ///< by Compiled::pools
  };

  static Compiled compile(const plan::Plan& plan, CourseBase& course);
  static State begin(const Compiled& compiled, Run& run);
  static void supply(const Compiled& compiled, State& state, Run& run, int order);
  static void advance(const Compiled& compiled, State& state, Run& run, const TimeStep& step);
  static void heed(Compiled& compiled, const plan::Plan& plan, const CourseBase& course);
  static void meet(const Compiled& compiled, State& state, Run& run);
  static void refill(Compiled& compiled, const plan::Plan& plan, const CourseBase& course,
                     const IndexRange& steps);
  static void lose_excess(const Compiled& compiled, State& state, Run& run);
  static void set_level(const Compiled& compiled, State& state, Run& run, int reserve,
                        double level);
  static void set_store(const Compiled& compiled, State& state, Run& run, int store, double level);
  static std::vector<Remedy> remedies(const Compiled& compiled, const plan::Plan& plan, int reserve,
                                      double lacking);
};

}  // namespace drystage::engine::reserves
