#include "support/sizing.h"

#include <fmt/core.h>

#include <algorithm>
#include <deque>
#include <numeric>
#include <utility>

#include "answers/mishaps/mishaps.h"
#include "engine/engine.h"
#include "plan/packing.h"

namespace drystage::support {
namespace {

using answers::Choice;
using answers::Decision;

constexpr double tiny = 1e-6;

struct Valued {
  answers::Objective value;
  Chosen chosen;
};

answers::Totals sum_of(const Chosen& chosen) {
  answers::Totals sum;
  for (const Choice* choice : chosen) {
    sum.kg += choice->totals.kg;
    sum.cost += choice->totals.cost;
    sum.space_l += choice->totals.space_l;
  }
  return sum;
}

bool within_limits(const answers::PlanRun& tried, const plan::SizeLimits& limits,
                   const Chosen& chosen) {
  for (std::size_t v = 0; v < tried.plan.vehicles.size(); ++v) {
    double limit_kg = tried.plan.vehicles[v].limit_kg.value_or(engine::without_limit);
    if (v < limits.mass_kg.size() && limits.mass_kg[v]) {
      limit_kg = std::min(limit_kg, *limits.mass_kg[v]);
    }
    if (tried.record.heaviest[v].kg > limit_kg + tiny) return false;
  }
  const answers::Totals sum = sum_of(chosen);
  if (limits.space_l && sum.space_l > *limits.space_l + tiny) return false;
  if (limits.budget && sum.cost > *limits.budget + tiny) return false;
  // Of what is kept the packing is the plan's own affair.
  return std::ranges::all_of(chosen, [&](const Choice* choice) {
    if (choice->cabinet < 0 || choice->lines.front().kept) return true;
    const double room_kg = plan::most_packed_kg_l * choice->amount;
    return plan::packed_kg(tried.plan, choice->cabinet) <= room_kg;
  });
}

bool survives(const answers::PlanRun& tried, const std::vector<plan::MishapKind>& kinds) {
  const answers::Sweep sweep = sweep_mishaps(tried, {.only = kinds});
  return sweep.worst() != answers::Outcome::runs_out_vital;
}

/// Every combination of places, for lists of these lengths.
template <class Visit>
void each_combination(const std::vector<std::size_t>& lengths, const Visit& visit) {
  std::vector<std::size_t> places(lengths.size(), 0);
  while (true) {
    visit(places);
    std::size_t list = 0;
    while (list < lengths.size() && ++places[list] == lengths[list]) places[list++] = 0;
    if (list == lengths.size()) return;
  }
}

}  // namespace

PlanText generous_plan(const Pick& pick) {
  PlanText text = random_plan(pick);
  constexpr std::size_t most_items = 4;
  if (text.itinerary.size() > most_items) text.itinerary.resize(most_items);
  const auto mostly = [&] { return pick(0, 3) > 0; };
  if (mostly()) text.margins.clear();
  if (mostly()) {
    text.containers.emplace_back("{name: butt, holds: 60 L, filled: 60 L, for: drinking}");
  }
  if (mostly()) {
    text.containers.emplace_back("{name: great butt, holds: 400 L, filled: 400 L, for: drinking}");
  }
  if (mostly()) {
    text.containers.emplace_back("{name: cistern, holds: 400 L, filled: 400 L, for: utility}");
  }
  if (mostly()) text.food.emplace_back("{item: stores, kept: dry, mass: 100 kg, meals: 500}");
  const std::string tanks = "tanks: [";
  if (mostly()) {
    for (std::string& vehicle : text.vehicles) {
      vehicle.insert(vehicle.find(tanks) + tanks.size(),
                     "{name: main, holds: 250 L, filled: 250 L}, ");
    }
  }
  return text;
}

plan::Plan plan_to_size(const PlanText& plan, const std::string& size) {
  return read_plan(plan.text() + size);
}

std::vector<Choice> every_choice(const Decision& decision) {
  std::deque<Choice> found(decision.choices.begin(), decision.choices.end());
  const auto known = [&](const Choice& choice) {
    return std::ranges::find(found, choice.taken, &Choice::taken) != found.end();
  };
  for (std::size_t i = 0; i < found.size(); ++i) {
    for (std::size_t line = 0; line < found[i].lines.size(); ++line) {
      auto fewer = decision.one_fewer(found[i], line);
      if (fewer && !known(*fewer)) found.push_back(std::move(*fewer));
    }
  }
  return {found.begin(), found.end()};
}

plan::Plan with_choices(const plan::Plan& plan, const Chosen& chosen) {
  plan::Plan out = plan;
  out.size = {};
  for (const Choice* choice : chosen) choice->apply(out);
  return out;
}

bool is_enough(const answers::PlanRun& planned, const answers::SizeOptions& options,
               const Chosen& chosen) {
  const answers::PlanRun tried =
      answers::run_plan(with_choices(planned.plan, chosen), planned.course.timeline);
  if (!tried.verdict.holds || !within_limits(tried, planned.plan.size.limits, chosen)) return false;
  if (options.confirmed_only) {
    const auto confirmed = without_unconfirmed(tried);
    if (confirmed && !confirmed->holds) return false;
  }
  return !options.survive || survives(tried, *options.survive);
}

std::size_t count_sets(const answers::PlanRun& planned) {
  constexpr std::size_t many = 1000000;
  std::size_t sets = 1;
  for (const Decision& decision : decisions_of(planned.plan, answers::Least::mass)) {
    sets = std::min(many, sets * every_choice(decision).size());
  }
  return sets;
}

LeastOfAll least_of_all(const answers::PlanRun& planned, const answers::SizeOptions& options) {
  LeastOfAll out;
  std::vector<std::size_t> lengths;
  for (const Decision& decision : decisions_of(planned.plan, options.least)) {
    out.choices.push_back(every_choice(decision));
    lengths.push_back(out.choices.back().size());
  }
  std::vector<Valued> sets;
  each_combination(lengths, [&](const std::vector<std::size_t>& places) {
    answers::Objective value;
    Chosen chosen;
    for (std::size_t d = 0; d < places.size(); ++d) {
      chosen.push_back(&out.choices[d][places[d]]);
      value = value + objective(chosen.back()->totals, options.least);
    }
    sets.push_back({.value = value, .chosen = std::move(chosen)});
  });
  out.sets = sets.size();
  std::ranges::stable_sort(sets,
                           [](const Valued& a, const Valued& b) { return a.value < b.value; });
  const auto least = std::ranges::find_if(
      sets, [&](const Valued& set) { return is_enough(planned, options, set.chosen); });
  if (least == sets.end()) return out;
  out.value = least->value;
  out.set = least->chosen;
  return out;
}

std::string told(const std::vector<answers::SizedLine>& lines) {
  std::string out;
  for (const answers::SizedLine& line : lines) {
    out += fmt::format("{} {} {} {} ({:.9g} kg, cost {:.9g})\n", line.amount, line.unit, line.one,
                       line.detail, line.kg, line.cost);
  }
  return out;
}

std::string told(const Chosen& chosen) {
  std::string out;
  for (const Choice* choice : chosen) out += told(choice->lines);
  return out;
}

std::string random_size(const plan::Plan& plan, const Pick& pick, std::size_t most_sets) {
  std::size_t sets = 1;
  std::string out = "size:\n";
  const auto one_in = [&](int n) { return pick(1, n) == 1; };
  const auto cost = [&] { return one_in(2) ? fmt::format(", cost: {}", pick(0, 60)) : ""; };
  const auto room_for = [&](std::size_t more) {
    if (sets * more > most_sets) return false;
    sets *= more;
    return true;
  };
  const auto can = [&](int most) {
    return fmt::format("{{holds: {} L, empty_mass: {} kg, most: {}{}", pick(1, 8) * 5,
                       pick(5, 40) / 10.0, most, cost());
  };
  std::string containers;
  for (const char* use : {"drinking", "utility"}) {
    std::string offers;
    std::size_t made = 1;
    for (int n = pick(0, 2); n > 0; --n) {
      const int most = pick(1, 4);
      if (!room_for(static_cast<std::size_t>(most) + 1)) continue;
      std::string offer = can(most);
      if (!plan.vehicles.empty() && one_in(2)) {
        const auto v =
            static_cast<std::size_t>(pick(0, static_cast<int>(plan.vehicles.size()) - 1));
        offer += fmt::format(", in: {}", plan.vehicles[v].name);
      }
      offer += "}";
      const auto same_size = offer.substr(0, offer.find(" L"));
      if (offers.find(same_size + " L") != std::string::npos) continue;
      offers += (offers.empty() ? "" : ", ") + offer;
      ++made;
    }
    if (!offers.empty()) containers += fmt::format("    {}: [{}]\n", use, offers);
  }
  if (!containers.empty()) out += "  containers:\n" + containers;
  std::string cans;
  for (const plan::Vehicle& vehicle : plan.vehicles) {
    const int most = pick(1, 5);
    if (!one_in(2) || !room_for(static_cast<std::size_t>(most) + 1)) continue;
    cans += fmt::format("    {}: [{}}}]\n", vehicle.name, can(most));
  }
  if (!cans.empty()) out += "  fuel_cans:\n" + cans;
  std::string tanks;
  for (const plan::Vehicle& vehicle : plan.vehicles) {
    if (!one_in(4) || !room_for(3)) continue;
    const int least = pick(3, 8) * 10;
    tanks += fmt::format("    {}/{}: [{} L, {{holds: {} L, empty_mass: {} kg{}}}]\n", vehicle.name,
                         vehicle.tanks.front().name, least, least + pick(1, 6) * 10, pick(0, 20),
                         cost());
  }
  if (!tanks.empty()) out += "  tanks:\n" + tanks;
  std::string batteries;
  for (const plan::Bank& bank : plan.power.banks) {
    if (!one_in(2) || !room_for(3)) continue;
    const int least = pick(2, 15) * 10;
    batteries +=
        fmt::format("    {}: [{} Ah, {{capacity: {} Ah{}}}, {{capacity: {} Ah, mass: {} kg{}}}]\n",
                    bank.name, least, least * 2, cost(), least * 4, pick(1, 80), cost());
  }
  if (!batteries.empty()) out += "  batteries:\n" + batteries;
  std::string panels;
  for (const plan::Charger& charger : plan.power.chargers) {
    if (charger.kind != plan::ChargerKind::solar || !one_in(2) || !room_for(3)) continue;
    panels += fmt::format("    {}: [0 W, {{solar: 100 W{}}}, {{solar: 400 W{}}}]\n", charger.name,
                          cost(), cost());
  }
  if (!panels.empty()) out += "  panels:\n" + panels;
  std::string cabinets;
  for (const plan::Cabinet& cabinet : plan.cold) {
    if (!one_in(3) || !room_for(2)) continue;
    cabinets += fmt::format("    {}: [{{volume: {} L, mass: {} kg}}, {{volume: {} L{}}}]\n",
                            cabinet.name, pick(10, 40), pick(5, 20), pick(41, 90), cost());
  }
  if (!cabinets.empty()) out += "  cabinets:\n" + cabinets;
  std::string food;
  for (int n = pick(0, 2); n > 0; --n) {
    const int most = pick(1, 6);
    if (!room_for(static_cast<std::size_t>(most) + 1)) continue;
    std::string name = fmt::format("ration {}", n);
    for (const plan::FoodItem& item : plan.food) {
      if (item.kept == plan::Kept::dry && !item.energy_kj_kg && food.empty() && one_in(2)) {
        name = item.name;
      }
    }
    food += fmt::format("    {}: {{per_day: {} meals, mass: {} kg{}, most: {} days}}\n", name,
                        pick(3, 30), pick(5, 60) / 10.0, cost(), most);
  }
  if (!food.empty()) out += "  food:\n" + food;
  std::string limits;
  if (one_in(3) && !plan.vehicles.empty()) {
    limits += fmt::format("    mass: {{{}: {} kg}}\n", plan.vehicles.front().name,
                          plan.vehicles.front().empty_kg + pick(100, 900));
  }
  if (one_in(4)) limits += fmt::format("    space: {} L\n", pick(20, 400));
  if (one_in(4)) limits += fmt::format("    budget: {}\n", pick(0, 200));
  if (!limits.empty()) out += "  limits:\n" + limits;
  return out == "size:\n" ? "" : out;
}

}  // namespace drystage::support
