#include "plan/food_kinds.h"

#include <algorithm>

namespace drystage::plan {

const KeptKind& kept_kind(FoodKind kind) {
  return *std::find_if(kept_kinds.begin(), kept_kinds.end(),
                       [kind](const KeptKind& one) { return one.kind == kind; });
}

bool is_usually_hazardous(const FoodItem& item) {
  return item.kind ? kept_kind(*item.kind).hazardous : item.kept != Kept::dry;
}

bool shelf_life_is_assumed(const FoodItem& item) {
  return item.kept != Kept::dry && !item.keeps && !item.kind;
}

Keeps shelf_life(const FoodItem& item) {
  if (item.keeps) return *item.keeps;
  if (item.kept == Kept::dry && !item.kind) return {.life_days = 0, .at_c = kept_kinds_c};
  const FoodKind assumed = item.potentially_hazardous ? FoodKind::raw_mince : FoodKind::vegetables;
  return {.life_days = kept_kind(item.kind.value_or(assumed)).life_days, .at_c = kept_kinds_c};
}

}  // namespace drystage::plan
