// What `drystage size` gives to programs and spreadsheets, of sets made by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/csv.h"
#include "support/size_answer.h"

namespace drystage {
namespace {

using answers::Failing;
using drystage::testing::parse_csv;
using drystage::testing::Row;
using report::SizeAnswer;
using support::below;
using support::beyond;
using support::missed;
using support::sized_answer;
using support::struck;
using support::traded;
using ::testing::ElementsAre;
using Json = nlohmann::ordered_json;

Json json_of(const SizeAnswer& answer) { return Json::parse(report::size_json(answer)); }

std::vector<std::string> keys_of(const Json& object) {
  std::vector<std::string> keys;
  for (const auto& [key, value] : object.items()) keys.push_back(key);
  return keys;
}

// --- JSON ---

TEST(SizeJson, NamesItsFormatAndHasEverything) {
  const Json json = json_of(traded());
  EXPECT_EQ(json.at("format"), "drystage.size/1");
  EXPECT_THAT(keys_of(json),
              ElementsAre("format", "trip", "asked", "verdict", "load", "nearest", "plan_totals",
                          "plan_odds", "trade_off", "runs", "written", "warnings", "remarks"));
  EXPECT_EQ(json.at("trip").at("days"), 14);
  EXPECT_EQ(json.at("verdict").at("found"), true);
  EXPECT_EQ(json.at("verdict").at("partial"), false);
  EXPECT_EQ(json.at("nearest"), nullptr);
  EXPECT_EQ(json.at("written"), nullptr);
}

TEST(SizeJson, SaysWhatWasAskedFor) {
  SizeAnswer answer = sized_answer();
  EXPECT_EQ(json_of(answer).at("asked"), Json({{"least", "mass"},
                                               {"survive", nullptr},
                                               {"tried", nullptr},
                                               {"confirmed_only", false},
                                               {"confidence", nullptr}}));
  answer.options = {.least = answers::Least::cost,
                    .survive = std::vector{plan::MishapKind::stuck, plan::MishapKind::own},
                    .confirmed_only = true};
  answer.sizing.tried = {plan::MishapKind::own};
  EXPECT_EQ(json_of(answer).at("asked"), Json({{"least", "cost"},
                                               {"survive", {"stuck", "own"}},
                                               {"tried", {"own"}},
                                               {"confirmed_only", true},
                                               {"confidence", nullptr}}));
  answer.options.survive.emplace();
  EXPECT_EQ(json_of(answer).at("asked").at("survive"), Json::array());
}

TEST(SizeJson, HasALineForEachThing) {
  const Json lines = json_of(sized_answer()).at("load").at("lines");
  ASSERT_EQ(lines.size(), 3U);
  const Json& water = lines[0];
  EXPECT_EQ(water.at("name"), "20 L container of drinking water");
  EXPECT_EQ(water.at("counted"), true);
  EXPECT_EQ(water.at("of"), "drinking water");
  EXPECT_EQ(water.at("each"), 20);
  EXPECT_EQ(water.at("unit"), "L");
  EXPECT_EQ(water.at("plan").at("amount"), 6);
  EXPECT_EQ(water.at("load").at("amount"), 8);
  EXPECT_DOUBLE_EQ(water.at("plan").at("kg").get<double>(), 6 * 21.2);
  EXPECT_DOUBLE_EQ(water.at("load").at("kg").get<double>(), 8 * 21.2);
  EXPECT_EQ(water.at("load").at("cost"), nullptr);
  EXPECT_EQ(water.at("kept"), false);
  const Json& battery = lines[2];
  EXPECT_EQ(battery.at("counted"), false);
  EXPECT_EQ(battery.at("of"), nullptr);
  EXPECT_EQ(battery.at("each"), nullptr);
  EXPECT_EQ(battery.at("unit"), "Ah");
  EXPECT_EQ(battery.at("plan").at("detail"), "agm");
  EXPECT_EQ(battery.at("load").at("detail"), "lfp");
  EXPECT_EQ(battery.at("one_fewer"), nullptr);
}

TEST(SizeJson, SaysWhatOneFewerFailsIn) {
  SizeAnswer answer = sized_answer();
  const auto fewer = [&answer] {
    return json_of(answer).at("load").at("lines")[0].at("one_fewer");
  };
  EXPECT_EQ(fewer().at("is"), "7");
  const Json fails = fewer().at("fails");
  EXPECT_EQ(fails.at("reason"), "margin");
  EXPECT_EQ(fails.at("text"),
            "drinking water falls below its margin on day 11, Thu 11 Mar, by 2.4 L");
  EXPECT_EQ(fails.at("breach").at("reserve"), "drinking_water");
  EXPECT_EQ(fails.at("breach").at("day"), 11);
  EXPECT_EQ(fails.at("breach").at("date"), "2027-03-11");
  EXPECT_EQ(fails.at("without_unconfirmed"), false);

  auto& failing = answer.sizing.found->lines[0].one_fewer;
  failing = struck(answer, "can 1 lost", 3);
  const Json mishap = fewer().at("fails").at("mishap");
  EXPECT_EQ(mishap.at("failure"), "can 1 lost");
  EXPECT_EQ(mishap.at("day"), 4);
  EXPECT_EQ(mishap.at("dry").at("day"), 5);
  EXPECT_EQ(mishap.at("dry").at("short"), 4);

  failing = beyond(Failing::Reason::overload, 44.25, 0);
  EXPECT_EQ(fewer().at("fails").at("subject"), "truck");
  EXPECT_EQ(fewer().at("fails").at("over"), 44.25);
  failing = beyond(Failing::Reason::packing, 2, 0);
  EXPECT_EQ(fewer().at("fails").at("subject"), "chest");
  failing = beyond(Failing::Reason::budget, 2);
  EXPECT_EQ(fewer().at("fails").at("subject"), nullptr);

  failing.reset();
  EXPECT_EQ(fewer().at("fails"), nullptr);
}

TEST(SizeJson, HasTotalsVehiclesAndReserves) {
  SizeAnswer answer = sized_answer();
  answer.sizing.costs_given = true;
  answer.sizing.found->planned.record.heaviest[0] = {.kg = 3290.2, .day = 1};
  const Json load = json_of(answer).at("load");
  EXPECT_DOUBLE_EQ(load.at("totals").at("kg").get<double>(), 8 * 21.2 + 21.3 + 12);
  EXPECT_EQ(load.at("totals").at("cost"), 900);
  EXPECT_EQ(load.at("vehicles")[0].at("name"), "truck");
  EXPECT_EQ(load.at("vehicles")[0].at("heaviest_kg"), 3290.2);
  EXPECT_EQ(load.at("vehicles")[0].at("day"), 2);
  EXPECT_EQ(load.at("vehicles")[0].at("limit_kg"), 3500);
  EXPECT_EQ(load.at("vehicles")[0].at("plan_heaviest_kg"), answer.planned.record.heaviest[0].kg);
  EXPECT_EQ(load.at("reserves")[0].at("name"), "drinking_water");
  EXPECT_EQ(json_of(answer).at("plan_totals").at("kg"), 240.2);
  answer.planned.plan.vehicles[0].limit_kg.reset();
  EXPECT_EQ(json_of(answer).at("load").at("vehicles")[0].at("limit_kg"), nullptr);
}

TEST(SizeJson, HasTheNearestSetInAPlaceOfItsOwn) {
  const Json json = json_of(missed());
  EXPECT_EQ(json.at("verdict").at("found"), false);
  EXPECT_EQ(json.at("load"), nullptr);
  const Json& nearest = json.at("nearest");
  EXPECT_EQ(nearest.at("lacks"), 11.3);
  EXPECT_EQ(nearest.at("most_of_all"), true);
  EXPECT_EQ(nearest.at("failing")[0].at("breach").at("day"), 11);
  EXPECT_EQ(nearest.at("lines")[0].at("load").at("amount"), 8);
}

TEST(SizeJson, HasTheTradeOff) {
  SizeAnswer answer = traded();
  const Json rows = json_of(answer).at("trade_off");
  ASSERT_EQ(rows.size(), 4U);
  EXPECT_EQ(rows[0].at("more_days"), -1);
  EXPECT_EQ(rows[0].at("found"), true);
  EXPECT_DOUBLE_EQ(rows[0].at("totals").at("kg").get<double>(), 7 * 21.2 + 21.3 + 12);
  const Json& water = rows[0].at("lines")[0];
  EXPECT_THAT(keys_of(water),
              ElementsAre("name", "counted", "of", "each", "unit", "amount", "detail", "kg"));
  EXPECT_EQ(water.at("amount"), 7);
  EXPECT_EQ(water.at("of"), "drinking water");
  EXPECT_EQ(rows[0].at("lines")[2].at("of"), nullptr);
  EXPECT_EQ(rows[3].at("found"), false);
  EXPECT_EQ(rows[3].at("totals"), nullptr);
  EXPECT_EQ(rows[3].at("lines"), Json::array());
}

TEST(SizeJson, SaysWhatHangsOnUnconfirmedSupplies) {
  SizeAnswer answer = sized_answer();
  EXPECT_FALSE(json_of(answer).at("verdict").contains("without_unconfirmed"));
  answer.without_unconfirmed.emplace();
  answer.without_unconfirmed->holds = false;
  answer.without_unconfirmed->first_breach = below(answer, "fuel:truck", 3, 1).breach;
  answer.without_unconfirmed->breaches = {*answer.without_unconfirmed->first_breach};
  const Json without = json_of(answer).at("verdict").at("without_unconfirmed");
  EXPECT_EQ(without.at("holds"), false);
  EXPECT_EQ(without.at("first_breach").at("reserve"), "fuel:truck");
}

TEST(SizeJson, HasFileRemarksAndWarnings) {
  SizeAnswer answer = sized_answer();
  answer.written = "sized.yaml";
  answer.warnings = {"odd"};
  answer.sizing.remarks = {"so"};
  answer.sizing.runs = 321;
  answer.sizing.stopped = true;
  const Json json = json_of(answer);
  EXPECT_EQ(json.at("written"), "sized.yaml");
  EXPECT_EQ(json.at("warnings"), Json({"odd"}));
  EXPECT_EQ(json.at("remarks"), Json({"so"}));
  EXPECT_EQ(json.at("runs"), 321);
  EXPECT_EQ(json.at("verdict").at("partial"), true);
}

// --- CSV ---

TEST(SizeCsv, HasARowForEachLine) {
  SizeAnswer answer = sized_answer();
  answer.sizing.found->lines[2].kept = true;
  const std::vector<Row> rows = parse_csv(report::size_csv(answer));
  ASSERT_EQ(rows.size(), 4U);
  EXPECT_EQ(rows[0], (Row{"set",       "name",        "counted",     "of",         "each",
                          "unit",      "plan_amount", "plan_detail", "plan_kg",    "amount",
                          "detail",    "kg",          "cost",        "space_l",    "kept",
                          "one_fewer", "fails",       "fails_day",   "fails_date", "fails_text"}));
  EXPECT_EQ(
      rows[1],
      (Row{"load",       "20 L container of drinking water",
           "yes",        "drinking water",
           "20.0000",    "L",
           "6.0000",     "",
           "127.2000",   "8.0000",
           "",           "169.6000",
           "",           "0.0000",
           "no",         "7",
           "margin",     "11",
           "2027-03-11", "drinking water falls below its margin on day 11, Thu 11 Mar, by 2.4 L"}));
  EXPECT_EQ(rows[3], (Row{"load",     "camp battery",
                          "no",       "",
                          "",         "Ah",
                          "100.0000", "agm",
                          "29.0000",  "100.0000",
                          "lfp",      "12.0000",
                          "",         "0.0000",
                          "yes",      "",
                          "",         "",
                          "",         ""}));
}

TEST(SizeCsv, HasCostsAndTheDayOfAMishapWhereThereAreAny) {
  SizeAnswer answer = sized_answer();
  answer.sizing.costs_given = true;
  answer.sizing.found->lines[0].one_fewer = struck(answer, "can 1 lost", 3);
  answer.sizing.found->lines[1].one_fewer = beyond(Failing::Reason::overload, 44.2, 0);
  const std::vector<Row> rows = parse_csv(report::size_csv(answer));
  EXPECT_EQ(rows[1][16], "mishap");
  EXPECT_EQ(rows[1][17], "5");
  EXPECT_EQ(rows[2][16], "overload");
  EXPECT_EQ(rows[2][17], "");
  EXPECT_EQ(rows[2][18], "");
  EXPECT_EQ(rows[3][12], "900.0000");
}

TEST(SizeCsv, SaysOfEveryRowWhenASetIsNotEnough) {
  const std::vector<Row> rows = parse_csv(report::size_csv(missed()));
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[1][0], "not enough");
}

TEST(SizeCsv, KeepsNamesFromBeingReadAsCellsOrFormulas) {
  SizeAnswer answer = sized_answer();
  answer.sizing.found->lines[2].one = "=1,2";
  EXPECT_EQ(parse_csv(report::size_csv(answer))[3][1], "'=1,2");
}

}  // namespace
}  // namespace drystage
