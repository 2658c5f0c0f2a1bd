// What is decided about tyres: how many spare wheels each vehicle carries.

#include <fmt/core.h>

#include <algorithm>
#include <memory>

#include "answers/offers/decision.h"
#include "plan/keys.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

/// The spare wheels of a vehicle, and what the plan has of them.
struct SpareWheels {
  std::size_t vehicle = 0;
  std::size_t vehicles = 1;
  std::string name{};  ///< " of truck", where there are several vehicles
  plan::TyreKit planned{};
};

double mass_kg(const SpareWheels& spares, int count) { return count * spares.planned.wheel_kg; }

/// They hang outside, and take up no space within.
Choice choice_of(const std::shared_ptr<const SpareWheels>& spares, int count) {
  const double kg = mass_kg(*spares, count);
  Choice out{.taken = {count},
             .amount = static_cast<double>(count + spares->planned.repairs),
             .load_kg = std::vector<double>(spares->vehicles, 0),
             .totals = {.kg = kg}};
  out.load_kg[spares->vehicle] = kg;
  out.lines.push_back({.one = "spare wheel" + spares->name,
                       .many = "spare wheels" + spares->name,
                       .plan_amount = static_cast<double>(spares->planned.spare_wheels),
                       .amount = static_cast<double>(count),
                       .of = "spare wheels" + spares->name,
                       .each = 1,
                       .plan_kg = mass_kg(*spares, spares->planned.spare_wheels),
                       .kg = kg});
  out.apply = [vehicle = spares->vehicle, count](plan::Plan& plan) {
    plan.vehicles[vehicle].tyres->spare_wheels = count;
  };
  return out;
}

Decision decide(const std::shared_ptr<const SpareWheels>& spares, int most, Least least) {
  Decision out{.sort = Decision::Sort::store,
               .reserve = {engine::Family::tyres, static_cast<int>(spares->vehicle)}};
  for (int count = 0; count <= most; ++count) out.choices.push_back(choice_of(spares, count));
  sort_choices(out.choices, least);
  out.planned = {.kg = mass_kg(*spares, spares->planned.spare_wheels)};
  out.one_fewer = [spares](const Choice& choice, std::size_t) -> std::optional<Choice> {
    if (choice.taken[0] == 0) return std::nullopt;
    return choice_of(spares, choice.taken[0] - 1);
  };
  return out;
}

/// So many at the most; nothing where they stay as they are.
std::optional<int> most_of(const plan::Plan& plan, std::size_t vehicle) {
  for (const plan::SpareWheelOffers& offer : plan.size.spare_wheels) {
    if (offer.vehicle == static_cast<int>(vehicle)) return offer.most;
  }
  // A weighbridge ticket that names them counts on as many as the plan has.
  const bool weighed = was_weighed(plan.vehicles[vehicle], std::string(plan::spare_wheels_name));
  if (weighed || plan.size.lists_offers()) return std::nullopt;
  static const auto usual =
      static_cast<int>(plan::Key("vehicles.tyres.spare_wheels").ranges().front().usual_high);
  return std::max(usual, plan.vehicles[vehicle].tyres->spare_wheels);
}

}  // namespace

std::vector<Decision> spare_wheel_decisions(const plan::Plan& plan, Least least) {
  std::vector<Decision> out;
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    if (!plan.vehicles[v].tyres) continue;
    const std::optional<int> most = most_of(plan, v);
    if (!most) continue;
    const bool alone = plan.vehicles.size() == 1;
    out.push_back(decide(std::make_shared<const SpareWheels>(
                             SpareWheels{.vehicle = v,
                                         .vehicles = plan.vehicles.size(),
                                         .name = alone ? "" : " of " + plan.vehicles[v].name,
                                         .planned = *plan.vehicles[v].tyres}),
                         *most, least));
  }
  return out;
}

}  // namespace drystage::answers
