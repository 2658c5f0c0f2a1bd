#include "plan/mishaps.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ostream>

#include "plan_text.h"

namespace drystage::plan {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

// The whole plan with other mishaps.
ReadPlan with_mishaps(std::string_view section) {
  std::string text = whole_plan();
  const std::size_t from = text.find("\nmishaps:") + 1;
  const std::size_t to = text.find("\nplaces:") + 1;
  return read_text(text.replace(from, to - from, section));
}

// The whole plan with one mishap of one's own.
ReadPlan with_own(const std::string& own) {
  return with_mishaps("mishaps: {own: [" + own + "]}\n");
}

std::vector<std::string> errors_of(const ReadPlan& reading) {
  std::vector<std::string> out;
  for (const Diagnostic& d : of_severity(reading, Severity::error)) out.push_back(d.what);
  return out;
}

// The one mishap of one's own; fails when the plan is not right.
OwnMishap own(const std::string& text) {
  const ReadPlan reading = with_own(text);
  EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
  if (!reading.plan) return {};
  EXPECT_EQ(reading.plan->mishaps.own.size(), 1U);
  return reading.plan->mishaps.own.front();
}

void expect_defaults(const Mishaps& read) {
  EXPECT_DOUBLE_EQ(read.stuck_h, 48);
  EXPECT_FALSE(read.hotter_k);
  EXPECT_EQ(read.hot_days, 7);
  EXPECT_DOUBLE_EQ(read.soft_more_fuel, 0.5);
  EXPECT_DOUBLE_EQ(read.soft_slower, 0.3);
  EXPECT_DOUBLE_EQ(read.battery_left, 0.5);
  EXPECT_DOUBLE_EQ(read.shut_found_after, 0);
  EXPECT_THAT(read.left_out, IsEmpty());
  EXPECT_THAT(read.own, IsEmpty());
}

TEST(Mishaps, AreReadFromTheWholePlan) {
  const ReadPlan reading = read_text(whole_plan());
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  const Mishaps& read = reading.plan->mishaps;
  EXPECT_DOUBLE_EQ(read.stuck_h, 72);
  EXPECT_DOUBLE_EQ(read.hotter_k.value(), 6);
  EXPECT_EQ(read.hot_days, 8);
  EXPECT_DOUBLE_EQ(read.soft_more_fuel, 0.4);
  EXPECT_DOUBLE_EQ(read.soft_slower, 0.25);
  EXPECT_DOUBLE_EQ(read.shut_found_after, 0.6);
  EXPECT_DOUBLE_EQ(read.battery_left, 0.7);
  EXPECT_THAT(read.left_out, ElementsAre(MishapKind::vehicle, MishapKind::one_more));

  ASSERT_EQ(read.own.size(), 2U);
  const OwnMishap& rolled = read.own[0];
  EXPECT_EQ(rolled.name, "rolled in the dunes");
  EXPECT_THAT(rolled.containers, ElementsAre(2));
  ASSERT_EQ(rolled.tanks.size(), 1U);
  EXPECT_EQ(rolled.tanks[0].vehicle, 0);
  EXPECT_EQ(rolled.tanks[0].tank, 0);
  EXPECT_THAT(rolled.cabinets, ElementsAre(0, 1));
  EXPECT_THAT(rolled.chargers, ElementsAre(1));
  EXPECT_DOUBLE_EQ(rolled.stuck_h, 36);
  EXPECT_EQ(rolled.day.value(), 6);  // the seventh, counted from 0
  EXPECT_DOUBLE_EQ(rolled.hotter_k, 0);
  EXPECT_EQ(rolled.hot_days, 0);
  EXPECT_EQ(rolled.people, 0);
  EXPECT_GT(rolled.mark.line, 0);
  const OwnMishap& guest = read.own[1];
  EXPECT_DOUBLE_EQ(guest.hotter_k, 4.5);
  EXPECT_EQ(guest.hot_days, 7);
  EXPECT_EQ(guest.people, 1);
  EXPECT_FALSE(guest.day.has_value());
  EXPECT_THAT(guest.containers, IsEmpty());
  EXPECT_GT(guest.mark.line, rolled.mark.line);
}

TEST(Mishaps, HaveDefaultsWhenNothingIsSaid) {
  for (const char* section : {"", "mishaps:\n", "mishaps: {}\n",
                              "mishaps: {stuck: {}, heat_wave: {}, soft_going: {}, shut: {}, "
                              "battery: {}, leave_out: [], own: []}\n"}) {
    const ReadPlan reading = with_mishaps(section);
    ASSERT_TRUE(reading.plan.has_value()) << section << all_of(reading);
    EXPECT_THAT(reading.diagnostics, IsEmpty()) << all_of(reading);
    expect_defaults(reading.plan->mishaps);
  }
}

TEST(Mishaps, MayGiveOneSettingOfTwo) {
  const ReadPlan reading =
      with_mishaps("mishaps: {heat_wave: {for: 2 days}, soft_going: {slower: 0 %}}\n");
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_FALSE(reading.plan->mishaps.hotter_k);
  EXPECT_EQ(reading.plan->mishaps.hot_days, 2);
  EXPECT_DOUBLE_EQ(reading.plan->mishaps.soft_more_fuel, 0.5);
  EXPECT_DOUBLE_EQ(reading.plan->mishaps.soft_slower, 0);
}

TEST(Mishaps, TakeEveryUnitOfTheirKind) {
  const ReadPlan reading =
      with_mishaps("mishaps: {stuck: {for: 36 h}, heat_wave: {hotter: 9 °F, for: 48 h}}\n");
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_DOUBLE_EQ(reading.plan->mishaps.stuck_h, 36);
  EXPECT_NEAR(reading.plan->mishaps.hotter_k.value(), 5, 1e-9);
  EXPECT_EQ(reading.plan->mishaps.hot_days, 2);
}

TEST(MishapWords, NameEveryKindOnceInItsOrder) {
  for (std::size_t i = 0; i < mishap_words.size(); ++i) {
    EXPECT_EQ(static_cast<std::size_t>(mishap_words[i].value), i) << mishap_words[i].text;
    for (std::size_t j = 0; j < i; ++j) EXPECT_NE(mishap_words[i].text, mishap_words[j].text);
    const ReadPlan reading =
        with_mishaps("mishaps: {leave_out: " + std::string(mishap_words[i].text) + "}\n");
    ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
    EXPECT_THAT(reading.plan->mishaps.left_out, ElementsAre(mishap_words[i].value));
  }
}

TEST(OwnMishap, TakesOneNameOrAList) {
  EXPECT_THAT(own("{name: a, loses: body tank}").containers, ElementsAre(0));
  EXPECT_THAT(own("{name: a, loses: [sealed spare, can 1]}").containers, ElementsAre(2, 1));
  EXPECT_THAT(own("{name: a, stops: chest}").cabinets, ElementsAre(0));
  EXPECT_THAT(own("{name: a, without: [shore lead, little generator]}").chargers,
              ElementsAre(2, 3));
}

TEST(OwnMishap, NamesATankByItsVehicleTooAndAContainerByWater) {
  const OwnMishap made = own("{name: a, loses: [truck/main tank, trailer rig/tank, water/can 1]}");
  ASSERT_EQ(made.tanks.size(), 2U);
  EXPECT_EQ(made.tanks[0].vehicle, 0);
  EXPECT_EQ(made.tanks[0].tank, 0);
  EXPECT_EQ(made.tanks[1].vehicle, 1);
  EXPECT_EQ(made.tanks[1].tank, 0);
  EXPECT_THAT(made.containers, ElementsAre(1));
}

TEST(OwnMishap, AsksWhichIsMeantWhereANameIsNotEnough) {
  // The rig's tank is called like the truck's can, and so is a water container.
  const auto reading = [](const std::string& lost) {
    std::string text = whole_plan_with("{name: tank, holds: 60 L", "{name: can 1, holds: 60 L");
    const std::string jerry = "[sealed spare, truck/main tank]";
    text.replace(text.find(jerry), jerry.size(), lost);
    return read_text(text);
  };
  const ReadPlan unclear = reading("can 1");
  const auto errors = of_severity(unclear, Severity::error);
  ASSERT_EQ(errors.size(), 1U) << all_of(unclear);
  EXPECT_EQ(errors[0].what, "loses: \"can 1\" may be 2 things");
  EXPECT_EQ(errors[0].expected, "water/can 1 or trailer rig/can 1");

  const ReadPlan tank = reading("trailer rig/can 1");
  ASSERT_TRUE(tank.plan.has_value()) << all_of(tank);
  ASSERT_EQ(tank.plan->mishaps.own[0].tanks.size(), 1U);
  EXPECT_EQ(tank.plan->mishaps.own[0].tanks[0].vehicle, 1);
  EXPECT_THAT(tank.plan->mishaps.own[0].containers, IsEmpty());
  const ReadPlan container = reading("water/can 1");
  ASSERT_TRUE(container.plan.has_value()) << all_of(container);
  EXPECT_THAT(container.plan->mishaps.own[0].containers, ElementsAre(1));
  EXPECT_THAT(container.plan->mishaps.own[0].tanks, IsEmpty());
  // What there is instead of a misspelt name is listed as it must be written.
  const ReadPlan misspelt = reading("water/cam 1");
  const auto found = of_severity(misspelt, Severity::error);
  ASSERT_EQ(found.size(), 1U) << all_of(misspelt);
  EXPECT_EQ(found[0].expected,
            "body tank, water/can 1, sealed spare, main tank, jerry 1, trailer rig/can 1, gas "
            "bottle, spare bottle, oil crate, additive can, insulin pens, cassette, stove can or "
            "red can");
  EXPECT_EQ(found[0].hint, "did you mean \"water/can 1\"?");
}

TEST(OwnMishap, IsNotBlamedForTwoThingsOfOneSortThatShareAName) {
  const ReadPlan reading = read_text(whole_plan_with("{name: sealed spare,", "{name: can 1,"));
  EXPECT_THAT(errors_of(reading), ElementsAre("there are two containers called \"can 1\"",
                                              "loses: there is no container, tank or store "
                                              "\"sealed spare\"",
                                              "containers: there is no container "
                                              "\"sealed spare\""));
  std::string text = whole_plan_with("[sealed spare, truck/main tank]", "can 1");
  const std::string other = "name: body tank,";
  text.replace(text.find(other), other.size(), "name: can 1,");
  EXPECT_THAT(errors_of(read_text(text)), ElementsAre("there are two containers called \"can 1\""));
}

// A mishaps section, and all that must be said about it.
struct Slip {
  const char* section;
  const char* what;
  const char* expected = "";  // part of it
  const char* hint = "";      // part of it
};

void PrintTo(const Slip& slip, std::ostream* out) { *out << slip.section; }

class WrongMishap : public testing::TestWithParam<Slip> {};

TEST_P(WrongMishap, IsTheOneErrorReported) {
  const Slip& slip = GetParam();
  const ReadPlan reading = with_mishaps(std::string("mishaps: {") + slip.section + "}\n");
  const Diagnostic error = only_error(reading);
  EXPECT_EQ(error.what, slip.what);
  EXPECT_NE(error.expected.find(slip.expected), std::string::npos) << all_of(reading);
  EXPECT_NE(error.hint.find(slip.hint), std::string::npos) << all_of(reading);
}

INSTANTIATE_TEST_SUITE_P(
    Strengths, WrongMishap,
    testing::Values(
        Slip{"stuck: {for: 0 h}", "for: 0 h is too low", "to 30 days"},
        Slip{"stuck: {for: 31 days}", "for: 31 days is too high", "to 30 days"},
        Slip{"stuck: {for: 3}", "for: 3 has no unit", "a time", "write 3 days"},
        Slip{"stuck: 3 days", "stuck: a plain value does not belong here", "stuck: {for: 3 days}"},
        Slip{"battery: 50 %", "battery: a plain value does not belong here", "{left: 50 %}"},
        Slip{"heat_wave: {hotter: 21 °C}", "hotter: 21 °C is too high", "to 20 °C"},
        Slip{"heat_wave: {hotter: 0 °C}", "hotter: 0 °C is too low", "from 0.01"},
        Slip{"heat_wave: {hotter: -5 °C}", "hotter: -5 °C is negative"},
        Slip{"heat_wave: {for: 36 h}", "for: 36 h is not a whole number of days", "1 to 60"},
        Slip{"heat_wave: {for: 12 h}", "for: 12 h is 0.5 days, which is too low", "1 to 60"},
        Slip{"heat_wave: {for: 61 days}", "for: 61 days is too high", "1 to 60"},
        Slip{"heatwave: {for: 6 days}", "mishaps has no key \"heatwave\"", "heat_wave",
             "\"heat_wave\""},
        Slip{"soft_going: {more_fuel: 301 %}", "more_fuel: 301 % is too high", "300 %"},
        Slip{"soft_going: {slower: 91 %}", "slower: 91 % is too high", "90 %"},
        Slip{"soft_going: {faster: 9 %}", "soft_going has no key \"faster\"",
             "more_fuel or slower"},
        Slip{"shut: {found_after: 101 %}", "found_after: 101 % is too high", "100 %"},
        Slip{"battery: {left: 0 %}", "left: 0 % is too low", "from 0.1"},
        Slip{"leave_out: [shut, vehicel]", "leave_out: unknown word \"vehicel\"", "one_more",
             "\"vehicle\""},
        Slip{"leave_out: [shut, shut]", "leave_out: \"shut\" is named twice"},
        Slip{"leave_out: {shut: yes}", "leave_out: a map of keys does not belong here",
             "a list of names"},
        Slip{"own: rolled", "own: a plain value does not belong here", "a list"}));

INSTANTIATE_TEST_SUITE_P(
    Own, WrongMishap,
    testing::Values(
        Slip{"own: [{name: a}]", "nothing happens in mishap \"a\"",
             "loses, stops, without, stuck, hotter (with for) and people"},
        Slip{"own: [{name: a, on_day: 3, loses: []}]", "nothing happens in mishap \"a\""},
        Slip{"own: [{stuck: 2 days}]", "a mishap lacks \"name\""},
        Slip{"own: [{name: a, people: 1}, {name: a, people: 2}]",
             "there are two mishaps called \"a\"", "", "the first one is on line"},
        Slip{"own: [{name: a, looses: can 1}]", "mishap \"a\" has no key \"looses\"", "",
             "\"loses\""},
        Slip{"own: [{name: a, loses: cam 1}]",
             "loses: there is no container, tank or store \"cam 1\"",
             "body tank, can 1, sealed spare, main tank, jerry 1, tank, gas bottle", "\"can 1\""},
        Slip{"own: [{name: a, loses: truck/jery 1}]",
             "loses: there is no container, tank or store \"truck/jery 1\"", "",
             "\"truck/jerry 1\""},
        Slip{"own: [{name: a, loses: [can 1, water/can 1]}]",
             "loses: \"water/can 1\" is named twice"},
        Slip{"own: [{name: a, loses: [jerry 1, jerry 1]}]", "loses: \"jerry 1\" is named twice"},
        Slip{"own: [{name: a, loses: {can 1: yes}}]", "loses: a map of keys does not belong here",
             "a list of names"},
        Slip{"own: [{name: a, stops: ice box}]",
             "stops: ice box \"ice box\" has no compressor that could stop",
             "chest or freezer drawer"},
        Slip{"own: [{name: a, stops: chets}]", "there is no cabinet \"chets\"",
             "chest, freezer drawer or ice box", "\"chest\""},
        Slip{"own: [{name: a, stops: [chest, chest]}]", "stops: \"chest\" is named twice"},
        Slip{"own: [{name: a, without: rof panel}]", "there is no charger \"rof panel\"",
             "roof panel", "\"roof panel\""},
        Slip{"own: [{name: a, stuck: {for: 2 days}}]", "stuck: a map of keys does not belong here"},
        Slip{"own: [{name: a, stuck: 0 h}]", "stuck: 0 h is too low"},
        Slip{"own: [{name: a, hotter: 5 °C}]", "mishap \"a\" lacks \"for\"", "for: 5 days"},
        Slip{"own: [{name: a, for: 5 days}]", "mishap \"a\" says \"for\" without \"hotter\"",
             "hotter: 5 °C", "stuck: 2 days"},
        Slip{"own: [{name: a, hotter: 5 °C, for: 2.5 days}]",
             "for: 2.5 days is not a whole number of days"},
        Slip{"own: [{name: a, people: 0}]", "people: 0 is too low", "from 1 to 20"},
        Slip{"own: [{name: a, people: 21}]", "people: 21 is too high", "from 1 to 20"},
        Slip{"own: [{name: a, people: 1.5}]", "people: 1.5 is not a whole number", "from 1 to 20"},
        Slip{"own: [{name: a, stuck: 2 h, on_day: 0}]", "on_day: 0 is too low", "from 1 to 3660"},
        Slip{"own: [{name: a, stuck: 2 h, on_day: 2.5}]", "on_day: 2.5 is not a whole number"}));

TEST(WrongMishaps, AreAllToldInOneGo) {
  EXPECT_THAT(errors_of(with_mishaps("mishaps:\n"
                                     "  stuck: {for: 3}\n"
                                     "  own:\n"
                                     "    - {stuck: 0 h, people: 0}\n"
                                     "    - {name: b}\n")),
              ElementsAre("for: 3 has no unit", "a mishap lacks \"name\"", "stuck: 0 h is too low",
                          "people: 0 is too low", "nothing happens in mishap \"b\""));
}

TEST(OwnMishap, HasNothingToNameInAPlanWithoutStores) {
  const ReadPlan reading = read_text(R"(drystage: 1
trip: {title: Walk, start: 2027-06-01, time_zone: "-02:00"}
people: [{name: Ada, mass: 70 kg, height: 170 cm, age: 30, sex: female}]
climate: {hills: {jun: {max: 20 °C, min: 10 °C, humidity: 50 %, sun: 6 kWh/m2/day}}}
places: {Hut: {at: {latitude: 20.5° S, longitude: 30.25° W, elevation: 100 m}, climate: hills}}
itinerary: [{at: Hut}, {stay: {nights: 1}}]
mishaps: {own: [{name: a, loses: can, stops: chest, without: panel}]}
)");
  const auto errors = of_severity(reading, Severity::error);
  ASSERT_EQ(errors.size(), 3U) << all_of(reading);
  EXPECT_EQ(errors[0].expected, "a container, tank or store; the plan has none");
  EXPECT_EQ(errors[1].expected, "a cabinet defined under \"cold\"; there is none");
  EXPECT_EQ(errors[2].expected, "a charger defined under \"power: charging\"; there is none");
}

}  // namespace
}  // namespace drystage::plan
