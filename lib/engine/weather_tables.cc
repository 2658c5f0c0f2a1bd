#include "engine/weather_tables.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/drinking.h"
#include "engine/water_loss.h"
#include "models/atmosphere.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

using reserves::Power;
using reserves::SkyPlace;

// Nodes of warmth. The models bend over some 5 K.
constexpr double coldest_k = -16.25;
constexpr double warmest_k = 16.25;
constexpr double apart_k = 1.25;
constexpr std::size_t warm_nodes = 27;

// Nodes of sun, as shares of the month's mean: evenly up to where most months have their clearest
// days, then further and further apart.
constexpr double even_until = 1.4;
constexpr double even_apart = 0.03;
constexpr double grows = 1.06;
constexpr double most_sun = 6;

std::vector<double> nodes_of_sun(double clearest) {
  std::vector<double> out{0};
  // No further than to beyond the clearest day.
  while (out.back() <= clearest && out.back() < most_sun) {
    const double last = out.back();
    out.push_back(last < even_until ? even_apart * static_cast<double>(out.size()) : grows * last);
  }
  return out;
}

// Straight lines over so much show how an amount changes with warmth.
constexpr double step_k = 4;

using Hours = std::array<double, 24>;

/// Along the warmth the cubic through four nodes, of which two lie on either side; along the sun a
/// straight line. What people lose bends with warmth, and lines would always be too high.
Hours between(const std::vector<Hours>& table, std::size_t row, const SkyPlace& sky) {
  const std::size_t first = std::clamp<std::size_t>(sky.warm, 1, warm_nodes - 3) - 1;
  const double x = static_cast<double>(sky.warm) + sky.warm_part - static_cast<double>(first);
  const std::array<double, 4> weights{-(x - 1) * (x - 2) * (x - 3) / 6, x * (x - 2) * (x - 3) / 2,
                                      -x * (x - 1) * (x - 3) / 2, x * (x - 1) * (x - 2) / 6};
  Hours out{};
  for (std::size_t node = 0; node < weights.size(); ++node) {
    const Hours& duller = table[(first + node) * row + sky.sun];
    const Hours& clearer = table[(first + node) * row + sky.sun + (sky.sun_part > 0 ? 1 : 0)];
    const double of_duller = weights[node] * (1 - sky.sun_part);
    const double of_clearer = weights[node] * sky.sun_part;
    for (std::size_t h = 0; h < out.size(); ++h) {
      out[h] += of_duller * duller[h] + of_clearer * clearer[h];
    }
  }
  return out;
}

double warmth_of(std::size_t node) { return coldest_k + apart_k * static_cast<double>(node); }

}  // namespace

void WeatherTables::one_by_one(std::size_t count, const std::function<void(std::size_t)>& body) {
  for (std::size_t i = 0; i < count; ++i) body(i);
}

WeatherTables::WeatherTables(const plan::Plan& plan, const Course& course, const ForEach& for_each)
    : planned_(course.timeline) {
  sun_nodes_ = nodes_of_sun(Skies(plan, *planned_).clearest());
  losses_.resize(planned_->party_days.size());
  for_each(losses_.size(), [&](std::size_t p) { add_losses(plan, p); });
  add_power(plan, course);
}

void WeatherTables::add_losses(const plan::Plan& plan, std::size_t party_day) {
  const PartyDay& party = planned_->party_days[party_day];
  const PlaceDay& place = planned_->place_days[at(party.place_day)];
  const plan::Date date = planned_->days[at(place.day)].schedule.date;
  const plan::Activity& activity = plan.activities[at(party.activity)];
  const DayFigures figures = *figures_on(plan, place.climate, date);
  std::array<double, 24> any_hour{};
  any_hour.fill(0.5);
  // The last node of sun is the sky as planned.
  for (std::size_t warm = 0; warm < warm_nodes; ++warm) {
    for (std::size_t sun = 0; sun <= sun_nodes_.size(); ++sun) {
      DayFigures drawn = figures;
      DrawnSky sky{.warmer_k = warmth_of(warm)};
      if (sun < sun_nodes_.size()) sky.sun_share = sun_nodes_[sun];
      draw_into(drawn, sky);
      const WeatherDay weather = weather_day(drawn, date, place.at, plan.trip.utc_offset_h);
      const HourlyLoss loss = hourly_loss_g_m2(activity, weather, any_hour);
      losses_[party_day].rest.push_back(loss.rest);
      losses_[party_day].active.push_back(loss.active);
    }
  }
}

void WeatherTables::add_power(const plan::Plan& plan, const Course& course) {
  auto timeline = std::make_shared<Timeline>(*planned_);
  Course copy = course;
  copy.timeline = timeline;
  const auto days = static_cast<int>(planned_->days.size());
  const auto tables_at = [&](const DrawnSky& sky) {
    const std::vector<DrawnSky> skies(planned_->place_days.size(), sky);
    fill_drawn_days(timeline->conditions, plan, *timeline, planned_->conditions, {}, skies, 0,
                    days);
    auto& compiled = std::get<Power::Compiled>(copy.families);
    Power::refill(compiled, plan, copy, steps_of_days(*timeline, 0, days));
    return *compiled.tables;
  };
  const auto panels_at = [&](const std::optional<double>& share) {
    reserves::PowerNodes::Sun out;
    out.panel_a = tables_at({.warmer_k = 0, .sun_share = share}).panel_a;
    out.panel_a_per_k = tables_at({.warmer_k = step_k, .sun_share = share}).panel_a;
    for (std::size_t cell = 0; cell < out.panel_a.size(); ++cell) {
      out.panel_a_per_k[cell] = (out.panel_a_per_k[cell] - out.panel_a[cell]) / step_k;
    }
    return out;
  };
  power_.planned = *std::get<Power::Compiled>(course.families).tables;
  for (std::size_t warm = 0; warm < warm_nodes; ++warm) {
    power_.warm.push_back(tables_at({.warmer_k = warmth_of(warm)}));
  }
  for (const double share : sun_nodes_) power_.sun.push_back(panels_at(share));
  power_.sun.push_back(panels_at(std::nullopt));
  power_.sun.push_back(power_.sun.back());
}

bool WeatherTables::place(std::span<const DrawnSky> skies, std::vector<SkyPlace>& out) const {
  out.resize(skies.size());
  for (std::size_t p = 0; p < skies.size(); ++p) {
    const DrawnSky& sky = skies[p];
    if (sky.warmer_k < coldest_k || sky.warmer_k >= warmest_k) return false;
    if (sky.sun_share && *sky.sun_share >= sun_nodes_.back()) return false;
    SkyPlace& place = out[p];
    const double along = (sky.warmer_k - coldest_k) / apart_k;
    place.warmer_k = sky.warmer_k;
    place.warm = static_cast<std::size_t>(along);
    place.warm_part = along - static_cast<double>(place.warm);
    place.sun = sun_nodes_.size();
    place.sun_part = 0;
    if (!sky.sun_share) continue;
    const auto above = std::ranges::upper_bound(sun_nodes_, *sky.sun_share);
    place.sun = static_cast<std::size_t>(above - sun_nodes_.begin()) - 1;
    place.sun_part = (*sky.sun_share - above[-1]) / (*above - above[-1]);
  }
  return true;
}

bool WeatherTables::fill(const plan::Plan& plan, const Drawn& drawn,
                         std::span<const DrawnSky> skies, Timeline& timeline,
                         Course& course) const {
  std::vector<SkyPlace> places;
  if (!place(skies, places)) return false;
  Conditions& out = timeline.conditions;
  draw_people(out, planned_->conditions, drawn);
  for (std::size_t d = 0; d < out.days.size(); ++d) {
    out.days[d] = planned_->conditions.days[d];
    out.days[d].drinking = of_day(drawn.drinking, static_cast<int>(d), 1);
  }
  fill_parties(plan, drawn, places, out);
  fill_places(places, out);
  fill_steps(drawn, places, out);
  const IndexRange steps{.from = 0, .until = timeline.steps.size()};
  reserves::Water::refill(std::get<reserves::Water::Compiled>(course.families), plan, course,
                          steps);
  reserves::Fuel::refill(std::get<reserves::Fuel::Compiled>(course.families), plan, course, steps);
  auto& power = std::get<Power::Compiled>(course.families);
  take_between(*power.tables, power, course, power_, places);
  return true;
}

void WeatherTables::fill_parties(const plan::Plan& plan, const Drawn& drawn,
                                 std::span<const SkyPlace> skies, Conditions& out) const {
  const Calendar& calendar = *planned_;
  const std::size_t row = sun_nodes_.size() + 1;
  for (std::size_t p = 0; p < calendar.party_days.size(); ++p) {
    const PartyDay& party = calendar.party_days[p];
    const SkyPlace& sky = skies[at(party.place_day)];
    const WeatherDay& weather = planned_->conditions.place_days[at(party.place_day)].weather;
    const std::array<double, 24> busy_h =
        busy_hours(at_work(plan.activities[at(party.activity)], drawn.work), weather);
    const Hours rest = between(losses_[p].rest, row, sky);
    const Hours active = between(losses_[p].active, row, sky);
    std::array<double, 24> loss_g_m2{};
    for (std::size_t h = 0; h < loss_g_m2.size(); ++h) {
      loss_g_m2[h] = (1 - busy_h[h]) * rest[h] + busy_h[h] * active[h];
    }
    PartyConditions& its = out.party_days[p];
    its.loss_g_m2 = day_loss_g_m2(loss_g_m2);
    its.drink_l_h = party_drinking_l_h(
        plan, loss_g_m2, weather.elevation_m, out.drinking_factors,
        calendar.companies[at(calendar.place_days[at(party.place_day)].company)].people);
    for (double& litres : its.drink_l_h) litres *= out.days[at(party.day)].drinking;
  }
}

void WeatherTables::fill_places(std::span<const SkyPlace> skies, Conditions& out) const {
  std::vector<char> seen(out.days.size(), 0);
  for (std::size_t h = 0; h < skies.size(); ++h) {
    const PlaceDay& its = planned_->place_days[h];
    const PlaceConditions& planned = planned_->conditions.place_days[h];
    PlaceConditions& place = out.place_days[h];
    place.weather.max_c = planned.weather.max_c + skies[h].warmer_k;
    place.weather.min_c = planned.weather.min_c + skies[h].warmer_k;
    for (std::size_t hour = 0; hour < place.air_c.size(); ++hour) {
      place.air_c[hour] = planned.air_c[hour] + skies[h].warmer_k;
    }
    place.drink_l = 0;
    for (const double litres : out.party_days[at(its.camp)].drink_l_h) place.drink_l += litres;
    DayConditions& day = out.days[at(its.day)];
    const bool first = std::exchange(seen[at(its.day)], 1) == 0;
    day.max_c = first ? place.weather.max_c : std::max(day.max_c, place.weather.max_c);
    day.min_c = first ? place.weather.min_c : std::min(day.min_c, place.weather.min_c);
  }
  for (DayConditions& day : out.days) day.mean_c = 0;
}

void WeatherTables::fill_steps(const Drawn& drawn, std::span<const SkyPlace> skies,
                               Conditions& out) const {
  for (std::size_t s = 0; s < planned_->steps.size(); ++s) {
    const TimeStep& step = planned_->steps[s];
    if (step.dt_h <= 0) continue;
    const SkyPlace& sky = skies[at(step.place_day)];
    StepConditions& now = out.steps[s];
    now.air_c = planned_->conditions.steps[s].air_c + sky.warmer_k;
    now.drink_l = out.party_days[at(step.party_day)].drink_l_h[clock_hour(step)] * step.dt_h;
    out.days[at(step.day)].mean_c += now.air_c * step.dt_h / 24;
    if (step.drive < 0) continue;
    const std::size_t piece = at(step.drive);
    out.air_density_kg_m3[piece] =
        models::air_density_kg_m3(planned_->pieces[piece].elevation_m, now.air_c);
    out.more_headwind_m_s[piece] = of_day(drawn.headwind_m_s, step.leg, 0);
  }
}

ChangingCourse::ChangingCourse(std::shared_ptr<const plan::Plan> plan,
                               std::shared_ptr<const Course> planned,
                               std::shared_ptr<const WeatherTables> tables)
    : plan_(std::move(plan)),
      planned_(std::move(planned)),
      timeline_(std::make_shared<Timeline>(*planned_->timeline)),
      course_(*planned_),
      tables_(std::move(tables)),
      skies_(*plan_, *planned_->timeline) {
  course_.timeline = timeline_;
  auto& power = std::get<Power::Compiled>(course_.families);
  power.tables = std::make_shared<Power::Tables>(*power.tables);
  power.tables->inputs.timeline = nullptr;  // no longer what a course laid out alike would have
}

Course& ChangingCourse::draw(const Drawn& drawn, double batteries, int from_day) {
  const auto& whole = std::get<Power::Compiled>(planned_->families);
  if (!is_as_planned(drawn)) {
    fill(drawn, from_day);
    as_planned_ = false;
  } else if (!as_planned_) {
    timeline_->conditions = planned_->timeline->conditions;
    auto tables = std::get<Power::Compiled>(course_.families).tables;
    course_.families = planned_->families;
    *tables = *whole.tables;
    std::get<Power::Compiled>(course_.families).tables = std::move(tables);
    as_planned_ = true;
  }
  Power::wear(std::get<Power::Compiled>(course_.families), course_, whole, *planned_, *plan_,
              batteries);
  return course_;
}

void ChangingCourse::fill(const Drawn& drawn, int from_day) {
  skies_.draw(drawn, drawn_);
  if (tables_ && tables_->fill(*plan_, drawn, drawn_, *timeline_, course_)) return;
  const auto days = static_cast<int>(timeline_->days.size());
  fill_drawn_days(timeline_->conditions, *plan_, *timeline_, planned_->timeline->conditions, drawn,
                  drawn_, from_day, days);
  Engine::refill(course_, *plan_, from_day, days);
}

}  // namespace drystage::engine
