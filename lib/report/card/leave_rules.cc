#include "report/card/leave_rules.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>

#include "plan/commodity.h"
#include "report/card/evening_figures.h"
#include "report/text/rounding.h"
#include "report/text/words.h"
#include "units/day.h"
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
      const std::string from =
          planned_.plan.places[static_cast<std::size_t>(index)].name + ", " + clock(hour) + ",";
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
    const auto& reserves = answer_.needs.needs.reserves;
    const auto at = std::ranges::find(reserves, leaving.reserve);
    if (at == reserves.end()) return false;
    const answers::Need& before =
        answer_.needs.needs.need(static_cast<std::size_t>(leaving.arrives_day),
                                 static_cast<std::size_t>(at - reserves.begin()));
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
    const auto& info = planned_.course.reserves[static_cast<std::size_t>(leaving.reserve)];
    std::string what = reserve_words(info);
    if (info.vehicle && info.commodity) {
      const auto& vehicle = planned_.plan.vehicles[static_cast<std::size_t>(*info.vehicle)];
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

}  // namespace

std::vector<LeaveRule> leave_rules(const CardAnswer& answer, units::System system) {
  return LeaveRules(answer, system).list();
}

std::string below_must_words(const CardAnswer& answer) {
  const NeedsAnswer& needs = answer.needs;
  std::string names;
  for (const std::size_t i : life_supporting(needs)) {
    const auto reserve = static_cast<std::size_t>(needs.needs.reserves[i]);
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

}  // namespace drystage::report
