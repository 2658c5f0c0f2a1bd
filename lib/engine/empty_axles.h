#pragma once

#include <optional>
#include <vector>

#include "plan/diagnostic.h"
#include "plan/plan.h"

namespace drystage::engine {

/// What of a vehicle's empty mass rests on each axle, kg.
struct EmptyAxles {
  double front_kg = 0;
  double rear_kg = 0;
};

/// The axles of the empty vehicle, by what weighbridges said less what was in it then (lever rule):
/// the mean of its tickets, scaled so that both come to its empty mass. Nothing without a wheelbase
/// or a ticket.
std::optional<EmptyAxles> empty_axles(const plan::Vehicle& vehicle);

/// Where a thing lies behind the front axle: its own place, else its bay's, else halfway between
/// the axles. The vehicle must have a wheelbase.
double at_m(const plan::Vehicle& vehicle, const plan::Spot& spot);
/// How far right of the middle: its own, else its bay's, else 0.
double right_m(const plan::Vehicle& vehicle, const plan::Spot& spot);
/// Above the ground: its own, else its bay's, else nothing.
std::optional<double> height_m(const plan::Vehicle& vehicle, const plan::Spot& spot);

/// Errors: tickets of which nothing or less is left for an axle, that do not agree with each other,
/// or not with the empty mass; limits that the empty vehicle passes.
std::vector<plan::Diagnostic> mass_problems(const plan::Plan& plan);

}  // namespace drystage::engine
