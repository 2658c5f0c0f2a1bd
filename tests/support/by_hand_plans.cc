#include "support/by_hand_plans.h"

#include <fmt/core.h>

#include <array>
#include <cstddef>
#include <optional>
#include <string>

namespace drystage::support::by_hand {
namespace {

constexpr double speed_km_h = 50;
constexpr std::array<const char*, 7> weekdays{"mon", "tue", "wed", "thu", "fri", "sat", "sun"};

std::string name_of(std::size_t n) { return std::string(1, static_cast<char>('a' + n)); }

std::string shop_text(const char* what, const std::optional<Shop>& shop) {
  if (!shop) return {};
  std::string inside;
  const auto add = [&inside](const std::string& text) {
    inside += (inside.empty() ? "" : ", ") + text;
  };
  if (shop->most) add(fmt::format("most: {} L", *shop->most));
  if (!shop->confirmed) add("confirmed: no");
  if (shop->open != 0x7f) {
    std::string days;
    for (std::size_t d = 0; d < weekdays.size(); ++d) {
      if ((shop->open >> d & 1U) != 0)
        days += (days.empty() ? "" : ", ") + std::string(weekdays.at(d));
    }
    add("open: [" + days + "]");
  }
  return fmt::format("{}: {{{}}}", what, inside);
}

std::string order_text(const Order& order) {
  switch (order.how) {
    case How::fill:
      return "fill";
    case How::to_next:
      return "to next";
    case How::amount:
      break;
  }
  return fmt::format("{} L", order.amount_l);
}

std::string stop_text(const Item& item) {
  std::string diesel;
  std::string by_vehicle;
  std::string water;
  for (const Order& order : item.orders) {
    if (!order.diesel) {
      water = "drinking_water: " + order_text(order);
    } else if (order.vehicle < 0) {
      diesel = "diesel: " + order_text(order);
    } else {
      by_vehicle += (by_vehicle.empty() ? "" : ", ") +
                    name_of(static_cast<std::size_t>(order.vehicle)) + ": " + order_text(order);
    }
  }
  if (!by_vehicle.empty()) diesel = "diesel: {" + by_vehicle + "}";
  return "resupply: {" + diesel + (diesel.empty() || water.empty() ? "" : ", ") + water + "}";
}

}  // namespace

PlanText text_of(const Plan& plan) {
  PlanText out;
  out.driving = "{most_per_day: 10 h, daylight_only: no, depart: \"08:00\"}";
  out.people = {PlanText::person("Ada", fmt::format("{} L/day", plan.water.uses * hours_a_day))};
  out.containers = {fmt::format("{{name: can, holds: {} L, filled: {} L, for: drinking}}",
                                plan.water.holds_l, plan.water.filled_l)};
  out.margins = {fmt::format("drinking_water: {} L", plan.water.margin_l)};
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    const Stock& stock = plan.vehicles[v];
    out.vehicles.push_back(fmt::format(
        "{{name: {}, fuel: diesel, mass: {{empty: 2500 kg}}, tanks: [{{name: tank, holds: {} L, "
        "filled: {} L}}], observed: [{{surface: sealed, uses: {} L/100km}}]}}",
        name_of(v), stock.holds_l, stock.filled_l, stock.uses * 100 / speed_km_h));
    out.margins.push_back(fmt::format("\"fuel:{}\": {} L", name_of(v), stock.margin_l));
  }
  out.places.clear();
  for (std::size_t p = 0; p < plan.places.size(); ++p) {
    const std::string diesel = shop_text("diesel", plan.places[p].diesel);
    const std::string water = shop_text("drinking_water", plan.places[p].water);
    const char* comma = diesel.empty() || water.empty() ? "" : ", ";
    out.places.push_back(
        PlanText::place(fmt::format("P{}", p), "air", fmt::format("{}{}{}", diesel, comma, water)));
  }
  out.itinerary = {"{at: P0}"};
  for (const Item& item : plan.items) {
    if (item.nights > 0) out.itinerary.push_back(fmt::format("stay: {{nights: {}}}", item.nights));
    if (!item.orders.empty()) out.itinerary.push_back(stop_text(item));
    if (item.drive_to < 0) continue;
    out.itinerary.push_back(
        fmt::format("drive: {{to: P{}, distance: {} km, surfaces: sealed, speed: {} km/h}}",
                    item.drive_to, item.hours * speed_km_h, speed_km_h));
  }
  return out;
}

Plan random_plan(const std::function<int(int low, int high)>& pick) {
  const auto chance = [&pick](int percent) { return pick(1, 100) <= percent; };
  const auto shop = [&](int most_low, int most_high) {
    std::optional<Shop> out;
    if (chance(30)) return out;
    out.emplace();
    if (chance(60)) out->most = pick(most_low, most_high);
    if (chance(25)) out->open = static_cast<unsigned>(pick(1, 0x7e));
    out->confirmed = !chance(20);
    return out;
  };
  Plan plan;
  for (int v = 0; v < 2; ++v) {
    Stock stock{.holds_l = 100.0 + pick(0, 150)};
    stock.filled_l = pick(20, 100);
    stock.uses = pick(8, 20) * 0.5;
    stock.margin_l = pick(0, 25);
    plan.vehicles.push_back(stock);
  }
  plan.water = {.holds_l = 20.0 + pick(0, 60),
                .filled_l = 0,
                .uses = pick(2, 6) / hours_a_day,
                .margin_l = 1.0 * pick(0, 12)};
  plan.water.filled_l = pick(5, static_cast<int>(plan.water.holds_l));
  const int places = pick(3, 5);
  for (int p = 0; p < places; ++p) {
    Place place;
    place.diesel = shop(10, 120);
    place.water = shop(5, 40);
    plan.places.push_back(place);
  }
  const auto order = [&](bool diesel, int vehicle) {
    Order out{.diesel = diesel, .vehicle = vehicle};
    const int how = pick(0, 2);
    out.how = how == 0 ? How::fill : how == 1 ? How::amount : How::to_next;
    out.amount_l = out.how == How::amount ? pick(5, diesel ? 70 : 25) : 0;
    return out;
  };
  int place = 0;
  const int legs = pick(2, 5);
  for (int n = 0; n <= legs; ++n) {
    Item nights{.nights = chance(50) ? pick(1, 3) : 0};
    const Item stop = [&] {
      Item out;
      const Place& here = plan.places[static_cast<std::size_t>(place)];
      if (here.diesel && chance(75)) {
        if (chance(50)) {
          out.orders.push_back(order(true, -1));
        } else {
          for (int v = 0; v < 2; ++v) {
            if (v == 0 || chance(80)) out.orders.push_back(order(true, v));
          }
        }
      }
      if (here.water && chance(75)) out.orders.push_back(order(false, -1));
      return out;
    }();
    const bool first = chance(50);
    if (first && !stop.orders.empty()) plan.items.push_back(stop);
    if (nights.nights > 0) plan.items.push_back(nights);
    if (!first && !stop.orders.empty()) plan.items.push_back(stop);
    if (n == legs) break;
    int to = pick(0, places - 2);
    if (to >= place) ++to;
    plan.items.push_back({.drive_to = to, .hours = pick(1, 12)});
    place = to;
  }
  return plan;
}

}  // namespace drystage::support::by_hand
