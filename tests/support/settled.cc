#include "support/settled.h"

#include <stdexcept>

#include "support/trip.h"

namespace drystage::support {

plan::Plan settled(plan::Plan plan) {
  const Trip trip = travel(plan);
  for (const engine::OrderInfo& info : trip.course.orders) {
    auto& stop = std::get<plan::Resupply>(plan.itinerary[static_cast<std::size_t>(info.item)]);
    for (plan::Order& order : stop.orders) {
      if (order.take != plan::Take::needed || order.commodity != info.order.commodity) continue;
      if (info.shared && plan.vehicles.size() > 1) throw std::runtime_error("which vehicle's?");
      order.take = plan::Take::amount;
      order.amount = info.order.amount;
    }
  }
  return plan;
}

}  // namespace drystage::support
