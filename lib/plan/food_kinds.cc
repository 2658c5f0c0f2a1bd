#include "plan/food_kinds.h"

#include <algorithm>

namespace drystage::plan {

std::array<Word<FoodKind>, kept_kinds.size()> food_kind_words() {
  std::array<Word<FoodKind>, kept_kinds.size()> words{};
  std::transform(kept_kinds.begin(), kept_kinds.end(), words.begin(), [](const KeptKind& one) {
    return Word<FoodKind>{one.word, one.kind};
  });
  return words;
}

const KeptKind& kept_kind(FoodKind kind) {
  return *std::find_if(kept_kinds.begin(), kept_kinds.end(),
                       [kind](const KeptKind& one) { return one.kind == kind; });
}

bool shelf_life_is_assumed(const FoodItem& item) {
  return item.kept != Kept::dry && !item.keeps && !item.kind;
}

Keeps shelf_life(const FoodItem& item) {
  if (item.keeps) return *item.keeps;
  if (item.kind) return {.life_days = kept_kind(*item.kind).life_days};
  if (item.kept == Kept::dry) return {.life_days = 0};
  const FoodKind assumed = item.potentially_hazardous ? FoodKind::raw_mince : FoodKind::vegetables;
  return {.life_days = kept_kind(assumed).life_days};
}

}  // namespace drystage::plan
