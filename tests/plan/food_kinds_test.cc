// How long food keeps where the plan does not say, against a published chart.
#include "plan/food_kinds.h"

#include <gtest/gtest.h>

#include <optional>
#include <ostream>

#include "models/spoilage.h"

namespace drystage::plan {
namespace {

FoodItem item_of(Kept kept, std::optional<FoodKind> kind = {}) {
  FoodItem item;
  item.kept = kept;
  item.kind = kind;
  return item;
}

/// A row of the US federal cold food storage chart, for 40 °F (4 °C) or below (memory).
struct Row {
  FoodKind kind;
  double least_days;
  double most_days;
};

void PrintTo(const Row& row, std::ostream* out) { *out << kept_kind(row.kind).word; }

class ColdStorageChart : public testing::TestWithParam<Row> {};

TEST_P(ColdStorageChart, IsKeptToAtFourDegrees) {
  const Row& row = GetParam();
  const Keeps keeps = shelf_life(item_of(Kept::chilled, row.kind));
  EXPECT_DOUBLE_EQ(keeps.at_c, 4);
  EXPECT_GE(keeps.life_days, row.least_days);
  EXPECT_LE(keeps.life_days, row.most_days);
}

TEST_P(ColdStorageChart, IsNotPassedInAColderCabinetEither) {
  // "or below": the model gives colder food longer. At 1 °C it must still lie in the range.
  const Row& row = GetParam();
  const Keeps keeps = shelf_life(item_of(Kept::chilled, row.kind));
  EXPECT_LE(models::shelf_life_days(1, keeps.life_days, keeps.at_c), row.most_days);
}

INSTANTIATE_TEST_SUITE_P(All, ColdStorageChart,
                         testing::Values(Row{FoodKind::raw_mince, 1, 2},
                                         Row{FoodKind::poultry, 1, 2}, Row{FoodKind::fish, 1, 2},
                                         Row{FoodKind::raw_meat, 3, 5},
                                         Row{FoodKind::eggs, 21, 35}));

TEST(FoodKind, ThatHasAOneSidedRowInTheChartKeepsNoLonger) {
  EXPECT_LE(kept_kind(FoodKind::cooked).life_days, 4);          // leftovers, 3 to 4 days
  EXPECT_LE(kept_kind(FoodKind::bacon).life_days, 7);           // 1 week
  EXPECT_LE(kept_kind(FoodKind::hard_cheese).life_days, 28);    // opened, 3 to 4 weeks
  EXPECT_LE(kept_kind(FoodKind::vacuum_packed).life_days, 14);  // unopened, 2 weeks
  EXPECT_LE(kept_kind(FoodKind::dairy).life_days, 7);           // milk, 1 week (USDA FoodKeeper)
}

TEST(ShelfLife, ThatIsNotSaidIsThatOfWhatKeepsLeast) {
  for (const Kept kept : {Kept::chilled, Kept::frozen}) {
    const FoodItem unsaid = item_of(kept);
    EXPECT_TRUE(shelf_life_is_assumed(unsaid));
    for (const KeptKind& kind : kept_kinds) {
      EXPECT_LE(shelf_life(unsaid).life_days, kind.life_days) << kind.word;
    }
  }
}

TEST(ShelfLife, OfOnesOwnBeatsTheKind) {
  FoodItem item = item_of(Kept::chilled, FoodKind::eggs);
  item.keeps = Keeps{.life_days = 9, .at_c = 2};
  EXPECT_DOUBLE_EQ(shelf_life(item).life_days, 9);
  EXPECT_DOUBLE_EQ(shelf_life(item).at_c, 2);
  EXPECT_FALSE(shelf_life_is_assumed(item));
}

TEST(ShelfLife, OfDryGoodsOfNoKindIsWithoutEnd) {
  EXPECT_DOUBLE_EQ(shelf_life(item_of(Kept::dry)).life_days, 0);
  EXPECT_FALSE(shelf_life_is_assumed(item_of(Kept::dry)));
}

}  // namespace
}  // namespace drystage::plan
