#include "report/text/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "plan/commodity.h"
#include "plan/utf8.h"
#include "report/text/layout.h"
#include "units/index.h"
#include "units/list.h"

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

/// Whether a reserve's amounts are shown in the units of the reader: those of other kinds have one
/// unit everywhere.
bool is_converted(const engine::ReserveInfo& reserve) {
  return reserve.kind == units::Kind::volume || reserve.kind == units::Kind::temperature ||
         reserve.kind == units::Kind::mass;
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
  return is_converted(reserve) ? units::display(*reserve.kind, system).number(level) : level;
}

std::string amount(const engine::ReserveInfo& reserve, double level, units::System system) {
  const double shown = display_number(reserve, level, system);
  const bool small = !reserve.counted && std::abs(shown) < 9.95 && std::abs(shown) >= 0.05;
  return units::format_number(
      shown, units::decimals(small ? std::max(1, reserve.decimals) : reserve.decimals));
}

std::string unit(const engine::ReserveInfo& reserve, units::System system) {
  return is_converted(reserve) ? std::string(units::display(*reserve.kind, system).unit)
                               : reserve.unit;
}

std::string amount_with_unit(const engine::ReserveInfo& reserve, double level,
                             units::System system) {
  return amount(reserve, level, system) + " " + unit(reserve, system);
}

const engine::ReserveInfo& reserve_of(const answers::PlanRun& planned, int reserve) {
  return planned.course.reserves[at(reserve)];
}

std::string vital_words(const plan::Plan& plan) {
  std::vector<std::string> names{"drinking water"};
  const bool burns_fuel = std::ranges::any_of(
      plan.vehicles, [](const plan::Vehicle& vehicle) { return !vehicle.tanks.empty(); });
  if (burns_fuel) names.emplace_back("fuel");
  for (const plan::Consumable& consumable : plan.consumables) {
    if (!consumable.life_supporting) continue;
    names.push_back(consumable.fills ? "room in " + consumable.name : consumable.name);
  }
  return units::listed(names, " or ");
}

std::string family_words(engine::Family family) {
  std::string words(engine::family_name(family));
  std::ranges::replace(words, '_', ' ');
  return words;
}

std::string scale_words(const plan::Plan& plan, const engine::Scale& scale) {
  std::string vehicle = name_words(name_in(plan.vehicles, scale.vehicle));
  const std::string part = name_words(engine::scale_name(plan, scale));
  switch (scale.kind) {
    case engine::ScaleKind::total:
      return vehicle;
    case engine::ScaleKind::combination:
      return vehicle + " with its trailer";
    default:
      return fmt::format("{} of {}", part, vehicle);
  }
}

std::string reserve_words(const engine::ReserveInfo& reserve) {
  const auto owner_says = [&](const char* word) {
    return reserve.owner.find(word) != std::string::npos;
  };
  switch (reserve.id.family) {
    case engine::Family::fuel:
      return "fuel of " + reserve.owner;
    case engine::Family::cold:
      return "cold in " + reserve.owner;
    case engine::Family::battery:
      return owner_says("battery") || owner_says("bank") ? reserve.owner
                                                         : "battery " + reserve.owner;
    case engine::Family::consumable:
      return reserve.fills ? "room in " + reserve.owner : reserve.owner;
    case engine::Family::tyres:
      return "tyre kit of " + reserve.owner;
    case engine::Family::other: {
      std::string words = reserve.name;
      std::ranges::replace(words, '_', ' ');
      return words;
    }
    default:
      return family_words(reserve.id.family) +
             (reserve.owner.empty() ? "" : " of " + reserve.owner);
  }
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

std::string ordered_words(const plan::Plan& plan, const engine::OrderInfo& order) {
  std::string words = plan::words(plan, order.order.commodity);
  if (order.order.vehicle && plan.vehicles.size() > 1) {
    words += " for " + name_in(plan.vehicles, *order.order.vehicle);
  }
  return words;
}

std::string order_words(const plan::Plan& plan, const engine::OrderInfo& order) {
  return ordered_words(plan, order) + " at " + name_in(plan.places, order.place);
}

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

plan::Date date_of(const answers::PlanRun& planned, int day) {
  return planned.plan.trip.start + boost::gregorian::days(day);
}

std::string name_words(std::string_view name) {
  constexpr int longest_name = 60;
  return left(name, std::min(longest_name, plan::columns(name)));
}

void say_of(std::vector<Said>& all, const std::string& name, std::string what) {
  const auto same = std::ranges::find(all, what, &Said::what);
  if (same == all.end()) {
    all.push_back({.what = std::move(what), .names = name});
  } else {
    units::add_to(same->names, name);
  }
}

}  // namespace drystage::report
