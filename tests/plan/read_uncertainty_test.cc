#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ostream>

#include "models/use_priors.h"
#include "plan/uncertainty.h"
#include "plan/values.h"
#include "plan_text.h"

namespace drystage::plan::read_uncertainty_test {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

// The whole plan with another section `uncertainty`.
ReadPlan with_uncertainty(std::string_view section) {
  std::string text = whole_plan();
  const std::size_t from = text.find("\nuncertainty:") + 1;
  const std::size_t to = text.find("\nmishaps:") + 1;
  return read_text(text.replace(from, to - from, section));
}

// What is read of it; fails when the plan is not right, or is questioned.
Uncertainty read(const std::string& inside) {
  const ReadPlan reading = with_uncertainty("uncertainty: {" + inside + "}\n");
  EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_THAT(reading.diagnostics, IsEmpty()) << all_of(reading);
  return reading.plan ? reading.plan->uncertainty : Uncertainty{};
}

void expect_defaults(const Uncertainty& read) {
  EXPECT_DOUBLE_EQ(read.heat.year_k, 1.2);
  EXPECT_DOUBLE_EQ(read.heat.persistence, 0.75);
  EXPECT_FALSE(read.sun.day);
  EXPECT_DOUBLE_EQ(read.sun.persistence, 0.4);
  EXPECT_DOUBLE_EQ(read.sun.with_heat, 0.3);
  EXPECT_FALSE(read.drinking.person);
  EXPECT_DOUBLE_EQ(read.drinking.day, 0.1);
  EXPECT_DOUBLE_EQ(read.work_trip, 0.2);
  EXPECT_DOUBLE_EQ(read.utility_trip, 0.2);
  EXPECT_DOUBLE_EQ(read.meals_trip, 0.1);
  EXPECT_DOUBLE_EQ(read.consumables_trip, 0.25);
  EXPECT_FALSE(read.fuel.trip);
  EXPECT_DOUBLE_EQ(read.fuel.leg, 0.06);
  EXPECT_DOUBLE_EQ(read.distance.usual, 0.05);
  EXPECT_DOUBLE_EQ(read.distance.high, 0.15);
  EXPECT_DOUBLE_EQ(read.headwind_leg_m_s, 3);
  EXPECT_DOUBLE_EQ(read.loads_trip, 0.1);
  EXPECT_DOUBLE_EQ(read.cabinets.usual, 1.25);
  EXPECT_DOUBLE_EQ(read.cabinets.trip, 0.14);
  EXPECT_DOUBLE_EQ(read.lids_trip, 0.3);
  EXPECT_DOUBLE_EQ(read.panels.usual, 0.9);
  EXPECT_DOUBLE_EQ(read.panels.trip, 0.08);
  EXPECT_DOUBLE_EQ(read.batteries.usual, 0.85);
  EXPECT_DOUBLE_EQ(read.batteries.trip, 0.09);
  EXPECT_DOUBLE_EQ(read.fills_vessel, 0.025);
  EXPECT_DOUBLE_EQ(read.spoilage_trip, 0.2);
  EXPECT_DOUBLE_EQ(read.delays.day, 0.01);
  EXPECT_DOUBLE_EQ(read.delays.soft_leg, 0.03);
  EXPECT_DOUBLE_EQ(read.delays.length_h, 24);
  EXPECT_DOUBLE_EQ(read.supplies.confirmed, 0.02);
  EXPECT_DOUBLE_EQ(read.supplies.unconfirmed, 0.2);
  EXPECT_DOUBLE_EQ(read.containers_day, 0.0005);
  EXPECT_DOUBLE_EQ(read.compressors_day, 0.001);
  EXPECT_DOUBLE_EQ(read.chargers_day, 0.001);
  EXPECT_DOUBLE_EQ(read.punctures, 1);
  EXPECT_DOUBLE_EQ(read.illness_day, 0.003);
  EXPECT_THAT(read.left_out, IsEmpty());
}

TEST(Uncertainty, HasDefaultsWhenNothingIsSaid) {
  for (const char* section :
       {"", "uncertainty:\n", "uncertainty: {}\n",
        "uncertainty: {heat: {}, sun: , drinking: {}, work: {}, fuel: , distance: {}, headwind: , "
        "cabinets: {}, fills: , delays: {}, supplies: {}, leave_out: []}\n"}) {
    const ReadPlan reading = with_uncertainty(section);
    ASSERT_TRUE(reading.plan.has_value()) << section << all_of(reading);
    EXPECT_THAT(reading.diagnostics, IsEmpty()) << all_of(reading);
    expect_defaults(reading.plan->uncertainty);
  }
}

// What the declaration says of people and vehicles is what the models use for them.
TEST(Uncertainty, HasTheDefaultsOfTheModelsWhereItDependsOnWhatWasObserved) {
  EXPECT_EQ(default_number("uncertainty.drinking.person"),
            models::usual_drinking(false).prior.common_sd);
  EXPECT_EQ(default_number("uncertainty.drinking.person", "observed"),
            models::usual_drinking(true).prior.common_sd);
  EXPECT_EQ(default_number("uncertainty.fuel.trip"), models::usual_fuel(false).prior.common_sd);
  EXPECT_EQ(default_number("uncertainty.fuel.trip", "observed"),
            models::usual_fuel(true).prior.common_sd);
}

TEST(Uncertainty, IsReadFromTheWholePlan) {
  const ReadPlan reading = read_text(whole_plan());
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  const Uncertainty& read = reading.plan->uncertainty;
  EXPECT_DOUBLE_EQ(read.heat.year_k, 1.5);
  EXPECT_DOUBLE_EQ(read.heat.persistence, 0.7);
  EXPECT_DOUBLE_EQ(read.sun.day.value(), 0.15);
  EXPECT_DOUBLE_EQ(read.sun.persistence, 0.35);
  EXPECT_DOUBLE_EQ(read.sun.with_heat, -0.2);
  EXPECT_DOUBLE_EQ(read.drinking.person.value(), 0.22);
  EXPECT_DOUBLE_EQ(read.drinking.day, 0.12);
  EXPECT_DOUBLE_EQ(read.work_trip, 0.25);
  EXPECT_DOUBLE_EQ(read.utility_trip, 0.3);
  EXPECT_DOUBLE_EQ(read.meals_trip, 0.08);
  EXPECT_DOUBLE_EQ(read.consumables_trip, 0.24);
  EXPECT_DOUBLE_EQ(read.fuel.trip.value(), 0.16);
  EXPECT_DOUBLE_EQ(read.fuel.leg, 0.07);
  EXPECT_DOUBLE_EQ(read.distance.usual, 0.06);
  EXPECT_DOUBLE_EQ(read.distance.high, 0.18);
  EXPECT_DOUBLE_EQ(read.headwind_leg_m_s, 2.5);
  EXPECT_DOUBLE_EQ(read.loads_trip, 0.11);
  EXPECT_DOUBLE_EQ(read.cabinets.usual, 1.3);
  EXPECT_DOUBLE_EQ(read.cabinets.trip, 0.13);
  EXPECT_DOUBLE_EQ(read.lids_trip, 0.28);
  EXPECT_DOUBLE_EQ(read.panels.usual, 0.88);
  EXPECT_DOUBLE_EQ(read.panels.trip, 0.07);
  EXPECT_DOUBLE_EQ(read.batteries.usual, 0.8);
  EXPECT_DOUBLE_EQ(read.batteries.trip, 0.095);
  EXPECT_DOUBLE_EQ(read.fills_vessel, 0.02);
  EXPECT_DOUBLE_EQ(read.spoilage_trip, 0.21);
  EXPECT_DOUBLE_EQ(read.delays.day, 0.015);
  EXPECT_DOUBLE_EQ(read.delays.soft_leg, 0.04);
  EXPECT_DOUBLE_EQ(read.delays.length_h, 36);
  EXPECT_DOUBLE_EQ(read.supplies.confirmed, 0.03);
  EXPECT_DOUBLE_EQ(read.supplies.unconfirmed, 0.26);
  EXPECT_DOUBLE_EQ(read.containers_day, 0.0004);
  EXPECT_DOUBLE_EQ(read.compressors_day, 0.0012);
  EXPECT_DOUBLE_EQ(read.chargers_day, 0.0013);
  EXPECT_DOUBLE_EQ(read.punctures, 1.2);
  EXPECT_DOUBLE_EQ(read.illness_day, 0.004);
  EXPECT_THAT(read.left_out, ElementsAre(Source::meals, Source::illness));
}

TEST(Uncertainty, MayBeWrittenShortWhereASourceHasOneNumber) {
  struct Form {
    const char* source;
    const char* key;
    double Uncertainty::*member;
  };
  for (const Form& form : std::vector<Form>{{"work", "trip", &Uncertainty::work_trip},
                                            {"utility", "trip", &Uncertainty::utility_trip},
                                            {"meals", "trip", &Uncertainty::meals_trip},
                                            {"consumables", "trip", &Uncertainty::consumables_trip},
                                            {"loads", "trip", &Uncertainty::loads_trip},
                                            {"lids", "trip", &Uncertainty::lids_trip},
                                            {"fills", "vessel", &Uncertainty::fills_vessel},
                                            {"spoilage", "trip", &Uncertainty::spoilage_trip},
                                            {"containers", "day", &Uncertainty::containers_day},
                                            {"compressors", "day", &Uncertainty::compressors_day},
                                            {"chargers", "day", &Uncertainty::chargers_day},
                                            {"illness", "day", &Uncertainty::illness_day},
                                            {"punctures", "usual", &Uncertainty::punctures}}) {
    const char* amount = form.source == std::string("punctures") ? "70 %" : "0.7 %";
    const double expected = form.source == std::string("punctures") ? 0.7 : 0.007;
    const auto in_short = read(fmt::format("{}: {}", form.source, amount));
    const auto in_full = read(fmt::format("{}: {{{}: {}}}", form.source, form.key, amount));
    const auto nothing = read(fmt::format("{}: 0 %", form.source));
    EXPECT_DOUBLE_EQ(in_short.*form.member, expected) << form.source;
    EXPECT_DOUBLE_EQ(in_full.*form.member, expected) << form.source;
    EXPECT_DOUBLE_EQ(nothing.*form.member, 0) << form.source;
  }
  EXPECT_DOUBLE_EQ(read("headwind: 18 km/h").headwind_leg_m_s, 5);
  EXPECT_DOUBLE_EQ(read("headwind: {leg: 0 m/s}").headwind_leg_m_s, 0);
}

TEST(Uncertainty, OfAllSpreadsAndChancesMayBeNone) {
  const Uncertainty made = read(
      "heat: {year: 0 °C, persistence: 0 %}, sun: {day: 0 %, persistence: 0 %, with_heat: 0 "
      "%}, drinking: {person: 0 %, day: 0 %}, fuel: {trip: 0 %, leg: 0 %}, distance: {usual: "
      "0 %, high: 0 %}, cabinets: {trip: 0 %}, panels: {trip: 0 %}, batteries: {trip: 0 %}, "
      "delays: {day: 0 %, soft_leg: 0 %}, supplies: {confirmed: 0 %, unconfirmed: 0 %}");
  EXPECT_EQ(made.heat.year_k, 0);
  EXPECT_EQ(made.sun.day, 0);
  EXPECT_EQ(made.drinking.person, 0);
  EXPECT_EQ(made.fuel.trip, 0);
  EXPECT_EQ(made.distance.high, 0);
  EXPECT_EQ(made.cabinets.trip, 0);
  EXPECT_DOUBLE_EQ(made.cabinets.usual, 1.25);
  EXPECT_EQ(made.supplies.unconfirmed, 0);
}

TEST(Uncertainty, LeavesOutOneSourceOrSeveral) {
  EXPECT_THAT(read("leave_out: fuel").left_out, ElementsAre(Source::fuel));
  const Uncertainty made = read("leave_out: [sun, punctures]");
  EXPECT_THAT(made.left_out, ElementsAre(Source::sun, Source::punctures));
  EXPECT_FALSE(made.draws(Source::sun));
  EXPECT_TRUE(made.draws(Source::heat));
}

TEST(Uncertainty, OfDistanceMayBeTheSameTwice) {
  const Uncertainty made = read("distance: {usual: 15 %}");
  EXPECT_DOUBLE_EQ(made.distance.usual, made.distance.high);
  EXPECT_DOUBLE_EQ(read("distance: {high: 5 %}").distance.high, 0.05);
}

TEST(Uncertainty, IsQuestionedWhereItIsNotUsual) {
  for (const char* inside :
       {"work: 150 %", "illness: 6 %", "cabinets: {usual: 400 %}", "cabinets: {usual: 1.25 %}",
        "headwind: 20 m/s", "heat: {year: 6 °C}", "delays: {length: 40 days}"}) {
    const ReadPlan reading = with_uncertainty(std::string("uncertainty: {") + inside + "}\n");
    ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
    ASSERT_EQ(reading.diagnostics.size(), 1U) << inside << all_of(reading);
    EXPECT_THAT(reading.diagnostics[0].what, HasSubstr("unusually")) << inside;
  }
}

// A section, and all that must be said about it.
struct Slip {
  const char* section;
  const char* what;
  const char* expected = "";  // part of it
  const char* hint = "";      // part of it
};

void PrintTo(const Slip& slip, std::ostream* out) { *out << slip.section; }

class WrongUncertainty : public testing::TestWithParam<Slip> {};

TEST_P(WrongUncertainty, IsTheOneErrorReported) {
  const Slip& slip = GetParam();
  const ReadPlan reading = with_uncertainty(std::string("uncertainty: {") + slip.section + "}\n");
  const Diagnostic error = only_error(reading);
  EXPECT_EQ(error.what, slip.what);
  EXPECT_THAT(error.expected, HasSubstr(slip.expected)) << all_of(reading);
  EXPECT_THAT(error.hint, HasSubstr(slip.hint)) << all_of(reading);
}

INSTANTIATE_TEST_SUITE_P(
    Slips, WrongUncertainty,
    testing::Values(
        Slip{"wrk: 20 %", "uncertainty has no key \"wrk\"", "heat, sun, drinking", "\"work\""},
        Slip{"work: {day: 20 %}", "work has no key \"day\"", "trip"},
        Slip{"heat: {spread: 2 °C}", "heat has no key \"spread\"", "year or persistence"},
        Slip{"heat: 1.2 °C", "heat: a plain value does not belong here", "heat: {year: 1.2 °C"},
        Slip{"cabinets: 130 %", "cabinets: a plain value does not belong here",
             "cabinets: {usual: 125 %"},
        Slip{"work: [20 %]", "work: a list does not belong here", "a map of keys"},
        Slip{"work: 20", "work: 20 has no unit", "a share", "write 20 %"},
        Slip{"work: {trip: 20}", "trip: 20 has no unit", "a share", "write 20 %"},
        Slip{"work: 5 kg", "work: 5 kg is a mass"},
        Slip{"work: 201 %", "work: 201 % is too high", "from 0 to 200 %"},
        Slip{"work: -5 %", "work: -5 % is negative"},
        Slip{"headwind: 3", "headwind: 3 has no unit", "", "3 m/s"},
        Slip{"headwind: 41 m/s", "headwind: 41 m/s is too high", "from 0 to 40 m/s"},
        Slip{"heat: {year: 21 °C}", "year: 21 °C is too high", "from 0 to 20 °C"},
        Slip{"sun: {with_heat: -101 %}", "with_heat: -101 % is too low", "from -100 to 100 %"},
        Slip{"sun: {persistence: 101 %}", "persistence: 101 % is too high", "100 %"},
        Slip{"batteries: {usual: 0 %}", "usual: 0 % is too low", "from 30 to 100 %"},
        Slip{"batteries: {usual: 120 %}", "usual: 120 % is too high", "from 30 to 100 %"},
        Slip{"panels: {usual: 120 %}", "usual: 120 % is too high", "from 1 to 110 %"},
        Slip{"delays: {length: 0 h}", "length: 0 h is too low", "60 days"},
        Slip{"illness: 101 %", "illness: 101 % is too high", "from 0 to 100 %"},
        Slip{"distance: {usual: 20 %, high: 10 %}", "high: 10 % is less than usual, 20 %",
             "high at least as much as usual"},
        Slip{"distance: {usual: 20 %}",
             "usual: 20 % is more than high, which is 15 % when left out",
             "high at least as much as usual", "write high beside it"},
        Slip{"distance: {high: 4 %}", "high: 4 % is less than usual, which is 5 % when left out",
             "high at least as much as usual", "write usual beside it"},
        Slip{"distance: {usual: 20, high: 10 %}", "usual: 20 has no unit"},
        Slip{"leave_out: [sun, ilness]", "leave_out: unknown word \"ilness\"",
             "heat, sun, drinking, work, utility, meals, consumables, fuel, distance, headwind, "
             "loads, cabinets, lids, panels, batteries, fills, spoilage, delays, supplies, "
             "containers, compressors, chargers, punctures or illness",
             "did you mean \"illness\"?"},
        Slip{"leave_out: [sun, sun]", "leave_out: \"sun\" is named twice", "each one once"},
        Slip{"leave_out: {sun: yes}", "leave_out: a map of keys does not belong here",
             "a list of names"}));

}  // namespace
}  // namespace drystage::plan::read_uncertainty_test
