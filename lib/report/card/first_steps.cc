#include "report/card/first_steps.h"

#include <fmt/core.h>

#include <algorithm>
#include <numeric>
#include <optional>
#include <utility>

#include "plan/commodity.h"
#include "report/card/isolated.h"
#include "report/card/supply_places.h"
#include "report/card/trip_weather.h"
#include "report/needs_table.h"
#include "report/rounding.h"
#include "report/size_words.h"

namespace drystage::report {
namespace {

using plan::Commodity;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// A volume, rounded up, that does not break between number and unit.
std::string volume(double volume_l, units::System system) {
  return unbroken(volume_words(volume_l, system, Toward::up));
}

class Adviser {
 public:
  Adviser(const CardAnswer& answer, units::System system)
      : answer_(answer),
        trial_(answer.needs.trial),
        plan_(trial_.plan),
        system_(system),
        weather_(trip_weather(trial_)) {}

  std::vector<Advice> advice() {
    std::vector<Advice> out{whatever_it_is()};
    for (const int i : needs_order(answer_.needs)) {
      const int reserve = answer_.needs.needs.reserves[at(i)];
      if (!is_needed(at(i))) continue;
      const engine::ReserveInfo& info = trial_.course.reserves[at(reserve)];
      const std::string family = engine::family(info.name);
      if (family == "drinking_water") out.push_back(drinking_water());
      if (family == "utility_water") out.push_back(utility_water());
      if (family == "fuel" && !told_fuel_) out.push_back(fuel());
      if (family == "food") out.push_back(food());
      if (family == "battery") out.push_back(battery(reserve));
    }
    if (!plan_.cold.empty()) out.push_back(cold());
    return out;
  }

 private:
  /// Whether the plan asks for any of a reserve (an index into Needs::reserves) on any morning.
  [[nodiscard]] bool is_needed(std::size_t i) const {
    constexpr double noise = 1e-6;
    const answers::Needs& needs = answer_.needs.needs;
    for (std::size_t day = 0; day < trial_.record.days(); ++day) {
      if (needs.need(day, i).must_have > noise) return true;
    }
    return false;
  }

  [[nodiscard]] std::string sure(Commodity commodity) const {
    const std::string places = sure_places(trial_, commodity, system_);
    const std::string what(plan::words(commodity));
    return places.empty() ? "No supply of " + what + " on this trip is sure."
                          : "Sure supplies of " + what + ": " + places + ".";
  }

  [[nodiscard]] bool drives() const { return !trial_.course.timeline->legs.empty(); }

  /// How those stay alive and are found who stay with the vehicle.
  [[nodiscard]] std::string waiting_words() const {
    std::string text = "Stay with the vehicle, ";
    if (weather_.heat) text += "make shade, ";
    if (weather_.cold) text += "keep warm, dry and out of the wind, ";
    return text + "make yourselves seen.";
  }

  [[nodiscard]] Advice whatever_it_is() const {
    Advice out{.title = "Whatever is low: first", .steps = {}};
    out.steps.emplace_back(
        "Stop where it is safe. Dip or count again. Look for a leak, an open tap, a loose cap.");
    const std::string neither =
        "raise the alarm at once, while there is water for the days until help comes. It can be "
        "called off again. " +
        waiting_words();
    if (drives()) {
      out.steps.emplace_back(
          "Do not go on as planned. Compare what was found, of every reserve, with tonight's row "
          "of \"The way out\". A way is open only if there is enough of all of them; where no "
          "figure stands, it is not.");
      out.steps.emplace_back(
          "At least what stands under \"back\": turn back in the morning, to the place named. At "
          "least what stands under \"on at once\": go on in the morning and leave out the stays. "
          "Both: the one that leaves more over, and back where that is much the same. The margins "
          "are in the figures.");
      out.steps.push_back("Neither: " + neither);
    } else {
      out.steps.emplace_back(
          "Do not wait for it to mend itself: fetch more, or leave, while what is there still "
          "lasts the way.");
      out.steps.push_back("No sure supply is surely in reach: " + neither);
    }
    out.steps.emplace_back("Tell the person at home of every change of plan.");
    return out;
  }

  /// The most that all drink in a day of staying put.
  [[nodiscard]] double most_drinking_l_day() const {
    double most = 0;
    for (const engine::Here& here : trial_.course.timeline->heres) {
      most = std::max(most, here.drink_l);
    }
    return most;
  }

  [[nodiscard]] Advice drinking_water() const {
    Advice out{.title = "Drinking water", .steps = {}};
    std::string first = "Never cut drinking";
    first += weather_.heat ? "." : ", in the cold as little as in heat.";
    if (weather_.heat) {
      first +=
          " Cut what makes thirst: rest in deep shade and moving air through the hot hours, keep "
          "the skin covered, work and dig in the evening and at dawn, never at noon.";
    }
    if (weather_.cold) first += " In the cold work slowly: sweat is lost water, and chills.";
    out.steps.push_back(first);
    if (weather_.cold) {
      out.steps.emplace_back(
          "Keep water from freezing: what the next day takes inside by night, near to you; "
          "containers not quite full, and upside down where they are tight. Never eat snow or ice: "
          "melt it, and boil it.");
    }
    const double most_l = most_drinking_l_day();
    if (most_l > 0) {
      out.steps.push_back(fmt::format(
          "Count the days: staying put, all together drink up to {} a day on this trip.",
          volume(most_l, system_)));
    }
    std::vector<std::string> last;
    for (const plan::Container& can : plan_.water.containers) {
      if (can.opened_last && can.use == plan::WaterUse::drinking) last.push_back(can.name);
    }
    if (!last.empty()) out.steps.push_back("Open last: " + list_of_names(last) + ".");
    const std::string utility = utility_to_drink();
    if (!utility.empty()) out.steps.push_back(utility);
    out.steps.emplace_back(
        "Eat little, and nothing salty or dry. No alcohol. Never drink sea water, coolant or "
        "urine.");
    out.steps.emplace_back(
        "Raise the alarm when no sure supply is surely in reach, and at the latest when only the "
        "margin is left: not when the last container is opened.");
    out.steps.push_back(sure(Commodity::drinking_water));
    return out;
  }

  /// From when a container holds brackish water: a day from 0; -1: from the beginning; nothing if
  /// it never does by the plan.
  [[nodiscard]] std::optional<int> brackish_from(const plan::Container& can, int store) const {
    if (can.quality == plan::WaterQuality::brackish) return -1;
    for (const engine::Event& event : trial_.record.events) {
      if (event.kind == engine::EventKind::brackish_in && event.subject == store) return event.day;
    }
    return std::nullopt;
  }

  /// Which utility water may be drunk and which may not; empty where there is none.
  [[nodiscard]] std::string utility_to_drink() const {
    std::vector<std::string> good;
    std::string bad;
    const auto& cans = std::get<engine::reserves::Water::Compiled>(trial_.course.families).cans;
    std::size_t next = 0;
    for (const bool last : {false, true}) {
      for (const plan::Container& can : plan_.water.containers) {
        if (can.opened_last != last) continue;
        const int store = cans[next++].store;
        const std::optional<int> from = brackish_from(can, store);
        const std::string name = name_in_words(can.name);
        if (from) {
          bad += (bad.empty() ? "" : ", ") + name;
          if (*from >= 0) bad += fmt::format(" (brackish from day {})", *from + 1);
        } else if (can.use == plan::WaterUse::utility) {
          good.push_back(can.name);
        }
      }
    }
    std::string text;
    if (!good.empty()) {
      text =
          "Stop washing. Utility water may be drunk only if all of it in that container is "
          "potable and nothing else has ever been put in: " +
          list_of_names(good) + ".";
    }
    if (!bad.empty()) {
      text += (text.empty() ? "" : " ") +
              ("NOT to be drunk: " + bad + ". It makes thirst worse" +
               (weather_.cold ? "." : "; it may wet clothes, which cools."));
    }
    return text;
  }

  [[nodiscard]] Advice utility_water() const {
    Advice out{.title = "Utility water", .steps = {}};
    struct Use {
      std::string name;
      double l_day = 0;
    };
    std::vector<Use> uses;
    for (const plan::UtilityUse& use : plan_.water.utility_uses) {
      const double people = use.per_person ? static_cast<double>(plan_.people.size()) : 1;
      const double l_day = use.volume_l * people / std::max(use.every_days, 1e-9);
      if (l_day > 0) uses.push_back({.name = use.name, .l_day = l_day});
    }
    std::ranges::stable_sort(uses, std::greater<>{}, &Use::l_day);
    std::string list;
    for (const Use& use : uses) {
      list +=
          (list.empty() ? "" : ", ") + name_in_words(use.name) + " " + volume(use.l_day, system_);
    }
    if (list.empty()) {
      out.steps.emplace_back("Leave out all that can wait.");
    } else {
      out.steps.push_back("Leave out what can wait. The plan uses a day, all together: " + list +
                          ".");
    }
    out.steps.emplace_back(
        "Never make it up from the drinking water. Clean dishes dry, with sand or paper.");
    out.steps.push_back(sure(Commodity::utility_water));
    return out;
  }

  [[nodiscard]] std::string vehicles_with(plan::FuelKind kind) const {
    std::vector<std::string> names;
    for (const plan::Vehicle& vehicle : plan_.vehicles) {
      if (vehicle.fuel == kind) names.push_back(vehicle.name);
    }
    return list_of_names(names);
  }

  [[nodiscard]] std::string unusable_words() const {
    std::string list;
    for (const plan::Vehicle& vehicle : plan_.vehicles) {
      for (const plan::Tank& tank : vehicle.tanks) {
        if (tank.unusable_l <= 0) continue;
        std::string name = name_in_words(tank.name);
        if (plan_.vehicles.size() > 1) name += " of " + name_in_words(vehicle.name);
        list += (list.empty() ? "" : ", ") + name + " " + volume(tank.unusable_l, system_);
      }
    }
    return list;
  }

  [[nodiscard]] std::string resting_place() const {
    if (!weather_.cold) return "in shade";
    return weather_.heat ? "in shade, out of the wind by night," : "out of the wind";
  }

  Advice fuel() {
    told_fuel_ = true;
    Advice out{.title = "Fuel", .steps = {}};
    std::string idle = weather_.heat ? " no cooling," : "";
    if (weather_.cold) idle += " no heating,";
    out.steps.push_back("Engine off whenever you stand: no idling," + idle +
                        " no charging by it. If there is a leak: off at once, no flame, mend it "
                        "first.");
    if (weather_.cold) {
      out.steps.emplace_back(
          "Keep warm with clothes, sleeping bags and each other. No engine, stove or heater runs "
          "where you sleep, nor with its exhaust in snow: the fumes kill without smell.");
    }
    std::vector<std::string> generators;
    for (const plan::Charger& charger : plan_.power.chargers) {
      if (charger.kind == plan::ChargerKind::generator) generators.push_back(charger.name);
    }
    if (!generators.empty()) {
      const bool vital = std::ranges::any_of(plan_.power.loads, &plan::Load::never_shed);
      out.steps.push_back("Leave off " + list_of_names(generators) +
                          (vital ? ", unless what must not stop needs it." : "."));
    }
    out.steps.emplace_back(
        "Drive slower and steadily, without detours; on sand with less air in the tyres.");
    const std::string unusable = unusable_words();
    if (!unusable.empty()) {
      out.steps.push_back("A dip also shows what cannot be used. Take off: " + unusable + ".");
    }
    const std::string diesel = vehicles_with(plan::FuelKind::diesel);
    const std::string petrol = vehicles_with(plan::FuelKind::petrol);
    if (!diesel.empty() && !petrol.empty()) {
      out.steps.push_back("Never mix fuels: diesel into " + diesel + ", petrol into " + petrol +
                          ".");
    }
    if (plan_.vehicles.size() > 1) {
      out.steps.emplace_back(
          "Vehicles that burn the same fuel share it. Stay together: nobody goes on alone.");
    }
    if (!diesel.empty() && weather_.cold) {
      out.steps.emplace_back(
          "In frost diesel may wax and block the filter: no power, or no start. Ask for winter "
          "fuel "
          "before you go; wait for the warmest hours; never a flame under a tank.");
    }
    out.steps.push_back("It does not reach: stop " + resting_place() +
                        " and in sight of the road, while there is still some to charge the radio "
                        "by. Do not walk for fuel.");
    if (!diesel.empty()) out.steps.push_back(sure(Commodity::diesel));
    if (!petrol.empty()) out.steps.push_back(sure(Commodity::petrol));
    return out;
  }

  /// The items of food in the order in which they spoil: what ages fastest first, frozen goods
  /// after chilled ones, what keeps for ever last.
  [[nodiscard]] std::vector<std::string> eat_first() const {
    const auto& compiled = std::get<engine::reserves::Food::Compiled>(trial_.course.families);
    std::vector<std::size_t> order(plan_.food.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto key = [&](std::size_t i) {
      const engine::reserves::Food::Item& item = compiled.items[i];
      const bool keeps = item.ageing_at_0c_per_h <= 0;
      const int rank = keeps ? 2 : item.kept == plan::Kept::frozen ? 1 : 0;
      return std::pair(rank, -item.ageing_at_0c_per_h);
    };
    std::ranges::stable_sort(order, {}, key);
    std::vector<std::string> names(order.size());
    std::ranges::transform(order, names.begin(), [&](std::size_t i) { return plan_.food[i].name; });
    return names;
  }

  [[nodiscard]] Advice food() const {
    Advice out{.title = "Food", .steps = {}};
    const std::vector<std::string> order = eat_first();
    if (order.size() > 1) {
      out.steps.push_back("Eat in this order, thawed goods before all: " + list_of_names(order) +
                          ".");
    }
    out.steps.emplace_back(
        "Healthy adults can eat less for some days. Children, pregnant women, and people who are "
        "ill or take medicine go on as they must.");
    out.steps.emplace_back(
        "Hunger is no reason to hurry, to drive by night or to eat what you do not know: water and "
        "fuel decide.");
    if (weather_.cold) {
      out.steps.emplace_back("In the cold food is warmth: eat some before you sleep.");
    }
    out.steps.push_back(sure(Commodity::food));
    return out;
  }

  [[nodiscard]] std::string charger_words(const plan::Charger& charger) const {
    const std::string name = name_in_words(charger.name);
    switch (charger.kind) {
      case plan::ChargerKind::dc_dc:
        return name + " while driving, and standing only with fuel to spare";
      case plan::ChargerKind::solar:
        return name + " clean, out of shade, turned to the sun";
      case plan::ChargerKind::mains: {
        const std::string places = sure_places(trial_, Commodity::mains, system_);
        return places.empty() ? name + " nowhere for sure" : name + " at " + places;
      }
      case plan::ChargerKind::generator:
        break;
    }
    return name + " outside, away from doors, windows and tents, with fuel to spare";
  }

  static std::string frost_words(const plan::Bank& bank) {
    if (bank.kind == plan::BatteryKind::lfp) {
      return "Below freezing it takes no charge, and is harmed by it unless it is made for that: "
             "warm it first. In the cold the last of its charge is out of reach.";
    }
    return "In frost it takes little charge, and freezes when it is run down: keep it warm, and "
           "charge it in good time. In the cold the last of its charge is out of reach.";
  }

  Advice battery(int reserve) const {
    const engine::ReserveInfo& info = trial_.course.reserves[at(reserve)];
    const std::string name = info.name.substr(info.name.find(':') + 1);
    Advice out{.title = "Battery: " + name_in_words(name), .steps = {}};
    const auto found = std::ranges::find(plan_.power.banks, name, &plan::Bank::name);
    const int bank = static_cast<int>(found - plan_.power.banks.begin());
    out.steps = shedding(bank);
    std::string sources;
    for (const plan::Charger& charger : plan_.power.chargers) {
      if (charger.bank != bank) continue;
      sources += (sources.empty() ? "" : "; ") + charger_words(charger);
    }
    out.steps.push_back(sources.empty() ? std::string("Nothing charges it on this trip.")
                                        : "Charge it: " + sources + ".");
    if (weather_.cold) out.steps.push_back(frost_words(plan_.power.banks[at(bank)]));
    out.steps.emplace_back(
        "Charge what you call for help with before all else. Leave the starting battery alone.");
    return out;
  }

  /// In which order a bank's loads are switched off, and what must go on.
  [[nodiscard]] std::vector<std::string> shedding(int bank) const {
    std::vector<const plan::Load*> ranked;
    std::vector<std::string> rest;
    std::vector<std::string> vital;
    for (const plan::Load& load : plan_.power.loads) {
      if (load.bank != bank) continue;
      if (load.never_shed) {
        vital.push_back(load.name);
      } else if (load.shed_order > 0) {
        ranked.push_back(&load);
      } else {
        rest.push_back(load.name);
      }
    }
    std::ranges::stable_sort(ranked, {}, &plan::Load::shed_order);
    std::vector<std::string> first(ranked.size());
    std::ranges::transform(ranked, first.begin(),
                           [](const plan::Load* load) { return load->name; });
    std::vector<std::string> cabinets;
    for (const plan::Cabinet& cabinet : plan_.cold) {
      if (!cabinet.ice_box && cabinet.bank == bank) cabinets.push_back(cabinet.name);
    }
    std::string order;
    for (const auto* names : {&first, &rest}) {
      if (!names->empty()) order += (order.empty() ? "" : "; then ") + list_of_names(*names);
    }
    if (!cabinets.empty()) {
      order += (order.empty() ? "" : "; last of all ") + list_of_names(cabinets) + " (see Cold)";
    }
    std::vector<std::string> out;
    if (!order.empty()) {
      out.push_back(
          "Switch off in this order, but never what you call for help with, even where it "
          "stands here: " +
          order + ".");
    }
    if (!vital.empty()) {
      out.push_back(
          list_of_names(vital) +
          " must go on: change to its second source in time, and raise the alarm while it "
          "still runs.");
    }
    return out;
  }

  [[nodiscard]] Advice cold() const {
    Advice out{.title = "Cold: too warm inside", .steps = {}};
    const units::Display shown = units::display(units::Kind::temperature, system_);
    constexpr double clock_c = 5;
    const std::string limit =
        units::format_number(rounded(shown.number(clock_c), 0, Toward::down), units::decimals(0)) +
        " " + std::string(shown.unit);
    out.steps.emplace_back(
        "Keep it closed, in shade, with air round it. Go by a thermometer inside. See that it "
        "runs, "
        "and the battery.");
    out.steps.push_back("Above " + limit +
                        ": eat within 2 hours in all, throw away after 4. What has thawed is eaten "
                        "first, cooked through, and never frozen again.");
    for (std::size_t c = 0; c < plan_.cold.size(); ++c) {
      std::vector<std::string> inside;
      for (const plan::FoodItem& food : plan_.food) {
        if (food.cabinet == static_cast<int>(c)) inside.push_back(food.name);
      }
      if (inside.empty()) continue;
      out.steps.push_back("In " + name_in_words(plan_.cold[c].name) + ": " + list_of_names(inside) +
                          ".");
    }
    const bool ice = std::ranges::any_of(plan_.cold, &plan::Cabinet::ice_box);
    if (ice) out.steps.push_back(sure(Commodity::ice));
    if (weather_.cold) {
      out.steps.emplace_back(
          "In frost it can also be too cold inside: what must not freeze goes where you sleep.");
    }
    out.steps.emplace_back(
        "Medicine: to its second cold place. Ask before using what has been warm.");
    return out;
  }

  const CardAnswer& answer_;
  const answers::Trial& trial_;
  const plan::Plan& plan_;
  units::System system_;
  TripWeather weather_;
  bool told_fuel_ = false;
};

}  // namespace

std::vector<Advice> first_steps(const CardAnswer& answer, units::System system) {
  return Adviser(answer, system).advice();
}

}  // namespace drystage::report
