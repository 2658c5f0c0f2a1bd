#include "report/odds/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "answers/odds/trip_tally.h"
#include "engine/drawn.h"
#include "plan/commodity.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/format.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using plan::Source;

// A chance from which a reserve is worth a line of its own.
constexpr double worth_a_line = 0.0005;

// Beyond so much either way a factor is worth telling.
constexpr double worth_telling = 0.05;
constexpr std::size_t most_factors = 4;

/// What differs, by how far it does: the logarithm of a factor.
struct Told {
  double size = 0;
  std::string words;
};

double geometric_mean(const std::vector<double>& factors) {
  double logs = 0;
  for (const double factor : factors) logs += std::log(factor);
  return factors.empty() ? 1 : std::exp(logs / static_cast<double>(factors.size()));
}

/// What all kilometres of the plan together take.
double fuel_factor(const answers::PlanRun& planned, const engine::Factors& factors, int vehicle) {
  double as_planned = 0;
  double drawn = 0;
  const engine::Timeline& timeline = *planned.course.timeline;
  for (std::size_t l = 0; l < timeline.legs.size(); ++l) {
    for (const engine::RoadPiece& part : timeline.legs[l].parts) {
      as_planned += part.distance_km;
      drawn += part.distance_km * factors.fuel_on(part.surface, vehicle) *
               factors.fuel_on_leg(static_cast<int>(l));
    }
  }
  return as_planned > 0 ? drawn / as_planned : 1;
}

/// How much warmer the days of the plan are on the trip, in mean.
double mean_warmer_k(const answers::PlanRun& planned, const answers::TripDraw& draw) {
  const engine::Timeline& timeline = *planned.course.timeline;
  std::vector<engine::DrawnSky> skies;
  engine::Skies(planned.plan, timeline).draw(draw.weather, skies);
  double sum = 0;
  int count = 0;
  for (std::size_t h = 0; h < skies.size(); ++h) {
    if (timeline.place_days[h].day < planned.course.first_judged_day()) continue;
    sum += skies[h].warmer_k;
    ++count;
  }
  return count > 0 ? sum / count : 0;
}

std::string times(double factor) { return fmt::format("{:.2f} times", factor); }

/// A percentage below 100, rounded up, with as many digits as it takes to see that it is below.
std::string short_of_all(double percent) {
  constexpr int enough = 6;
  for (int digits = 1; digits < enough; ++digits) {
    const double step = std::pow(10.0, digits);
    const double up = std::ceil(percent * step - 1e-9) / step;
    if (up < 100) return fmt::format("{:.{}f}", up, digits);
  }
  return "99.999999";
}

}  // namespace

std::string happening_words(const answers::PlanRun& planned, const answers::Happened& happened) {
  const plan::Plan& plan = planned.plan;
  const answers::TripEvent& event = happened.event;
  const auto halt = [&] {
    const double days = event.halt_h / day_h;
    return fmt::format("{:.3g} {}", days, days == 1 ? "day" : "days");
  };
  switch (event.source) {
    case Source::delays:
      return "halted for " + halt();
    case Source::illness:
      return fmt::format("somebody is ill, {} of rest", halt());
    case Source::containers:
      return name_words(event.item >= 0
                            ? plan.vehicles[at(event.subject)].tanks[at(event.item)].name
                            : plan.water.containers[at(event.subject)].name) +
             " lost";
    case Source::compressors:
      return fmt::format("compressor of {} stops", name_words(plan.cold[at(event.subject)].name));
    case Source::chargers:
      return name_words(plan.power.chargers[at(event.subject)].name) + " gone";
    case Source::punctures:
      return event.times == 1 ? "a puncture" : "two punctures";
    default:
      return {};
  }
}

std::string percent_words(double chance) {
  const double percent = 100 * chance;
  if (percent <= 0) return "0 %";
  if (percent >= 100) return "100 %";
  // Nearly all is not all.
  if (percent >= 99.5) return short_of_all(percent) + " %";
  if (percent >= 9.95) return fmt::format("{:.0f} %", percent);
  if (percent >= 0.095) return fmt::format("{:.1f} %", percent);
  return fmt::format("{:.2g} %", percent);
}

/// A chance that is more than another, with as many digits as it takes to see that.
std::string more_than_words(double chance, double other) {
  std::string text = percent_words(chance);
  for (int digits = 1; digits < 6 && text == percent_words(other); ++digits) {
    const std::string more = fmt::format("{:.{}f} %", 100 * chance, digits);
    if (more != fmt::format("{:.{}f} %", 100 * other, digits)) text = more;
  }
  return text;
}

std::string interval_words(const models::Chance& chance) {
  // The lower end down and the upper end up, so that nothing looks surer than it is.
  const double step = chance.high < 0.0995 ? 0.1 : 1;
  const double low = std::floor(100 * chance.low / step + 1e-9) * step;
  const double high = std::min(100.0, std::ceil(100 * chance.high / step - 1e-9) * step);
  if (step < 1) return fmt::format("{:.1f} to {:.1f} %", low, high);
  const bool looks_certain = high >= 100 && chance.high < 1;
  return fmt::format("{:.0f} to {} %", low,
                     looks_certain ? short_of_all(100 * chance.high) : fmt::format("{:.0f}", high));
}

std::string kept_words(const models::Chance& chance) {
  // The nearer to all, the more digits.
  const int digits = chance.chance > 0.99 ? 2 : 1;
  const double step = std::pow(10.0, 2 + digits);
  constexpr double tiny = 1e-9;  // of a share that is whole in these digits
  const auto percent = [&](double share, auto round) {
    return fmt::format("{:.{}f}", round(share * step) / step * 100, digits);
  };
  const auto down = [](double x) { return std::floor(x + tiny); };
  const auto up = [](double x) { return std::ceil(x - tiny); };
  const std::string low = percent(chance.low, down);
  // Those that were drawn are not all that there may be.
  if (chance.chance >= 1) return fmt::format("every trip drawn (so on {} % or more of trips)", low);
  std::string high = percent(chance.high, up);
  if (chance.high < 1 && high == percent(1, up)) high = short_of_all(100 * chance.high);
  return fmt::format("{} % of trips ({} to {} %)", percent(chance.chance, down), low, high);
}

std::string source_words(Source source) {
  switch (source) {
    case Source::utility:
      return "other water";
    case Source::supplies:
      return "missing supplies";
    case Source::containers:
      return "lost containers";
    case Source::compressors:
      return "stopped compressors";
    case Source::chargers:
      return "lost chargers";
    case Source::batteries:
      return "worn batteries";
    case Source::fuel:
      return "use per km";
    case Source::distance:
      return "further km";
    case Source::cabinets:
      return "what compressors draw";
    case Source::loads:
      return "electrical loads";
    default:
      return std::string(plan::text_of(plan::source_words, source));
  }
}

std::string story_words(const answers::PlanRun& planned, const answers::TripDraw& draw,
                        const std::vector<answers::Happened>& happened, units::System system,
                        int reserve) {
  using engine::Family;
  std::vector<Told> factors;
  const auto tell = [&](double factor, const std::string& what,
                        std::initializer_list<Family> acts_on) {
    const double size = std::abs(std::log(factor));
    const auto acts_on_it = [&](const engine::ReserveInfo& info) {
      return std::ranges::find(acts_on, info.id.family) != acts_on.end();
    };
    const bool acts = reserve < 0 ? std::ranges::any_of(planned.course.reserves, acts_on_it)
                                  : acts_on_it(planned.course.reserves[at(reserve)]);
    if (acts && size > worth_telling) factors.push_back({size, what + " " + times(factor)});
  };
  tell(draw.factors.drinking * geometric_mean(draw.weather.people), "drinking",
       {Family::drinking_water, Family::utility_water});
  tell(draw.weather.work, "work", {Family::drinking_water, Family::utility_water});
  tell(draw.factors.utility_water, "other water", {Family::utility_water});
  tell(draw.factors.meals, "meals", {Family::food});
  // They are drawn for every plan; what it has not is nothing to tell of.
  const plan::Plan& plan = planned.plan;
  if (!std::ranges::all_of(plan.cold, &plan::Cabinet::ice_box)) {
    tell(draw.factors.cabinets, "compressors draw", {Family::battery, Family::cold});
  }
  if (std::ranges::any_of(plan.power.chargers, [](const plan::Charger& charger) {
        return charger.kind == plan::ChargerKind::solar;
      })) {
    tell(draw.factors.panels, "panels yield", {Family::battery, Family::cold});
  }
  if (!plan.power.banks.empty()) {
    tell(draw.batteries, "batteries hold", {Family::battery, Family::cold});
  }
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    const std::string of = plan.vehicles.size() > 1 ? " of " + plan.vehicles[v].name : "";
    tell(fuel_factor(planned, draw.factors, static_cast<int>(v)), "fuel" + of, {Family::fuel});
  }
  std::ranges::stable_sort(factors, [](const Told& a, const Told& b) { return a.size > b.size; });
  if (factors.size() > most_factors) factors.resize(most_factors);
  std::string text;
  const double warmer_k = mean_warmer_k(planned, draw);
  if (std::abs(warmer_k) >= 1) {
    text = units::format(std::abs(warmer_k), units::Kind::temperature_difference, system,
                         units::decimals(0)) +
           (warmer_k > 0 ? " warmer than usual" : " colder than usual");
  }
  for (const Told& one : factors) units::add_to(text, one.words);
  for (const answers::MissingSupply& missing : draw.missing) {
    const plan::Place& place = plan.places[at(missing.place)];
    const plan::Commodity what = place.supplies[at(missing.supply)].commodity;
    const bool is_asked = std::ranges::any_of(planned.course.orders, [&](const auto& order) {
      return order.place == missing.place && order.order.commodity == what;
    });
    if (!is_asked) continue;
    units::add_to(text,
                  fmt::format("no {} at {}", plan::words(plan, what), name_words(place.name)));
  }
  for (const answers::Happened& one : happened) {
    units::add_to(text, fmt::format("day {}: {}", one.day + 1, happening_words(planned, one)));
  }
  return text.empty() ? "much as planned" : text;
}

std::string odds_trips_words(const OddsAnswer& answer) {
  return fmt::format("{} drawn, seed {}. As calculated, without chance, the plan {}.",
                     counted(answer.odds.trips, "trip", "trips"), answer.odds.seed,
                     answer.planned.verdict.holds ? "holds" : "does not hold");
}

std::string odds_verdict_words(const OddsAnswer& answer) {
  const answers::Odds& odds = answer.odds;
  const std::string what = vital_words(answer.planned.plan);
  std::string out = odds.life_breach.chance <= 0
                        ? fmt::format("Of {}, none falls below a margin of {}.",
                                      counted(odds.trips, "trip", "trips"), what)
                        : fmt::format("{} of trips fall below a margin of {} ({}).",
                                      percent_words(odds.life_breach.chance), what,
                                      interval_words(odds.life_breach));
  if (answer.at_most) {
    out += odds_accepted(answer)
               ? fmt::format(" ACCEPTED: at most {:g} % is.", 100 * *answer.at_most)
               : fmt::format(" NOT ACCEPTED: it may be {}, and at most {:g} % is.",
                             more_than_words(odds.life_breach.high, *answer.at_most),
                             100 * *answer.at_most);
  }
  return out;
}

std::string odds_dry_words(const OddsAnswer& answer) {
  const answers::Odds& odds = answer.odds;
  std::size_t deadly = 0;
  for (std::size_t r = 0; r < odds.reserves.size(); ++r) {
    deadly += answers::life_depends_on(answer.planned.course, r) ? 1U : 0U;
  }
  const char* const what = deadly > 1 ? "one of these" : "it";
  // Never a bare nought: how sure that is, is told.
  if (odds.life_dry.chance <= 0) {
    return fmt::format("On none of them does {} run out (so on less than {} of trips).", what,
                       percent_words(odds.life_dry.high));
  }
  std::vector<std::uint64_t> days;
  for (std::size_t r = 0; r < odds.reserves.size(); ++r) {
    if (!answers::life_depends_on(answer.planned.course, r)) continue;
    const auto& its = odds.reserves[r].first_dry_days;
    days.resize(std::max(days.size(), its.size()), 0);
    for (std::size_t d = 0; d < its.size(); ++d) days[d] += its[d];
  }
  const auto most = std::ranges::max_element(days);
  const std::string when = most == days.end() || *most == 0
                               ? std::string()
                               : fmt::format(", most often on day {}", most - days.begin() + 1);
  return fmt::format("On {} of trips {} runs out ({}){}.", percent_words(odds.life_dry.chance),
                     what, interval_words(odds.life_dry), when);
}

std::string odds_help_words(const OddsAnswer& answer) {
  const answers::Odds& odds = answer.odds;
  if (odds.helps.empty()) return {};
  const answers::OddsHelp& best = odds.helps.front();
  if (best.life_breach.chance >= odds.life_breach_of_compared.chance) return {};
  if (best.overloads || !reserve_of(answer.planned, best.reserve).life_supporting) return {};
  return fmt::format("What helps most: {}. Then {} of trips instead of {}.",
                     engine::words(best.name), percent_words(best.life_breach.chance),
                     percent_words(odds.life_breach_of_compared.chance));
}

std::vector<std::size_t> told_reserves(const OddsAnswer& answer, bool all) {
  std::vector<std::size_t> out;
  const auto& reserves = answer.planned.course.reserves;
  for (const bool vital : {true, false}) {
    for (std::size_t r = 0; r < reserves.size(); ++r) {
      if (reserves[r].life_supporting != vital) continue;
      const bool any = answer.odds.reserves[r].breach.chance >= worth_a_line;
      if (vital || any || all) out.push_back(r);
    }
  }
  return out;
}

int day_of_share(const std::vector<std::uint64_t>& days, double share) {
  const auto all = static_cast<double>(std::accumulate(days.begin(), days.end(), std::uint64_t{0}));
  if (all <= 0) return -1;
  double sum = 0;
  for (std::size_t day = 0; day < days.size(); ++day) {
    sum += static_cast<double>(days[day]);
    if (sum >= share * all) return static_cast<int>(day);
  }
  return static_cast<int>(days.size()) - 1;
}

}  // namespace drystage::report
