#include "plan/own.h"

#include <algorithm>

#include "units/index.h"

namespace drystage::plan {

int owner_of(const Plan& plan, int vehicle, Stock stock) {
  if (vehicle < 0 || at(vehicle) >= plan.vehicles.size()) return -1;
  const std::vector<Stock>& own = plan.vehicles[at(vehicle)].own;
  return std::ranges::find(own, stock) == own.end() ? -1 : vehicle;
}

std::vector<int> owners(const Plan& plan, Stock stock) {
  std::vector<int> out{-1};
  for (int v = 0; v < static_cast<int>(plan.vehicles.size()); ++v) {
    if (owner_of(plan, v, stock) >= 0) out.push_back(v);
  }
  return out;
}

int common_vehicle(const Plan& plan, Stock stock) {
  for (int v = 0; v < static_cast<int>(plan.vehicles.size()); ++v) {
    if (owner_of(plan, v, stock) < 0) return v;
  }
  return 0;
}

}  // namespace drystage::plan
