// Mishaps of a trip on which vehicles come and go: a guest who does not come, and a vehicle that is
// lost while others are there to take over.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "answers/mishaps/sweep_plan.h"
#include "support/other_plan.h"
#include "support/plan_text.h"
#include "support/suffered.h"

namespace drystage::answers::company_test {
namespace {

using plan::MishapKind;
using support::PlanText;

std::string vehicle(const std::string& name, const std::string& more) {
  return "{name: " + name + ", fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: " + name +
         " tank, holds: 100 L, filled: 90 L}], observed: [{surface: sealed, uses: 10 L/100km}]" +
         more + "}";
}

/// A wagon with its driver and water comes at Meet on day 2 and goes home at Part on day 4.
PlanText guest() {
  PlanText text;
  text.people = {PlanText::person("Ada", "4 L/day"),
                 "{name: Ben, mass: 80 kg, height: 180 cm, age: 40, sex: male, rides_in: wagon, "
                 "observed: {drinking: 4 L/day, meals: 3}}"};
  text.vehicles = {vehicle("truck", ""), vehicle("wagon", ", from: Meet, until: Part")};
  text.containers = {"{name: can, holds: 25 L, filled: 12 L}",
                     "{name: wagon can, holds: 40 L, filled: 30 L, in: wagon}"};
  text.places = {PlanText::place("Base", "air"), PlanText::place("Meet", "air"),
                 PlanText::place("Part", "air"), PlanText::place("Never", "air")};
  const std::string drive = ", distance: 100 km, surfaces: sealed, speed: 50 km/h}";
  text.itinerary = {"{at: Base}",        "stay: {nights: 1}",        "drive: {to: Meet" + drive,
                    "stay: {nights: 2}", "drive: {to: Part" + drive, "stay: {nights: 1}"};
  return text;
}

std::vector<int> days_of(const SweepPlan& sweep, const std::string& name) {
  std::vector<int> out;
  for (const Strike& strike : sweep.strikes()) {
    if (sweep.mishaps()[strike.mishap].failure.name != name) continue;
    out.push_back(sweep.laid().timeline->steps[strike.step].day);
  }
  return out;
}

TEST(MishapsOfCompany, AGuestWhoDoesNotComeIsAsIfNobodyHadBeenExpected) {
  const support::Planned planned(guest().plan());
  const int compared = support::compare(planned, MishapKind::vehicle,
                                        [](plan::Plan& plan, const support::Suffered& suffered) {
                                          if (suffered.mishap.failure.name != "wagon does not come")
                                            return false;
                                          plan.vehicles[1].along = {.from = {.place = 3}};
                                          plan.people[1].along = plan.vehicles[1].along;
                                          return true;
                                        });
  EXPECT_EQ(compared, 1);
}

TEST(MishapsOfCompany, AVehicleIsLostOnlyWhereAnotherTakesOver) {
  const support::Planned planned(guest().plan());
  const SweepPlan sweep = planned.sweep(MishapKind::vehicle);
  EXPECT_EQ(days_of(sweep, "truck left behind"), (std::vector<int>{2, 3}));
  EXPECT_EQ(days_of(sweep, "wagon left behind"), (std::vector<int>{2, 3}));
  EXPECT_EQ(days_of(sweep, "wagon does not come"), std::vector<int>{1});
}

TEST(MishapsOfCompany, WhoTakesOverStaysToTheEnd) {
  const support::Planned planned(guest().plan());
  const SweepPlan sweep = planned.sweep(MishapKind::vehicle);
  const auto lost = std::ranges::find_if(sweep.strikes(), [&](const Strike& strike) {
    return sweep.mishaps()[strike.mishap].failure.name == "truck left behind";
  });
  const support::Suffered suffered(sweep, *lost);
  const engine::Company& last = suffered.laid.timeline->companies.back();
  EXPECT_EQ(last.vehicles, (std::vector<char>{1, 1}));
  EXPECT_EQ(last.people, (std::vector<char>{1, 1}));
}

}  // namespace
}  // namespace drystage::answers::company_test
