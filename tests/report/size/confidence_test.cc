// What `size --confidence` says.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string>

#include "report/odds/words.h"
#include "report/size/report.h"
#include "report/size/words.h"
#include "support/size_answer.h"

namespace drystage::report {
namespace confidence_test {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

/// Text as one line, wherever it was broken.
std::string flowing(const SizeAnswer& answer) {
  std::string out = size_text(answer, {});
  std::ranges::replace(out, '\n', ' ');
  const auto both_blank = [](char one, char other) { return one == ' ' && other == ' '; };
  out.erase(std::unique(out.begin(), out.end(), both_blank), out.end());
  return out;
}

int reserve_called(const SizeAnswer& answer, const std::string& name) {
  const auto& reserves = answer.planned.course.reserves;
  return static_cast<int>(std::ranges::find(reserves, name, &engine::ReserveInfo::name) -
                          reserves.begin());
}

answers::KeptOdds odds(const SizeAnswer& answer) {
  return {.trips = 2000,
          .kept = {.chance = 0.9615, .low = 0.9521, .high = 0.9691},
          .reserves = {{.reserve = reserve_called(answer, "fuel:truck"),
                        .broken = {.chance = 0.021, .low = 0.015, .high = 0.028}},
                       {.reserve = reserve_called(answer, "drinking_water"),
                        .broken = {.chance = 0.0005, .low = 0, .high = 0.003}}}};
}

/// A set that is sure enough.
SizeAnswer sure() {
  SizeAnswer out = support::sized_answer();
  out.options.confidence = answers::Confidence{.chance = 0.95};
  out.sizing.found->odds = odds(out);
  out.planned.verdict.holds = true;
  out.sizing.plan_odds = answers::KeptOdds{
      .trips = 2000, .kept = {.chance = 0.3719, .low = 0.351, .high = 0.3933}, .reserves = {}};
  return out;
}

TEST(SizeConfidenceText, ChancesOfKeepingAMarginNeverLookLargerThanTheyAre) {
  EXPECT_EQ(kept_words({.chance = 0.95, .low = 0.94, .high = 0.96}),
            "95.0 % of trips (94.0 to 96.0 %)");
  EXPECT_EQ(kept_words({.chance = 0.94999, .low = 0.93999, .high = 0.96001}),
            "94.9 % of trips (93.9 to 96.1 %)");
  EXPECT_EQ(kept_words({.chance = 0.99899, .low = 0.99, .high = 1}),
            "99.89 % of trips (99.00 to 100.00 %)");
  EXPECT_EQ(kept_words({.chance = 0.9995, .low = 0.998, .high = 0.99999}),
            "99.95 % of trips (99.80 to 99.999 %)");
  EXPECT_EQ(kept_words({.chance = 1, .low = 0.99808, .high = 1}),
            "every trip drawn (so on 99.80 % or more of trips)");
  EXPECT_EQ(kept_words({.chance = 0, .low = 0, .high = 0.004}), "0.0 % of trips (0.0 to 0.4 %)");
}

TEST(SizeConfidenceText, NearlyAllIsNeverSaidToBeAll) {
  EXPECT_EQ(percent_words(1), "100 %");
  EXPECT_EQ(percent_words(0.9996), "99.96 %");
  EXPECT_EQ(percent_words(0.995), "99.5 %");
  EXPECT_EQ(percent_words(0.99), "99 %");
  EXPECT_EQ(interval_words({.chance = 0.95, .low = 0.9, .high = 0.9944}), "90 to 99.5 %");
  EXPECT_EQ(interval_words({.chance = 1, .low = 0.9, .high = 1}), "90 to 100 %");
}

TEST(SizeConfidenceText, TheFirstLinesSayHowLikelyAndWhatIsBrokenMostOften) {
  SizeAnswer answer = sure();
  std::string text = flowing(answer);
  EXPECT_THAT(
      text,
      HasSubstr(
          "that keeps every margin as planned, and on 95 % of drawn trips. With "
          "it every margin is kept on 96.1 % of trips (95.2 to 97.0 %); 2000 were drawn. Broken "
          "most often: fuel of truck on 2.1 % of trips."));
  EXPECT_THAT(text, HasSubstr("It keeps every margin on 37.1 % of trips (35.1 to 39.4 %)."));
  EXPECT_THAT(text, HasSubstr("It is no permission to go."));
  answer.options.confidence->vital = true;
  text = flowing(answer);
  EXPECT_THAT(text, HasSubstr("as planned, and on 95 % of drawn trips those that life depends on. "
                              "With it every vital margin is kept on 96.1 %"));
  EXPECT_THAT(flowing(support::sized_answer()), Not(HasSubstr("trips")));
}

TEST(SizeConfidenceText, OneFewerHasItsChanceAndWhatIsInTheWay) {
  SizeAnswer answer = sure();
  const int fuel = reserve_called(answer, "fuel:truck");
  answers::SizedLine& line = answer.sizing.found->lines.front();
  line.fewer = "3";
  line.one_fewer = answers::Failing{.reason = answers::Failing::Reason::chance,
                                    .kept = {.chance = 0.912, .low = 0.899, .high = 0.924},
                                    .reserve = fuel,
                                    .broken = {.chance = 0.075, .low = 0.06, .high = 0.09}};
  EXPECT_THAT(flowing(answer), HasSubstr("margins are kept on 91.2 % of trips"));
  const auto json = nlohmann::json::parse(size_json(answer));
  const auto& fails = json.at("load").at("lines")[0].at("one_fewer").at("fails");
  EXPECT_EQ(fails.at("reason"), "chance");
  EXPECT_EQ(fails.at("kept").at("low"), 0.899);
  EXPECT_EQ(fails.at("reserve"), "fuel:truck");
  EXPECT_EQ(fails.at("breach").at("chance"), 0.075);
}

TEST(SizeConfidenceText, OutOfReachTheBestFoundIsTold) {
  SizeAnswer answer = support::missed();
  answer.options.confidence = answers::Confidence{.chance = 0.99};
  answers::NearestMiss& miss = *answer.sizing.miss;
  miss.set.odds = odds(answer);
  miss.failing = {{.reason = answers::Failing::Reason::chance,
                   .kept = miss.set.odds->kept,
                   .reserve = reserve_called(answer, "fuel:truck")}};
  EXPECT_THAT(
      flowing(answer),
      HasSubstr("NOT ENOUGH ON OFFER: 99 % is out of reach. The best found keeps every "
                "margin on 96.1 % of trips (95.2 to 97.0 %). Broken most often: fuel of "
                "truck on 2.1 % of trips. One more of anything on offer, within the limits, "
                "changes little."));
  const answers::InTheWay limit{
      .reserve = reserve_called(answer, "drinking_water"),
      .limit = {.reason = answers::Failing::Reason::overload, .subject = 0, .over = 11.2}};
  miss.in_the_way = limit;
  EXPECT_THAT(flowing(answer),
              HasSubstr("More drinking water would help, but then truck is 12 kg over its limit."));
  EXPECT_THAT(flowing(answer), Not(HasSubstr("changes little")));
  const auto json = nlohmann::json::parse(size_json(answer)).at("nearest").at("in_the_way");
  EXPECT_EQ(json.at("reserve"), "drinking_water");
  EXPECT_EQ(json.at("limit").at("reason"), "overload");
  EXPECT_EQ(json.at("limit").at("subject"), "truck");
  miss.in_the_way.reset();
  miss.beyond_load = true;
  EXPECT_THAT(flowing(answer),
              HasSubstr("No load on offer mends fuel of truck: drystage odds tells "
                        "what makes trips differ."));
  EXPECT_THAT(flowing(answer), Not(HasSubstr("--vital")));
  miss.set.odds->reserves.front().reserve = reserve_called(answer, "cold:chest");
  EXPECT_THAT(flowing(answer),
              HasSubstr("No load on offer mends cold in chest: drystage odds tells "
                        "what makes trips differ. --vital leaves it out."));
}

TEST(SizeConfidenceText, ProgramsGetTheChances) {
  const auto json = nlohmann::json::parse(size_json(sure()));
  EXPECT_EQ(json.at("asked").at("confidence").at("of"), "any");
  const auto& told = json.at("load").at("odds");
  EXPECT_EQ(told.at("trips"), 2000);
  EXPECT_EQ(told.at("kept").at("high"), 0.9691);
  EXPECT_EQ(told.at("reserves")[0].at("name"), "fuel:truck");
  EXPECT_EQ(json.at("plan_odds").at("kept").at("chance"), 0.3719);
  const auto without = nlohmann::json::parse(size_json(support::sized_answer()));
  EXPECT_TRUE(without.at("asked").at("confidence").is_null());
  EXPECT_TRUE(without.at("load").at("odds").is_null());
  EXPECT_TRUE(without.at("plan_odds").is_null());
}

}  // namespace
}  // namespace confidence_test
}  // namespace drystage::report
