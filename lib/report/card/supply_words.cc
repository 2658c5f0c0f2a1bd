#include "report/card/supply_words.h"

#include <fmt/core.h>

#include <array>
#include <boost/date_time/gregorian/gregorian_types.hpp>
#include <cmath>

#include "engine/opening.h"
#include "plan/commodity.h"
#include "report/text/amounts.h"
#include "report/text/events.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using plan::Commodity;

constexpr double nothing = 1e-6;

std::string in_unit(double canonical, units::Kind kind, units::System system) {
  const int digits = units::display(kind, system).number(canonical) < 9.95 ? 1 : 0;
  return rounded_words(canonical, kind, system, digits, Toward::up);
}

/// So much of a commodity, rounded up.
std::string so_much(const plan::Plan& plan, Commodity commodity, double amount,
                    units::System system) {
  const plan::Measure measure = plan::measure_of(plan, commodity);
  if (measure.kind && measure.kind != units::Kind::meals) {
    return in_unit(amount, *measure.kind, system);
  }
  const double whole = rounded(amount, 0, Toward::up);
  const bool one_meal = measure.kind && whole == 1;
  return units::format_number(whole, units::decimals(0)) + " " + (one_meal ? "meal" : measure.unit);
}

/// "Mon to Fri", "Mon, Wed, Fri".
std::string weekday_words(const std::bitset<7>& open) {
  constexpr std::array<const char*, 7> names{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
  std::string out;
  for (std::size_t first = 0; first < names.size();) {
    if (!open.test(first)) {
      ++first;
      continue;
    }
    std::size_t last = first;
    while (last + 1 < names.size() && open.test(last + 1)) ++last;
    units::add_to(out, names.at(first));
    if (last > first) out += (last == first + 1 ? ", " : " to ") + std::string(names.at(last));
    first = last + 1;
  }
  return out;
}

/// "Mon 10 May", "Mon 10 May to Fri 14 May": with the year, or shown to go on, beyond the trip.
std::string range_words(const plan::DateRange& range, plan::Date first, plan::Date last) {
  const auto one = [&](plan::Date date) {
    return date < first || date > last ? long_date(date) : short_date(date);
  };
  return range.from == range.to ? one(range.from) : one(range.from) + " to " + one(range.to);
}

/// The ranges that have a day in common with the trip.
std::string ranges_words(const std::vector<plan::DateRange>& ranges, plan::Date first,
                         plan::Date last) {
  std::string out;
  for (const plan::DateRange& range : ranges) {
    if (range.to < first || range.from > last) continue;
    units::add_to(out, range_words(range, first, last));
  }
  return out;
}

/// How much to take, as the plan has it, with the blank before it.
std::string take_words(const answers::PlanRun& planned, std::size_t o, units::System system) {
  const engine::OrderInfo& order = planned.course.orders[o];
  const Commodity commodity = order.order.commodity;
  if (order.reserve < 0) return " fill up";
  const double taken = planned.record.order_taken[o];
  const std::string amount = so_much(planned.plan, commodity, taken, system);
  const bool emptied = plan::is_emptied(planned.plan, commodity);
  switch (order.order.take) {
    case plan::Take::fill:
      if (emptied) {
        return taken > nothing ? fmt::format(", about {}", amount)
                               : std::string("; by the plan it is empty");
      }
      return taken > nothing ? fmt::format(" fill up, about {}", amount)
                             : std::string(" fill up; by the plan it is full");
    case plan::Take::amount: {
      const std::string asked = so_much(planned.plan, commodity, order.order.amount, system);
      if (order.shared || amount == asked) return " " + amount;
      return fmt::format(" {}; by the plan only {} go in or are there", asked, amount);
    }
    case plan::Take::needed:
      break;
  }
  if (taken <= nothing) return " none needed by the plan";
  const engine::ReserveInfo& info = reserve_of(planned, order.reserve);
  if (info.sense != engine::Sense::keep_above) return " " + amount;
  return fmt::format(" {}, or more until there {} {}", amount, emptied ? "is room for" : "are",
                     amount_toward(info, planned.record.order_left[o], system, Toward::up));
}

bool takes_water(Commodity commodity) {
  return commodity == Commodity::drinking_water || commodity == Commodity::utility_water;
}

/// An hour of the clock to five minutes, where it is but expected.
std::string about(double hour) {
  constexpr double parts_per_hour = 12;
  return "about " + clock(std::round(hour * parts_per_hour) / parts_per_hour);
}

/// Whether something is driven on a day before, and after, a stop.
struct Driven {
  bool before = false;
  bool after = false;
};

Driven driven_round(const engine::Timeline& timeline, const engine::OrderInfo& order) {
  Driven out;
  bool stopped = false;
  for (const engine::TimeStep& step : timeline.steps) {
    if (step.day != order.day) continue;
    stopped = stopped || step.stop == order.item;
    if (step.drive >= 0) (stopped ? out.after : out.before) = true;
  }
  return out;
}

/// When on its day a stop is, and where: "Day 9, 08:30, before leaving Red Tables".
std::string stop_words(const answers::PlanRun& planned, const engine::OrderInfo& order) {
  const std::string& place = name_in(planned.plan.places, order.place);
  if (order.day == 0 && order.hour <= 0) return "At the outset, " + place;
  const std::string day = fmt::format("Day {}, ", order.day + 1);
  const Driven driven = driven_round(*planned.course.timeline, order);
  if (driven.before) {
    return day + about(order.hour) + (driven.after ? ", on the way through " : ", on arrival at ") +
           place;
  }
  return day + clock(order.hour) + (driven.after ? ", before leaving " : ", ") + place;
}

/// What is to be taken of one thing: "diesel for truck 40 L (60 L at most)".
std::string order_line(const answers::PlanRun& planned, std::size_t o, units::System system) {
  const engine::OrderInfo& order = planned.course.orders[o];
  const plan::Date day = planned.course.timeline->days[at(order.day)].schedule.date;
  const Commodity commodity = order.order.commodity;
  std::string words = plan::words(planned.plan, commodity);
  if (order.order.vehicle && planned.plan.vehicles.size() > 1) {
    words += " for " + name_in(planned.plan.vehicles, *order.order.vehicle);
  }
  if (takes_water(commodity) && order.supply.quality == plan::WaterQuality::brackish) {
    words += " (BRACKISH, do not drink)";
  }
  if (!order.open) return words + " SHUT that day, nothing is taken" + next_open(order.supply, day);
  words += take_words(planned, o, system);
  if (order.supply.most) {
    words +=
        fmt::format(" ({} at most)", so_much(planned.plan, commodity, *order.supply.most, system));
  }
  if (order.cleaned && takes_water(commodity)) words += ", wash empty containers first";
  return order.supply.confirmed ? words : words + ", NOT CONFIRMED";
}

}  // namespace

std::string opening_words(const plan::Supply& supply, plan::Date first, plan::Date last) {
  std::string words =
      supply.open_weekdays.all() ? "open every day" : "open " + weekday_words(supply.open_weekdays);
  if (!supply.open_dates.empty()) {
    const std::string ranges = ranges_words(supply.open_dates, first, last);
    words += ranges.empty() ? " of a season outside the trip" : " from " + ranges;
  }
  const std::string shut = ranges_words(supply.shut_dates, first, last);
  if (!shut.empty()) words += ", shut " + shut;
  return words;
}

std::vector<SupplyLine> supply_lines(const answers::PlanRun& planned, std::size_t day,
                                     bool at_outset, units::System system) {
  std::vector<SupplyLine> out;
  int stop = -1;
  for (std::size_t o = 0; o < planned.course.orders.size(); ++o) {
    const engine::OrderInfo& order = planned.course.orders[o];
    const bool outset = order.day == 0 && order.hour <= 0;
    if (at(order.day) != day || outset != at_outset) continue;
    if (out.empty() || order.item != stop) {
      out.push_back({.words = stop_words(planned, order) + ":", .shut = true, .hour = order.hour});
      stop = order.item;
    } else {
      out.back().words += ";";
    }
    SupplyLine& line = out.back();
    line.words += " " + order_line(planned, o, system);
    line.unsure = line.unsure || !order.open || !order.supply.confirmed;
    line.shut = line.shut && !order.open;
  }
  for (SupplyLine& line : out) line.words += ".";
  return out;
}

}  // namespace drystage::report
