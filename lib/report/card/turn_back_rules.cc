#include "report/card/turn_back_rules.h"

#include <fmt/core.h>

#include <algorithm>
#include <optional>

#include "answers/onward/return_way.h"
#include "report/needs/turn_back_list.h"
#include "report/text/moment_words.h"
#include "report/text/rounding.h"
#include "report/text/words.h"
#include "units/day.h"

namespace drystage::report {
namespace {

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

class Rules {
 public:
  Rules(const NeedsAnswer& answer, units::System system) : answer_(answer), system_(system) {}

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
      return fmt::format("Back to {} it is {} {}. ",
                         answer_.planned.plan.places[static_cast<std::size_t>(way->place)].name,
                         distance_words(way->distance_km),
                         way->as_it_came
                             ? "by the way you came"
                             : "by the shortest way, that of a road given as the way back");
    }
    return {};
  }

  [[nodiscard]] std::string distance_words(double distance_km) const {
    const units::Display display = units::display(units::Kind::distance, system_);
    const double number = rounded(display.number(distance_km), 0, Toward::up);
    return fmt::format("{} {}", units::format_number(number, units::decimals(0)), display.unit);
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

std::vector<TurnBackRule> turn_back_rules(const NeedsAnswer& answer, units::System system) {
  return Rules(answer, system).list();
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
