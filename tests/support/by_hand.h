#pragma once

#include <optional>
#include <vector>

// A trip of vehicles and one water can, worked out as one would on paper: a list of what happens,
// each with its hour, and what is used between two of them by rule of three. Nothing of the engine
// is in it. All roads are alike, all days are alike, and every leg takes whole hours.

namespace drystage::support::by_hand {

inline constexpr double hours_a_day = 24;

/// What a place has of one thing.
struct Shop {
  std::optional<double> most{};  ///< in one visit
  unsigned open = 0x7f;          ///< weekdays, bit 0 a Monday
  bool confirmed = true;
};

struct Place {
  std::optional<Shop> diesel{};
  std::optional<Shop> water{};
};

enum class How { fill, amount, to_next };

/// One thing taken on at a stop.
struct Order {
  bool diesel = false;
  int vehicle = -1;  ///< -1: for all of them together
  How how = How::fill;
  double amount_l = 0;
};

/// A leg to a place, nights, or a stop: one of them.
struct Item {
  int drive_to = -1;
  int hours = 0;
  int nights = 0;
  std::vector<Order> orders{};
};

/// What can run out: a vehicle's fuel, or the water.
struct Stock {
  double holds_l = 0;
  double filled_l = 0;
  double uses = 0;      ///< litres for each hour: on the road, or of all
  double margin_l = 0;  ///< what is to be left
};

/// It begins on a Monday, sets out at eight, and drives ten hours a day at 50 km/h.
struct Plan {
  std::vector<Stock> vehicles{};
  Stock water{};
  std::vector<Place> places{};
  std::vector<Item> items{};
};

/// A stock on a day: water is the last of the stocks.
struct Day {
  double end_l = 0;
  double short_l = 0;
  double slack_l = 0;  ///< the least, before stops and at midnight
  double must_l = 0;   ///< in the morning
  double has_l = 0;    ///< in the morning
};

/// By day, by stock.
std::vector<std::vector<Day>> work_out(const Plan& plan);

}  // namespace drystage::support::by_hand
