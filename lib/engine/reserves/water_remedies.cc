// What helps when water runs low: starting with everything full, or a container more.

#include <fmt/format.h>

#include "engine/reserves/water.h"

namespace drystage::engine::reserves {
namespace {

struct ContainerOnOffer {
  double volume_l;
  double empty_kg;  // common practice
};

constexpr std::array<ContainerOnOffer, 2> on_offer{{{10, 0.7}, {20, 1.2}}};

plan::Container container(plan::WaterUse use, const ContainerOnOffer& offer, int number) {
  return {.name = fmt::format("added container {}", number),
          .holds_l = offer.volume_l,
          .filled_l = offer.volume_l,
          .use = use,
          .empty_kg = offer.empty_kg};
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
  for (const ContainerOnOffer& offer : on_offer) {
    for (int n = 1; n <= pieces_for(lacking, offer.volume_l); ++n) {
      const auto called = [&](const char* containers) {
        return fmt::format("more {:.0f} L {} of {} water", offer.volume_l, containers,
                           drinking ? "drinking" : "utility");
      };
      out.push_back({.name = {called("container"), called("containers"), n},
                     .size = n * (offer.volume_l + offer.empty_kg),
                     .adds = n * offer.volume_l,
                     .apply = [=](plan::Plan& changed) {
                       for (int i = 1; i <= n; ++i) {
                         changed.water.containers.push_back(container(use, offer, i));
                       }
                     }});
    }
  }
  return out;
}

}  // namespace drystage::engine::reserves
