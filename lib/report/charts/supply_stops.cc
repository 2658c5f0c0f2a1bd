#include "report/charts/supply_stops.h"

#include "report/text/event_words.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {

std::vector<SupplyStop> supply_stops(const answers::PlanRun& planned, units::System system) {
  constexpr double least_amount = 0.05;
  std::vector<SupplyStop> out;
  for (const engine::Event& event : all_events(planned)) {
    const bool shut = event.kind == engine::EventKind::shut;
    const bool taken = event.kind == engine::EventKind::refill && event.amount >= least_amount;
    if (!shut && !taken) continue;
    const engine::OrderInfo& order = planned.course.orders[at(event.subject)];
    std::string words = ordered_words(planned.plan, order);
    if (shut) {
      words += ": shut";
    } else {
      words += " " + taken_words(planned.plan, order, event.amount, system);
      if (!order.supply.confirmed) words += " (not confirmed)";
    }
    const double hour = day_h * event.day + event.hour;
    if (out.empty() || out.back().hour != hour) out.push_back({.hour = hour, .words = {}});
    units::add_to(out.back().words, words);
  }
  return out;
}

}  // namespace drystage::report
