// What `drystage needs --format json` gives to programs.
#include <gtest/gtest.h>

#include <limits>
#include <nlohmann/json.hpp>

#include "support/needs_answer.h"

namespace drystage {
namespace {

using nlohmann::json;
using report::NeedsAnswer;
using support::after_red_tables;
using support::at_place;
using support::need_of;
using support::plain_needs;
using support::stretch_of;
using support::three_places;

json parsed(const NeedsAnswer& answer) { return json::parse(report::needs_json(answer)); }

TEST(NeedsJson, NamesItsFormatAndTrip) {
  NeedsAnswer answer = plain_needs(three_places());
  answer.warnings = {"one thing"};
  const json out = parsed(answer);
  EXPECT_EQ(out["format"], "drystage.needs/1");
  EXPECT_EQ(out["trip"], json({{"title", "A test"}, {"start", "2027-03-01"}, {"days", 6}}));
  EXPECT_EQ(out["warnings"], json({"one thing"}));
  EXPECT_EQ(out["met"], true);
}

TEST(NeedsJson, HasEveryMorningAndReserve) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 1, "drinking_water").must_have = 50.25;
  const json out = parsed(answer);
  EXPECT_EQ(out["met"], false);
  ASSERT_EQ(out["reserves"].size(), 3U);
  EXPECT_EQ(out["reserves"][0], json({{"name", "drinking_water"},
                                      {"unit", "L"},
                                      {"capacity", 120.0},
                                      {"life_supporting", true}}));
  ASSERT_EQ(out["days"].size(), 6U);
  const json& day = out["days"][1];
  EXPECT_EQ(day["day"], 2);
  EXPECT_EQ(day["date"], "2027-03-02");
  EXPECT_EQ(day["at"], "Red Tables");
  ASSERT_EQ(day["reserves"].size(), 3U);
  EXPECT_EQ(day["reserves"]["drinking_water"],
            json({{"must_have", 50.25},
                  {"has", 20.0},
                  {"to_spare", -30.25},
                  {"met", false},
                  {"fits", true},
                  {"until",
                   {{"day", 4}, {"hour", 12.0}, {"place", "Far Well"}, {"end_of_trip", false}}}}));
  EXPECT_EQ(day["reserves"]["fuel:truck"]["met"], true);
}

TEST(NeedsJson, HasNullWhereNoAmountIsEnough) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 0, "food") = {.must_have = std::numeric_limits<double>::infinity(),
                                .has = 20,
                                .fits = false,
                                .until_day = 5,
                                .until_h = 24};
  const json need = parsed(answer)["days"][0]["reserves"]["food"];
  EXPECT_EQ(need["must_have"], nullptr);
  EXPECT_EQ(need["to_spare"], nullptr);
  EXPECT_EQ(need["met"], false);
  EXPECT_EQ(need["fits"], false);
  EXPECT_EQ(need["until"],
            json({{"day", 6}, {"hour", 24.0}, {"place", nullptr}, {"end_of_trip", true}}));
}

TEST(NeedsJson, TellsWhetherTurningBackIsPossible) {
  NeedsAnswer answer = plain_needs(three_places());
  const answers::SupplyStretch never = stretch_of(answer, "drinking_water");
  answers::SupplyStretch always = never;
  always.always = true;
  always.to_place = -1;
  answers::SupplyStretch until = never;
  until.last = after_red_tables(3, 13.5, 85);
  answers::SupplyStretch later = never;
  later.again = at_place(2, 6, 1);
  later.windows = {{.from = *later.again, .last = at_place(2, 9, 1), .decides = later.reserve}};
  answer.turn_back.stretches = {never, always, until, later};
  const json out = parsed(answer)["turn_back"];
  ASSERT_EQ(out["stretches"].size(), 4U);
  EXPECT_EQ(out["stretches"][0]["possible"], "never");
  EXPECT_EQ(out["stretches"][0]["last"], nullptr);
  EXPECT_EQ(out["stretches"][0]["even"], nullptr);
  EXPECT_EQ(out["stretches"][0]["reserve"], "drinking_water");
  EXPECT_EQ(out["stretches"][0]["from"], "Base");
  EXPECT_EQ(out["stretches"][0]["to"], "Far Well");
  EXPECT_EQ(out["stretches"][1]["possible"], "always");
  EXPECT_EQ(out["stretches"][1]["to"], nullptr);
  EXPECT_EQ(out["stretches"][2]["possible"], "until");
  EXPECT_EQ(out["stretches"][2]["last"], json({{"day", 4},
                                               {"date", "2027-03-04"},
                                               {"hour", 13.5},
                                               {"place", nullptr},
                                               {"from", "Red Tables"},
                                               {"to", "Far Well"},
                                               {"done_km", 85.0},
                                               {"to_go_km", 30.0}}));
  EXPECT_EQ(out["stretches"][3]["possible"], "not_at_first");
  EXPECT_EQ(out["stretches"][3]["again"]["place"], "Red Tables");
  EXPECT_EQ(out["stretches"][2]["windows"], json::array());
  ASSERT_EQ(out["stretches"][3]["windows"].size(), 1U);
  EXPECT_EQ(out["stretches"][3]["windows"][0]["from"], out["stretches"][3]["again"]);
  EXPECT_EQ(out["stretches"][3]["windows"][0]["last"]["hour"], 9.0);
  EXPECT_EQ(out["stretches"][3]["windows"][0]["decides"], "drinking_water");
  EXPECT_EQ(out["all"], json::array());
}

TEST(NeedsJson, HasWhatBothWaysNeedAndWhoDecides) {
  NeedsAnswer answer = plain_needs(three_places());
  answers::SupplyStretch stretch = stretch_of(answer, "fuel:truck");
  stretch.even = at_place(1, 14, 1);
  stretch.even_need = 24.25;
  answer.turn_back.stretches = {stretch};
  answer.turn_back.windows = {
      {.from = at_place(0, 8, 0), .last = at_place(1, 9, 1), .decides = stretch.reserve},
      {.from = at_place(2, 8, 1), .last = at_place(5, 24, 2)}};
  const json out = parsed(answer)["turn_back"];
  EXPECT_EQ(out["stretches"][0]["even"]["need"], 24.25);
  EXPECT_EQ(out["stretches"][0]["even"]["day"], 2);
  ASSERT_EQ(out["all"].size(), 2U);
  EXPECT_EQ(out["all"][0]["decides"], "fuel:truck");
  EXPECT_EQ(out["all"][0]["from"]["place"], "Base");
  EXPECT_EQ(out["all"][1]["decides"], nullptr);
  EXPECT_EQ(out["all"][1]["last"]["hour"], 24.0);
}

}  // namespace
}  // namespace drystage
