// What `drystage needs --format csv` gives to spreadsheets.
#include "cli/csv.h"

#include <gtest/gtest.h>

#include <limits>

#include "support/needs_answer.h"

namespace drystage {
namespace {

using drystage::testing::parse_csv;
using drystage::testing::Row;
using report::NeedsAnswer;
using support::need_of;
using support::plain_needs;
using support::PlanText;
using support::three_places;

TEST(NeedsCsv, HasARowForEachMorningAndReserve) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 1, "drinking_water").must_have = 50.123456;
  const std::vector<Row> rows = parse_csv(report::needs_csv(answer));
  ASSERT_EQ(rows.size(), 1 + 6 * 3U);
  EXPECT_EQ(rows[0], (Row{"day", "date", "reserve", "unit", "must_have", "has", "to_spare", "met",
                          "fits", "until_day", "until_hour", "until_place"}));
  EXPECT_EQ(rows[1], (Row{"1", "2027-03-01", "drinking_water", "L", "10.0000", "20.0000", "10.0000",
                          "yes", "yes", "4", "12.0000", "Far Well"}));
  EXPECT_EQ(rows[4], (Row{"2", "2027-03-02", "drinking_water", "L", "50.1235", "20.0000",
                          "-30.1235", "no", "yes", "4", "12.0000", "Far Well"}));
}

TEST(NeedsCsv, HasAnEmptyCellWhereThereIsNone) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 0, "drinking_water") = {.must_have = std::numeric_limits<double>::infinity(),
                                          .has = 20,
                                          .fits = false,
                                          .until_day = 5,
                                          .until_h = 24};
  EXPECT_EQ(parse_csv(report::needs_csv(answer))[1],
            (Row{"1", "2027-03-01", "drinking_water", "L", "", "20.0000", "", "no", "no", "6",
                 "24.0000", ""}));
}

TEST(NeedsCsv, KeepsNamesFromBeingReadAsCellsOrFormulas) {
  PlanText plan = three_places();
  plan.places[2] = PlanText::place("\"-Well, far\"", "air");
  plan.itinerary[3] = "drive: {to: \"-Well, far\", distance: 115 km, surfaces: gravel}";
  EXPECT_EQ(parse_csv(report::needs_csv(plain_needs(plan)))[1].back(), "'-Well, far");
}

}  // namespace
}  // namespace drystage
