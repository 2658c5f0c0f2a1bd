#include "report/weigh/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "report/text/amounts.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::Move;
using answers::Overload;

std::string place_words(const plan::Vehicle& vehicle, int bay, double at_m, units::System system) {
  if (bay >= 0) return name_words(vehicle.bays[at(bay)].name);
  return fmt::format("{} {} the front axle", length_words(std::abs(at_m), system),
                     at_m < 0 ? "ahead of" : "behind");
}

std::string over_words(const WeighAnswer& answer, const Overload& over, units::System system) {
  return fmt::format("{} is up to {} over its limit, first on {}, at {}",
                     scale_words(answer.planned.plan, answer.weighing.scales[over.scale]),
                     mass_words(over.kg, system, Toward::up), day_words(answer.planned, over.day),
                     clock(over.hour));
}

/// A limit that binds, in a few words.
std::string part_of(const WeighAnswer& answer, const engine::Scale& scale) {
  if (scale.kind == engine::ScaleKind::total) return "whole";
  return name_words(engine::scale_name(answer.planned.plan, scale));
}

bool has_limits(const WeighAnswer& answer) {
  return std::ranges::any_of(answer.weighing.scales, [](const engine::Scale& scale) {
    return std::isfinite(scale.limit_kg);
  });
}

}  // namespace

std::string length_words(double length_m, units::System system) {
  return units::format(length_m, units::Kind::length, system, units::decimals(2));
}

std::string move_words(const plan::Plan& plan, const Move& move, units::System system) {
  const plan::Vehicle& vehicle = plan.vehicles[at(move.vehicle)];
  const std::string what =
      fmt::format("{} ({})", name_words(move.name), mass_words(move.kg, system, Toward::up));
  if (move.left) {
    return fmt::format("Leave {}{} at home", what, move.in_trailer ? " of the trailer" : "");
  }
  if (move.in_trailer) {
    return fmt::format("Move {} in the trailer back, to {} {} its axle", what,
                       length_words(std::abs(move.to_m), system),
                       move.to_m < 0 ? "behind" : "ahead of");
  }
  if (move.to_bay >= 0) {
    const std::string from =
        move.from_bay < 0 ? "" : " from " + name_words(vehicle.bays[at(move.from_bay)].name);
    return fmt::format("Move {}{} to {}", what, from,
                       place_words(vehicle, move.to_bay, move.to_m, system));
  }
  const double by_m = move.to_m - move.from_m;
  return fmt::format("Move {} {} {}, to {}", what, length_words(std::abs(by_m), system),
                     by_m < 0 ? "forward" : "back",
                     place_words(vehicle, move.to_bay, move.to_m, system));
}

std::string weigh_verdict_words(const WeighAnswer& answer, units::System system) {
  const std::vector<Overload>& over = answer.weighing.over;
  if (!over.empty()) return fmt::format("OVER: {}.", over_words(answer, over.front(), system));
  if (!has_limits(answer)) {
    return "NO LIMITS: the plan says of nothing what it may weigh. Take them from the plates.";
  }
  const std::size_t days = answer.planned.record.days();
  return "KEPT: all limits of mass are kept " +
         (days == 1 ? std::string("all day.") : fmt::format("on all {} days.", days));
}

std::string nearest_words(const WeighAnswer& answer, units::System system) {
  if (!answer.weighing.over.empty()) return {};
  const engine::Scale* nearest = nullptr;
  double room_kg = engine::without_limit;
  for (const answers::VehicleWeighing& vehicle : answer.weighing.vehicles) {
    for (std::size_t i = 0; i < vehicle.scales.size(); ++i) {
      const engine::Scale& scale = answer.weighing.scales[vehicle.scales[i]];
      const double its_kg = scale.limit_kg - vehicle.trip[i].most_kg;
      if (!vehicle.trip[i].there || !std::isfinite(its_kg)) continue;
      if (nearest != nullptr && its_kg / scale.limit_kg >= room_kg / nearest->limit_kg) continue;
      nearest = &scale;
      room_kg = its_kg;
    }
  }
  if (nearest == nullptr) return {};
  // Weighbridges show steps of 10 or 20 kg.
  constexpr double close_kg = 20;
  return fmt::format("Nearest its limit: {}, {} to spare.{}",
                     scale_words(answer.planned.plan, *nearest),
                     mass_words(std::max(0.0, room_kg), system, Toward::down),
                     room_kg < close_kg ? " That is less than a weighbridge can tell." : "");
}

std::string ball_words(const plan::Vehicle& vehicle, units::System system) {
  if (!vehicle.trailer) return {};
  const plan::Trailer& trailer = *vehicle.trailer;
  const auto kg = [system](double mass_kg) {
    return units::format(mass_kg, units::Kind::mass, system, units::decimals(0));
  };
  std::string text;
  if (vehicle.chassis.wheelbase_m && !vehicle.tickets.empty()) {
    const double lever = trailer.coupling_m.value_or(0) / *vehicle.chassis.wheelbase_m;
    text = fmt::format("The ball's {} put {} on the rear axle and take {} off the front one. ",
                       kg(trailer.on_ball_kg()), kg(trailer.on_ball_kg() * (1 + lever)),
                       kg(trailer.on_ball_kg() * lever));
  }
  if (!trailer.ball_kg) {
    text =
        fmt::format("No ball load is given: a tenth of the trailer's {}, as is usual. Weigh it. ",
                    kg(trailer.mass_kg));
  }
  // Common practice: about a tenth; under a twentieth it sways, over a sixth it presses too much.
  constexpr double too_little = 0.05;
  constexpr double too_much = 1 / 6.0;
  const double share = trailer.on_ball_kg() / trailer.loaded_kg();
  if (share < too_little || share > too_much) {
    text += fmt::format("The ball has {} of the trailer's {}, {}: about a tenth is usual.",
                        kg(trailer.on_ball_kg()), kg(trailer.loaded_kg()),
                        share < too_little ? "so little that it may sway" : "which is much");
  }
  return text;
}

std::vector<std::string> moves_sentences(const WeighAnswer& answer, units::System system) {
  const plan::Plan& plan = answer.planned.plan;
  const std::vector<Overload>& over = answer.weighing.over;
  std::vector<std::string> out;
  if (!over.empty() && !over.front().most.empty()) {
    out.push_back(fmt::format("{} ({}) puts most on it: {}.",
                              capital(name_words(over.front().most)),
                              mass_words(over.front().thing_kg, system, Toward::up),
                              mass_words(over.front().most_kg, system, Toward::up)));
  }
  std::string others;
  for (std::size_t i = 1; i < over.size(); ++i) {
    units::add_to(others, fmt::format("{} by {} (day {})",
                                      scale_words(plan, answer.weighing.scales[over[i].scale]),
                                      mass_words(over[i].kg, system, Toward::up), over[i].day + 1));
  }
  if (!others.empty()) out.push_back("Over too: " + others + ".");
  for (std::size_t v = 0; v < answer.weighing.moves.size(); ++v) {
    const bool is_over = std::ranges::any_of(over, [&](const Overload& one) {
      return at(answer.weighing.scales[one.scale].vehicle) == v;
    });
    if (!is_over) continue;
    const std::string name = name_words(plan.vehicles[v].name);
    const answers::Moves& moves = answer.weighing.moves[v];
    std::string list;
    for (const Move& move : moves.moves) list += move_words(plan, move, system) + ". ";
    if (moves.found) {
      out.push_back(fmt::format("{}Then {} keeps all its limits.{}", list, name,
                                moves.given_up ? " Less may do: not all ways were tried." : ""));
      continue;
    }
    if (moves.given_up) {
      out.push_back(
          fmt::format("{}There is too much in {} to try all ways of moving it.", list, name));
      continue;
    }
    std::string still;
    for (const std::size_t s : moves.still) {
      units::add_to(still, scale_words(plan, answer.weighing.scales[s]));
    }
    out.push_back(fmt::format(
        "{}{} over, whatever is moved or left: {}. Take less water, fuel or food there.", list,
        list.empty() ? "Stays" : "Then still", still));
  }
  return out;
}

std::string moves_words(const WeighAnswer& answer, units::System system) {
  std::string text;
  for (const std::string& one : moves_sentences(answer, system)) units::add_to(text, one, " ");
  return text;
}

std::string centre_words(const answers::VehicleWeighing& vehicle, units::System system) {
  if (!vehicle.full || !vehicle.light) return {};
  const answers::Centre& full = *vehicle.full;
  const answers::Centre& light = *vehicle.light;
  const auto both = [system](double a, double b) {
    const std::string first = length_words(a, system);
    const std::string second = length_words(b, system);
    return first == second ? first : fmt::format("{} ({} at its lightest)", first, second);
  };
  std::string text = fmt::format("Centre of gravity, fullest: {} behind the front axle",
                                 both(full.behind_m, light.behind_m));
  if (full.height_m) {
    text += fmt::format(", {} high", both(*full.height_m, light.height_m.value_or(0)));
  }
  text += ".";
  if (full.roll_deg) {
    text += fmt::format(" Static roll angle {:.0f}°: no promise, a real vehicle tips sooner.",
                        std::floor(*full.roll_deg));
  }
  return text;
}

std::string room_words(const WeighAnswer& answer, std::size_t vehicle, units::System system) {
  const answers::VehicleWeighing& its = answer.weighing.vehicles[vehicle];
  const plan::Vehicle& of = answer.planned.plan.vehicles[vehicle];
  std::string text;
  for (std::size_t b = 0; b < of.bays.size(); ++b) {
    const bool seat =
        engine::is_seat(answer.planned.plan, static_cast<int>(vehicle), static_cast<int>(b));
    if (seat || !std::isfinite(its.room_kg[b])) continue;
    const double room_kg = its.room_kg[b];
    const engine::Scale& by = answer.weighing.scales[at(its.room_by[b])];
    const bool own = by.kind == engine::ScaleKind::bay;
    units::add_to(text,
                  fmt::format("{} {}{}", name_words(of.bays[b].name),
                              room_kg < 1 ? "nothing" : mass_words(room_kg, system, Toward::down),
                              own ? "" : fmt::format(" (by the {})", part_of(answer, by))));
  }
  return text.empty() ? text : "What one of them can take besides: " + text + ".";
}

}  // namespace drystage::report
