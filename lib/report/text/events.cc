#include "report/text/events.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "engine/opening.h"
#include "engine/weather_warnings.h"
#include "models/altitude.h"
#include "plan/commodity.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using engine::Event;
using engine::EventKind;

std::string litres(double volume_l, units::System system) {
  return units::format(volume_l, units::Kind::volume, system,
                       units::decimals(volume_l < 10 ? 1 : 0));
}

std::string plural(double count, const char* one, const char* many) {
  return fmt::format("{} {}", units::format_number(count, units::decimals(count < 10 ? 1 : 0)),
                     std::abs(count - 1) < 0.05 ? one : many);
}

/// Lines of events on one screen.
constexpr std::ptrdiff_t most_lines = 8;

bool is_more_of(const ToldEvent& told, const Event& event) {
  if (told.first.kind != event.kind || told.first.subject != event.subject) return false;
  const Repeats repeats = traits_of(event.kind).repeats;
  if (repeats == Repeats::in_a_day) return told.first.day == event.day;
  return repeats == Repeats::by_day && event.day - told.last_day <= 1;
}

std::vector<ToldEvent> gathered(const std::vector<Event>& events) {
  std::vector<ToldEvent> out;
  for (const Event& event : events) {
    const auto same =
        std::ranges::find_if(out, [&](const ToldEvent& told) { return is_more_of(told, event); });
    if (same == out.end()) {
      out.push_back({.first = event, .last_day = event.day});
      continue;
    }
    ++same->times;
    same->last_day = event.day;
    // Of a cold spell, the coldest; of a hot one, the most that is needed.
    const bool worse = event.kind == EventKind::frost ? event.amount < same->first.amount
                                                      : event.amount > same->first.amount;
    if (!worse) continue;
    same->first.amount = event.amount;
    same->first.other = event.other;
  }
  return out;
}

std::string things_words(const plan::Plan& plan, const plan::Things& things) {
  std::string out;
  for (const int vehicle : things.vehicles) units::add_to(out, name_in(plan.vehicles, vehicle));
  for (const int vehicle : things.trailers) {
    const bool alone = std::ranges::count_if(plan.vehicles, [](const plan::Vehicle& one) {
                         return one.trailer.has_value();
                       }) == 1;
    units::add_to(out,
                  alone ? std::string("trailer") : "trailer of " + name_in(plan.vehicles, vehicle));
  }
  for (const int container : things.containers) {
    units::add_to(out, name_in(plan.water.containers, container));
  }
  for (const plan::TankReference& tank : things.tanks) {
    units::add_to(out, name_in(plan.vehicles[at(tank.vehicle)].tanks, tank.tank));
  }
  for (const plan::ConsumableStoreReference& store : things.stores) {
    units::add_to(out, name_in(plan.consumables[at(store.consumable)].stores, store.store));
  }
  return out;
}

/// An amount of what is in a consumable's store, with what it is: "12 doses of insulin".
std::string store_amount_words(const plan::Plan& plan, const engine::StoreInfo& store,
                               double amount, units::System system) {
  const std::string much =
      store.kind ? units::format(amount, *store.kind, system, units::decimals(amount < 10 ? 1 : 0))
                 : plural(amount, store.unit.c_str(), store.unit.c_str());
  return much + " of " + plan.consumables[at(store.of)].name;
}

std::string again(const answers::PlanRun& planned, const ToldEvent& told) {
  if (told.times == 1) return {};
  if (told.last_day == told.first.day) return fmt::format(". {} times that day", told.times);
  const auto& day = planned.course.timeline->days[at(told.last_day)];
  return ". Every day until " + short_date(day.schedule.date);
}

}  // namespace

std::string next_open(const plan::Supply& supply, plan::Date day) {
  constexpr int month = 31;
  for (int later = 1; later <= month; ++later) {
    const plan::Date date = day + boost::gregorian::days(later);
    if (engine::is_open(supply, date)) return ", next open " + short_date(date);
  }
  return {};
}

std::string taken_words(const plan::Plan& plan, const engine::OrderInfo& order, double taken,
                        units::System system) {
  const plan::Measure measure = plan::measure_of(plan, order.order.commodity);
  if (measure.kind == units::Kind::volume) return litres(taken, system);
  if (measure.kind == units::Kind::meals) return plural(taken, "meal", "meals");
  if (measure.kind) return units::format(taken, *measure.kind, system, units::decimals(1));
  return plural(taken, measure.unit.c_str(), measure.unit.c_str());
}

std::string event_words(const plan::Plan& plan, const engine::CourseBase& course,
                        const engine::Event& event, units::System system) {
  const auto order = [&]() -> const engine::OrderInfo& { return course.orders[at(event.subject)]; };
  const auto reserve = [&]() -> const engine::ReserveInfo& {
    return course.reserves[at(event.subject)];
  };
  const auto store = [&] { return name_in(course.stores, event.subject); };
  const auto person = [&] { return name_in(plan.people, event.subject); };
  const auto load = [&] { return name_in(plan.power.loads, event.subject); };
  const auto bank = [&] { return name_in(plan.power.banks, event.subject); };
  const auto in = [&](double amount, units::Kind kind) {
    return units::format(amount, kind, system, units::decimals(0));
  };
  const auto height = [&](double elevation_m) { return in(elevation_m, units::Kind::length); };
  const auto meals = [&] { return plural(event.amount, "meal", "meals"); };
  const auto way = [&] { return units::format(event.amount, units::Kind::distance, system); };
  const auto drive_to = [&] {
    const auto& item = plan.itinerary[at(event.subject)];
    return name_in(plan.places, std::get<plan::Drive>(item).to);
  };
  switch (event.kind) {
    case EventKind::shut:
      return order_words(plan, order()) + ": shut" +
             next_open(order().supply, course.timeline->days[at(order().day)].schedule.date);
    case EventKind::unconfirmed:
      return order_words(plan, order()) + ": not confirmed, and the plan counts on it";
    case EventKind::camp_dusk:
      return fmt::format("camp in the bush: dusk, {} to go to {}", way(), drive_to());
    case EventKind::camp_hours:
      return fmt::format("camp in the bush: driving hours used up, {} to go to {}", way(),
                         drive_to());
    case EventKind::waits:
      return fmt::format("no light or hours left to set out for {}: waits for another day",
                         drive_to());
    case EventKind::vehicle_joins:
      return fmt::format("{} joins", name_in(plan.vehicles, event.subject));
    case EventKind::vehicle_leaves:
      return fmt::format("{} goes home", name_in(plan.vehicles, event.subject));
    case EventKind::person_joins:
      return fmt::format("{} joins", person());
    case EventKind::person_leaves:
      return fmt::format("{} goes home", person());
    case EventKind::left_behind:
    case EventKind::picked_up: {
      const auto& leaves = std::get<plan::Drive>(plan.itinerary[at(event.subject)]).leaves;
      return fmt::format(
          "{} at {}: {}", event.kind == EventKind::left_behind ? "left" : "picked up",
          name_in(plan.places, static_cast<int>(event.other)), things_words(plan, leaves));
    }
    case EventKind::heat_ceiling:
      return fmt::format(
          "{} needs {} to drink: above the {} a day that published guidance allows. "
          "Plan less work or more shade",
          person(), litres(event.amount, system), litres(event.other, system));
    case EventKind::observed_low:
      return fmt::format(
          "{} is planned {}, as observed. The model asks {}: far less than most people need in "
          "this weather",
          person(), litres(event.amount, system), litres(event.other, system));
    case EventKind::hot_wind:
      return fmt::format(
          "wind of {} hotter than skin: it heats you. The sweat model is not proven for it. Rest "
          "out of the wind, keep the skin covered",
          in(event.amount, units::Kind::wind));
    case EventKind::altitude:
      return fmt::format(
          "night at {}, the first so high: altitude illness is possible. Easy days at first. Go "
          "down if anyone gets worse",
          height(event.amount));
    case EventKind::fast_ascent:
      return fmt::format(
          "night at {}, {} above the last. Altitude illness can kill. Above {} climb no more than "
          "{} a night. Go down if anyone gets worse",
          height(event.amount), height(event.other), height(models::slow_ascent_above_m),
          height(models::most_ascent_m));
    case EventKind::frost:
      return fmt::format(
          "frost, down to {}. Water freezes in cans and hoses, food may freeze, summer diesel may "
          "turn to wax",
          in(event.amount, units::Kind::temperature));
    case EventKind::not_used_to_heat:
      return fmt::format("{} is not used to such heat. In the first week less work, more rest",
                         person());
    case EventKind::heat_unproven:
      return "hotter than the sweat model is proven for. Take more water, work less";
    case EventKind::refill:
      return plan::is_emptied(plan, order().order.commodity)
                 ? fmt::format("{}: {}", order_words(plan, order()),
                               taken_words(plan, order(), event.amount, system))
                 : fmt::format("took {} of {}", taken_words(plan, order(), event.amount, system),
                               order_words(plan, order()));
    case EventKind::brackish_in:
      return fmt::format(
          "brackish water in {}: do not drink from it until it is emptied and cleaned", store());
    case EventKind::utility_drunk:
      return fmt::format("no drinking water left: drinking the potable utility water of {}",
                         store());
    case EventKind::potable_short:
      return fmt::format(
          "no potable utility water left. {} of brackish water is left, not for drinking",
          litres(event.amount, system));
    case EventKind::only_brackish:
      return fmt::format("drinking water is gone. {} of brackish water is left: do not drink it",
                         litres(event.amount, system));
    case EventKind::short_of:
      return fmt::format("RUNS OUT: {}", reserve_words(reserve()));
    case EventKind::spoiled:
      return fmt::format("{} spoiled: {} lost", store(), meals());
    case EventKind::thrown_away:
      return fmt::format("{} over 4 h above 5 °C (2 h above 32 °C), to be thrown away: {} lost",
                         store(), meals());
    case EventKind::use_now:
      return fmt::format("{} over 2 h above 5 °C (1 h above 32 °C): to be eaten now", store());
    case EventKind::thawed:
      return fmt::format("the frozen goods in {} have thawed", name_in(plan.cold, event.subject));
    case EventKind::shed:
      return fmt::format("{} switched off to spare the battery", load());
    case EventKind::restored:
      return fmt::format("{} switched on again", load());
    case EventKind::charge_refused:
      return fmt::format("{} below 0 °C: takes no charge", bank());
    case EventKind::cut_off:
      return fmt::format("{} at its cut-off: its loads are switched off, but for what must stay on",
                         bank());
    case EventKind::reconnected:
      return fmt::format("{} charged again: switched back on", bank());
    case EventKind::vital_unserved:
      return fmt::format("DANGER: no charge left for {}", load());
    case EventKind::generator_dry:
      return fmt::format("no fuel for {}", name_in(plan.power.chargers, event.subject));
    case EventKind::poured:
      return fmt::format("{} is poured into {}", store(),
                         course.reserves[at(static_cast<int>(event.other))].owner);
    case EventKind::perished: {
      const engine::StoreInfo& lost = course.stores[at(event.subject)];
      return fmt::format("{} too warm or too cold for too long: {} lost", store(),
                         store_amount_words(plan, lost, event.amount, system));
    }
  }
  return {};
}

const EventTraits& traits_of(EventKind kind) {
  using enum EventKind;
  using enum Repeats;
  using enum Weight;
  using enum OnCard;
  static constexpr std::array<EventTraits, 38> kinds{{
      {shut, "shut", never, danger, no},
      {unconfirmed, "unconfirmed", never, told_elsewhere, no},
      {camp_dusk, "camp_dusk", never, change, no},
      {camp_hours, "camp_hours", never, change, no},
      {waits, "waits", by_day, change, no},
      {vehicle_joins, "vehicle_joins", never, change, told},
      {vehicle_leaves, "vehicle_leaves", never, change, told},
      {person_joins, "person_joins", never, change, told},
      {person_leaves, "person_leaves", never, change, told},
      {left_behind, "left_behind", never, change, told},
      {picked_up, "picked_up", never, change, told},
      {heat_ceiling, "heat_ceiling", by_day, danger, told},
      {observed_low, "observed_low", by_day, danger, told},
      {hot_wind, "hot_wind", by_day, danger, told},
      {altitude, "altitude", never, change, told},
      {fast_ascent, "fast_ascent", by_day, danger, told},
      {frost, "frost", by_day, change, told},
      {not_used_to_heat, "not_used_to_heat", by_day, danger, told},
      {heat_unproven, "heat_unproven", by_day, danger, told},
      {refill, "refill", never, told_elsewhere, no},
      {brackish_in, "brackish_in", never, danger, told},
      {utility_drunk, "utility_drunk", never, danger, told},
      {potable_short, "potable_short", by_day, danger, told},
      {only_brackish, "only_brackish", never, danger, grave},
      {short_of, "short_of", never, told_elsewhere, grave},
      {spoiled, "spoiled", never, danger, no},
      {thrown_away, "thrown_away", never, danger, no},
      {use_now, "use_now", never, change, no},
      {thawed, "thawed", never, danger, no},
      {shed, "shed", in_a_day, change, no},
      {restored, "restored", in_a_day, told_elsewhere, no},
      {charge_refused, "charge_refused", by_day, change, told},
      {cut_off, "cut_off", in_a_day, change, no},
      {reconnected, "reconnected", in_a_day, told_elsewhere, no},
      {vital_unserved, "vital_unserved", never, danger, grave},
      {generator_dry, "generator_dry", in_a_day, change, told},
      {poured, "poured", by_day, change, told},
      {perished, "perished", never, danger, grave},
  }};
  static_assert(std::ranges::is_sorted(kinds, {}, &EventTraits::kind) &&
                kinds.back().kind == static_cast<EventKind>(kinds.size() - 1));
  return kinds.at(static_cast<std::size_t>(kind));
}

std::vector<engine::Event> all_events(const answers::PlanRun& planned) {
  std::vector<engine::Event> events = planned.course.timeline->events;
  for (const std::vector<engine::Event>& more :
       {engine::weather_warnings(planned.plan, *planned.course.timeline), planned.course.events,
        planned.record.events}) {
    events.insert(events.end(), more.begin(), more.end());
  }
  std::ranges::stable_sort(events, [](const engine::Event& a, const engine::Event& b) {
    return a.day != b.day ? a.day < b.day : a.hour < b.hour;
  });
  return events;
}

std::vector<ToldEvent> told_events(const answers::PlanRun& planned) {
  return gathered(all_events(planned));
}

std::string told_words(const answers::PlanRun& planned, const ToldEvent& told,
                       units::System system) {
  return event_words(planned.plan, planned.course, told.first, system) + again(planned, told);
}

std::string event_list(const answers::PlanRun& planned, const TextOptions& options,
                       std::ptrdiff_t room, const std::vector<Befell>& befell) {
  std::vector<ToldEvent> all = told_events(planned);
  std::vector<std::string> lines;
  for (const ToldEvent& told : all) {
    const auto& day = planned.course.timeline->days[at(told.first.day)];
    const std::string when =
        fmt::format("  {} {}  ", short_date(day.schedule.date), clock(told.first.hour));
    lines.push_back(wrap_after(when, told_words(planned, told, options.system), page_columns()));
  }
  std::vector<bool> shown(all.size(), options.all);
  std::ptrdiff_t used = 0;
  for (const Weight weight : {Weight::danger, Weight::change}) {
    const std::ptrdiff_t most = weight == Weight::danger ? most_lines : std::min(most_lines, room);
    for (std::size_t i = 0; !options.all && i < all.size(); ++i) {
      const std::ptrdiff_t high = std::ranges::count(lines[i], '\n');
      if (traits_of(all[i].first.kind).weight != weight || used + high > most) continue;
      shown[i] = true;
      used += high;
    }
  }
  std::string text;
  auto next = befell.begin();
  const auto tell_befell_until = [&](int day) {
    for (; next != befell.end() && next->day <= day; ++next) {
      const auto& its = planned.course.timeline->days[at(next->day)];
      text += wrap_after(fmt::format("  {}        ", short_date(its.schedule.date)), next->what,
                         page_columns());
    }
  };
  for (std::size_t i = 0; i < all.size(); ++i) {
    tell_befell_until(all[i].first.day);
    text += shown[i] ? lines[i] : "";
  }
  tell_befell_until(static_cast<int>(planned.record.days()) - 1);
  if (planned.record.events_dropped > 0) {
    text += fmt::format("  and {} more\n", planned.record.events_dropped);
  }
  const std::ptrdiff_t hidden = std::ranges::count(shown, false);
  if (text.empty() && hidden == 0) return {};
  const std::string more = fmt::format("{} more with --all", hidden);
  if (text.empty()) return "No event of note; " + more + ".\n";
  return "Events" + (hidden == 0 ? "" : " (" + more + ")") + "\n" + text;
}

}  // namespace drystage::report
