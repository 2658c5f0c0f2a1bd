#include "engine/drinking.h"

#include <fmt/core.h>

#include <algorithm>
#include <numeric>
#include <optional>

#include "engine/water_loss.h"
#include "models/altitude.h"
#include "models/heat_strain.h"
#include "models/water_need.h"
#include "units/format.h"
#include "units/text.h"

namespace drystage::engine {
namespace {

constexpr double ml_per_l = 1000;

/// One person's share in the party's need.
struct Body {
  double base_l_h = 0;      ///< of a temperate day in the lowlands
  double altitude_l_h = 0;  ///< on top, by the elevation
  double surface_m2 = 0;

  [[nodiscard]] double day_l(double loss_g_m2) const {
    return 24 * (base_l_h + altitude_l_h) + loss_g_m2 * surface_m2 / ml_per_l;
  }
};

Body body_of(const plan::Person& person, double elevation_m) {
  const models::Sex sex = person.sex == plan::Sex::female ? models::Sex::female : models::Sex::male;
  const double base_l_h = models::base_drinking_l_per_h(person.age_years, sex);
  return {.base_l_h = base_l_h,
          .altitude_l_h = base_l_h * models::altitude_base_share(elevation_m),
          .surface_m2 = models::body_surface_m2(person.mass_kg, person.height_m)};
}

/// A factor that gives at least the base on a day of so much loss. Nothing stays nothing: an infant
/// at the breast, or somebody with water of their own.
double lifted(double factor, const Body& body, double loss_g_m2) {
  if (factor <= 0) return 0;
  return std::max(factor, 24 * body.base_l_h / body.day_l(loss_g_m2));
}

/// The activity and the weather in which a person's drinking was observed.
struct Observed {
  const plan::Activity& activity;
  WeatherDay weather;
};

std::optional<Observed> observed_in(const plan::Plan& plan, const plan::Person& person,
                                    const ScheduledDay& first_day) {
  const int climate = climate_at(plan, first_day.from);
  std::optional<DayFigures> figures = figures_on(plan, climate, first_day.date, Spells::left_out);
  if (!figures) return std::nullopt;
  Position at = position(plan, first_day.from);
  int activity = first_day.activity;
  if (const auto& own = person.drinking_at) {
    figures->weather.max_c = own->max_c;
    figures->weather.min_c = own->min_c;
    at.elevation_m = own->elevation_m.value_or(at.elevation_m);
    activity = own->activity.value_or(plan.camp_activity);
  }
  return Observed{.activity = plan.activities[static_cast<std::size_t>(activity)],
                  .weather = weather_day(*figures, first_day.date, at, plan.trip.utc_offset_h)};
}

double model_l(const plan::Person& person, const Observed& observed) {
  const double loss_g_m2 = day_loss_g_m2(water_loss_g_m2(observed.activity, observed.weather));
  return person_drinking_l(person, loss_g_m2, observed.weather.elevation_m, 1).by_model_l;
}

}  // namespace

double day_loss_g_m2(const std::array<double, 24>& loss_g_m2) {
  return std::accumulate(loss_g_m2.begin(), loss_g_m2.end(), 0.0);
}

Drinkers drinkers(const plan::Plan& plan, double day_loss_g_m2, double elevation_m,
                  std::span<const double> factors, std::span<const char> people) {
  // Who is not used to heat sweats less and suffers more: they too are given water for the sweat of
  // those who are.
  Drinkers sum;
  for (std::size_t p = 0; p < plan.people.size(); ++p) {
    if (people[p] == 0) continue;
    const Body body = body_of(plan.people[p], elevation_m);
    const double factor = lifted(factors[p], body, day_loss_g_m2);
    sum.surface_m2 += factor * body.surface_m2;
    sum.base_l_h += factor * (body.base_l_h + body.altitude_l_h);
  }
  return sum;
}

std::array<double, 24> party_drinking_l_h(const plan::Plan& plan,
                                          const std::array<double, 24>& loss_g_m2,
                                          double elevation_m, std::span<const double> factors,
                                          std::span<const char> people) {
  const Drinkers all = drinkers(plan, day_loss_g_m2(loss_g_m2), elevation_m, factors, people);
  std::array<double, 24> hours = loss_g_m2;
  for (double& hour : hours) hour = all.base_l_h + hour * all.surface_m2 / ml_per_l;
  return hours;
}

PersonNeed person_drinking_l(const plan::Person& person, double loss_g_m2, double elevation_m,
                             double factor) {
  const Body body = body_of(person, elevation_m);
  const double by_model_l = body.day_l(loss_g_m2);
  return {.by_model_l = by_model_l, .planned_l = lifted(factor, body, loss_g_m2) * by_model_l};
}

std::vector<double> drinking_factors(const plan::Plan& plan, const ScheduledDay& first_day) {
  std::vector<double> factors(plan.people.size(), 1);
  for (std::size_t p = 0; p < factors.size(); ++p) {
    const plan::Person& person = plan.people[p];
    if (!person.drinking_l_day) continue;
    const auto observed = observed_in(plan, person, first_day);
    if (!observed) continue;
    factors[p] = *person.drinking_l_day / model_l(person, *observed);
  }
  return factors;
}

std::vector<plan::Diagnostic> drinking_remarks(const plan::Plan& plan,
                                               const ScheduledDay& first_day,
                                               std::span<const double> factors) {
  const auto degrees = [](double air_c) {
    return units::format(air_c, units::Kind::temperature, units::System::metric,
                         units::decimals(0));
  };
  std::vector<plan::Diagnostic> out;
  for (std::size_t p = 0; p < factors.size(); ++p) {
    const plan::Person& person = plan.people[p];
    if (!person.drinking_l_day || factors[p] >= far_under_model) continue;
    const auto observed = observed_in(plan, person, first_day);
    if (!observed) continue;
    out.push_back(
        {.severity = plan::Severity::warning,
         .mark = person.mark,
         .what = fmt::format("{} is said to drink {:.1f} L a day where the model asks {:.1f} L "
                             "(activity {}, {} to {})",
                             units::in_quotes(person.name), *person.drinking_l_day,
                             model_l(person, *observed), units::in_quotes(observed->activity.name),
                             degrees(observed->weather.min_c), degrees(observed->weather.max_c)),
         .expected = fmt::format("at least {:.0f} % of the model", 100 * far_under_model),
         .hint = "was it measured in cooler weather or at less work? Say which: "
                 "observed: {drinking: 4 L/day, at: {max: 28 °C, min: 14 °C}}"});
  }
  return out;
}

}  // namespace drystage::engine
