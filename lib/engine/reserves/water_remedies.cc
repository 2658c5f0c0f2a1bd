// What helps when water runs low: starting with everything full, or a container more.

#include <fmt/core.h>

#include <algorithm>
#include <string>

#include "engine/reserves/water.h"
#include "engine/usual_sizes.h"
#include "plan/own.h"
#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

plan::Container container(plan::WaterUse use, double holds_l, int number, int vehicle) {
  return {.name = fmt::format("added container {}", number),
          .holds_l = holds_l,
          .filled_l = holds_l,
          .use = use,
          .empty_kg = usual_container_kg(holds_l),
          .vehicle = vehicle};
}

}  // namespace

std::vector<Remedy> Water::remedies(const Compiled& compiled, const plan::Plan& plan, int reserve,
                                    double lacking) {
  std::vector<Remedy> out;
  const auto pool = std::ranges::find_if(compiled.pools, [&](const Pool& one) {
    return reserve == one.drinking || reserve == one.utility;
  });
  if (reserve < 0 || pool == compiled.pools.end()) return out;
  const bool drinking = reserve == pool->drinking;
  const int owner = pool->owner;
  const int vehicle = owner < 0 ? plan::common_vehicle(plan, plan::Stock::water) : owner;
  const std::string whose = owner < 0 ? "" : " for " + plan.vehicles[at(owner)].name;
  const plan::WaterUse use = drinking ? plan::WaterUse::drinking : plan::WaterUse::utility;
  const auto serves = [use, owner](const plan::Plan& of, const plan::Container& can) {
    return can.use == use && plan::owner_of(of, can.vehicle, plan::Stock::water) == owner;
  };
  double room_l = 0;
  for (const plan::Container& can : plan.water.containers) {
    if (serves(plan, can)) room_l += can.holds_l - can.filled_l;
  }
  if (room_l > 0) {
    out.push_back({.name = {fmt::format("starting with every {} container{} full ({:.0f} L more)",
                                        drinking ? "drinking" : "utility", whose, room_l)},
                   .size = room_l,
                   .adds = room_l,
                   .apply = [=](plan::Plan& changed) {
                     for (plan::Container& can : changed.water.containers) {
                       if (serves(changed, can)) can.filled_l = can.holds_l;
                     }
                   }});
  }
  for (const double holds_l : usual_water_containers_l) {
    const auto containers = [=](int n) {
      const auto called = [&](const char* some) {
        return fmt::format("more {:.0f} L {} of {} water{}", holds_l, some,
                           drinking ? "drinking" : "utility", whose);
      };
      return Remedy{.name = {called("container"), called("containers"), n},
                    .size = n * (holds_l + usual_container_kg(holds_l)),
                    .adds = n * holds_l,
                    .apply = [=](plan::Plan& changed) {
                      for (int i = 1; i <= n; ++i) {
                        changed.water.containers.push_back(container(use, holds_l, i, vehicle));
                      }
                    }};
    };
    const std::string kind = fmt::format("{} containers of {:.0f} L{}",
                                         drinking ? "drinking" : "utility", holds_l, whose);
    for (int n = 1; n <= pieces_for(lacking, holds_l); ++n) {
      out.push_back(in_steps(kind, containers, n));
    }
  }
  return out;
}

}  // namespace drystage::engine::reserves
