#include "report/text/event_words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "engine/opening.h"
#include "engine/weather_warnings.h"
#include "models/altitude.h"
#include "plan/commodity.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using engine::EventKind;

std::string litres(double volume_l, units::System system) {
  return units::format(volume_l, units::Kind::volume, system,
                       units::decimals(volume_l < 10 ? 1 : 0));
}

std::string height(double elevation_m, units::System system) {
  return units::format(elevation_m, units::Kind::length, system, units::decimals(0));
}

std::string plural(double count, const char* one, const char* many) {
  return fmt::format("{} {}", units::format_number(count, units::decimals(count < 10 ? 1 : 0)),
                     std::abs(count - 1) < 0.05 ? one : many);
}

/// ", next open Tue 11 May", if it is within a month.
std::string next_open(const engine::CourseBase& course, const engine::OrderInfo& order) {
  constexpr int month = 31;
  const plan::Date day = course.timeline->days[at(order.day)].schedule.date;
  for (int later = 1; later <= month; ++later) {
    const plan::Date date = day + boost::gregorian::days(later);
    if (engine::is_open(order.supply, date)) return ", next open " + short_date(date);
  }
  return {};
}

}  // namespace

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
  const auto way = [&] { return units::format(event.amount, units::Kind::distance, system); };
  const auto drive_to = [&] {
    const auto& item = plan.itinerary[at(event.subject)];
    return name_in(plan.places, std::get<plan::Drive>(item).to);
  };
  switch (event.kind) {
    case EventKind::shut:
      return order_words(plan, order()) + ": shut" + next_open(course, order());
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
    case EventKind::heat_ceiling:
      return fmt::format(
          "{} needs {} to drink: above the {} a day that published guidance allows. "
          "Plan less work or more shade",
          name_in(plan.people, event.subject), litres(event.amount, system),
          litres(event.other, system));
    case EventKind::observed_low:
      return fmt::format(
          "{} is planned {}, as observed. The model asks {}: far less than most people need in "
          "this weather",
          name_in(plan.people, event.subject), litres(event.amount, system),
          litres(event.other, system));
    case EventKind::hot_wind:
      return fmt::format(
          "wind of {} hotter than skin: it heats you. The sweat model is not proven for it. Rest "
          "out of the wind, keep the skin covered",
          units::format(event.amount, units::Kind::wind, system, units::decimals(0)));
    case EventKind::altitude:
      return fmt::format(
          "night at {}, the first so high: altitude illness is possible. Easy days at first. Go "
          "down if anyone gets worse",
          height(event.amount, system));
    case EventKind::fast_ascent:
      return fmt::format(
          "night at {}, {} above the last. Altitude illness can kill. Above {} climb no more than "
          "{} a night. Go down if anyone gets worse",
          height(event.amount, system), height(event.other, system),
          height(models::slow_ascent_above_m, system), height(models::most_ascent_m, system));
    case EventKind::frost:
      return fmt::format(
          "frost, down to {}. Water freezes in cans and hoses, food may freeze, summer diesel may "
          "turn to wax",
          units::format(event.amount, units::Kind::temperature, system, units::decimals(0)));
    case EventKind::not_used_to_heat:
      return fmt::format("{} is not used to such heat. In the first week less work, more rest",
                         name_in(plan.people, event.subject));
    case EventKind::heat_unproven:
      return "hotter than the sweat model is proven for. Take more water, work less";
    case EventKind::refill:
      return fmt::format("took {} of {}", taken_words(plan, order(), event.amount, system),
                         order_words(plan, order()));
    case EventKind::brackish_in:
      return fmt::format(
          "brackish water in {}: do not drink from it until it is emptied and cleaned",
          name_in(course.stores, event.subject));
    case EventKind::utility_drunk:
      return fmt::format("no drinking water left: drinking the potable utility water of {}",
                         name_in(course.stores, event.subject));
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
      return fmt::format("{} spoiled: {} lost", name_in(course.stores, event.subject),
                         plural(event.amount, "meal", "meals"));
    case EventKind::thrown_away:
      return fmt::format("{} over 4 h above 5 °C (2 h above 32 °C), to be thrown away: {} lost",
                         name_in(course.stores, event.subject),
                         plural(event.amount, "meal", "meals"));
    case EventKind::use_now:
      return fmt::format("{} over 2 h above 5 °C (1 h above 32 °C): to be eaten now",
                         name_in(course.stores, event.subject));
    case EventKind::thawed:
      return fmt::format("the frozen goods in {} have thawed", name_in(plan.cold, event.subject));
    case EventKind::shed:
      return fmt::format("{} switched off to spare the battery",
                         name_in(plan.power.loads, event.subject));
    case EventKind::restored:
      return fmt::format("{} switched on again", name_in(plan.power.loads, event.subject));
    case EventKind::charge_refused:
      return fmt::format("{} below 0 °C: takes no charge",
                         name_in(plan.power.banks, event.subject));
    case EventKind::cut_off:
      return fmt::format("{} at its cut-off: its loads are switched off, but for what must stay on",
                         name_in(plan.power.banks, event.subject));
    case EventKind::reconnected:
      return fmt::format("{} charged again: switched back on",
                         name_in(plan.power.banks, event.subject));
    case EventKind::vital_unserved:
      return fmt::format("DANGER: no charge left for {}", name_in(plan.power.loads, event.subject));
    case EventKind::generator_dry:
      return fmt::format("no fuel for {}", name_in(plan.power.chargers, event.subject));
  }
  return {};
}

std::string event_name(engine::EventKind kind) {
  switch (kind) {
    case EventKind::shut:
      return "shut";
    case EventKind::unconfirmed:
      return "unconfirmed";
    case EventKind::camp_dusk:
      return "camp_dusk";
    case EventKind::camp_hours:
      return "camp_hours";
    case EventKind::waits:
      return "waits";
    case EventKind::heat_ceiling:
      return "heat_ceiling";
    case EventKind::observed_low:
      return "observed_low";
    case EventKind::hot_wind:
      return "hot_wind";
    case EventKind::altitude:
      return "altitude";
    case EventKind::fast_ascent:
      return "fast_ascent";
    case EventKind::frost:
      return "frost";
    case EventKind::not_used_to_heat:
      return "not_used_to_heat";
    case EventKind::heat_unproven:
      return "heat_unproven";
    case EventKind::refill:
      return "refill";
    case EventKind::brackish_in:
      return "brackish_in";
    case EventKind::utility_drunk:
      return "utility_drunk";
    case EventKind::potable_short:
      return "potable_short";
    case EventKind::only_brackish:
      return "only_brackish";
    case EventKind::short_of:
      return "short_of";
    case EventKind::spoiled:
      return "spoiled";
    case EventKind::thrown_away:
      return "thrown_away";
    case EventKind::use_now:
      return "use_now";
    case EventKind::thawed:
      return "thawed";
    case EventKind::shed:
      return "shed";
    case EventKind::restored:
      return "restored";
    case EventKind::charge_refused:
      return "charge_refused";
    case EventKind::cut_off:
      return "cut_off";
    case EventKind::reconnected:
      return "reconnected";
    case EventKind::vital_unserved:
      return "vital_unserved";
    case EventKind::generator_dry:
      return "generator_dry";
  }
  return {};
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

}  // namespace drystage::report
