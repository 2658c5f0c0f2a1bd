#pragma once

#include <array>
#include <string_view>

#include "plan/food.h"
#include "plan/words.h"

namespace drystage::plan {

/// How long a kind of food keeps at 4 °C, and whether it is potentially hazardous.
struct KeptKind {
  std::string_view word;  ///< in the plan
  FoodKind kind;
  double life_days;
  bool hazardous;
};

/// Source of the lives: the US federal cold food storage chart, for 40 °F (4 °C) or below. It gives
/// ranges; these are the lower ends, for food that is colder is given longer: by the spoilage model
/// (models/spoilage.h) 1 day at 4 °C is 2 days at 0 °C, and the range's upper end is not passed
/// above that. Milk and vegetables: USDA FoodKeeper (memory). What is potentially hazardous: the
/// foods that FSANZ names for its 2-hour/4-hour guide; eggs as well (ours).
inline constexpr std::array<KeptKind, 11> kept_kinds{{
    {"raw mince", FoodKind::raw_mince, 1, true},          // 1 to 2 days
    {"poultry", FoodKind::poultry, 1, true},              // raw, 1 to 2 days
    {"fish", FoodKind::fish, 1, true},                    // raw, 1 to 2 days
    {"raw meat", FoodKind::raw_meat, 3, true},            // steaks, chops, roasts, 3 to 5 days
    {"cooked", FoodKind::cooked, 3, true},                // leftovers, soups, stews, 3 to 4 days
    {"bacon", FoodKind::bacon, 7, true},                  // 1 week
    {"dairy", FoodKind::dairy, 7, true},                  // milk, 1 week
    {"eggs", FoodKind::eggs, 21, true},                   // in shell, 3 to 5 weeks
    {"hard cheese", FoodKind::hard_cheese, 21, false},    // opened, 3 to 4 weeks
    {"vegetables", FoodKind::vegetables, 7, false},       // fruit too; a week or more, but leaves
    {"vacuum-packed", FoodKind::vacuum_packed, 14, true}  // by the maker, unopened, 2 weeks
}};

/// What those lives are at.
inline constexpr double kept_kinds_c = 4;

/// The words under `kind:`.
inline constexpr auto food_kind_words = [] {
  std::array<Word<FoodKind>, kept_kinds.size()> words{};
  for (std::size_t i = 0; i < words.size(); ++i)
    words[i] = {kept_kinds[i].word, kept_kinds[i].kind};
  return words;
}();

/// What a kind of food is.
const KeptKind& kept_kind(FoodKind kind);

/// Whether an item is potentially hazardous where the plan does not say it.
bool is_usually_hazardous(const FoodItem& item);

/// How long an item keeps: as it says, else as its kind does. Where it says neither, what is
/// chilled or frozen is taken to keep as long as what keeps least, raw mince; or, where the plan
/// says that it is not potentially hazardous, as vegetables do. 0 days: for ever (dry goods).
Keeps shelf_life(const FoodItem& item);

/// Whether an item leaves that to be assumed.
bool shelf_life_is_assumed(const FoodItem& item);

}  // namespace drystage::plan
