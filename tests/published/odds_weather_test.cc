// Trips drawn about the means of months, against the recorded year of a desert station: what people
// drink in it lies in the bands as often as they say.

#include <gtest/gtest.h>

#include <array>
#include <string>
#include <vector>

#include "answers/odds/odds.h"
#include "support/desert_year.h"
#include "support/plan_text.h"
#include "support/trip.h"

namespace drystage {
namespace odds_weather_test {
namespace {

using support::PlanText;
using support::RecordedDay;

constexpr int window_days = 14;
constexpr double aboard_l = 320;

/// The normals of the months of that year, as a plan says them.
std::string normals() {
  static constexpr std::array months{"jan", "feb", "mar", "apr", "may", "jun",
                                     "jul", "aug", "sep", "oct", "nov", "dec"};
  std::string out = "station: {";
  for (int month = 1; month <= 12; ++month) {
    const std::vector<RecordedDay> days = support::desert_month(month);
    const auto spread = [&](auto value) {
      std::vector<double> values;
      for (const RecordedDay& day : days) values.push_back(value(day));
      return support::spread_of(values);
    };
    const auto text = [](double number) { return std::to_string(number); };
    out +=
        (month > 1 ? ", " : "") + std::string(months.at(static_cast<std::size_t>(month) - 1)) +
        ": {max: " + text(spread([](const RecordedDay& d) { return d.max_c(); }).mean) +
        " °C, min: " + text(spread([](const RecordedDay& d) { return d.min_c(); }).mean) +
        " °C, dew_point: " + text(spread([](const RecordedDay& d) { return d.dew_point_c; }).mean) +
        " °C, wind: " + text(spread([](const RecordedDay& d) { return d.wind_m_s; }).mean) +
        " m/s, sun: " + text(spread([](const RecordedDay& d) { return d.sun_kwh_m2; }).mean) +
        " kWh/m2/day, spread: " +
        text(spread([](const RecordedDay& d) { return d.mean_c(); }).deviation) + " °C}";
  }
  return out + "}";
}

std::string date_of(const RecordedDay& day) {
  const auto two = [](int number) { return (number < 10 ? "0" : "") + std::to_string(number); };
  return "2027-" + two(day.month) + "-" + two(day.day);
}

/// Two weeks at a camp from one day on, two people at work.
PlanText camp_from(const RecordedDay& first) {
  PlanText text;
  text.start = date_of(first);
  text.time_zone = "-07:00";
  text.people = {"{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: female}",
                 "{name: Bo, mass: 80 kg, height: 182 cm, age: 50, sex: male}"};
  text.activities = {"camp: {low: 5 h, moderate: 2 h, in_sun: 50 %}"};
  for (int can = 0; can < 4; ++can) {
    text.containers.push_back("{name: tank " + std::to_string(can) +
                              ", holds: 80 L, filled: 80 L, for: drinking}");
  }
  text.climate = {normals()};
  text.places = {
      "Base: {at: {latitude: 33.45° N, longitude: 111.98° W, elevation: 337 m}, climate: station}"};
  text.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(window_days) + "}"};
  std::string left_out;
  for (const auto& word : plan::source_words) {
    if (word.value == plan::Source::heat || word.value == plan::Source::sun) continue;
    left_out += (left_out.empty() ? "" : ", ") + std::string(word.text);
  }
  text.uncertainty = {"leave_out: [" + left_out + "]"};
  return text;
}

/// The same in the weather that was recorded.
PlanText as_recorded(PlanText text, const std::vector<RecordedDay>& year, std::size_t first) {
  for (std::size_t d = first; d < first + window_days; ++d) {
    const RecordedDay& day = year[d];
    const std::string date = date_of(day);
    const auto number = [](double value) { return std::to_string(value); };
    text.weather.push_back("{from: " + date + ", to: " + date + ", max: " + number(day.max_c()) +
                           " °C, min: " + number(day.min_c()) + " °C, dew_point: " +
                           number(day.dew_point_c) + " °C, wind: " + number(day.wind_m_s) +
                           " m/s, sun: " + number(day.sun_kwh_m2) + " kWh/m2/day}");
  }
  return text;
}

TEST(OddsWeather, HoldsTheRecordedFortnightsOfAYear) {
  const std::vector<RecordedDay> year = support::desert_year();
  int windows = 0;
  int inside = 0;
  for (std::size_t first = 0; first + window_days <= year.size(); first += window_days) {
    const PlanText text = camp_from(year[first]);
    const answers::PlanRun planned = support::travel(text);
    const answers::Odds odds =
        answers::odds_of(planned, {.trips = 300, .seed = 4, .drivers = false, .helps = false});
    const support::Trip recorded = support::travel(as_recorded(text, year, first));
    const double left_l = recorded.reserve(window_days - 1, "drinking_water").end;
    const auto water =
        static_cast<std::size_t>(support::reserve_index(planned.course, "drinking_water"));
    const answers::LevelBand& band = odds.reserves[water].bands.back();
    ++windows;
    inside += band.p5 <= left_l && left_l <= band.p95 ? 1 : 0;
    RecordProperty("drunk_" + std::to_string(windows), std::to_string(aboard_l - left_l));
  }
  EXPECT_EQ(windows, 26);
  // 90 of 100; of 26 so few or so many lie beyond 20 to 26 one time in thirty (binomial).
  EXPECT_GE(inside, 20);
  EXPECT_LE(inside, 26);
  RecordProperty("inside", inside);
}

}  // namespace
}  // namespace odds_weather_test
}  // namespace drystage
