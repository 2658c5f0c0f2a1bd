#include <fmt/core.h>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

void read_speeds(Log& log, const Node& node, Driving& driving) {
  for (const Entry& entry : map_entries(log, node, "speeds")) {
    const auto surface = read_surface_key(log, entry);
    const auto speed = read_quantity(log, entry.value, "driving.speeds.*", entry.key);
    if (!surface || !speed) continue;
    driving.speed_km_h[static_cast<std::size_t>(*surface)] = *speed;
  }
}

void read_driving(Log& log, const Node& node, Driving& driving) {
  Fields fields(log, node, "driving");
  driving.most_per_day_h = fields.quantity_or("driving.most_per_day", driving.most_per_day_h);
  driving.daylight_only = fields.yes_no_or("daylight_only", driving.daylight_only);
  if (const Node* depart = fields.get("depart")) {
    driving.depart_h = read_clock(log, *depart, "depart").value_or(driving.depart_h);
  }
  if (const Node* speeds = fields.get("speeds")) read_speeds(log, *speeds, driving);
  fields.finish();
}

}  // namespace

void read_trip(Log& log, const Node& node, Plan& plan) {
  Trip& trip = plan.trip;
  trip.mark = node.spot.mark;
  Fields fields(log, node, "the trip");
  if (const Node* title = fields.need("title", "what the trip is called")) {
    trip.title = read_text(log, *title, "title").value_or(std::string());
  }
  if (const Node* start = fields.need("start", "2027-02-08")) {
    if (const auto date = read_date(log, *start, "start")) trip.start = *date;
  }
  if (const Node* zone = fields.need("time_zone", "\"+01:00\"")) {
    trip.utc_offset_h = read_utc_offset(log, *zone, "time_zone").value_or(0);
  }
  if (const Node* driving = fields.get("driving")) read_driving(log, *driving, trip.driving);
  trip.weather = fields.word_or("weather", trip.weather, spell_words);
  fields.finish();
}

}  // namespace drystage::plan
