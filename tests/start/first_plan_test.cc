// The plan of the answers: right for any of them, with the user's own units, and as long as asked.
#include "start/first_plan.h"

#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <memory>

#include "answers/base/plan_run.h"
#include "engine/remarks.h"
#include "plan/read.h"

namespace drystage::start {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

std::string text_of(const Given& given) {
  const Taken taken = take_defaults(given);
  EXPECT_TRUE(taken.answers) << (taken.remarks.empty() ? "" : taken.remarks.front());
  const FirstPlan plan = first_plan(*taken.answers);
  EXPECT_THAT(plan.problems, ElementsAre());
  return plan.text;
}

std::vector<std::string> problems_of(const Given& given) {
  return first_plan(*take_defaults(given).answers).problems;
}

/// All that `check` says about a plan.
std::vector<std::string> said_of(const std::string& text) {
  plan::ReadPlan reading = plan::read_text(text);
  std::vector<plan::Diagnostic> found = reading.diagnostics;
  if (reading.plan) {
    const engine::Timeline timeline = engine::lay_timeline(*reading.plan);
    const auto more =
        timeline.problems.empty() ? engine::remarks(*reading.plan, timeline) : timeline.problems;
    found.insert(found.end(), more.begin(), more.end());
  }
  std::vector<std::string> out;
  for (const plan::Diagnostic& one : found) out.push_back(one.what);
  return out;
}

int days_of(const std::string& text) {
  const plan::ReadPlan reading = plan::read_text(text);
  return static_cast<int>(engine::lay_timeline(*reading.plan).days.size());
}

TEST(FirstPlan, OfTheDefaultsHoldsAndNothingIsOddAboutIt) {
  const std::string text = text_of({});
  EXPECT_THAT(said_of(text), ElementsAre());
  const plan::ReadPlan reading = plan::read_text(text);
  const auto timeline =
      std::make_shared<const engine::Timeline>(engine::lay_timeline(*reading.plan));
  EXPECT_TRUE(answers::run_plan(*reading.plan, timeline).verdict.holds);
  EXPECT_LE(std::ranges::count(text, '\n'), 74);
}

TEST(FirstPlan, OfTheDefaultsHoldsForOneToFourPeopleOfOneToTwoWeeks) {
  for (int people = 1; people <= 4; ++people) {
    for (const int days : {4, 7, 14}) {
      const plan::ReadPlan reading = plan::read_text(
          text_of({{"people", std::to_string(people)}, {"days", std::to_string(days)}}));
      const auto timeline =
          std::make_shared<const engine::Timeline>(engine::lay_timeline(*reading.plan));
      const answers::Verdict verdict = answers::run_plan(*reading.plan, timeline).verdict;
      // What four take along for two weeks is too heavy for the truck, and nothing else is wrong.
      const bool too_heavy = people == 4 && days == 14;
      EXPECT_EQ(verdict.holds, !too_heavy) << people << ' ' << days;
      for (const answers::Breach& breach : verdict.breaches) {
        EXPECT_EQ(breach.harm, answers::Harm::overload);
      }
    }
  }
}

TEST(FirstPlan, OfEveryCountryAndMonthInBothHemispheresIsNotOdd) {
  for (const Country& country : countries) {
    for (const double latitude :
         {country.least_deg, country.most_deg, -country.least_deg, -country.most_deg}) {
      for (int month = 1; month <= 12; ++month) {
        const std::string text = text_of({{"country", std::string(country.name)},
                                          {"latitude", fmt::format("{}°", latitude)},
                                          {"start", fmt::format("2027-{:02}-20", month)}});
        EXPECT_THAT(said_of(text), ElementsAre()) << country.name << latitude << ' ' << month;
      }
    }
  }
}

TEST(FirstPlan, KeepsTheUnitsOfTheAnswers) {
  const std::string text = text_of({{"tank", "20 US gal"},
                                    {"fuel-cans", "0 L"},
                                    {"drinking", "25 US gal"},
                                    {"distance", "150 mi"},
                                    {"rough", "50 mi"},
                                    {"uses", "20 mpg (US)"},
                                    {"latitude", "35°30' S"},
                                    {"vehicle", "Grey: the van"}});
  EXPECT_THAT(text, HasSubstr("{name: main tank, holds: 20 US gal, filled: 20 US gal}"));
  EXPECT_THAT(text, Not(HasSubstr("fuel can")));
  EXPECT_THAT(text, HasSubstr("{name: can 5, holds: 18.9 L, filled: 18.9 L"));
  EXPECT_THAT(text, HasSubstr("distance: 150 mi, surfaces: {sealed: 160.934 km, track: 50 mi}"));
  EXPECT_THAT(said_of(text), ElementsAre());
  EXPECT_EQ(plan::read_text(text).plan->vehicles[0].name, "Grey: the van");
}

TEST(FirstPlan, SaysNothingOfWhatThereIsNot) {
  const std::string text = text_of({{"utility", "0 L"}, {"battery", "0 Ah"}, {"rough", "0 km"}});
  for (const char* absent : {"utility_water:", "utility_use", "cold:", "power:", "track"}) {
    EXPECT_THAT(text.substr(0, text.find("\nplaces")) + text.substr(text.find("\nitinerary")),
                Not(HasSubstr(absent)));
  }
  EXPECT_THAT(said_of(text), ElementsAre());
}

TEST(FirstPlan, HasTheWeatherOfTheSouthernSeason) {
  EXPECT_THAT(text_of({{"latitude", "27° S"}, {"start", "2027-01-10"}}),
              HasSubstr("january: {max: 42 °C, min: 29 °C"));
  EXPECT_THAT(text_of({{"latitude", "27° N"}, {"start", "2027-01-10"}}),
              HasSubstr("january: {max: 20 °C, min: 8 °C"));
}

TEST(FirstPlan, LastsTheDaysThatWereAskedForWithTheNightsOfTheDrive) {
  EXPECT_EQ(days_of(text_of({{"days", "1"}, {"distance", "20 km"}})), 1);
  EXPECT_EQ(days_of(text_of({{"days", "12"}})), 12);
  EXPECT_EQ(days_of(text_of({{"days", "12"}, {"distance", "1500 km"}, {"rough", "0 km"}})), 12);
}

TEST(FirstPlan, SaysWhichAnswersDoNotGoTogether) {
  EXPECT_THAT(problems_of({{"days", "3"}, {"distance", "2500 km"}}),
              ElementsAre(HasSubstr("days: the drives alone take")));
  EXPECT_THAT(problems_of({{"uses", "2.5 L/100km"}, {"mass", "10 t"}}),
              ElementsAre(HasSubstr("no engine does that")));
}

TEST(FirstPlan, DrivesInThePolarNight) {
  EXPECT_THAT(text_of({{"latitude", "69° N"}, {"start", "2027-12-15"}}),
              HasSubstr("daylight_only: no"));
}

RC_GTEST_PROP(FirstPlan, OfAnyAnswersIsRight, ()) {
  const auto pick = [](int low, int high) { return *rc::gen::inRange(low, high + 1); };
  const auto amount = [&](int low, int high, const char* unit) {
    return fmt::format("{} {}", pick(low, high), unit);
  };
  const Country& country = countries[static_cast<std::size_t>(pick(0, 6))];
  const double share = pick(0, 100) / 100.0;
  const double latitude = country.least_deg + share * (country.most_deg - country.least_deg);
  const int distance = pick(1, 900);
  Given given{{"people", amount(1, 8, "people")},
              {"days", amount(4, 40, "days")},
              {"start", fmt::format("20{:02}-{:02}-{:02}", pick(20, 60), pick(1, 12), pick(1, 28))},
              {"latitude", fmt::format("{:.2f}° {}", latitude, pick(0, 1) == 0 ? 'N' : 'S')},
              {"longitude", fmt::format("{}°", pick(-180, 180))},
              {"country", std::string(country.name)},
              {"distance", fmt::format("{} km", distance)},
              {"rough", amount(0, std::min(distance, 200), "km")},
              {"fuel", pick(0, 1) == 0 ? "diesel" : "petrol"},
              {"uses", amount(9, 25, "L/100km")},
              {"tank", amount(5, 60, "US gal")},
              {"fuel-cans", amount(0, 300, "L")},
              {"mass", amount(1200, 4000, "kg")},
              {"limit", amount(9000, 16'000, "lb")},
              {"drinking", amount(1, 600, "L")},
              {"utility", amount(0, 200, "L")},
              {"food", amount(1, 60, "days")}};
  if (pick(0, 3) == 0) {
    given["battery"] = "0 Ah";
  } else {
    const char* const kinds[] = {"flooded", "agm", "lfp"};
    given.insert({{"battery", amount(5, 400, "Ah")},
                  {"battery-kind", kinds[pick(0, 2)]},
                  {"fridge", amount(0, 100, "L")},
                  {"charger", amount(0, 60, "A")},
                  {"panel", amount(0, 600, "W")},
                  {"loads", amount(0, 900, "Wh/day")}});
  }
  const Taken taken = take_defaults(given);
  RC_ASSERT(taken.answers.has_value());
  const FirstPlan plan = first_plan(*taken.answers);
  for (const std::string& problem : plan.problems) RC_LOG() << problem;
  RC_ASSERT(plan.problems.empty());
  const plan::ReadPlan reading = plan::read_text(plan.text);
  RC_ASSERT(reading.plan.has_value());
  const auto timeline =
      std::make_shared<const engine::Timeline>(engine::lay_timeline(*reading.plan));
  RC_ASSERT(timeline->problems.empty());
  RC_ASSERT(std::ssize(timeline->days) == static_cast<int>(taken.answers->at("days").number));
  RC_ASSERT(answers::run_plan(*reading.plan, timeline).record.days() == timeline->days.size());
}

}  // namespace
}  // namespace drystage::start
