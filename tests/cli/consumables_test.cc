// A bottle of cooking gas, written in the plan alone, is in every command as water and fuel are.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "cli/poppler.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "support/plan_text.h"

namespace drystage::testing::consumables_test {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::MatchesRegex;
using ::testing::Not;

constexpr const char* gas = "consumable:cooking gas";

/// One person, twelve days, 0.15 kg of gas a day. 2 kg less 0.3 kg of margin last 11 1/3 days: to
/// day 12, 08:00. Six and a half days until the first gas is sold, at Well.
std::string plan_text() {
  support::PlanText text;
  text.margins = {"drinking_water: 1 day", "fuel: 50 km"};
  text.containers = {"{name: can, holds: 60 L, filled: 60 L, empty_mass: 2 kg, for: drinking}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
  text.consumables = {
      "{name: cooking gas, unit: kg, stores: [{name: gas bottle, holds: 2 kg, filled: 2 kg, "
      "empty_mass: 3 kg}], use: {per_meal: 50 g}, margin: 2 days}"};
  text.places = {support::PlanText::place("Base", "air"),
                 support::PlanText::place("Well", "air", "consumables: {cooking gas: {}}")};
  text.itinerary = {"{at: Base}", "stay: {nights: 6}",
                    "drive: {to: Well, distance: 200 km, surfaces: sealed, speed: 50 km/h}",
                    "stay: {nights: 6}"};
  return text.text();
}

class ConsumablesEverywhere : public ::testing::Test {
 protected:
  [[nodiscard]] Outcome ask(const std::string& command, std::vector<std::string> options) const {
    options.insert(options.begin(), {command, plan_});
    return drystage(options);
  }
  [[nodiscard]] std::string csv(const std::string& command) const {
    return ask(command, {"--format", "csv"}).out;
  }
  [[nodiscard]] Json json(const std::string& command) const {
    return Json::parse(ask(command, {"--format", "json"}).out);
  }

  Workspace workspace_;
  std::string plan_ = workspace_.write("trip.yaml", plan_text());
};

TEST_F(ConsumablesEverywhere, RunTellsTheDayAndTheHour) {
  const Outcome outcome = ask("run", {});
  EXPECT_EQ(outcome.status, 1);
  EXPECT_THAT(outcome.out, HasSubstr("DOES NOT HOLD: cooking gas falls below its margin on day 12, "
                                     "Fri 12 Mar 2027, at\n08:00"));
  EXPECT_THAT(outcome.out, HasSubstr("filling up with cooking gas at Well on day 7"));
  EXPECT_THAT(csv("run"), HasSubstr("12,2027-03-12," + std::string(gas) + ",kg,"));
  EXPECT_EQ(json("run")["verdict"]["first_breach"]["reserve"], gas);
}

TEST_F(ConsumablesEverywhere, NeedsTellsWhatMustBeThereEachMorning) {
  const Json needs = json("needs");
  const Json& morning = needs["days"][0]["reserves"][gas];
  EXPECT_NEAR(morning["must_have"].get<double>(), 6.5 * 0.15 + 0.3, 1e-6);
  EXPECT_NEAR(morning["has"].get<double>(), 2, 1e-9);
  EXPECT_THAT(ask("needs", {"--all"}).out, HasSubstr("cooking gas, kg"));
  EXPECT_THAT(csv("needs"), HasSubstr("1,2027-03-01," + std::string(gas) + ",kg,"));
}

TEST_F(ConsumablesEverywhere, MishapsLosesTheBottle) {
  const Outcome outcome = ask("mishaps", {"--all"});
  EXPECT_THAT(outcome.out, HasSubstr("gas bottle lost, on day 1"));
  EXPECT_THAT(outcome.out, HasSubstr("Cooking gas runs out on day 1,"));
  EXPECT_THAT(csv("mishaps"), HasSubstr("gas bottle lost"));
  EXPECT_THAT(json("mishaps").dump(), HasSubstr("gas bottle lost"));
}

TEST_F(ConsumablesEverywhere, SizeLoadsASecondBottle) {
  const Outcome outcome = ask("size", {});
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("2 kg containers of cooking gas            1     2   10"));
  EXPECT_THAT(csv("size"), HasSubstr("2 kg container of cooking gas"));
  // What it writes is a plan that holds.
  const std::string written = workspace_.path("sized.yaml");
  EXPECT_EQ(ask("size", {"--write", written}).status, 0);
  EXPECT_THAT(read_file(written), HasSubstr("gas bottle"));
  EXPECT_EQ(drystage({"run", written}).status, 0);
}

TEST_F(ConsumablesEverywhere, CardHasItOnItsFrontInItsListAndInItsMass) {
  const std::string card = workspace_.path("card.pdf");
  EXPECT_EQ(ask("card", {"--with", "packing", "--output", card}).status, 1);
  const std::string text = pdf_text(card);
  const std::string front = text.substr(0, text.find("page 1 of"));
  EXPECT_THAT(front, HasSubstr("gas, kg"));
  const std::size_t list = text.find("gas bottle", text.find("Packing list"));
  ASSERT_NE(list, std::string::npos);
  const std::string row = text.substr(list, text.find('\n', list) - list);
  EXPECT_THAT(row, MatchesRegex("gas bottle +cooking gas +full, 2.0 kg +2.0 +3.0 +5.0"));
  // 2500 kg, 70 kg, 60 L and 2 kg, 90 L of diesel at 0.835 kg/L, 5 kg.
  EXPECT_THAT(text, HasSubstr("Truck weighs 2713 kg when setting out"));
  EXPECT_THAT(text, HasSubstr("Well, 0° N, 0° E: cooking gas"));
}

// A stopped compressor takes the medicine with it, and what is read of a cassette is its room.
TEST_F(ConsumablesEverywhere, MedicineIsLostWithItsColdAndRoomIsRead) {
  support::PlanText text;
  text.climate = {support::PlanText::steady_climate("air", 32)};
  text.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  text.batteries = {"{name: bank, kind: lfp, capacity: 900 Ah}"};
  text.cold = {
      "{name: chest, volume: 40 L, set_point: 4 °C, rated: {draw: 11 W, ambient: 32 °C, inside: 4 "
      "°C}}"};
  text.consumables = {
      "{name: insulin, unit: doses, matters: life, keeps: {from: 2 °C, to: 8 °C, out_of_it: 10 h}, "
      "stores: [{name: pens, holds: 40, filled: 40, cabinet: chest}], use: {doses: {amount: 1}}, "
      "margin: 2 days}",
      "{name: cassette, unit: L, fills: yes, stores: [{name: box, holds: 18 L, filled: 3 L}], use: "
      "{per_person_day: 2 L}}"};
  plan_ = workspace_.write("cold.yaml", text.text());
  EXPECT_EQ(ask("run", {}).status, 0);
  EXPECT_THAT(
      ask("mishaps", {"--all"}).out,
      HasSubstr("chest: compressor stopped, on day 1, Mon 01 Mar, 00:00. Insulin runs out"));
  // 15 L of room less 2 L a day, to the evening of the second day.
  const Outcome read = ask("resume", {"--evening", "2", "--consumable", "cassette=11.3 L"});
  EXPECT_THAT(read.out, HasSubstr("room in cassette, L       11       11"));
  EXPECT_THAT(ask("resume", {"--evening", "2", "--consumable", "cassette=1 L"}).out,
              HasSubstr("room in cassette runs out on day 3"));
}

// Each with stores of its own sizes.
TEST_F(ConsumablesEverywhere, TwoThatRunOutAreMendedTogether) {
  support::PlanText text;
  text.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  text.consumables = {
      "{name: gas, unit: kg, use: {per_day: 1 kg}, stores: [{name: a, holds: 2 kg, filled: 2 kg}, "
      "{name: b, holds: 2 kg, filled: 1 kg}]}",
      "{name: oil, unit: L, use: {per_day: 1 L}, stores: [{name: c, holds: 3 L, filled: 2 L}]}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 6}"};
  plan_ = workspace_.write("two.yaml", text.text());
  const Outcome outcome = ask("run", {});
  EXPECT_EQ(outcome.status, 1) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("more 2 kg container"));
  EXPECT_THAT(outcome.out, HasSubstr("more 3 L container"));
  EXPECT_THAT(outcome.out, Not(HasSubstr("3 kg container")));
}

TEST_F(ConsumablesEverywhere, WhatLifeDependsOnIsNamedSo) {
  std::string text = plan_text();
  text.replace(text.find("unit: kg,"), 9, "unit: kg, matters: life,");
  plan_ = workspace_.write("life.yaml", text);
  EXPECT_THAT(ask("mishaps", {}).out,
              HasSubstr("mishaps run drinking water, fuel or\ncooking gas dry."));
}

}  // namespace
}  // namespace drystage::testing::consumables_test
