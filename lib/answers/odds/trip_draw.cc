#include "answers/odds/trip_draw.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "models/use_priors.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Family;
using plan::Source;
using plan::Surface;

// A trip may take so much longer than planned, days, and still meet drawn days.
constexpr int spare_days = 21;

// Lengths of halts that are told apart, days: few calendars serve all trips.
constexpr std::array halts_days{0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 9.0, 14.0};

// Of the softness of all soft ground, which one trip has in common, the part in what one surface
// takes; and how it makes halts and punctures more likely (ours: a deviation softer, half as many
// again).
constexpr double common_softness = 0.8;
constexpr double softness_to_events = 0.4;

// One in twenty is beyond so many deviations.
constexpr double one_in_twenty = 1.6448536269514722;

// Batteries and panels are not taken to be better than so much, or worse.
constexpr double least_left = 0.3;
constexpr double most_yield = 1.1;

bool is_soft(Surface surface) {
  return surface == Surface::track || surface == Surface::sand || surface == Surface::soft_sand;
}

}  // namespace

TripDraws::TripDraws(const PlanRun& planned, std::uint64_t seed)
    : plan_(planned.plan), course_(planned.course), learned_(planned.learned), seed_(seed) {
  const engine::Timeline& timeline = *course_.timeline;
  read_ = !course_.learned.empty();
  first_day_ = course_.first_judged_day();
  most_days_ = static_cast<int>(timeline.days.size()) + spare_days;
  if (course_.judged_from() < timeline.steps.size()) {
    first_leg_ = timeline.steps[course_.judged_from()].leg;
  }
  for (const engine::Leg& leg : timeline.legs) {
    double soft_km = 0;
    for (const engine::RoadPiece& part : leg.parts) {
      if (is_soft(part.surface)) soft_km += part.distance_km;
    }
    soft_share_.push_back(leg.distance_km > 0 ? soft_km / leg.distance_km : 0);
  }
  const auto& tyres = std::get<engine::reserves::Tyres::Compiled>(course_.families);
  for (const auto& vehicle : tyres.vehicles) {
    const auto& kit = *plan_.vehicles[at(vehicle.vehicle)].tyres;
    std::vector<double>& by_leg = punctures_.emplace_back();
    for (const engine::Leg& leg : timeline.legs) {
      double mean = 0;
      for (const engine::RoadPiece& part : leg.parts) {
        const auto on_part = engine::reserves::punctures_on(kit, part.surface, part.distance_km);
        mean += on_part.holes + on_part.cuts;
      }
      by_leg.push_back(mean);
    }
  }
  for (const models::UseFactors& fuel : learned_.fuel) {
    fuel_.push_back(models::Cholesky(fuel.covariance).lower());
  }
}

/// One trip being drawn. Streams are numbered by their sources, places within them by what they are
/// for.
class TripDraws::Drawing {
 public:
  Drawing(const TripDraws& draws, std::uint64_t trip, std::optional<Source> as_usual)
      : of_(draws), asked_(draws.plan_.uncertainty), trip_(trip), as_usual_(as_usual) {}

  TripDraw draw() {
    draw_weather();
    draw_people();
    draw_uses();
    draw_fuel();
    draw_equipment();
    draw_fills();
    draw_supplies();
    draw_halts();
    draw_losses();
    draw_punctures();
    return std::move(out_);
  }

 private:
  [[nodiscard]] bool is_drawn(Source source) const { return asked_.draws(source); }
  /// Whether it is drawn, and neither left as usual.
  [[nodiscard]] bool differs(Source source) const {
    return is_drawn(source) && as_usual_ != source;
  }
  [[nodiscard]] models::RandomSource random(Source source) const {
    return {.seed = of_.seed_, .trip = trip_, .stream = static_cast<std::uint32_t>(source)};
  }
  [[nodiscard]] double normal(Source source, int place) const {
    return differs(source) ? random(source).normal(static_cast<std::uint32_t>(place)) : 0;
  }
  [[nodiscard]] double uniform(Source source, int place) const {
    return random(source).uniform(static_cast<std::uint32_t>(place));
  }
  /// A factor whose median is `usual`, with this deviation of its logarithm.
  [[nodiscard]] double factor(Source source, double usual, double deviation, int place = 0) const {
    if (!is_drawn(source)) return 1;
    return usual * std::exp(deviation * normal(source, place));
  }

  /// Days that follow one another: each is like the one before, as far as `persistence` goes.
  std::vector<double> days_alike(Source source, double persistence) const {
    std::vector<double> out(at(of_.most_days_), 0);
    const double fresh = std::sqrt(std::max(0.0, 1 - persistence * persistence));
    double before = 0;
    for (int day = of_.first_day_; day < of_.most_days_; ++day) {
      const double now = random(source).normal(static_cast<std::uint32_t>(1 + day));
      before = day == of_.first_day_ ? now : persistence * before + fresh * now;
      out[at(day)] = before;
    }
    return out;
  }

  void draw_weather() {
    const std::vector<double> heat = is_drawn(Source::heat) || is_drawn(Source::sun)
                                         ? days_alike(Source::heat, asked_.heat.persistence)
                                         : std::vector<double>{};
    if (differs(Source::heat)) {
      out_.weather.season_k = asked_.heat.year_k * normal(Source::heat, 0);
      out_.weather.heat = heat;
    }
    if (!differs(Source::sun)) return;
    // Where the heat is not drawn, its numbers still tell how clear the days are.
    const double with_heat = is_drawn(Source::heat) ? asked_.sun.with_heat : 0;
    const double own = std::sqrt(std::max(0.0, 1 - with_heat * with_heat));
    out_.weather.sun = days_alike(Source::sun, asked_.sun.persistence);
    for (std::size_t day = 0; day < heat.size(); ++day) {
      double& sun = out_.weather.sun[day];
      sun = own * sun + with_heat * heat[day];
    }
  }

  void draw_people() {
    if (is_drawn(Source::drinking)) {
      if (of_.read_) {
        const models::UseFactors& learned = of_.learned_.drinking;
        out_.factors.drinking =
            learned.common.factor *
            std::exp(std::sqrt(learned.covariance.at(0, 0)) * normal(Source::drinking, 0));
      } else {
        for (std::size_t p = 0; p < of_.plan_.people.size(); ++p) {
          const bool observed = of_.plan_.people[p].drinking_l_day.has_value();
          const double deviation =
              asked_.drinking.person.value_or(models::usual_drinking(observed).prior.common_sd);
          out_.weather.people.push_back(
              factor(Source::drinking, 1, deviation, 1 + static_cast<int>(p)));
        }
      }
      if (differs(Source::drinking)) {
        constexpr int days_from = 1000;
        out_.weather.drinking.assign(at(of_.most_days_), 1);
        for (int day = of_.first_day_; day < of_.most_days_; ++day) {
          out_.weather.drinking[at(day)] =
              factor(Source::drinking, 1, asked_.drinking.day, days_from + day);
        }
      }
    } else if (of_.read_) {
      out_.factors.drinking = of_.course_.learned.back().drinking;
    }
    out_.weather.work = factor(Source::work, 1, asked_.work_trip);
  }

  /// What readings teach of a use with no parts, or else the plan's own spread.
  [[nodiscard]] double use(Source source, const models::UseFactors& learned, double deviation,
                           double planned) const {
    if (!of_.read_) return factor(source, 1, deviation);
    if (!is_drawn(source)) return planned;
    return learned.common.factor *
           std::exp(std::sqrt(learned.covariance.at(0, 0)) * normal(source, 0));
  }

  void draw_uses() {
    const engine::Factors planned = of_.read_ ? of_.course_.learned.back() : engine::Factors{};
    out_.factors.utility_water =
        use(Source::utility, of_.learned_.utility, asked_.utility_trip, planned.utility_water);
    out_.factors.meals = use(Source::meals, of_.learned_.meals, asked_.meals_trip, planned.meals);
    out_.factors.consumables = factor(Source::consumables, 1, asked_.consumables_trip);
    out_.factors.spoilage = factor(Source::spoilage, 1, asked_.spoilage_trip);
    out_.factors.loads = factor(Source::loads, 1, asked_.loads_trip);
    out_.factors.lids = factor(Source::lids, 1, asked_.lids_trip);
  }

  /// How soft all soft ground is, in deviations.
  [[nodiscard]] double softness() const {
    return is_drawn(Source::fuel) ? random(Source::fuel).normal(0) : 0;
  }

  void draw_fuel() {
    if (of_.read_ || differs(Source::fuel)) {
      for (std::size_t v = 0; v < of_.plan_.vehicles.size(); ++v) {
        out_.factors.fuel_of.push_back(of_.read_ ? learned_fuel(v) : usual_fuel(v));
      }
    }
    const auto legs = static_cast<int>(of_.soft_share_.size());
    for (int leg = 0; leg < legs && differs(Source::headwind); ++leg) {
      out_.weather.headwind_m_s.push_back(
          leg >= of_.first_leg_ ? asked_.headwind_leg_m_s * normal(Source::headwind, leg) : 0);
    }
    if (!is_drawn(Source::fuel) && !is_drawn(Source::distance)) return;
    constexpr int legs_from = 1000;
    double further = 0;
    if (is_drawn(Source::distance) && asked_.distance.usual > 0) {
      const double deviation =
          std::log(asked_.distance.high / asked_.distance.usual) / one_in_twenty;
      further = asked_.distance.usual * std::exp(deviation * normal(Source::distance, 0));
    }
    for (int leg = 0; leg < legs; ++leg) {
      const double of_leg = factor(Source::fuel, 1, asked_.fuel.leg, legs_from + leg);
      out_.factors.fuel_of_leg.push_back(leg >= of_.first_leg_ ? (1 + further) * of_leg : 1);
    }
  }

  [[nodiscard]] engine::Factors::BySurface usual_fuel(std::size_t vehicle) const {
    engine::Factors::BySurface out = engine::Factors{}.fuel;
    if (!differs(Source::fuel)) return out;
    const models::UsePrior prior =
        models::usual_fuel(!of_.plan_.vehicles[vehicle].observed.empty()).prior;
    const int first = 1 + static_cast<int>(vehicle) * (1 + plan::surface_count);
    const double common = asked_.fuel.trip.value_or(prior.common_sd) * normal(Source::fuel, first);
    const double own = std::sqrt(1 - common_softness * common_softness);
    for (std::size_t s = 0; s < out.size(); ++s) {
      double ground = normal(Source::fuel, first + 1 + static_cast<int>(s));
      if (is_soft(static_cast<Surface>(s))) ground = common_softness * softness() + own * ground;
      out[s] = std::exp(common + prior.part_sd[s] * ground);
    }
    return out;
  }

  /// As readings taught, with what they left open.
  [[nodiscard]] engine::Factors::BySurface learned_fuel(std::size_t vehicle) const {
    engine::Factors::BySurface out = of_.course_.learned.back().fuel_of.at(vehicle);
    if (!differs(Source::fuel)) return out;
    const models::SquareMatrix& root = of_.fuel_.at(vehicle);
    const int first = 1 + static_cast<int>(vehicle) * (1 + plan::surface_count);
    std::vector<double> logs(root.rows(), 0);
    for (std::size_t row = 0; row < root.rows(); ++row) {
      for (std::size_t column = 0; column <= row; ++column) {
        logs[row] += root.at(row, column) * normal(Source::fuel, first + static_cast<int>(column));
      }
    }
    for (std::size_t s = 0; s < out.size() && s + 1 < logs.size(); ++s) {
      out[s] *= std::exp(logs[0] + logs[s + 1]);
    }
    return out;
  }

  void draw_equipment() {
    out_.factors.cabinets = factor(Source::cabinets, asked_.cabinets.usual, asked_.cabinets.trip);
    out_.factors.panels =
        std::min(most_yield, factor(Source::panels, asked_.panels.usual, asked_.panels.trip));
    out_.batteries = std::clamp(
        factor(Source::batteries, asked_.batteries.usual, asked_.batteries.trip), least_left, 1.0);
  }

  void draw_fills() {
    if (!differs(Source::fills)) return;
    out_.fills.assign(of_.course_.stores.size(), 1);
    for (std::size_t s = 0; s < out_.fills.size(); ++s) {
      const Family family = of_.course_.stores[s].family;
      if (family != Family::drinking_water && family != Family::fuel) continue;
      const double deviation = asked_.fills_vessel * normal(Source::fills, static_cast<int>(s));
      out_.fills[s] = std::max(0.0, 1 + deviation);
    }
  }

  void draw_supplies() {
    if (!differs(Source::supplies)) return;
    int place_of_number = 0;
    for (std::size_t p = 0; p < of_.plan_.places.size(); ++p) {
      const auto& supplies = of_.plan_.places[p].supplies;
      for (std::size_t s = 0; s < supplies.size(); ++s) {
        const double chance =
            supplies[s].confirmed ? asked_.supplies.confirmed : asked_.supplies.unconfirmed;
        if (uniform(Source::supplies, place_of_number++) >= chance) continue;
        out_.missing.push_back({.place = static_cast<int>(p), .supply = static_cast<int>(s)});
      }
    }
  }

  /// How much likelier things happen on soft ground on this trip; 1 in mean.
  [[nodiscard]] double on_soft_ground() const {
    if (!is_drawn(Source::fuel)) return 1;
    const double deviation = softness_to_events;
    return std::exp(deviation * softness() - deviation * deviation / 2);
  }

  void add_halts(Source source, double mean, int place, int day, int leg) {
    constexpr int most = 5;
    const int count = models::poisson_quantile(uniform(source, place), mean, most);
    double halt_days = 0;
    for (int n = 0; n < count; ++n) {
      const double length =
          -asked_.delays.length_h / day_h * std::log(uniform(source, place + (n + 1) * 100'000));
      halt_days += length;
    }
    if (count == 0) return;
    const auto* const nearest = std::ranges::min_element(
        halts_days, {}, [&](double days) { return std::abs(days - halt_days); });
    out_.events.push_back({.source = source, .day = day, .leg = leg, .halt_h = day_h * *nearest});
  }

  void draw_halts() {
    constexpr int legs_from = 10'000;
    if (differs(Source::delays)) {
      for (int day = of_.first_day_; day < of_.most_days_; ++day) {
        add_halts(Source::delays, asked_.delays.day, day, day, -1);
      }
      for (int leg = of_.first_leg_; leg < static_cast<int>(of_.soft_share_.size()); ++leg) {
        if (of_.soft_share_[at(leg)] <= 0) continue;
        add_halts(Source::delays, asked_.delays.soft_leg * on_soft_ground(), legs_from + leg, -1,
                  leg);
      }
    }
    if (!differs(Source::illness)) return;
    const auto people = static_cast<double>(of_.plan_.people.size());
    for (int day = of_.first_day_; day < of_.most_days_; ++day) {
      const double chance = 1 - std::pow(1 - asked_.illness_day, people);
      if (uniform(Source::illness, day) >= chance) continue;
      out_.events.push_back({.source = Source::illness, .day = day, .halt_h = day_h});
    }
  }

  /// The days on which one of some things is lost, each at most once.
  template <class Add>
  void add_losses(Source source, double chance, int& number, const Add& add) {
    const int which = number++;
    if (chance <= 0) return;
    // The day of the first loss, if losses come evenly.
    const double at_day = std::log(uniform(source, which)) / std::log1p(-std::min(chance, 0.999));
    if (at_day >= of_.most_days_ - of_.first_day_) return;
    TripEvent event{.source = source, .day = of_.first_day_ + static_cast<int>(at_day)};
    add(event);
    out_.events.push_back(event);
  }

  void draw_losses() {
    const plan::Plan& plan = of_.plan_;
    if (differs(Source::containers)) {
      int number = 0;
      for (std::size_t c = 0; c < plan.water.containers.size(); ++c) {
        add_losses(Source::containers, asked_.containers_day, number,
                   [&](TripEvent& event) { event.subject = static_cast<int>(c); });
      }
      for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
        for (std::size_t t = 0; t < plan.vehicles[v].tanks.size(); ++t) {
          add_losses(Source::containers, asked_.containers_day, number, [&](TripEvent& event) {
            event.subject = static_cast<int>(v);
            event.item = static_cast<int>(t);
          });
        }
      }
    }
    if (differs(Source::compressors)) {
      int number = 0;
      for (std::size_t c = 0; c < plan.cold.size(); ++c) {
        if (plan.cold[c].ice_box) continue;
        add_losses(Source::compressors, asked_.compressors_day, number,
                   [&](TripEvent& event) { event.subject = static_cast<int>(c); });
      }
    }
    if (!differs(Source::chargers)) return;
    int number = 0;
    for (std::size_t c = 0; c < plan.power.chargers.size(); ++c) {
      add_losses(Source::chargers, asked_.chargers_day, number,
                 [&](TripEvent& event) { event.subject = static_cast<int>(c); });
    }
  }

  void draw_punctures() {
    if (!differs(Source::punctures)) return;
    constexpr int most = 2;
    const auto& tyres = std::get<engine::reserves::Tyres::Compiled>(of_.course_.families);
    for (std::size_t v = 0; v < of_.punctures_.size(); ++v) {
      const auto& by_leg = of_.punctures_[v];
      for (int leg = of_.first_leg_; leg < static_cast<int>(by_leg.size()); ++leg) {
        const double soft = of_.soft_share_[at(leg)];
        const double mean =
            by_leg[at(leg)] * asked_.punctures * (1 - soft + soft * on_soft_ground());
        constexpr int vehicles_apart = 10'000;
        const int count = models::poisson_quantile(
            uniform(Source::punctures, static_cast<int>(v) * vehicles_apart + leg), mean, most);
        if (count == 0) continue;
        out_.events.push_back({.source = Source::punctures,
                               .leg = leg,
                               .subject = tyres.vehicles[v].vehicle,
                               .times = count});
      }
    }
  }

  const TripDraws& of_;
  const plan::Uncertainty& asked_;
  std::uint64_t trip_;
  std::optional<Source> as_usual_;
  TripDraw out_;
};

TripDraw TripDraws::draw(std::uint64_t trip, std::optional<Source> as_usual) const {
  return Drawing(*this, trip, as_usual).draw();
}

}  // namespace drystage::answers
