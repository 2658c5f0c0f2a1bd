#include <fmt/core.h>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

void read_speeds(Log& log, const Node& node, Driving& driving) {
  for (const Entry& entry : map_entries(log, node, "speeds")) {
    const auto surface = read_surface_key(log, entry);
    const auto speed = read_quantity(log, entry.value, "trip.driving.speeds", entry.key);
    if (!surface || !speed) continue;
    driving.speed_km_h[static_cast<std::size_t>(*surface)] = *speed;
  }
}

void read_driving(Log& log, const Node& node, Driving& driving) {
  Fields fields(log, node, "driving");
  driving.most_per_day_h = fields.number("trip.driving.most_per_day");
  driving.daylight_only = fields.yes_no("trip.driving.daylight_only");
  driving.depart_h = fields.clock_h("trip.driving.depart");
  if (const Node* speeds = fields.get("trip.driving.speeds")) read_speeds(log, *speeds, driving);
  fields.finish();
}

}  // namespace

void read_trip(Log& log, const Node& node, Plan& plan) {
  Trip& trip = plan.trip;
  trip.mark = node.origin.mark;
  Fields fields(log, node, "the trip");
  if (const Node* title = fields.get("trip.title")) {
    trip.title = read_text(log, *title, "title").value_or(std::string());
  }
  if (const Node* start = fields.get("trip.start")) {
    if (const auto date = read_date(log, *start, "start")) trip.start = *date;
  }
  if (const Node* zone = fields.get("trip.time_zone")) {
    trip.utc_offset_h = read_utc_offset(log, *zone, "time_zone").value_or(0);
  }
  static const Node nothing;
  const Node* driving = fields.get("trip.driving");
  read_driving(log, driving == nullptr ? nothing : *driving, trip.driving);
  trip.weather = fields.word("trip.weather", spell_words);
  fields.finish();
}

}  // namespace drystage::plan
