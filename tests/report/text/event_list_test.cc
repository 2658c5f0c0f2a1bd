// Events as a person reads them: what comes again is told once.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/text/events.h"
#include "support/answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Event;
using engine::EventKind;
using support::PlanText;
using support::times;
using support::travel;
using support::Trip;
using support::unwrapped;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

std::string events_of(const answers::PlanRun& planned) {
  return unwrapped(report::event_list(planned, {.all = true}));
}

TEST(EventList, TellsFrostOnceForConsecutiveDaysWithTheColdestOfThem) {
  PlanText plan;
  plan.weather = {"{on: 2027-03-02, max: 6 °C, min: -3 °C}",
                  "{on: 2027-03-03, max: 6 °C, min: -9 °C}",
                  "{on: 2027-03-04, max: 6 °C, min: -4 °C}"};
  const std::string text = events_of(travel(plan));
  EXPECT_EQ(times(text, "frost"), 1) << text;
  EXPECT_THAT(text, HasSubstr("Tue 02 Mar 00:00 frost, down to -9 °C"));
  EXPECT_THAT(text, HasSubstr(". Every day until Thu 04 Mar"));
}

TEST(EventList, TellsFrostAnewAfterADayWithout) {
  PlanText plan;
  plan.weather = {"{from: 2027-03-02, to: 2027-03-03, max: 6 °C, min: -3 °C}",
                  "{on: 2027-03-05, max: 6 °C, min: -8 °C}"};
  const std::string text = events_of(travel(plan));
  EXPECT_EQ(times(text, "frost"), 2) << text;
  EXPECT_THAT(text, HasSubstr("Tue 02 Mar 00:00 frost, down to -3 °C"));
  EXPECT_THAT(text, HasSubstr(". Every day until Wed 03 Mar"));
  EXPECT_THAT(text, HasSubstr("Fri 05 Mar 00:00 frost, down to -8 °C"));
  EXPECT_EQ(times(text, "Every day"), 1) << text;
}

/// A trip of five days with two banks and a lamp, in which these events and no others have come.
Trip with_events(const std::vector<Event>& events) {
  PlanText plan;
  plan.climate = {PlanText::steady_climate("air", 25)};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}",
                    "{name: spare, kind: agm, capacity: 100 Ah}"};
  plan.loads = {"{name: lamp, draw: 1 W}"};
  Trip trip = travel(plan);
  trip.course.events.clear();
  trip.record.events = events;
  return trip;
}

Event event(EventKind kind, int day, double hour, int subject) {
  return {.kind = kind, .day = static_cast<std::int16_t>(day), .hour = hour, .subject = subject};
}

TEST(EventList, TellsOfASwitchThatGoesBackAndForthOnceADay) {
  std::vector<Event> events;
  for (const int day : {1, 2}) {
    for (int n = 0; n < 4; ++n) {
      events.push_back(event(EventKind::cut_off, day, 8 + n, 0));
      events.push_back(event(EventKind::reconnected, day, 8.5 + n, 0));
    }
  }
  const std::string text = events_of(with_events(events));
  EXPECT_EQ(times(text, "at its cut-off"), 2) << text;
  EXPECT_EQ(times(text, "charged again"), 2) << text;
  EXPECT_EQ(times(text, ". 4 times that day"), 4) << text;
  EXPECT_THAT(text, Not(HasSubstr("Every day")));
}

TEST(EventList, KeepsTwoBanksApart) {
  const std::string text = events_of(
      with_events({event(EventKind::cut_off, 1, 8, 0), event(EventKind::cut_off, 1, 9, 1)}));
  EXPECT_THAT(text, HasSubstr("Tue 02 Mar 08:00 bank at its cut-off"));
  EXPECT_THAT(text, HasSubstr("Tue 02 Mar 09:00 spare at its cut-off"));
  EXPECT_THAT(text, Not(HasSubstr("times that day")));
}

TEST(EventList, TellsEveryTimeOfWhatIsLost) {
  PlanText plan;
  plan.food = {"{item: stores, kept: dry, meals: 5000}", "{item: rice, kept: dry, meals: 9}"};
  Trip trip = travel(plan);
  const int rice = support::store_index(trip.course, "rice");
  trip.record.events = {event(EventKind::spoiled, 1, 8, rice),
                        event(EventKind::spoiled, 1, 9, rice),
                        event(EventKind::spoiled, 2, 8, rice)};
  EXPECT_EQ(times(events_of(trip), "rice spoiled"), 3);
}

TEST(EventList, TellsOnceOfWaitingForLightOverManyDays) {
  // 69° north, where the sun stays down until the second week of January.
  PlanText plan;
  plan.start = "2027-01-01";
  plan.driving = "{most_per_day: 8 h, daylight_only: yes, depart: \"08:00\"}";
  plan.places = {"North: {at: {latitude: 69°, longitude: 0°, elevation: 0 m}, climate: air}",
                 "South: {at: {latitude: 68.9°, longitude: 0°, elevation: 0 m}, climate: air}"};
  plan.itinerary = {"{at: North}", "drive: {to: South, distance: 15 km, surfaces: sealed}"};
  const Trip trip = travel(plan);
  const auto waits = trip.told(EventKind::waits);
  ASSERT_GE(waits.size(), 4U);
  const std::string text = events_of(trip);
  EXPECT_EQ(times(text, "waits for another day"), 1) << text;
  EXPECT_THAT(text, HasSubstr("Fri 01 Jan"));
  EXPECT_THAT(text, HasSubstr("Every day until"));
}

std::string screen_of(const answers::PlanRun& planned, std::ptrdiff_t room = 40) {
  return unwrapped(report::event_list(planned, {}, room));
}

TEST(EventList, OfOneScreenLeavesOutWhatGoesAsPlannedAndWhatIsToldElsewhere) {
  const Trip trip =
      with_events({event(EventKind::cut_off, 1, 8, 0), event(EventKind::reconnected, 1, 9, 0),
                   event(EventKind::restored, 1, 9, 0), event(EventKind::short_of, 2, 9, 0)});
  const std::string text = screen_of(trip);
  EXPECT_THAT(text, HasSubstr("Events (3 more with --all)"));
  EXPECT_THAT(text, HasSubstr("bank at its cut-off"));
  EXPECT_THAT(text, Not(HasSubstr("charged again")));
  EXPECT_THAT(text, Not(HasSubstr("RUNS OUT")));
  EXPECT_THAT(events_of(trip), StartsWith("Events Tue 02 Mar"));
  EXPECT_THAT(events_of(trip), HasSubstr("RUNS OUT"));
}

TEST(EventList, OfOneScreenSaysThatThereIsMoreWhereNothingIsOfNote) {
  EXPECT_EQ(screen_of(with_events({event(EventKind::restored, 1, 9, 0)})),
            "No event of note; 1 more with --all. ");
  EXPECT_EQ(screen_of(with_events({})), "");
}

TEST(EventList, WhatBefellATripIsToldFirstOfItsDay) {
  const Trip trip = with_events({event(EventKind::restored, 1, 9, 0)});
  const std::string text = report::event_list(trip, {}, 40, {{.day = 1, .what = "can lost"}});
  EXPECT_EQ(text, "Events (1 more with --all)\n  Tue 02 Mar        can lost\n");
  EXPECT_EQ(report::event_list(with_events({}), {}, 40, {{.day = 0, .what = "can lost"}}),
            "Events\n  Mon 01 Mar        can lost\n");
}

/// More switches than have room, and then three dangers at the end.
Trip busy() {
  std::vector<Event> events;
  for (int day = 0; day < 5; ++day) {
    for (const int load : {0, 1, 2}) events.push_back(event(EventKind::shed, day, 6 + load, load));
  }
  for (const int hour : {20, 21, 22})
    events.push_back(event(EventKind::vital_unserved, 4, hour, 0));
  PlanText plan;
  plan.climate = {PlanText::steady_climate("air", 25)};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  plan.loads = {"{name: radio, draw: 1 W}", "{name: lamp, draw: 1 W}", "{name: fan, draw: 1 W}"};
  Trip trip = travel(plan);
  trip.course.events.clear();
  trip.record.events = events;
  return trip;
}

TEST(EventList, OfOneScreenHasEightLinesOfWhichDangersHaveTheFirst) {
  const std::string text = report::event_list(busy(), {});
  EXPECT_THAT(text, StartsWith("Events (10 more with --all)\n"));
  EXPECT_EQ(times(text, "\n"), 1 + 8);
  EXPECT_EQ(times(text, "DANGER: no charge left for radio"), 3);
  // In their order, whatever was chosen first.
  EXPECT_LT(text.find("switched off"), text.find("DANGER"));
  EXPECT_EQ(times(events_of(busy()), "switched off"), 15);
}

TEST(EventList, OfAFullScreenHasItsDangersAllTheSame) {
  const std::string text = screen_of(busy(), 0);
  EXPECT_EQ(times(text, "DANGER"), 3);
  EXPECT_THAT(text, Not(HasSubstr("switched off")));
  EXPECT_EQ(times(screen_of(busy(), 5), "switched off"), 2);
}

TEST(EventList, SaysNotThatADayOfTwoClimatesIsTwice) {
  PlanText plan;
  plan.people = {"{name: Ben, mass: 70 kg, height: 172 cm, age: 40, sex: male, acclimatised: no}"};
  plan.climate = {PlanText::climate_of("air", 43, 28, "20 %", "7 kWh/m2/day"),
                  PlanText::climate_of("basin", 44, 29, "20 %", "7 kWh/m2/day")};
  plan.places.push_back(PlanText::place("Pan", "basin"));
  plan.itinerary = {"{at: Base}", "drive: {to: Pan, distance: 200 km, surfaces: gravel}"};
  const std::string text = events_of(travel(plan));
  EXPECT_THAT(text, HasSubstr("Ben is not used to such heat"));
  EXPECT_THAT(text, Not(HasSubstr("times that day")));
}

}  // namespace
}  // namespace drystage
