// What helps when water runs low: starting with everything full, or a container more.

#include <fmt/core.h>

#include "engine/reserves/water.h"
#include "engine/usual_sizes.h"

namespace drystage::engine::reserves {
namespace {

plan::Container container(plan::WaterUse use, double holds_l, int number) {
  return {.name = fmt::format("added container {}", number),
          .holds_l = holds_l,
          .filled_l = holds_l,
          .use = use,
          .empty_kg = usual_container_kg(holds_l)};
}

}  // namespace

std::vector<Remedy> Water::remedies(const Compiled& compiled, const plan::Plan& plan, int reserve,
                                    double lacking) {
  std::vector<Remedy> out;
  const bool drinking = reserve == compiled.drinking;
  if (!drinking && reserve != compiled.utility) return out;
  const plan::WaterUse use = drinking ? plan::WaterUse::drinking : plan::WaterUse::utility;
  double room_l = 0;
  for (const plan::Container& can : plan.water.containers) {
    if (can.use == use) room_l += can.holds_l - can.filled_l;
  }
  if (room_l > 0) {
    out.push_back({.name = {fmt::format("starting with every {} container full ({:.0f} L more)",
                                        drinking ? "drinking" : "utility", room_l)},
                   .size = room_l,
                   .adds = room_l,
                   .apply = [=](plan::Plan& changed) {
                     for (plan::Container& can : changed.water.containers) {
                       if (can.use == use) can.filled_l = can.holds_l;
                     }
                   }});
  }
  for (const double holds_l : usual_water_containers_l) {
    const auto containers = [=](int n) {
      const auto called = [&](const char* some) {
        return fmt::format("more {:.0f} L {} of {} water", holds_l, some,
                           drinking ? "drinking" : "utility");
      };
      return Remedy{.name = {called("container"), called("containers"), n},
                    .size = n * (holds_l + usual_container_kg(holds_l)),
                    .adds = n * holds_l,
                    .apply = [=](plan::Plan& changed) {
                      for (int i = 1; i <= n; ++i) {
                        changed.water.containers.push_back(container(use, holds_l, i));
                      }
                    }};
    };
    const std::string kind =
        fmt::format("{} containers of {:.0f} L", drinking ? "drinking" : "utility", holds_l);
    for (int n = 1; n <= pieces_for(lacking, holds_l); ++n) {
      out.push_back(in_steps(kind, containers, n));
    }
  }
  return out;
}

}  // namespace drystage::engine::reserves
