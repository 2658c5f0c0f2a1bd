#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "answers/base/laid_trip.h"
#include "drawing/table.h"
#include "engine/route_point.h"
#include "plan/commodity.h"
#include "report/card/evening_figures.h"
#include "report/card/pieces.h"
#include "report/card/rules.h"
#include "report/card/supply_words.h"
#include "report/card/writers.h"
#include "report/needs/words.h"
#include "report/resume/message.h"
#include "report/run/words.h"
#include "report/text/amounts.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Flow;
using drawing::Typesetter;
using engine::Family;
using engine::reserves::Food;
using engine::reserves::Water;

class Home {
 public:
  explicit Home(const Sheet& sheet)
      : flow_(sheet.flow),
        typesetter_(sheet.typesetter),
        answer_(sheet.answer),
        planned_(sheet.planned()),
        plan_(planned_.plan),
        timeline_(*planned_.course.timeline),
        system_(sheet.system),
        width_pt_(sheet.width_pt()) {}

  void write() {
    write_head();
    write_blanks();
    write_people_and_vehicles();
    write_route();
    write_turning_back();
    write_supplies();
    Block last;
    put(last, stacked(sentences(typesetter_, std::string(cautions), width_pt_)), 0, 6);
    flow_.add(std::move(last));
  }

 private:
  void say(const std::string& words) { flow_.add(sentences(typesetter_, words, width_pt_)); }
  void title(const std::string& words) { flow_.add(part_title(typesetter_, words, width_pt_)); }

  [[nodiscard]] std::string name_of(int place) const { return name_in(plan_.places, place); }

  [[nodiscard]] plan::Date date_on(std::size_t day) const {
    return date_of(planned_, static_cast<int>(day));
  }

  void write_head() {
    flow_.add(drawing::paragraph(typesetter_, "To leave at home", title_font, width_pt_));
    flow_.add(drawing::paragraph(typesetter_, plan_.trip.title, part_font, width_pt_));
    flow_.add(drawing::space(2));
    const std::size_t days = planned_.record.days();
    say(fmt::format("{}, from {} to {}. {}", counted(days, "day", "days"), long_date(date_on(0)),
                    long_date(date_on(days - 1)), end_words()));
    flow_.add(drawing::paragraph(
        typesetter_, verdict_words(planned_, answer_.without_unconfirmed, system_, answer_.spells),
        strong_font, width_pt_));
    flow_.add(drawing::space(3));
    if (!planned_.course.readings.empty()) {
      say(reading_words(planned_));
      say("Last word, as a text message: " + message_words(planned_, system_));
    }
    say("Leave this with a person who will raise the alarm. Fill in what is blank before you "
        "leave: "
        "no number to call is printed here.");
  }

  /// When and where the last drive ends by the plan, to the later minute.
  [[nodiscard]] std::string end_words() const {
    const engine::TimeStep* drive = nullptr;
    for (const engine::TimeStep& step : timeline_.steps) {
      if (step.drive >= 0) drive = &step;
    }
    const int place = engine::place_at(timeline_.days.back().schedule.to);
    const std::string where = place >= 0 ? " at " + name_of(place) : std::string();
    if (drive == nullptr) return "By the plan they stay" + where + ".";
    constexpr double minutes_per_hour = 60;
    const double minutes = rounded((drive->from_h + drive->dt_h) * minutes_per_hour, 0, Toward::up);
    return fmt::format("By the plan the last drive ends{} on {}, at {}.", where,
                       long_date(date_on(at(drive->day))), clock(minutes / minutes_per_hour));
  }

  void write_blanks() {
    flow_.add(blank_blocks(typesetter_,
                           {"Expected back (day, hour)", "OVERDUE, raise the alarm (day, hour)",
                            "Whom to call", "Emergency number of the region",
                            "How to reach them (telephone, radio, beacon)", "When they will call"},
                           width_pt_));
    flow_.add(drawing::space(4));
    flow_.add(drawing::paragraph(typesetter_,
                                 "If they are overdue: call at once and read out this page. Do not "
                                 "wait, and do not set out to search.",
                                 strong_font, width_pt_));
  }

  void write_people_and_vehicles() {
    std::string head = counted(plan_.people.size(), "person", "people");
    if (!plan_.vehicles.empty()) {
      head += ", " + counted(plan_.vehicles.size(), "vehicle", "vehicles");
    }
    title(head);
    for (const plan::Person& person : plan_.people) {
      std::string words =
          person.name + ", " + units::format_number(person.age_years, units::decimals(0));
      if (plan_.vehicles.size() > 1) {
        words += ", in " + plan_.vehicles[at(person.vehicle)].name;
      }
      words += along_words(person.along);
      flow_.add(named_blanks(typesetter_, words, {"telephone", "medical"}, width_pt_));
    }
    for (const plan::Vehicle& vehicle : plan_.vehicles) {
      flow_.add(named_blanks(typesetter_, vehicle.name + along_words(vehicle.along),
                             {"plate", "make, colour"}, width_pt_));
    }
    write_vital_loads();
  }

  /// ", joins at Stone Tank, goes home from Cold Well"; "" of who makes the whole trip.
  [[nodiscard]] std::string along_words(const plan::Along& along) const {
    const auto when = [this](const plan::Moment& moment, const char* at_place, const char* on_day) {
      return moment.place >= 0
                 ? fmt::format(", {} {}", at_place, plan_.places[at(moment.place)].name)
             : moment.day >= 0 ? fmt::format(", {} day {}", on_day, moment.day + 1)
                               : std::string();
    };
    return when(along.from, "joins at", "joins on") +
           when(along.until, "goes home from", "goes home after");
  }

  /// What depends on a battery and must not stop, which whoever searches must know.
  void write_vital_loads() {
    std::string words;
    for (const plan::Load& load : plan_.power.loads) {
      if (!load.never_shed) continue;
      units::add_to(words, load.name);
      if (!plan_.power.banks.empty()) {
        words += " (on " + plan_.power.banks[at(load.bank)].name + ")";
      }
    }
    if (words.empty()) return;
    flow_.add(drawing::space(3));
    flow_.add(drawing::paragraph(
        typesetter_, "Must not be without electricity, tell the rescuers: " + words + ".",
        strong_font, width_pt_));
  }

  /// Where a day ends in the bush: how far along the road between two places.
  [[nodiscard]] std::string evening_words(std::size_t day) const {
    const engine::RoutePoint& spot = timeline_.days[day].schedule.to;
    answers::Moment moment{.day = static_cast<int>(day), .hour = 24, .at = spot};
    for (const engine::TimeStep& step : timeline_.steps) {
      if (step.day > static_cast<int>(day)) break;
      if (step.drive < 0) continue;
      const double leg_km = timeline_.legs[at(step.leg)].distance_km;
      moment.done_km = spot.share * leg_km;
      moment.to_go_km = leg_km - moment.done_km;
    }
    return "camp " + where_words(planned_, moment, Toward::down, system_);
  }

  /// How many days a level lasts all of them who stay where a step is.
  static double days_of(double level, double use_per_day) {
    return use_per_day > 0 ? std::max(0.0, level) / use_per_day : engine::without_limit;
  }

  /// The reserves of a family: one, or one more for each vehicle that keeps its own.
  [[nodiscard]] std::vector<std::size_t> all_of(Family family) const {
    std::vector<std::size_t> out;
    for (std::size_t r = 0; r < planned_.course.reserves.size(); ++r) {
      if (planned_.course.reserves[r].id.family == family) out.push_back(r);
    }
    return out;
  }

  /// What is used of drinking water or food in a day of staying where a step is.
  [[nodiscard]] double use_per_day(std::size_t reserve, const engine::TimeStep& step) const {
    const engine::ReserveId id = planned_.course.reserves[reserve].id;
    for (const auto& pool : std::get<Water::Compiled>(planned_.course.families).pools) {
      if (pool.drinking != static_cast<int>(reserve)) continue;
      return pool.needs.empty() ? timeline_.conditions.place_days[at(step.place_day)].drink_l
                                : pool.needs[step.index].drink_l_day;
    }
    for (const auto& pool : std::get<Food::Compiled>(planned_.course.families).pools) {
      if (pool.owner != id.of) continue;
      return pool.needs.empty() ? timeline_.place_days[at(step.place_day)].meals
                                : pool.needs[step.index].meals_day;
    }
    return 0;
  }

  /// How long what is on board when setting out would last, staying where the trip begins.
  [[nodiscard]] double lasts_at_outset(Family family, const engine::TimeStep& first) const {
    double least = engine::without_limit;
    for (const std::size_t reserve : all_of(family)) {
      const auto i = need_of(answer_.needs.needs, static_cast<int>(reserve));
      if (!i) continue;
      const double has = answer_.needs.needs.need(0, *i).has;
      least = std::min(least, days_of(has, use_per_day(reserve, first)));
    }
    return least;
  }

  /// The least that what is on board at midnight of any of these days would last, staying where
  /// that night is spent.
  [[nodiscard]] double least_at_night(Family family, std::size_t first, std::size_t last) const {
    double least = engine::without_limit;
    for (const std::size_t reserve : all_of(family)) {
      for (std::size_t day = first; day <= last; ++day) {
        const double use = use_per_day(reserve, last_step(day));
        least = std::min(least, days_of(planned_.record.reserve(day, reserve).end, use));
      }
    }
    return least;
  }

  [[nodiscard]] const engine::TimeStep& last_step(std::size_t day) const {
    const std::size_t next = day + 1 < timeline_.days.size()
                                 ? at(timeline_.days[day + 1].first_step)
                                 : timeline_.steps.size();
    return timeline_.steps[next - 1];
  }

  void write_route() {
    title("Route, and how long drinking water and food last");
    say("How many days their drinking water and food would last if they stayed there.");
    const std::string km(units::display(units::Kind::distance, system_).unit);
    drawing::Table table(typesetter_, width_pt_,
                         {{.heading = "Day"},
                          {.heading = "Date"},
                          {.heading = "To, for the night"},
                          {.heading = km, .align = drawing::Align::right},
                          {.heading = "Drinking water, days", .align = drawing::Align::right},
                          {.heading = "Food, days", .align = drawing::Align::right}},
                         body_font);
    const engine::TimeStep& first = timeline_.steps[answers::morning_step(timeline_, 0)];
    const std::size_t first_day = first_evening(planned_);
    if (first_day == 0) {
      table.add({"", "setting out", place_words(engine::place_at(timeline_.days[0].schedule.from)),
                 "", lasting_words(lasts_at_outset(Family::drinking_water, first)),
                 lasting_words(lasts_at_outset(Family::food, first))});
    }
    const std::size_t days = planned_.record.days();
    for (std::size_t day = first_day == 0 ? 0 : first_day - 1; day < days;) {
      std::size_t last = day;
      while (!drives_on(day) && last + 1 < days && !drives_on(last + 1)) ++last;
      const double distance = units::display(units::Kind::distance, system_)
                                  .number(timeline_.days[day].schedule.distance_km);
      table.add({day == last ? fmt::format("{}", day + 1) : fmt::format("{}-{}", day + 1, last + 1),
                 day == last ? short_date(date_on(day))
                             : short_date(date_on(day)) + " to " + short_date(date_on(last)),
                 drives_on(day) ? way_words(day) : "stays there",
                 drives_on(day) ? units::format_number(distance, units::decimals(0)) : "",
                 lasting_words(least_at_night(Family::drinking_water, day, last)),
                 lasting_words(least_at_night(Family::food, day, last))});
      day = last + 1;
    }
    flow_.repeat(table.heading());
    flow_.add(table.rows());
    flow_.repeat_nothing();
    for (const engine::ReserveInfo& info : planned_.course.reserves) {
      const bool told = info.id.family == Family::consumable && info.life_supporting;
      if (!told || first_day > 0) continue;
      say(lasting_consumable_words(info, first.place_day));
    }
  }

  /// How long what life depends on besides would last from the outset, staying there.
  [[nodiscard]] std::string lasting_consumable_words(const engine::ReserveInfo& info,
                                                     int place_day) const {
    const auto& stocks =
        std::get<engine::reserves::Consumables::Compiled>(planned_.course.families).stocks;
    const double per_day =
        engine::reserves::per_day(stocks[at(info.id.of)], timeline_.place_days[at(place_day)],
                                  timeline_.conditions.place_days[at(place_day)], {});
    const auto i = need_of(answer_.needs.needs, engine::find_reserve(planned_.course, info.id));
    const double has = answer_.needs.needs.need(0, i.value()).has;
    const std::string name = capital(reserve_words(info));
    const std::string amount = amount_toward(info, has, system_, Toward::down);
    if (per_day <= 0) return fmt::format("{}: {} when setting out.", name, amount);
    return fmt::format("{}: {} when setting out, enough for {} days.", name, amount,
                       lasting_words(days_of(has, per_day)));
  }

  [[nodiscard]] bool drives_on(std::size_t day) const {
    return timeline_.days[day].schedule.distance_km > 0;
  }

  /// A place, with its position where it has not been told yet.
  std::string place_words(int place) {
    if (place < 0) return "the road";
    if (std::ranges::find(told_, place) != told_.end()) return name_of(place);
    told_.push_back(place);
    return name_of(place) + " (" + coordinate_words(plan_.places[at(place)]) + ")";
  }

  /// Where a day's drive leads: the places it goes through, and where it ends.
  std::string way_words(std::size_t day) {
    std::vector<std::string> through;
    const engine::TimeStep* before = nullptr;
    for (const engine::TimeStep& step : timeline_.steps) {
      if (step.day > static_cast<int>(day)) break;
      if (step.drive < 0) continue;
      const bool new_leg = before != nullptr && before->leg != step.leg;
      if (new_leg && before->day == static_cast<int>(day) && step.day == before->day) {
        through.push_back(place_words(timeline_.legs[at(step.leg)].from));
      }
      before = &step;
    }
    std::string text;
    for (const std::string& place : through) text += "by " + place + ", ";
    const int place = engine::place_at(timeline_.days[day].schedule.to);
    return text +
           (place >= 0 ? (text.empty() ? "" : "to ") + place_words(place) : evening_words(day));
  }

  void write_turning_back() {
    title("Turning back");
    const std::string all = turn_back_words(answer_.needs);
    if (!all.empty()) say(all);
    for (const TurnBackRule& rule : turn_back_rules(answer_.needs, system_)) {
      flow_.add(item(typesetter_, "-", rule.headline + (rule.words.empty() ? "" : " " + rule.words),
                     width_pt_));
    }
  }

  /// A stop's orders in one line: where, what, and what is not sure of it. What is shut that day is
  /// no stocking up; empty where all is.
  [[nodiscard]] std::string stop_words(std::size_t first, std::size_t end) const {
    std::string what;
    std::string unsure;
    for (std::size_t o = first; o < end; ++o) {
      const engine::OrderInfo& order = planned_.course.orders[o];
      if (!order.open) continue;
      const std::string words = ordered_words(plan_, order);
      units::add_to(what, words);
      if (!order.supply.confirmed) unsure += "; " + words + " NOT CONFIRMED";
    }
    if (what.empty()) return {};
    const engine::OrderInfo& stop = planned_.course.orders[first];
    return fmt::format("Day {}, {}, {}: {}{}.", stop.day + 1, short_date(date_on(at(stop.day))),
                       name_of(stop.place), what, unsure);
  }

  void write_supplies() {
    title("Where they mean to stock up");
    std::vector<std::string> stops;
    const auto& orders = planned_.course.orders;
    for (std::size_t first = 0; first < orders.size();) {
      std::size_t end = first + 1;
      while (end < orders.size() && orders[end].item == orders[first].item) ++end;
      std::string words = stop_words(first, end);
      if (!words.empty()) stops.push_back(std::move(words));
      first = end;
    }
    if (stops.empty()) stops.emplace_back("Nowhere by the plan.");
    for (std::size_t i = 0; i < stops.size(); ++i) {
      std::vector<Block> blocks = item(typesetter_, "-", stops[i], width_pt_);
      // With the cautions, which come next: never a line or two on a page by themselves.
      constexpr std::size_t few = 10;
      if (stops.size() <= few || i + 1 == stops.size()) blocks = with_next(std::move(blocks));
      flow_.add(std::move(blocks));
    }
  }

  Flow& flow_;
  const Typesetter& typesetter_;
  const CardAnswer& answer_;
  const answers::PlanRun& planned_;
  const plan::Plan& plan_;
  const engine::Timeline& timeline_;
  units::System system_;
  double width_pt_;
  std::vector<int> told_{};  ///< places whose position stands on the page
};

}  // namespace

void write_home(const Sheet& sheet) { Home(sheet).write(); }

std::string lasting_words(double days) {
  if (!std::isfinite(days)) return "-";
  const int digits = days < 10 ? 1 : 0;
  return units::format_number(rounded(std::max(0.0, days), digits, Toward::down),
                              units::decimals(digits));
}

}  // namespace drystage::report
