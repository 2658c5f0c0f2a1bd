#include "engine/empty_axles.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "models/axle_load.h"
#include "units/format.h"
#include "units/index.h"
#include "units/text.h"

namespace drystage::engine {
namespace {

using plan::Diagnostic;
using plan::Ticket;
using plan::Vehicle;

// Weighbridges show steps of 10 or 20 kg, and nobody measures a bay to the centimetre (ours).
constexpr double least_tolerance_kg = 40;
constexpr double tolerance = 0.03;

double tolerance_kg(double total_kg) { return std::max(least_tolerance_kg, tolerance * total_kg); }

std::string kg(double mass_kg) { return units::format(std::round(mass_kg), units::Kind::mass); }

/// What of a ticket is the vehicle's own.
EmptyAxles own_part(const Vehicle& vehicle, const Ticket& ticket) {
  const double wheelbase_m = *vehicle.chassis.wheelbase_m;
  EmptyAxles out{.front_kg = ticket.front_kg, .rear_kg = ticket.rear_kg};
  const auto take_off = [&](double mass_kg, double behind_m) {
    const models::AxleShares shares = models::axle_shares(behind_m, wheelbase_m);
    out.front_kg -= mass_kg * shares.front;
    out.rear_kg -= mass_kg * shares.rear;
  };
  for (const Ticket::With& thing : ticket.with) take_off(thing.kg, at_m(vehicle, thing.spot));
  if (ticket.towing && vehicle.trailer) {
    take_off(vehicle.trailer->on_ball_kg(), wheelbase_m + vehicle.trailer->coupling_m.value_or(0));
  }
  return out;
}

Diagnostic error(const plan::Mark& mark, std::string what, std::string expected,
                 std::string hint = {}) {
  return {.severity = plan::Severity::error,
          .mark = mark,
          .what = std::move(what),
          .expected = std::move(expected),
          .hint = std::move(hint)};
}

Diagnostic differs_from_mass(const Vehicle& vehicle, const Ticket& ticket, double empty_kg) {
  return error(ticket.mark,
               fmt::format("{} weighs {} empty by this ticket, and {} by \"mass\"",
                           units::in_quotes(vehicle.name), kg(empty_kg), kg(vehicle.empty_kg)),
               "the same, within 3 % or 40 kg",
               "say under \"with\" who and what was in it, or mend mass.empty");
}

void check_tickets(const Vehicle& vehicle, std::vector<Diagnostic>& out) {
  const std::string name = units::in_quotes(vehicle.name);
  std::vector<EmptyAxles> own;
  std::vector<double> totals_kg;
  for (const Ticket& ticket : vehicle.tickets) {
    const double total_kg = ticket.front_kg + ticket.rear_kg;
    const EmptyAxles axles = own_part(vehicle, ticket);
    if (axles.front_kg <= 0 || axles.rear_kg <= 0) {
      out.push_back(error(ticket.mark,
                          fmt::format("{}: less what was in it, {} is left for the {} axle", name,
                                      kg(std::min(axles.front_kg, axles.rear_kg)),
                                      axles.front_kg <= 0 ? "front" : "rear"),
                          "more than 0 kg on each axle",
                          "are the axles in the right order, and is \"with\" right?"));
      return;
    }
    const double empty_kg = axles.front_kg + axles.rear_kg;
    if (std::abs(empty_kg - vehicle.empty_kg) > tolerance_kg(total_kg)) {
      out.push_back(differs_from_mass(vehicle, ticket, empty_kg));
    }
    for (std::size_t o = 0; o < own.size(); ++o) {
      const EmptyAxles& other = own[o];
      const double apart_kg = std::abs(other.front_kg - axles.front_kg);
      const double rear_apart_kg = std::abs(other.rear_kg - axles.rear_kg);
      if (std::max(apart_kg, rear_apart_kg) <= tolerance_kg(std::min(total_kg, totals_kg[o]))) {
        continue;
      }
      const bool front = apart_kg >= rear_apart_kg;
      out.push_back(error(
          ticket.mark,
          fmt::format("two tickets of {} differ: its {} axle has {} empty by this one, {} by "
                      "another",
                      name, front ? "front" : "rear", kg(front ? axles.front_kg : axles.rear_kg),
                      kg(front ? other.front_kg : other.rear_kg)),
          "the same, within 3 % or 40 kg", "is \"with\" right, and where those things lay?"));
      break;
    }
    own.push_back(axles);
    totals_kg.push_back(total_kg);
  }
}

/// Where the axles cannot be told apart for want of a wheelbase: their sum alone.
void check_sums(const Vehicle& vehicle, std::vector<Diagnostic>& out) {
  for (const Ticket& ticket : vehicle.tickets) {
    const double total_kg = ticket.front_kg + ticket.rear_kg;
    double empty_kg = total_kg;
    for (const Ticket::With& thing : ticket.with) empty_kg -= thing.kg;
    if (ticket.towing && vehicle.trailer) empty_kg -= vehicle.trailer->on_ball_kg();
    if (std::abs(empty_kg - vehicle.empty_kg) > tolerance_kg(total_kg)) {
      out.push_back(differs_from_mass(vehicle, ticket, empty_kg));
    }
  }
}

/// A ball that lifts the front axle of the empty vehicle off the ground.
void check_ball(const Vehicle& vehicle, std::vector<Diagnostic>& out) {
  const auto axles = empty_axles(vehicle);
  if (!axles || !vehicle.trailer) return;
  const double lifts = vehicle.trailer->coupling_m.value_or(0) / *vehicle.chassis.wheelbase_m;
  if (axles->front_kg > lifts * vehicle.trailer->on_ball_kg()) return;
  out.push_back(
      error(vehicle.trailer->mark,
            fmt::format("{} on the ball lift the front axle of {} off the ground",
                        kg(vehicle.trailer->on_ball_kg()), units::in_quotes(vehicle.name)),
            "about a tenth of the trailer's mass"));
}

void check_limits(const Vehicle& vehicle, std::vector<Diagnostic>& out) {
  const auto axles = empty_axles(vehicle);
  if (!axles) return;
  const auto check = [&](const char* which, std::optional<double> limit_kg, double empty_kg) {
    if (!limit_kg || *limit_kg >= empty_kg) return;
    out.push_back(
        error(vehicle.mark,
              fmt::format("{}: the limit of its {} axle is {}, and empty it has {}",
                          units::in_quotes(vehicle.name), which, kg(*limit_kg), kg(empty_kg)),
              "the mass allowed on it with everything loaded"));
  };
  check("front", vehicle.limits.front_kg, axles->front_kg);
  check("rear", vehicle.limits.rear_kg, axles->rear_kg);
}

/// Limits of axles that nothing can be held against.
void check_complete(const Vehicle& vehicle, std::vector<Diagnostic>& out) {
  const plan::LoadLimits& limits = vehicle.limits;
  const bool judged = limits.front_kg || limits.rear_kg || limits.wheel_kg || limits.load_index;
  if (!judged || empty_axles(vehicle)) return;
  const bool no_ticket = vehicle.tickets.empty();
  out.push_back(
      {.severity = plan::Severity::error,
       .mark = vehicle.mark,
       .what = fmt::format("{} has limits for its axles or wheels, but {}",
                           units::in_quotes(vehicle.name),
                           no_ticket ? "nobody has weighed it" : "no wheelbase"),
       .expected =
           no_ticket ? "what its axles weighed on a weighbridge" : "how far its axles are apart",
       .hint = no_ticket ? "weighed: {front: 1310 kg, rear: 1240 kg}" : "wheelbase: 2.85 m"});
}

}  // namespace

double at_m(const Vehicle& vehicle, const plan::Spot& spot) {
  if (spot.at_m) return *spot.at_m;
  if (spot.bay) return vehicle.bays[at(*spot.bay)].at_m;
  return vehicle.chassis.wheelbase_m.value_or(0) / 2;
}

double right_m(const Vehicle& vehicle, const plan::Spot& spot) {
  if (spot.right_m) return *spot.right_m;
  return spot.bay ? vehicle.bays[at(*spot.bay)].right_m : 0;
}

std::optional<double> height_m(const Vehicle& vehicle, const plan::Spot& spot) {
  if (spot.height_m || !spot.bay) return spot.height_m;
  return vehicle.bays[at(*spot.bay)].height_m;
}

std::optional<EmptyAxles> empty_axles(const Vehicle& vehicle) {
  if (!vehicle.chassis.wheelbase_m || vehicle.tickets.empty()) return std::nullopt;
  EmptyAxles sum;
  for (const Ticket& ticket : vehicle.tickets) {
    const EmptyAxles own = own_part(vehicle, ticket);
    sum.front_kg += own.front_kg;
    sum.rear_kg += own.rear_kg;
  }
  const double front = sum.front_kg / (sum.front_kg + sum.rear_kg);
  return EmptyAxles{.front_kg = front * vehicle.empty_kg,
                    .rear_kg = (1 - front) * vehicle.empty_kg};
}

std::vector<Diagnostic> mass_problems(const plan::Plan& plan) {
  std::vector<Diagnostic> out;
  for (const Vehicle& vehicle : plan.vehicles) {
    check_complete(vehicle, out);
    if (!vehicle.chassis.wheelbase_m) {
      check_sums(vehicle, out);
      continue;
    }
    check_tickets(vehicle, out);
    check_limits(vehicle, out);
    check_ball(vehicle, out);
  }
  return out;
}

}  // namespace drystage::engine
