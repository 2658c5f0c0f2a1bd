#include "report/card/turn_back_rules.h"

#include <fmt/core.h>

#include <algorithm>
#include <optional>

#include "report/moment_words.h"
#include "report/turn_back_list.h"
#include "report/words.h"

namespace drystage::report {
namespace {

constexpr double day_h = 24;
constexpr double minute_h = 1.0 / 60;

double trip_hour(const answers::Moment& moment) { return day_h * moment.day + moment.hour; }

const engine::ReserveInfo& info_of(const NeedsAnswer& answer, int reserve) {
  return answer.trial.course.reserves[static_cast<std::size_t>(reserve)];
}

/// When the first supply is left to which what life hangs on could send the party back.
std::optional<answers::Moment> first_leaves(const NeedsAnswer& answer) {
  std::optional<answers::Moment> first;
  for (const answers::Stretch& stretch : answer.turn_back.stretches) {
    if (!info_of(answer, stretch.reserve).life_supporting) continue;
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
    const auto& windows = answer_.turn_back.vital;
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
    return moment_words(answer_.trial, moment, toward, system_);
  }

  void add_never(const answers::Moment& leaves) {
    rules_.push_back(
        {.evening = leaves.day,
         .hour = day_h,
         .headline = "NO WAY BACK AT ANY TIME, from " + when_where(leaves, Toward::down) + " on.",
         .words =
             "Some reserve never lasts back to the last supply behind with its margin whole."});
  }

  void add_not_at_first(const answers::Moment& leaves, const answers::Moment& from) {
    rules_.push_back(
        {.evening = leaves.day,
         .hour = day_h,
         .headline = "NO WAY BACK AT FIRST, from " + when_where(leaves, Toward::down) + " on.",
         .words = fmt::format(
             "Some reserve does not last back to the last supply behind with its margin whole. "
             "The way back opens on {}.",
             when_where(from, Toward::up))});
    if (from.day != leaves.day) add_opens(from);
  }

  void add_end(const answers::Window& window, const answers::Window* next) {
    const std::string reserve = window.decides >= 0
                                    ? reserve_words(info_of(answer_, window.decides))
                                    : std::string("some reserve");
    std::string words = "Beyond it " + reserve +
                        " does not last back to the last supply behind with its margin whole. ";
    words += next != nullptr ? fmt::format("The way back opens again on {}.",
                                           when_where(next->from, Toward::up))
                             : std::string("No way back opens again.");
    rules_.push_back(
        {.evening = window.last.day + 1,
         .hour = window.last.hour,
         .headline = "LAST PLACE TO TURN BACK: " + when_where(window.last, Toward::down) + ".",
         .words = std::move(words)});
  }

  void add_opens(const answers::Moment& from) {
    rules_.push_back(
        {.evening = from.day + 1,
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
  if (answer.trial.course.timeline->legs.empty()) {
    return "Nothing is driven, so there is nowhere to turn back from.";
  }
  const std::string unsure = without_sure_supply(answer, true);
  if (!first_leaves(answer)) {
    return "There is no supply to turn back to that is sure: " + unsure + ".";
  }
  std::string words;
  const auto& windows = answer.turn_back.vital;
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
