// What helps when fuel runs low: starting with everything full, or a can more.

#include <fmt/core.h>

#include "engine/reserves/fuel.h"
#include "engine/usual_sizes.h"

namespace drystage::engine::reserves {

std::vector<Remedy> Fuel::remedies(const Compiled& compiled, const plan::Plan& plan, int reserve,
                                   double lacking) {
  constexpr double can_l = usual_fuel_can_l;
  constexpr double can_empty_kg = usual_fuel_can_kg(can_l);
  std::vector<Remedy> out;
  for (std::size_t v = 0; v < compiled.vehicles.size(); ++v) {
    if (compiled.vehicles[v].reserve != reserve) continue;
    const double kg_l = plan::fuel_kg_l(plan.vehicles[v].fuel);
    double room_l = 0;
    for (const plan::Tank& tank : plan.vehicles[v].tanks) room_l += tank.holds_l - tank.filled_l;
    if (room_l > 0) {
      out.push_back({.name = {fmt::format("starting with every tank and can of {} full ({:.0f} L "
                                          "more)",
                                          plan.vehicles[v].name, room_l)},
                     .size = room_l * kg_l,
                     .adds = room_l,
                     .apply = [=](plan::Plan& changed) {
                       for (plan::Tank& tank : changed.vehicles[v].tanks) {
                         tank.filled_l = tank.holds_l;
                       }
                     }});
    }
    const bool diesel = plan.vehicles[v].fuel == plan::FuelKind::diesel;
    const std::string fuel = diesel ? "diesel" : "petrol";
    const auto cans = [=, vehicle = plan.vehicles[v].name](int n) {
      const auto called = [&](const char* some) {
        return fmt::format("more {:.0f} L {} of {} for {}", can_l, some, fuel, vehicle);
      };
      return Remedy{.name = {called("can"), called("cans"), n},
                    .size = n * (can_l * kg_l + can_empty_kg),
                    .adds = n * can_l,
                    .apply = [=](plan::Plan& changed) {
                      for (int i = 1; i <= n; ++i) {
                        changed.vehicles[v].tanks.push_back({.name = fmt::format("added can {}", i),
                                                             .holds_l = can_l,
                                                             .filled_l = can_l,
                                                             .empty_kg = can_empty_kg});
                      }
                    }};
    };
    for (int n = 1; n <= pieces_for(lacking, can_l); ++n) {
      out.push_back(in_steps(fmt::format("cans of vehicle {}", v), cans, n));
    }
  }
  return out;
}

}  // namespace drystage::engine::reserves
