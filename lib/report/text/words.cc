#include "report/text/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "plan/commodity.h"
#include "plan/utf8.h"
#include "report/text/layout.h"

namespace drystage::report {
namespace {

using engine::Endurance;

constexpr std::array<const char*, 7> weekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
constexpr std::array<const char*, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                             "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

const char* weekday(plan::Date date) {
  return weekdays.at(static_cast<std::size_t>(date.day_of_week().as_number()));
}

const char* month(plan::Date date) {
  return months.at(static_cast<std::size_t>(date.month().as_number() - 1));
}

int day_number(plan::Date date) { return static_cast<int>(date.day().as_number()); }

int year(plan::Date date) { return static_cast<int>(static_cast<unsigned short>(date.year())); }

/// The kind of quantity a reserve's amounts are, where other units exist for it.
const units::Kind* kind_of(const engine::ReserveInfo& reserve) {
  static constexpr units::Kind volume = units::Kind::volume;
  static constexpr units::Kind temperature = units::Kind::temperature;
  static constexpr units::Kind mass = units::Kind::mass;
  if (reserve.unit == "L") return &volume;
  if (reserve.unit == "°C") return &temperature;
  if (reserve.unit == "kg") return &mass;
  return nullptr;
}

template <class List>
const std::string& name_in(const List& list, int index) {
  return list[static_cast<std::size_t>(index)].name;
}

}  // namespace

std::string short_date(plan::Date date) {
  return fmt::format("{} {:02} {}", weekday(date), day_number(date), month(date));
}

std::string long_date(plan::Date date) {
  return fmt::format("{} {}", short_date(date), year(date));
}

std::string iso_date(plan::Date date) {
  return fmt::format("{:04}-{:02}-{:02}", year(date), static_cast<int>(date.month().as_number()),
                     day_number(date));
}

std::string clock(double hour) {
  const int minutes = static_cast<int>(std::lround(hour * 60));
  return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

double display_number(const engine::ReserveInfo& reserve, double level, units::System system) {
  const units::Kind* kind = kind_of(reserve);
  return kind != nullptr ? units::display(*kind, system).number(level) : level;
}

std::string amount(const engine::ReserveInfo& reserve, double level, units::System system) {
  const double shown = display_number(reserve, level, system);
  const bool small = std::abs(shown) < 9.95 && std::abs(shown) >= 0.05;
  return units::format_number(
      shown, units::decimals(small ? std::max(1, reserve.decimals) : reserve.decimals));
}

std::string unit(const engine::ReserveInfo& reserve, units::System system) {
  const units::Kind* kind = kind_of(reserve);
  return kind != nullptr ? std::string(units::display(*kind, system).unit) : reserve.unit;
}

std::string amount_with_unit(const engine::ReserveInfo& reserve, double level,
                             units::System system) {
  return amount(reserve, level, system) + " " + unit(reserve, system);
}

const engine::ReserveInfo& reserve_of(const answers::Trial& trial, int reserve) {
  return trial.course.reserves[static_cast<std::size_t>(reserve)];
}

std::string reserve_words(const engine::ReserveInfo& reserve) {
  std::string words = engine::family(reserve.name);
  std::ranges::replace(words, '_', ' ');
  const std::size_t colon = reserve.name.find(':');
  if (colon == std::string::npos) return words;
  std::string owner = reserve.name.substr(colon + 1);
  if (words == "fuel") return "fuel of " + owner;
  if (words == "cold") return "cold in " + owner;
  const bool says_so =
      owner.find("battery") != std::string::npos || owner.find("bank") != std::string::npos;
  if (words == "battery" && !says_so) return "battery " + owner;
  return owner;
}

std::string endurance(const engine::ReserveInfo& reserve, double value, units::System system) {
  if (!std::isfinite(value)) return "-";
  const bool km = reserve.endurance == Endurance::km;
  const double shown = km ? units::display(units::Kind::distance, system).number(value) : value;
  return units::format_number(shown, units::decimals(shown < 9.95 && !km ? 1 : 0));
}

std::string endurance_unit(const engine::ReserveInfo& reserve, units::System system) {
  switch (reserve.endurance) {
    case Endurance::days:
      return "days";
    case Endurance::km:
      return std::string(units::display(units::Kind::distance, system).unit);
    case Endurance::hours:
      return "h";
  }
  return {};
}

std::string order_words(const plan::Plan& plan, const engine::OrderInfo& order) {
  std::string words(plan::words(order.order.commodity));
  if (order.order.vehicle && plan.vehicles.size() > 1) {
    words += " for " + name_in(plan.vehicles, *order.order.vehicle);
  }
  return words + " at " + name_in(plan.places, order.place);
}

plan::Date date_of(const answers::Trial& trial, int day) {
  return trial.plan.trip.start + boost::gregorian::days(day);
}

std::string name_words(std::string_view name) {
  constexpr int longest_name = 60;
  return left(name, std::min(longest_name, plan::columns(name)));
}

}  // namespace drystage::report
