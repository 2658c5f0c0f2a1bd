#include "engine/conditions.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "engine/drinking.h"
#include "engine/water_loss.h"
#include "models/atmosphere.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

class Filler {
 public:
  Filler(Conditions& out, const plan::Plan& plan, const Calendar& calendar, Almanac* almanac,
         const Drawn& drawn, const ReadyConditions* ready, std::span<const DrawnSky> skies)
      : out_(out),
        plan_(plan),
        calendar_(calendar),
        almanac_(almanac),
        drawn_(drawn),
        ready_(ready),
        skies_(skies) {}

  void fill(const IndexRange& days, const IndexRange& steps) {
    const IndexRange places = place_days_of(calendar_, days);
    const IndexRange parties = party_days_of(calendar_, days);
    keys_.resize(places.until - places.from);
    for (std::size_t h = places.from; h < places.until; ++h) {
      keys_[h - places.from] = add_weather(h);
    }
    for (std::size_t d = days.from; d < days.until; ++d) {
      out_.days[d] = {.max_c = -HUGE_VAL,
                      .min_c = HUGE_VAL,
                      .mean_c = 0,
                      .drinking = of_day(drawn_.drinking, static_cast<int>(d), 1)};
    }
    for (std::size_t p = parties.from; p < parties.until; ++p) {
      const auto place_day = static_cast<std::size_t>(calendar_.party_days[p].place_day);
      add_drinking(p, keys_[place_day - places.from]);
    }
    for (std::size_t h = places.from; h < places.until; ++h) {
      const auto camp = static_cast<std::size_t>(calendar_.place_days[h].camp);
      double& drink_l = out_.place_days[h].drink_l;
      drink_l = 0;
      for (const double litres : out_.party_days[camp].drink_l_h) drink_l += litres;
    }
    for (std::size_t s = steps.from; s < steps.until; ++s) add_step(s);
  }

 private:
  Almanac::Key add_weather(std::size_t place_day) {
    const PlaceDay& its = calendar_.place_days[place_day];
    const plan::Date date = calendar_.days[at(its.day)].schedule.date;
    PlaceConditions& out = out_.place_days[place_day];
    if (ready_ != nullptr) {
      DayFigures drawn = ready_->figures[place_day];
      draw_into(drawn, skies_[place_day]);
      out.weather = with_figures(ready_->planned.place_days[place_day].weather, drawn, date,
                                 its.at.latitude_deg);
      out.air_c = hourly_air_c(out.weather);
      return {};
    }
    const DayFigures figures = *figures_on(plan_, its.climate, date);
    const double utc_offset_h = plan_.trip.utc_offset_h;
    const Almanac::Key key = Almanac::key(figures, date, its.at, utc_offset_h);
    const Almanac::Day day = almanac_->day(key, figures, date, its.at, utc_offset_h);
    out.weather = day.weather;
    out.air_c = day.air_c;
    return key;
  }

  void add_drinking(std::size_t party_day, const Almanac::Key& key) {
    const PartyDay& its = calendar_.party_days[party_day];
    const WeatherDay& weather = out_.place_days[at(its.place_day)].weather;
    const plan::Activity& activity = plan_.activities[at(its.activity)];
    const std::array<double, 24> loss_g_m2 =
        ready_ != nullptr
            ? water_loss_g_m2(at_work(activity, drawn_.work), weather, about(at(its.place_day)))
            : almanac_->loss_g_m2(key, activity, weather);
    out_.party_days[party_day] = {
        .loss_g_m2 = day_loss_g_m2(loss_g_m2),
        .drink_l_h = party_drinking_l_h(
            plan_, loss_g_m2, weather.elevation_m, out_.drinking_factors,
            calendar_.companies[at(calendar_.place_days[at(its.place_day)].company)].people)};
    const double times = out_.days[at(its.day)].drinking;
    for (double& litres : out_.party_days[party_day].drink_l_h) litres *= times;
  }

  /// Of a place day; those that share it come one after the other.
  const Surroundings& about(std::size_t place_day) {
    if (!about_ || about_of_ != place_day) about_.emplace(out_.place_days[place_day].weather);
    about_of_ = place_day;
    return *about_;
  }

  void add_step(std::size_t s) {
    const TimeStep& step = calendar_.steps[s];
    out_.steps[s] = {};
    if (step.dt_h <= 0) return;
    const PlaceConditions& place = out_.place_days[at(step.place_day)];
    const double to_h = step.from_h + step.dt_h;
    const std::size_t h = clock_hour(step);
    const bool whole = step.from_h == std::floor(step.from_h) && step.dt_h == 1;
    StepConditions& now = out_.steps[s];
    if (ready_ != nullptr) {
      // All hours of a day are as much warmer.
      now.air_c = ready_->planned.steps[s].air_c + skies_[at(step.place_day)].warmer_k;
    } else {
      now.air_c = whole ? place.air_c.at(h) : mean_air_c(place.weather, step.from_h, to_h);
    }
    now.drink_l = out_.party_days[at(step.party_day)].drink_l_h.at(h) * step.dt_h;
    if (step.drive >= 0) {
      const auto piece = static_cast<std::size_t>(step.drive);
      out_.air_density_kg_m3[piece] =
          models::air_density_kg_m3(calendar_.pieces[piece].elevation_m, now.air_c);
      out_.more_headwind_m_s[piece] = of_day(drawn_.headwind_m_s, step.leg, 0);
    }
    DayConditions& day = out_.days[at(step.day)];
    day.max_c = std::max(day.max_c, place.weather.max_c);
    day.min_c = std::min(day.min_c, place.weather.min_c);
    day.mean_c += now.air_c * step.dt_h / 24;
  }

  Conditions& out_;
  const plan::Plan& plan_;
  const Calendar& calendar_;
  Almanac* almanac_;  ///< null: of one trip, whose days nobody else meets
  const Drawn& drawn_;
  const ReadyConditions* ready_;     ///< of one trip; else null
  std::span<const DrawnSky> skies_;  ///< of the place days of one trip
  std::vector<Almanac::Key> keys_;   ///< of the place days
  std::optional<Surroundings> about_;
  std::size_t about_of_ = 0;  ///< place day
};

template <class Things>
void take(Things& out, const Things& other, const IndexRange& range) {
  std::copy(other.begin() + static_cast<std::ptrdiff_t>(range.from),
            other.begin() + static_cast<std::ptrdiff_t>(range.until),
            out.begin() + static_cast<std::ptrdiff_t>(range.from));
}

}  // namespace

std::size_t clock_hour(const TimeStep& step) {
  const double hour = std::floor(step.from_h + step.dt_h / 2);
  return static_cast<std::size_t>(std::clamp(hour, 0.0, 23.0));
}

void make_room(Conditions& conditions, const Calendar& calendar) {
  conditions.days.resize(calendar.days.size());
  conditions.steps.resize(calendar.steps.size());
  conditions.air_density_kg_m3.resize(calendar.pieces.size());
  conditions.more_headwind_m_s.resize(calendar.pieces.size(), 0);
  conditions.place_days.resize(calendar.place_days.size());
  conditions.party_days.resize(calendar.party_days.size());
}

void fill_days(Conditions& conditions, const plan::Plan& plan, const Calendar& calendar,
               Almanac& almanac, int from_day, int until_day) {
  const IndexRange steps = steps_of_days(calendar, from_day, until_day);
  Filler(conditions, plan, calendar, &almanac, {}, nullptr, {})
      .fill(days_of_steps(calendar, steps), steps);
}

ReadyConditions::ReadyConditions(const plan::Plan& plan, const Calendar& calendar,
                                 Conditions as_planned, ReadyDays& ready_days)
    : planned(std::move(as_planned)) {
  for (std::size_t h = 0; h < calendar.place_days.size(); ++h) {
    const PlaceDay& its = calendar.place_days[h];
    WeatherDay& weather = planned.place_days[h].weather;
    figures.push_back(*figures_on(plan, its.climate, calendar.days[at(its.day)].schedule.date));
    days.push_back(ready_days.of(weather));
    weather.ready = days.back().get();
  }
}

void fill_drawn_days(Conditions& conditions, const plan::Plan& plan, const Calendar& calendar,
                     const ReadyConditions& ready, const Drawn& drawn,
                     std::span<const DrawnSky> skies, int from_day, int until_day) {
  const IndexRange steps = steps_of_days(calendar, from_day, until_day);
  draw_people(conditions, ready.planned, drawn);
  Filler(conditions, plan, calendar, nullptr, drawn, &ready, skies)
      .fill(days_of_steps(calendar, steps), steps);
}

void draw_people(Conditions& conditions, const Conditions& planned, const Drawn& drawn) {
  conditions.drinking_factors = planned.drinking_factors;
  for (std::size_t p = 0; p < std::min(drawn.people.size(), planned.drinking_factors.size()); ++p) {
    conditions.drinking_factors[p] *= drawn.people[p];
  }
}

void take_days(Conditions& conditions, const Conditions& other, const Calendar& calendar,
               int from_day, int until_day) {
  const IndexRange steps = steps_of_days(calendar, from_day, until_day);
  const IndexRange days = days_of_steps(calendar, steps);
  take(conditions.days, other.days, days);
  take(conditions.steps, other.steps, steps);
  take(conditions.place_days, other.place_days, place_days_of(calendar, days));
  take(conditions.party_days, other.party_days, party_days_of(calendar, days));
  for (std::size_t s = steps.from; s < steps.until; ++s) {
    if (calendar.steps[s].drive < 0) continue;
    const auto piece = static_cast<std::size_t>(calendar.steps[s].drive);
    conditions.air_density_kg_m3[piece] = other.air_density_kg_m3[piece];
    conditions.more_headwind_m_s[piece] = other.more_headwind_m_s[piece];
  }
}

}  // namespace drystage::engine
