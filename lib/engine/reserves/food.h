#pragma once

#include <optional>
#include <vector>

#include "engine/course.h"
#include "engine/own_stock.h"
#include "engine/remedy.h"
#include "engine/run.h"

namespace drystage::engine::reserves {

/// Mass of a meal of bought dry and tinned goods (common practice: some 1.8 kg a person and day).
inline constexpr double bought_kg_per_meal = 0.6;

/// Food, in meals. Eaten first-expired-first: what must go now, then by how long it still keeps,
/// frozen and dry goods last. Chilled food ages by the square-root spoilage model; frozen food is
/// safe while frozen and ages as chilled from the thaw. What is potentially hazardous falls under
/// the 2-hour/4-hour rule above 5 °C, wherever it lies, which runs twice as fast above 32 °C. What
/// spoils leaves the reserve at the hour it does, and is eaten from until then. A vehicle that
/// keeps its own has such a pool for those who ride in it.
struct Food {
  struct Item {
    int store = 0;
    std::size_t number = 0;  ///< among the items of all pools
    int cabinet = -1;
    plan::Kept kept = plan::Kept::dry;
    double full_meals = 0;
    double kg_per_meal = 0;
    double kj_k_per_kg = 0;
    double ageing_at_0c_per_h = 0;  ///< share of its shelf life; 0: keeps for ever
    bool hazardous = true;
    std::optional<double> bought_at_c{};  ///< chilled goods; none: as warm as the air
  };

  /// Food that the same people eat of.
  struct Pool {
    std::size_t number = 0;
    int owner = -1;  ///< vehicle; -1: all who keep no food of their own
    int reserve = -1;
    std::vector<Item> items;
    int bought = -1;  ///< index of the item that bought meals go to
    std::vector<OwnMeals>
        needs{};  ///< by step; none: the pool is the party's, whose needs are known
  };

  struct Compiled {
    /// The common one first. None: the plan does not speak of food, which is not judged then.
    std::vector<Pool> pools;
  };

  struct ItemState {
    double age = 0;     ///< share of the shelf life that is spent
    double warm_h = 0;  ///< hours on the food clock
    bool thawed = false;
    bool urgent = false;  ///< past two hours: to be eaten now
  };

  /// What becomes of an item in a step, each at an hour of the step, if in this one. It does not
  /// depend on how much of it is eaten until then.
  struct Fate {
    double thaws_h = without_limit;
    double urgent_h = without_limit;  ///< two hours on the clock
    double goes_h = without_limit;    ///< spoilt or to be thrown away
    EventKind why = EventKind::spoiled;
    double ageing = 0;   ///< share of the shelf life spent in the step
    double clock_h = 0;  ///< hours that the step puts on the clock
  };

  struct PoolState {
    int eating = -1;    ///< index of the item being eaten; -1: to be chosen
    int menu_day = -1;  ///< the day for which it was chosen
  };

  struct State {
    std::vector<ItemState> items;  ///< by Item::number
    std::vector<Fate> fates;       ///< scratch of one step, kept so that stepping allocates nothing
    std::vector<PoolState> pools;  ///< by Compiled::pools
  };

  static Compiled compile(const plan::Plan& plan, CourseBase& course);
  static State begin(const Compiled& compiled, Run& run);
  static void supply(const Compiled& compiled, State& state, Run& run, int order);
  static void advance(const Compiled& compiled, State& state, Run& run, const TimeStep& step);
  static void lose_excess(const Compiled& compiled, State& state, Run& run);
  static void meet(const Compiled& compiled, State& state, Run& run);
  static void set_level(const Compiled& compiled, State& state, Run& run, int reserve,
                        double level);
  static std::vector<Remedy> remedies(const Compiled& compiled, const plan::Plan& plan, int reserve,
                                      double lacking);
};

}  // namespace drystage::engine::reserves
