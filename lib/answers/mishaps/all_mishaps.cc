#include "answers/mishaps/all_mishaps.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>
#include <utility>

#include "answers/mishaps/occasions.h"
#include "answers/mishaps/spell.h"
#include "engine/surfaces.h"
#include "plan/commodity.h"
#include "plan/own.h"
#include "units/day.h"
#include "units/format.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::reserves::Tyres;
using plan::MishapKind;

class Lister {
 public:
  explicit Lister(const LaidTrip& laid) : laid_(laid), plan_(*laid.plan), asked_(plan_.mishaps) {}

  std::vector<Mishap> list() {
    add_containers();
    add_supplies();
    add_delays();
    add_cold_and_power();
    add_vehicles();
    add_punctures();
    add_weather_and_ground();
    add_one_more();
    for (const plan::OwnMishap& own : asked_.own) add_own(own);
    std::size_t number = 0;
    for (Mishap& mishap : out_) {
      if (mishap.moves_time()) mishap.number = number++;
    }
    std::erase_if(out_, [this](const Mishap& mishap) {
      return std::ranges::find(asked_.left_out, mishap.failure.kind) != asked_.left_out.end();
    });
    return std::move(out_);
  }

 private:
  Mishap& add(MishapKind kind, std::string name) {
    Mishap mishap;
    mishap.failure = {.kind = kind, .name = std::move(name)};
    mishap.strikes = mornings;
    out_.push_back(std::move(mishap));
    return out_.back();
  }

  void add_containers() {
    for (std::size_t c = 0; c < plan_.water.containers.size(); ++c) {
      add(MishapKind::container, plan_.water.containers[c].name + " lost").damage.containers = {
          static_cast<int>(c)};
    }
    for (std::size_t v = 0; v < plan_.vehicles.size(); ++v) {
      const plan::Vehicle& vehicle = plan_.vehicles[v];
      for (std::size_t t = 0; t < vehicle.tanks.size(); ++t) {
        const std::string owner = plan_.vehicles.size() > 1 ? vehicle.name + ": " : "";
        add(MishapKind::container, owner + vehicle.tanks[t].name + " lost").damage.tanks = {
            {.vehicle = static_cast<int>(v), .tank = static_cast<int>(t)}};
      }
    }
    for (std::size_t c = 0; c < plan_.consumables.size(); ++c) {
      const auto& stores = plan_.consumables[c].stores;
      for (std::size_t s = 0; s < stores.size(); ++s) {
        add(MishapKind::container, stores[s].name + " lost").damage.stores = {
            {.consumable = static_cast<int>(c), .store = static_cast<int>(s)}};
      }
    }
  }

  /// Whether an order of nothing is made where the trip ends: nobody needs it any more.
  [[nodiscard]] bool is_idle(const engine::OrderInfo& order) const {
    const bool nothing = order.order.take == plan::Take::amount && order.order.amount <= 0;
    const auto later = [&](const engine::TimeStep& step) {
      return step.drive >= 0 && std::tie(step.day, step.from_h) >= std::tie(order.day, order.hour);
    };
    return nothing && std::ranges::none_of(laid_.timeline->steps, later);
  }

  /// What the plan takes or could take at a place, each thing once; mains where it charges there.
  [[nodiscard]] std::vector<plan::Commodity> taken_at(int place) const {
    std::vector<plan::Commodity> out;
    const auto note = [&](plan::Commodity commodity) {
      if (std::ranges::find(out, commodity) == out.end()) out.push_back(commodity);
    };
    for (const engine::OrderInfo& order : laid_.course->orders) {
      const bool outset = order.day == 0 && order.hour <= 0;
      if (order.place == place && !outset && !is_idle(order)) note(order.order.commodity);
    }
    for (const engine::PlaceDay& here : laid_.timeline->place_days) {
      if (here.place == place && here.mains) note(plan::Commodity::mains);
    }
    const std::vector<char>& mends = std::get<Tyres::Compiled>(laid_.course->families).mends;
    for (std::size_t s = 0; s < mends.size(); ++s) {
      const engine::TimeStep& step = laid_.timeline->steps[s];
      const bool here = laid_.timeline->place_days[at(step.place_day)].place == place;
      if (here && mends[s] != 0) note(plan::Commodity::tyres);
    }
    return out;
  }

  void add_supplies() {
    for (int place = 0; place < static_cast<int>(plan_.places.size()); ++place) {
      const std::vector<plan::Commodity> taken = taken_at(place);
      const std::string& name = plan_.places[at(place)].name;
      for (const plan::Commodity commodity : taken) {
        add_missing(fmt::format("no {} at {}", plan::words(plan_, commodity), name), place,
                    {commodity});
      }
      if (taken.size() > 1) add_missing("nothing to be had at " + name, place, taken);
    }
  }

  void add_missing(std::string name, int place, std::vector<plan::Commodity> what) {
    Mishap& mishap = add(MishapKind::supply, std::move(name));
    const bool mains = std::ranges::find(what, plan::Commodity::mains) != what.end();
    const bool tyres = std::ranges::find(what, plan::Commodity::tyres) != what.end();
    mishap.lays_anew = mains;
    mishap.strikes = [place, visits = mains || tyres](const LaidTrip& laid) {
      return stops_at(laid, place, visits);
    };
    mishap.change = [place, what = std::move(what)](plan::Plan& plan, const LaidTrip&,
                                                    std::size_t) {
      for (plan::Supply& supply : plan.places[at(place)].supplies) {
        const bool missing = std::ranges::find(what, supply.commodity) != what.end();
        if (missing) supply.open_weekdays.reset();
      }
    };
  }

  static std::string hours(double h) {
    const bool whole_days = h >= 2 * day_h && std::fmod(h, day_h) == 0;
    return whole_days ? fmt::format("{:.0f} days", h / day_h)
                      : units::format_number(h, units::significant(3)) + " h";
  }

  static std::string percent(double share) { return fmt::format("{:.0f} %", 100 * share); }

  void add_delays() {
    Mishap& camp = add(MishapKind::stuck, "stuck " + hours(asked_.stuck_h) + " before setting out");
    camp.halt_h = asked_.stuck_h;
    camp.repeats = true;
    camp.strikes = [](const LaidTrip& laid) { return along_later_legs(laid, 0); };
    Mishap& way = add(MishapKind::stuck, "stuck " + hours(asked_.stuck_h) + " on the way");
    way.halt_h = asked_.stuck_h;
    way.repeats = true;
    way.strikes = halfway_each_day;
    Mishap& shut = add(MishapKind::shut, "road ahead shut: turned back");
    shut.turns_back = true;
    shut.strikes = [share = asked_.shut_found_after](const LaidTrip& laid) {
      std::vector<std::size_t> out = along_later_legs(laid, share);
      std::erase_if(out, [&](std::size_t step) { return is_only_road(laid, step); });
      return out;
    };
  }

  void add_cold_and_power() {
    for (std::size_t c = 0; c < plan_.cold.size(); ++c) {
      if (plan_.cold[c].ice_box) continue;
      add(MishapKind::compressor, plan_.cold[c].name + ": compressor stopped").damage.cabinets = {
          static_cast<int>(c)};
    }
    for (std::size_t c = 0; c < plan_.power.chargers.size(); ++c) {
      add(MishapKind::charger, plan_.power.chargers[c].name + " gone").damage.chargers = {
          static_cast<int>(c)};
    }
    for (std::size_t b = 0; b < plan_.power.banks.size(); ++b) {
      const double left = asked_.battery_left;
      add(MishapKind::battery,
          fmt::format("{} at {} of its capacity", plan_.power.banks[b].name, percent(left)))
          .damage.banks = {{.bank = static_cast<int>(b), .left = left}};
    }
  }

  /// The vehicles that have not been left behind.
  static std::vector<int> going_on(const LaidTrip& laid) {
    std::vector<int> out(laid.plan->vehicles.size());
    std::iota(out.begin(), out.end(), 0);
    std::erase_if(out, [&](int v) { return engine::is_among(laid.course->damage.vehicles, v); });
    return out;
  }

  void add_vehicles() {
    if (plan_.vehicles.size() < 2) return;
    for (std::size_t v = 0; v < plan_.vehicles.size(); ++v) {
      Mishap& mishap = add(MishapKind::vehicle, plan_.vehicles[v].name + " left behind");
      mishap.damage.vehicles = {static_cast<int>(v)};
      mishap.strikes = [vehicle = static_cast<int>(v)](const LaidTrip& laid) {
        return where_another_takes_over(laid, vehicle);
      };
      // Nobody goes home and leaves people without a vehicle.
      mishap.lays_anew = std::ranges::any_of(
          plan_.vehicles, [](const plan::Vehicle& other) { return other.along.until.is_said(); });
      if (mishap.lays_anew) mishap.change = all_stay;
    }
    for (std::size_t v = 0; v < plan_.vehicles.size(); ++v) {
      if (plan_.vehicles[v].along.from.is_said()) add_guest(static_cast<int>(v));
    }
  }

  /// One that is to join, and does not come.
  void add_guest(int vehicle) {
    Mishap& mishap = add(MishapKind::vehicle, plan_.vehicles[at(vehicle)].name + " does not come");
    mishap.lays_anew = true;
    mishap.strikes = [vehicle](const LaidTrip& laid) {
      const engine::Timeline& timeline = *laid.timeline;
      const auto parted = [&](std::size_t step) {
        return timeline.companies[at(timeline.steps[step].company)].parted[at(vehicle)] != 0;
      };
      for (std::size_t s = 1; s < timeline.steps.size(); ++s) {
        if (parted(s - 1) && !parted(s)) return std::vector<std::size_t>{s};
      }
      return std::vector<std::size_t>{};
    };
    mishap.change = [vehicle](plan::Plan& plan, const LaidTrip& laid, std::size_t step) {
      const plan::Along never{.from = {.day = engine::most_days}};
      const engine::Company& before =
          laid.timeline->companies[at(laid.timeline->steps[step - 1].company)];
      plan.vehicles[at(vehicle)].along = never;
      for (std::size_t p = 0; p < plan.people.size(); ++p) {
        if (plan.people[p].vehicle == vehicle && before.people[p] == 0) {
          plan.people[p].along = never;
        }
      }
    };
  }

  static void all_stay(plan::Plan& plan, const LaidTrip& laid, std::size_t step) {
    const engine::Company& company =
        laid.timeline->companies[at(laid.timeline->steps[step].company)];
    for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
      if (company.parted[v] == 0) plan.vehicles[v].along.until = {};
    }
    for (std::size_t p = 0; p < plan.people.size(); ++p) {
      if (company.people[p] != 0) plan.people[p].along.until = {};
    }
  }

  /// The mornings on which a vehicle drives along, and so does the one that takes over from it. Who
  /// has one vehicle and loses that never moves again.
  static std::vector<std::size_t> where_another_takes_over(const LaidTrip& laid, int vehicle) {
    if (going_on(laid).size() < 2) return {};
    engine::Damage lost = laid.course->damage;
    lost.vehicles.push_back(vehicle);
    const int taker = engine::carrier(*laid.plan, lost, vehicle);
    std::vector<std::size_t> out = mornings(laid);
    std::erase_if(out, [&](std::size_t step) {
      const auto& drives =
          laid.timeline->companies[at(laid.timeline->steps[step].company)].vehicles;
      return drives[at(vehicle)] == 0 || drives[at(taker)] == 0;
    });
    return out;
  }

  /// Halfway through each day's drive. Who has a spare for it goes on; who has none stands there
  /// until help comes, as long as one who is stuck.
  void add_punctures() {
    const auto& compiled = std::get<Tyres::Compiled>(laid_.course->families);
    for (std::size_t v = 0; v < compiled.vehicles.size(); ++v) {
      for (const int times : {1, 2}) {
        add_puncture(compiled, v, times, true);
        add_puncture(compiled, v, times, false);
      }
    }
  }

  void add_puncture(const Tyres::Compiled& compiled, std::size_t v, int times, bool enough) {
    const int vehicle = compiled.vehicles[v].vehicle;
    const std::string owner =
        plan_.vehicles.size() > 1 ? plan_.vehicles[at(vehicle)].name + ": " : std::string();
    const std::string what = owner + (times == 1 ? "one puncture" : "two punctures in one day");
    const double halt_h = enough ? 0 : asked_.stuck_h;
    Mishap& mishap =
        add(MishapKind::puncture,
            enough ? what : fmt::format("{}, no spare: stuck {}", what, hours(halt_h)));
    mishap.damage.punctured = {{.vehicle = vehicle, .times = times}};
    mishap.halt_h = halt_h;
    mishap.strikes = [v, vehicle, times, enough](const LaidTrip& laid) {
      if (engine::is_among(laid.course->damage.vehicles, vehicle)) {
        return std::vector<std::size_t>{};
      }
      std::vector<std::size_t> out = halfway_each_day(laid);
      const std::vector<int> spares = engine::reserves::spares_before_each_step(
          std::get<Tyres::Compiled>(laid.course->families), v, *laid.course);
      std::erase_if(out, [&](std::size_t step) {
        const engine::TimeStep& its = laid.timeline->steps[step];
        const bool along = laid.timeline->companies[at(its.company)].vehicles[at(vehicle)] != 0;
        return !along || (spares[step] >= times) != enough;
      });
      return out;
    };
  }

  static void make_hot(plan::Plan& plan, const LaidTrip& laid, std::size_t step, double hotter_k,
                       int days) {
    plan::NamedDays heat = days_from(laid.timeline->steps[step].day, days, plan);
    heat.warmer_k = hotter_k;
    plan.weather.push_back(heat);
  }

  /// The unsealed parts of the leg that a step begins.
  static void make_soft(plan::Plan& plan, const LaidTrip& laid, std::size_t step) {
    const auto leg = static_cast<std::size_t>(laid.timeline->steps[step].leg);
    const int item = laid.timeline->legs[leg].item;
    auto& drive = std::get<plan::Drive>(plan.itinerary[at(item)]);
    for (plan::SurfacePart& part : drive.surfaces) {
      if (is_sealed(part.surface)) continue;
      part.fuel_factor *= 1 + plan.mishaps.soft_more_fuel;
      part.speed_km_h =
          engine::speed_km_h(part, plan.trip.driving) * (1 - plan.mishaps.soft_slower);
    }
  }

  static bool is_sealed(plan::Surface surface) {
    return surface == plan::Surface::sealed || surface == plan::Surface::worn_sealed;
  }

  static std::vector<std::size_t> unsealed_legs(const LaidTrip& laid) {
    std::vector<std::size_t> out = along_legs(laid, 0);
    std::erase_if(out, [&](std::size_t step) {
      const auto leg = static_cast<std::size_t>(laid.timeline->steps[step].leg);
      return std::ranges::all_of(laid.timeline->legs[leg].parts, [](const engine::RoadPiece& part) {
        return is_sealed(part.surface);
      });
    });
    return out;
  }

  void add_weather_and_ground() {
    const std::string for_days =
        fmt::format("for {} {}", asked_.hot_days, asked_.hot_days == 1 ? "day" : "days");
    Mishap& heat = add(
        MishapKind::heat_wave,
        asked_.hotter_k
            ? fmt::format("{} °C hotter {}",
                          units::format_number(*asked_.hotter_k, units::significant(2)), for_days)
            : "hot spell " + for_days);
    heat.lays_anew = true;
    heat.change = [](plan::Plan& plan, const LaidTrip& laid, std::size_t step) {
      plan::NamedDays days = days_from(laid.timeline->steps[step].day, plan.mishaps.hot_days, plan);
      if (plan.mishaps.hotter_k) {
        days.warmer_k = *plan.mishaps.hotter_k;
      } else {
        days.spell = plan::Spell::hot;
      }
      plan.weather.push_back(days);
    };
    Mishap& dull =
        add(MishapKind::dull_spell, fmt::format("dull spell for {} days", plan::spell_days));
    dull.lays_anew = true;
    dull.change = [](plan::Plan& plan, const LaidTrip& laid, std::size_t step) {
      plan.weather.push_back(spell_from(plan::Spell::dull, laid.timeline->steps[step].day, plan));
    };
    Mishap& soft = add(MishapKind::soft_going,
                       fmt::format("soft going: {} more fuel", percent(asked_.soft_more_fuel)));
    soft.lays_anew = true;
    soft.repeats = true;
    soft.strikes = unsealed_legs;
    soft.change = make_soft;
  }

  /// `vehicle`: the one they ride in; none: the first that goes on and shares water with others.
  static void take_in(plan::Plan& plan, const LaidTrip& laid, int people, int vehicle = -1) {
    plan::Person person;
    person.name = "one more";
    std::vector<int> rides = going_on(laid);
    std::stable_partition(rides.begin(), rides.end(), [&](int one) {
      return vehicle < 0 ? plan::owner_of(plan, one, plan::Stock::water) < 0 : one == vehicle;
    });
    if (!rides.empty()) person.vehicle = rides.front();
    if (vehicle >= 0 && person.vehicle != vehicle) return;  // it is not there to take anybody in
    plan.people.insert(plan.people.end(), static_cast<std::size_t>(people), person);
  }

  void add_one_more() {
    Mishap& mishap = add(MishapKind::one_more, "one person more");
    mishap.lays_anew = true;
    mishap.change = [](plan::Plan& plan, const LaidTrip& laid, std::size_t) {
      take_in(plan, laid, 1);
    };
    // Who keeps water or food of their own may take somebody in too.
    for (int v = 0; v < static_cast<int>(plan_.vehicles.size()); ++v) {
      if (plan_.vehicles[at(v)].own.empty()) continue;
      Mishap& own = add(MishapKind::one_more, "one person more in " + plan_.vehicles[at(v)].name);
      own.lays_anew = true;
      own.change = [v](plan::Plan& plan, const LaidTrip& laid, std::size_t) {
        take_in(plan, laid, 1, v);
      };
    }
  }

  void add_own(const plan::OwnMishap& own) {
    Mishap& mishap = add(MishapKind::own, own.name);
    mishap.halt_h = own.stuck_h;
    mishap.lays_anew = own.hotter_k > 0 || own.people > 0;
    mishap.damage = {.containers = own.containers,
                     .tanks = own.tanks,
                     .stores = own.stores,
                     .cabinets = own.cabinets,
                     .chargers = own.chargers};
    if (mishap.lays_anew) {
      mishap.change = [own](plan::Plan& plan, const LaidTrip& laid, std::size_t step) {
        if (own.hotter_k > 0) make_hot(plan, laid, step, own.hotter_k, own.hot_days);
        take_in(plan, laid, own.people);
      };
    }
    mishap.strikes = [day = own.day](const LaidTrip& laid) {
      std::vector<std::size_t> out = mornings(laid);
      std::erase_if(
          out, [&](std::size_t step) { return day && laid.timeline->steps[step].day != *day; });
      return out;
    };
  }

  const LaidTrip& laid_;
  const plan::Plan& plan_;
  const plan::Mishaps& asked_;
  std::vector<Mishap> out_;
};

}  // namespace

std::vector<Mishap> mishaps_of(const LaidTrip& laid) { return Lister(laid).list(); }

}  // namespace drystage::answers
