#include "report/card/rules.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>

#include "answers/onward/return_way.h"
#include "plan/commodity.h"
#include "report/card/evening_figures.h"
#include "report/needs/words.h"
#include "report/text/amounts.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

constexpr double noticeable = 1e-3;

double trip_hour(int day, double hour) { return day_h * day + hour; }

class LeaveRules {
 public:
  LeaveRules(const CardAnswer& answer, units::System system)
      : answer_(answer), planned_(answer.needs.planned), system_(system) {}

  [[nodiscard]] std::vector<LeaveRule> list() {
    set_out();
    struct Place {
      std::string amounts{};
      std::string beyond{};   ///< more than can be held
      std::string endless{};  ///< of what no amount is enough
      std::string unless{};
    };
    std::map<std::tuple<int, double, int>, Place> places;  // by day, hour and place
    for (const answers::Leaving& leaving : answer_.leavings) {
      const std::string unless = leaned_on(leaving);
      const bool alone = leaving.must_have > leaving.has + noticeable && !unless.empty();
      if (!rises(leaving) && !alone) continue;
      Place& place = places[{leaving.leaves.day, leaving.leaves.hour, leaving.place}];
      std::string& list = !std::isfinite(leaving.must_have) ? place.endless
                          : leaving.fits                    ? place.amounts
                                                            : place.beyond;
      units::add_to(list, amount_words(leaving));
      if (alone) units::add_to(place.unless, unless, " and ");
    }
    for (const auto& [key, place] : places) {
      const auto& [day, hour, index] = key;
      // With the hour: the row below has the figure of midnight, which is another.
      const std::string from = name_in(planned_.plan.places, index) + ", " + clock(hour) + ",";
      const bool enough_can_be_held = place.beyond.empty() && place.endless.empty();
      std::string headline;
      if (!place.amounts.empty()) {
        headline = fmt::format("LEAVE {} WITH AT LEAST {}. ", from, place.amounts);
      }
      if (!place.beyond.empty()) {
        headline +=
            fmt::format("From {} YOU CANNOT CARRY ENOUGH: it takes {}. ", from, place.beyond);
      }
      if (!place.endless.empty()) {
        headline += fmt::format("From {} NO AMOUNT IS ENOUGH to go on as planned: {}. ", from,
                                place.endless);
      }
      if (!place.unless.empty()) {
        headline += fmt::format("{}DO NOT LEAVE UNLESS {} IS CONFIRMED. ",
                                enough_can_be_held ? "With less " : "", place.unless);
      }
      headline.pop_back();
      rules_.push_back({.day = day, .hour = hour, .headline = std::move(headline)});
    }
    return std::move(rules_);
  }

 private:
  /// Where a trip begins with less than it must, for want of a supply that is not confirmed, and no
  /// place on the way before it has more.
  void set_out() {
    std::string unless;
    for (const std::size_t i : life_supporting(answer_.needs)) {
      const int reserve = answer_.needs.needs.reserves[i];
      const answers::Need& need = answer_.needs.needs.need(0, i);
      if (!need.lacks()) continue;
      const auto first = std::ranges::find(answer_.leavings, reserve, &answers::Leaving::reserve);
      const double end = first == answer_.leavings.end()
                             ? trip_hour(need.until_day, need.until_h)
                             : trip_hour(first->leaves.day, first->leaves.hour);
      const std::string names = unconfirmed(reserve, 0, end);
      if (!names.empty()) units::add_to(unless, names, " and ");
    }
    if (unless.empty()) return;
    rules_.push_back({.headline = fmt::format("DO NOT SET OUT UNLESS {} IS CONFIRMED.", unless)});
  }

  /// Whether more must be on board than had to be on the evening before the place was reached.
  [[nodiscard]] bool rises(const answers::Leaving& leaving) const {
    const std::optional<std::size_t> i = need_of(answer_.needs.needs, leaving.reserve);
    if (!i) return false;
    const answers::Need& before = answer_.needs.needs.need(at(leaving.arrives_day), *i);
    return leaving.must_have > before.must_have + noticeable;
  }

  /// The supplies of a reserve that nobody has confirmed, between two hours of the trip.
  [[nodiscard]] std::string unconfirmed(int reserve, double from_h, double to_h) const {
    std::vector<std::string> names;
    for (const engine::OrderInfo& order : planned_.course.orders) {
      const double at = trip_hour(order.day, order.hour);
      if (order.reserve != reserve || order.supply.confirmed || !order.open) continue;
      if (at < from_h || at > to_h) continue;
      names.push_back(order_words(planned_.plan, order));
    }
    return units::listed(units::each_once(std::move(names)), {}, " and ");
  }

  /// The same from a place on, up to the next from which the reserve is had for sure.
  [[nodiscard]] std::string leaned_on(const answers::Leaving& leaving) const {
    const double from = trip_hour(leaving.leaves.day, leaving.leaves.hour);
    double to = day_h * static_cast<double>(planned_.record.days());
    for (const answers::Leaving& other : answer_.leavings) {
      const double at = trip_hour(other.leaves.day, other.leaves.hour);
      if (other.reserve == leaving.reserve && at > from) to = std::min(to, at);
    }
    return unconfirmed(leaving.reserve, from, to);
  }

  /// "81 L of petrol (lead wagon)".
  [[nodiscard]] std::string amount_words(const answers::Leaving& leaving) const {
    const auto& info = reserve_of(planned_, leaving.reserve);
    std::string what = reserve_words(info);
    if (info.vehicle && info.commodity) {
      const auto& vehicle = planned_.plan.vehicles[at(*info.vehicle)];
      what = fmt::format("{} ({})", plan::words(planned_.plan, *info.commodity), vehicle.name);
    }
    if (!std::isfinite(leaving.must_have)) return what;
    return fmt::format("{} of {}", amount_toward(info, leaving.must_have, system_, Toward::up),
                       what);
  }

  const CardAnswer& answer_;
  const answers::PlanRun& planned_;
  units::System system_;
  std::vector<LeaveRule> rules_{};
};

double trip_hour(const answers::Moment& moment) { return day_h * moment.day + moment.hour; }

/// When the first supply is left to which what life depends on could send the party back.
std::optional<answers::Moment> first_leaves(const NeedsAnswer& answer) {
  std::optional<answers::Moment> first;
  for (const answers::SupplyStretch& stretch : answer.turn_back.stretches) {
    if (!reserve_of(answer.planned, stretch.reserve).life_supporting) continue;
    if (!first || trip_hour(stretch.leaves) < trip_hour(*first)) first = stretch.leaves;
  }
  return first;
}

class TurnBackRules {
 public:
  TurnBackRules(const NeedsAnswer& answer, units::System system)
      : answer_(answer), system_(system) {}

  [[nodiscard]] std::vector<TurnBackRule> list() {
    const std::optional<answers::Moment> leaves = first_leaves(answer_);
    if (!leaves) return {};
    const std::vector<answers::Window> windows = told_windows(answer_, true);
    if (windows.empty()) {
      add_never(*leaves);
    } else if (trip_hour(windows.front().from) > trip_hour(*leaves) + minute_h) {
      add_not_at_first(*leaves, windows.front().from);
    }
    for (std::size_t w = 0; w < windows.size(); ++w) {
      const bool next = w + 1 < windows.size();
      if (windows[w].decides >= 0 || next) add_end(windows[w], next ? &windows[w + 1] : nullptr);
      if (next && windows[w + 1].from.day != windows[w].last.day) add_opens(windows[w + 1].from);
    }
    return std::move(rules_);
  }

 private:
  [[nodiscard]] std::string when_where(const answers::Moment& moment, Toward toward) const {
    return moment_words(answer_.planned, moment, toward, system_);
  }

  void add_never(const answers::Moment& leaves) {
    rules_.push_back(
        {.day = leaves.day,
         .hour = leaves.hour,
         .headline = "NO WAY BACK AT ANY TIME, from " + when_where(leaves, Toward::down) + " on.",
         .words =
             "Some reserve never lasts back to the last supply behind with its margin whole."});
  }

  void add_not_at_first(const answers::Moment& leaves, const answers::Moment& from) {
    rules_.push_back(
        {.day = leaves.day,
         .hour = leaves.hour,
         .headline = "NO WAY BACK AT FIRST, from " + when_where(leaves, Toward::down) + " on.",
         .words = fmt::format(
             "Some reserve does not last back to the last supply behind with its margin whole. "
             "The way back opens on {}.",
             when_where(from, Toward::up))});
    if (from.day != leaves.day) add_opens(from);
  }

  void add_end(const answers::Window& window, const answers::Window* next) {
    const std::string reserve =
        window.decides >= 0 ? reserve_name(window.decides) : std::string("some reserve");
    std::string words = back_words(window) +
                        "After this point they cannot drive back with a safe margin of " + reserve +
                        ".";
    if (next != nullptr) {
      words += fmt::format(" The way back opens again on {}.", when_where(next->from, Toward::up));
    }
    rules_.push_back(
        {.day = window.last.day,
         .hour = window.last.hour,
         .headline = "LAST PLACE TO TURN BACK: " + when_where(window.last, Toward::down) + ".",
         .words = std::move(words)});
  }

  /// One vehicle need not be named.
  [[nodiscard]] std::string reserve_name(int reserve) const {
    const engine::ReserveInfo& info = reserve_of(answer_.planned, reserve);
    const bool of_the_vehicle =
        info.id.family == engine::Family::fuel && answer_.planned.plan.vehicles.size() == 1;
    return of_the_vehicle ? "fuel" : reserve_words(info);
  }

  /// How far it is back, and where to: "To Marrabel it is 461 km by the way you came. "
  [[nodiscard]] std::string back_words(const answers::Window& window) const {
    if (window.decides < 0) return {};
    for (const answers::SupplyStretch& stretch : answer_.turn_back.stretches) {
      if (stretch.reserve != window.decides ||
          trip_hour(window.last) < trip_hour(stretch.leaves) - minute_h ||
          trip_hour(window.last) > trip_hour(stretch.arrives) + minute_h) {
        continue;
      }
      const auto way = answers::return_way(answer_.planned, stretch, window.last);
      if (!way) continue;
      return fmt::format(
          "Back to {} it is {} {}. ", name_in(answer_.planned.plan.places, way->place),
          rounded_words(way->distance_km, units::Kind::distance, system_, 0, Toward::up),
          way->as_it_came ? "by the way you came"
          : way->by_road  ? "by the shortest way, over a road that the trip does not take"
                          : "by the shortest way, that of a road given as the way back");
    }
    return {};
  }

  void add_opens(const answers::Moment& from) {
    rules_.push_back(
        {.day = from.day,
         .hour = from.hour,
         .opens = true,
         .headline = "THE WAY BACK IS OPEN from " + when_where(from, Toward::up) + " on.",
         .words = {}});
  }

  const NeedsAnswer& answer_;
  units::System system_;
  std::vector<TurnBackRule> rules_{};
};

}  // namespace

std::vector<LeaveRule> leave_rules(const CardAnswer& answer, units::System system) {
  return LeaveRules(answer, system).list();
}

std::string below_must_words(const CardAnswer& answer) {
  const NeedsAnswer& needs = answer.needs;
  std::string names;
  for (const std::size_t i : life_supporting(needs)) {
    const auto reserve = at(needs.needs.reserves[i]);
    if (needs.planned.verdict.reserves[reserve].first_breach_day) continue;
    std::optional<std::size_t> first;
    std::size_t last = 0;
    for (std::size_t day = 0; day < needs.planned.record.days(); ++day) {
      if (!needs.needs.need(day, i).lacks()) continue;
      if (!first) first = day;
      last = day;
    }
    if (!first) continue;
    units::add_to(names, reserve_words(needs.planned.course.reserves[reserve]), "; ");
    const auto evening = [](std::size_t number) {
      return number == 0 ? std::string("before setting out") : fmt::format("day {}", number);
    };
    names += *first == last ? fmt::format(" ({})", evening(*first))
                            : fmt::format(" ({} to {})", evening(*first), evening(last));
  }
  if (names.empty()) return {};
  return "If it is not there, you carry too little: " + names +
         ". Do not pass the bar that says so unless it is confirmed. Confirmed? Draw this card "
         "again.";
}

std::vector<TurnBackRule> turn_back_rules(const NeedsAnswer& answer, units::System system) {
  return TurnBackRules(answer, system).list();
}

std::string turn_back_words(const NeedsAnswer& answer) {
  if (answer.planned.course.timeline->legs.empty()) {
    return "Nothing is driven, so there is nowhere to turn back from.";
  }
  const std::string unsure = without_sure_supply(answer, true);
  if (!first_leaves(answer)) {
    return "There is no supply to turn back to that is sure: " + unsure + ".";
  }
  std::string words;
  const std::vector<answers::Window> windows = told_windows(answer, true);
  if (windows.size() == 1 && windows.front().decides < 0 &&
      trip_hour(windows.front().from) <= trip_hour(*first_leaves(answer)) + minute_h) {
    words =
        "Turning back to the last supplies behind is possible all the way, with the margins "
        "whole.";
  }
  if (!unsure.empty()) {
    words += std::string(words.empty() ? "" : " ") +
             "For turning back no supply behind is sure, and nothing was counted, of " + unsure +
             ".";
  }
  return words;
}

}  // namespace drystage::report
