// `drystage run --format json`, as a program would read it.

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/date_time/gregorian/gregorian.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::testing {
namespace {

using Json = nlohmann::json;

struct Answer {
  int status = -1;
  Json json;
};

Answer answer_of(const std::string& name) {
  const Outcome outcome = drystage({"run", scenario_path(name), "--format", "json"});
  return {.status = outcome.status, .json = Json::parse(outcome.out)};
}

bool is_amount(const Json& reserve) { return reserve.at("unit") != "°C"; }

class RunJson : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, RunJson, ::testing::ValuesIn(scenarios()), AsTestName{});

TEST_P(RunJson, HasTheStructureThatIsPromised) {
  const Json json = answer_of(GetParam()).json;
  EXPECT_EQ(json.at("format"), "drystage.run/1");
  EXPECT_TRUE(json.at("trip").at("title").is_string());
  EXPECT_EQ(json.at("trip").at("days"), json.at("days").size());
  EXPECT_TRUE(json.at("verdict").at("holds").is_boolean());
  for (const Json& reserve : json.at("reserves")) {
    EXPECT_TRUE(reserve.at("name").is_string());
    EXPECT_TRUE(reserve.at("unit").is_string());
    EXPECT_TRUE(reserve.contains("first_breach_day"));
    EXPECT_TRUE(reserve.at("lowest").at("day").is_number_integer());
    EXPECT_TRUE(reserve.at("lowest").at("left").is_number());
  }
  for (const Json& day : json.at("days")) {
    for (const char* key : {"date", "from", "to"}) EXPECT_TRUE(day.at(key).is_string()) << key;
    for (const char* key : {"distance_km", "drive_h", "t_max_c", "t_min_c"}) {
      EXPECT_TRUE(day.at(key).is_number()) << key;
    }
    EXPECT_TRUE(day.at("events").is_array());
    EXPECT_EQ(day.at("reserves").size(), json.at("reserves").size());
    for (const Json& reserve : json.at("reserves")) {
      const Json& row = day.at("reserves").at(reserve.at("name").get<std::string>());
      if (row.is_null()) continue;  // of something that is not there that day
      for (const char* key : {"start", "end", "lowest", "margin", "short"}) {
        EXPECT_TRUE(row.at(key).is_number()) << key;
      }
      for (const char* key : {"gained", "used", "lost"}) {
        EXPECT_EQ(row.contains(key), is_amount(reserve)) << key;
      }
    }
  }
}

TEST_P(RunJson, NamesReservesAsPromised) {
  const std::set<std::string> single{"drinking_water", "utility_water", "food"};
  const std::set<std::string> families{"fuel", "cold", "battery", "tyres", "consumable"};
  const std::set<std::string> units{"L", "meals", "°C", "Ah", "spares"};
  std::set<std::string> names;
  const Json json = answer_of(GetParam()).json;
  for (const Json& reserve : json.at("reserves")) {
    const auto name = reserve.at("name").get<std::string>();
    const std::size_t colon = name.find(':');
    EXPECT_TRUE(colon == std::string::npos ? single.contains(name)
                                           : families.contains(name.substr(0, colon)))
        << name;
    // What is counted has a unit of its own.
    EXPECT_TRUE(units.contains(reserve.at("unit").get<std::string>()) ||
                name.starts_with("consumable:"))
        << name;
    EXPECT_TRUE(names.insert(name).second) << name << " twice";
  }
}

TEST_P(RunJson, BalancesOnEveryDayAndFromOneDayToTheNext) {
  const Json json = answer_of(GetParam()).json;
  for (const Json& reserve : json.at("reserves")) {
    const auto name = reserve.at("name").get<std::string>();
    const double size =
        is_amount(reserve) ? std::max(1.0, reserve.at("capacity").get<double>()) : 1;
    double evening = 0;
    const bool comes_and_goes = std::ranges::any_of(
        json.at("days"), [&](const Json& day) { return day.at("reserves").at(name).is_null(); });
    for (const Json& day : json.at("days")) {
      const Json& row = day.at("reserves").at(name);
      if (row.is_null()) {
        evening = 0;
        continue;
      }
      const auto value = [&row](const char* key) { return row.at(key).get<double>(); };
      if (is_amount(reserve)) {
        EXPECT_NEAR(value("start") + value("gained") - value("used") - value("lost"), value("end"),
                    1e-9 * size)
            << name << " on day " << day.at("day");
        EXPECT_GE(value("lowest"), -1e-9 * size);
        if (!comes_and_goes) {
          EXPECT_LE(value("lowest"), std::min(value("start"), value("end")) + 1e-9 * size);
        }
      } else {
        EXPECT_GE(value("lowest"), std::max(value("start"), value("end")) - 1e-9);
      }
      if (&day != &json.at("days").front()) {
        EXPECT_NEAR(value("start"), evening, 1e-9 * size) << name;
      }
      evening = value("end");
    }
  }
}

TEST_P(RunJson, SaysTheSameInVerdictReservesAndDays) {
  const Answer answer = answer_of(GetParam());
  const Json& verdict = answer.json.at("verdict");
  EXPECT_EQ(answer.status, verdict.at("holds").get<bool>() ? 0 : 1);
  EXPECT_EQ(verdict.at("holds").get<bool>(), verdict.at("first_breach").is_null());
  int first_of_all = 0;
  for (const Json& reserve : answer.json.at("reserves")) {
    const auto name = reserve.at("name").get<std::string>();
    const Json* first = nullptr;
    double worst = is_amount(reserve) ? HUGE_VAL : -HUGE_VAL;
    for (const Json& day : answer.json.at("days")) {
      const Json& row = day.at("reserves").at(name);
      if (row.is_null()) continue;
      if (first == nullptr && row.at("breached").get<bool>()) first = &day;
      const auto lowest = row.at("lowest").get<double>();
      worst = is_amount(reserve) ? std::min(worst, lowest) : std::max(worst, lowest);
    }
    EXPECT_DOUBLE_EQ(reserve.at("lowest").at("left").get<double>(), worst) << name;
    EXPECT_EQ(reserve.at("first_breach_day"), first == nullptr ? Json() : first->at("day")) << name;
    if (first == nullptr) continue;
    const int day = first->at("day").get<int>();
    first_of_all = first_of_all == 0 ? day : std::min(first_of_all, day);
  }
  if (answer.status == 0) return;
  const Json& breach = verdict.at("first_breach");
  EXPECT_EQ(breach.at("day"), first_of_all);
  const Json& day = answer.json.at("days").at(static_cast<std::size_t>(first_of_all - 1));
  EXPECT_EQ(breach.at("date"), day.at("date"));
  EXPECT_TRUE(day.at("reserves").at(breach.at("reserve").get<std::string>()).at("breached"));
}

TEST_P(RunJson, GoesFromPlaceToPlaceAndDateToDate) {
  using boost::gregorian::from_simple_string;
  const Json json = answer_of(GetParam()).json;
  boost::gregorian::date date = from_simple_string(json.at("trip").at("start").get<std::string>());
  std::string place = json.at("days").front().at("from").get<std::string>();
  for (const Json& day : json.at("days")) {
    EXPECT_EQ(day.at("date"), boost::gregorian::to_iso_extended_string(date));
    EXPECT_EQ(day.at("from"), place);
    EXPECT_GE(day.at("t_max_c").get<double>(), day.at("t_min_c").get<double>());
    place = day.at("to").get<std::string>();
    date += boost::gregorian::days(1);
  }
}

TEST(RunJsonOfTheDesertCrossing, DrivesTheWholeWay) {
  double distance_km = 0;
  const Json json = answer_of("desert-crossing").json;
  for (const Json& day : json.at("days")) {
    distance_km += day.at("distance_km").get<double>();
  }
  EXPECT_NEAR(distance_km, 195 + 125 + 110 + 115 + 310, 1e-9);
}

TEST(RunJsonOfTheHighPlateau, ShowsThatAFrozenLithiumBatteryTakesNoCharge) {
  const Json json = answer_of("high-plateau").json;
  int frozen_days = 0;
  int days_below_0_c = 0;
  for (const Json& day : json.at("days")) {
    const double middle_c = (day.at("t_max_c").get<double>() + day.at("t_min_c").get<double>()) / 2;
    const Json& reserves = day.at("reserves");
    if (middle_c > -5 || day.at("distance_km").get<double>() > 0) continue;
    ++frozen_days;
    const double gained_ah = reserves.at("battery:instrument battery").at("gained").get<double>();
    if (day.at("t_max_c").get<double>() < 0) {
      ++days_below_0_c;
      EXPECT_EQ(gained_ah, 0);
    } else {
      // At 3 °C at most and -15 °C at least the air is above freezing from about 11 to 16:30 by the
      // sun, and the bank, three hours behind, after 14. By hand, 2.3 h at 570 W/m2 on the tilted
      // panel of 60 W, three quarters of its rating: 58 Wh, 4.5 Ah at 12.8 V. A whole such day is
      // some 15 Ah.
      EXPECT_GT(gained_ah, 0);
      EXPECT_LT(gained_ah, 4.5);
    }
    EXPECT_GT(reserves.at("battery:camp battery").at("gained").get<double>(), 10);
  }
  EXPECT_EQ(frozen_days, 8);
  EXPECT_EQ(days_below_0_c, 2);
}

TEST(RunJson, IsTheSameInEveryDisplayUnit) {
  const std::vector<std::string> words{"run", scenario_path("long-loop"), "--format", "json"};
  std::vector<std::string> us = words;
  us.insert(us.end(), {"--units", "us"});
  EXPECT_EQ(drystage(words).out, drystage(us).out);
}

TEST(RunJson, KeepsNamesOfAnyScriptAsTheyAreWritten) {
  const Workspace workspace;
  std::string text = read_file(scenario_path("base-camp"));
  const auto replace = [&text](const std::string& from, const std::string& to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size())) {
      text.replace(at, from.size(), to);
    }
  };
  replace("Pelican Sound", "北の入り江 \\u0022é\\u0022");
  const std::string plan = workspace.write("plan.yaml", text);
  const Outcome outcome = drystage({"run", plan, "--format", "json"});
  const Json json = Json::parse(outcome.out);
  EXPECT_EQ(json.at("days").front().at("to"), "北の入り江 \\u0022é\\u0022");
}

}  // namespace
}  // namespace drystage::testing
