#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "answers/offers/sized_line.h"
#include "engine/reserve_id.h"
#include "plan/plan.h"

namespace drystage::answers {

/// One way in which a decision can be made: so many cans of each size, or one battery.
struct Choice {
  std::vector<int> taken;  ///< by line: how many pieces, or which of the sizes
  /// What it can serve its reserve with at the outset, in its unit, all of it full; of equipment
  /// its size.
  double amount = 0;
  double largest = 0;           ///< of vessels: the one with most in it
  std::vector<double> load_kg;  ///< by vehicle: what the engine has it weigh at the outset
  Totals totals;
  bool fits = true;     ///< of a cabinet: what is to go into it goes into it
  int cabinet = -1;     ///< which, of a choice of cabinets
  bool weighed = true;  ///< of equipment: the plan says what its own weighs
  std::vector<SizedLine> lines{};
  std::function<void(plan::Plan&)> apply{};  ///< leaves alone whatever is not this decision's
};

/// One thing that is to be decided: how many cans of diesel for the truck, which battery.
struct Decision {
  /// Stores serve one reserve of amounts; more of one never harms that reserve, and reaches others
  /// only by its weight. Equipment decides about charge and cold.
  enum class Sort { store, equipment };
  Sort sort = Sort::store;
  engine::ReserveId reserve{};    ///< of a store: which one it serves
  int vehicle = -1;               ///< of fuel: whose
  std::string item{};             ///< of food: which
  int bank = -1;                  ///< of equipment: with which bank it works
  std::vector<Choice> choices{};  ///< at least one; sorted by what there is to be least of
  Totals planned{};               ///< of what the plan has
  /// The choice with one piece less of one of its lines, or the next lesser one of a thing that is
  /// not counted; nothing where there is none.
  std::function<std::optional<Choice>(const Choice& choice, std::size_t line)> one_fewer{};
};

/// What there is to be least of, then the other; in millionths, whole, so that the order in which
/// it is summed up does not matter.
struct Objective {
  std::int64_t first = 0;
  std::int64_t second = 0;
  bool operator==(const Objective& other) const = default;
  bool operator<(const Objective& other) const {
    return first != other.first ? first < other.first : second < other.second;
  }
  Objective operator+(const Objective& other) const {
    return {first + other.first, second + other.second};
  }
};
Objective objective(const Totals& totals, Least least);

/// A mass or a draw that is reckoned from another, in hundredths, rounded up: so it can be written
/// down, and errs on the safe side.
double hundredths_up(double value);

/// What is least comes first: mass, then cost, or the other way; then what takes up less space;
/// then in the order in which they stand.
void sort_choices(std::vector<Choice>& choices, Least least);

/// Everything that may change in a plan (Plan::size, or the usual things where that lists none),
/// leaving out what is kept and what the plan's own mishaps name. A decision with one choice alone
/// is among them, so that it is listed and weighed.
/// `cans_may_be_lost`: smaller cans are choices too where they weigh more, since less is lost with
/// one of them.
std::vector<Decision> decisions_of(const plan::Plan& plan, Least least,
                                   bool cans_may_be_lost = false);

// By sort; each in a file of its own.
std::vector<Decision> store_decisions(const plan::Plan& plan, Least least, bool cans_may_be_lost);
std::vector<Decision> spare_wheel_decisions(const plan::Plan& plan, Least least);
std::vector<Decision> food_decisions(const plan::Plan& plan, Least least);
std::vector<Decision> equipment_decisions(const plan::Plan& plan, Least least);

/// Whether some stop of a plan takes it on.
bool is_taken_on_the_way(const plan::Plan& plan, plan::Commodity commodity);

/// Whether `size:` (or --keep) or a mishap of the plan's own wants a thing left as it is. `of`:
/// whose it is, of a tank the vehicle, of a store the consumable.
bool is_kept(const plan::Plan& plan, plan::Item::Sort sort, int index, int of = -1);

/// Whether a weighbridge ticket of the vehicle names a thing: it tells what the empty vehicle
/// weighs by what the plan says of that thing.
bool was_weighed(const plan::Vehicle& vehicle, const std::string& name);

}  // namespace drystage::answers
