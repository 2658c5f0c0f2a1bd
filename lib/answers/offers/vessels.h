#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "answers/offers/decision.h"
#include "engine/usual_sizes.h"

namespace drystage::answers {

/// A container, tank, can or store of a consumable that a plan has, as far as sizing is concerned.
/// Amounts are in the pool's unit.
struct Vessel {
  std::string name;
  std::string title;  ///< the name, with whose it is where that is not plain
  double holds = 0;
  double filled = 0;
  double unusable = 0;
  double empty_kg = 0;
  int vehicle = 0;
  bool can = false;                        ///< taken along or left; any other is fitted
  bool kept = false;                       ///< must stay as it is
  std::vector<plan::VesselOffer> sizes{};  ///< of one that is fitted: in place of it
};

/// A size of can that may be taken in any number.
struct CanType {
  double holds = 0;
  double filled = 0;  ///< when it is full, with the room left that the plan leaves
  double empty_kg = 0;
  double cost = 0;
  double space_l = 0;
  std::optional<int> most{};            ///< none: as many as anybody loads
  int vehicle = 0;                      ///< in which new ones go
  std::string where{};                  ///< " in van", where there is more than one
  std::vector<std::size_t> existing{};  ///< those of the plan, which are used first
};

/// What changes in a list of vessels. They are known by their names.
struct Remake {
  struct Refit {
    std::string name;
    double holds = 0;
    double filled = 0;
    double empty_kg = 0;
  };
  struct Added {
    double holds = 0;
    double filled = 0;
    double empty_kg = 0;
    int vehicle = 0;
    std::string like{};  ///< one of the plan that it is like, and comes after; empty: none
  };
  std::vector<std::string> removed;
  std::vector<Refit> refits;
  std::vector<Added> added;
};

/// Everything that serves one reserve: the vessels of a plan, and what may be had besides.
struct Pool {
  engine::ReserveId reserve;
  std::string contents;  ///< "drinking water", "diesel"
  std::string can;       ///< what a can is called: "container", "can"
  std::string unit = "L";
  double unit_kg = 1;     ///< what one unit weighs
  bool in_tenths = true;  ///< what is put into one is rounded down to a tenth of the unit
  double unit_l = engine::usual_can_space;  ///< outside volume of what holds one unit; 0: not known
  int vehicle = -1;                         ///< of fuel: whose
  std::size_t vehicles = 0;
  bool needs_one = false;  ///< to be filled on the way, or to have it in at all
  std::vector<Vessel> vessels{};
  std::vector<CanType> types{};
  std::function<void(plan::Plan&, const Remake&)> remake{};
};

/// Whether something is as good as full: whoever leaves a little room in a can leaves it on
/// purpose, for heat or frost.
bool is_full(double filled, double holds);

/// Adds to a pool's types the cans of the plan that are of no size on offer: they may stay, and no
/// more of them are to be had.
void add_own_types(Pool& pool);

/// Every way to fill a pool that no other way beats: none has as much with less mass in every
/// vehicle, less cost and less space, nor (where cans may be lost) with a smaller largest one. What
/// a stop is to fill must be there.
Decision decide(Pool pool, Least least, bool cans_may_be_lost);

}  // namespace drystage::answers
