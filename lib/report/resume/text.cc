#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <utility>
#include <vector>

#include "answers/onward/return_way.h"
#include "engine/opening.h"
#include "engine/route_point.h"
#include "plan/commodity.h"
#include "report/needs/words.h"
#include "report/resume/message.h"
#include "report/resume/report.h"
#include "report/resume/words.h"
#include "report/run/words.h"
#include "report/text/amounts.h"
#include "report/text/breach_words.h"
#include "report/text/layout.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::Resumed;

/// At which rates of use a verdict was found.
std::string at_rates(const Resumed& resumed) {
  if (resumed.rest.learned.uses.empty()) return {};
  const bool own = resumed.rest.rates == answers::Rates::learned;
  const bool other = resumed.at_plan.holds;
  if (!own) return ", at the plan's rates of use";
  return resumed.rest.verdict.holds == other ? ", at your own rates of use and at the plan's"
                                             : ", at your own rates of use";
}

std::string verdict_line(const ResumeAnswer& answer, units::System system) {
  const Resumed& resumed = answer.resumed;
  const answers::PlanRun& rest = resumed.rest;
  if (rest.verdict.holds) {
    const bool sure = surely_holds(rest, answer.without_unconfirmed);
    const bool own_alone = !resumed.at_plan.holds && rest.rates == answers::Rates::learned;
    if (own_alone) {
      return fmt::format("THE REST HOLDS ONLY IF YOU GO ON USING LESS THAN PLANNED{}.",
                         sure ? "" : ", AND IF EVERY SUPPLY IS THERE");
    }
    return fmt::format("THE REST HOLDS{}{}.", sure ? "" : " IF EVERY SUPPLY IS THERE",
                       at_rates(resumed));
  }
  return fmt::format("THE REST DOES NOT HOLD{}: {}.", at_rates(resumed),
                     breach_words(rest, rest.verdict, rest.verdict.breaches.front(), system));
}

std::string other_rates_line(const Resumed& resumed) {
  if (resumed.rest.rates != answers::Rates::learned) return {};
  if (resumed.rest.verdict.holds || !resumed.at_plan.holds) return {};
  return "At the plan's rates it holds.";
}

std::string now_line(const Resumed& resumed, units::System system) {
  const answers::PlanRun& rest = resumed.rest;
  std::string out = fmt::format("Now: {}.", moment_words(rest, resumed.now, Toward::down, system));
  const int days = resumed.late_days;
  if (days != 0) {
    out += fmt::format(" The trip ends {} {} than planned.",
                       counted(static_cast<std::size_t>(std::abs(days)), "day", "days"),
                       days > 0 ? "later" : "earlier");
  }
  return out;
}

/// A table of what was found, with as many columns as fit the page.
std::string found_table(const Resumed& resumed, units::System system) {
  const answers::PlanRun& rest = resumed.rest;
  constexpr int figures = 9;
  constexpr int factor_width = 21;
  std::size_t widest = 5;
  for (const answers::FoundReserve& one : resumed.readings.back().found) {
    const engine::ReserveInfo& info = reserve_of(rest, one.reserve);
    widest = std::max(widest, reserve_words(info).size() + 4 + unit(info, system).size());
  }
  const int name_width = static_cast<int>(std::min<std::size_t>(widest, 28));
  std::string out = left("  Found", name_width) + right("planned", figures) +
                    right("found", figures) + right("differs", figures) +
                    right("more/day", figures) + "  use, plan is 1\n";
  for (const answers::FoundReserve& one : resumed.readings.back().found) {
    const engine::ReserveInfo& info = reserve_of(rest, one.reserve);
    const auto figure = [&](double value) { return right(amount(info, value, system), figures); };
    out += left("  " + reserve_words(info) + ", " + unit(info, system), name_width);
    out += one.planned ? figure(*one.planned) : right("-", figures);
    out += figure(one.found);
    out += one.planned ? figure(one.found - *one.planned) : right("-", figures);
    const answers::UseFound* use = resumed.use_of(one.reserve);
    out += use != nullptr && use->days > 0 ? figure((use->used - use->calculated) / use->days)
                                           : right("-", figures);
    const auto factor = use != nullptr ? rest.learned.of(rest.course, one.reserve) : std::nullopt;
    if (factor) {
      out += "  " + left(fmt::format("{:.2f} ({:.2f} to {:.2f})", factor->factor, factor->low,
                                     factor->high),
                         factor_width);
    }
    out.erase(out.find_last_not_of(' ') + 1);
    out += '\n';
  }
  return out;
}

/// Of which reserves some vessels alone were read.
std::string partly_words(const Resumed& resumed) {
  std::string names;
  for (const answers::FoundReserve& one : resumed.readings.back().found) {
    if (one.partly) units::add_to(names, reserve_words(reserve_of(resumed.rest, one.reserve)));
  }
  return names.empty() ? names : "Not all was read, the rest is as calculated: " + names + ".";
}

/// What must be there tomorrow evening of what life depends on.
std::string tomorrow_line(const Resumed& resumed, units::System system) {
  const answers::PlanRun& rest = resumed.rest;
  // The morning after that evening.
  const std::size_t morning = at(resumed.now.day) + 2;
  if (morning >= rest.record.days()) return {};
  std::string out;
  for (std::size_t i = 0; i < resumed.needs.reserves.size(); ++i) {
    const engine::ReserveInfo& info = reserve_of(rest, resumed.needs.reserves[i]);
    const answers::Need& need = resumed.needs.need(morning, i);
    if (!info.life_supporting || !need.judged) continue;
    if (is_endless(need)) {
      units::add_to(out, "of " + reserve_words(info) + " no amount is enough", "; ");
      continue;
    }
    const NeedFigures figures = need_figures(info, need, system);
    units::add_to(out,
                  fmt::format("{} {} {} (expected {})", reserve_words(info), figures.must,
                              unit(info, system), figures.has),
                  "; ");
  }
  if (out.empty()) return {};
  return "Tomorrow at midnight there must be: " + out + ".";
}

/// What must be on board as the next supply of each reserve is left, where one is still to come.
std::string next_stop_line(const Resumed& resumed, units::System system) {
  const answers::PlanRun& rest = resumed.rest;
  std::string out;
  std::vector<int> told;
  for (const answers::Leaving& leaving : resumed.leavings) {
    // The place where they are is no next one.
    if (leaving.leaves.day <= resumed.now.day || !std::isfinite(leaving.must_have)) continue;
    if (std::ranges::find(told, leaving.reserve) != told.end()) continue;
    told.push_back(leaving.reserve);
    const engine::ReserveInfo& info = reserve_of(rest, leaving.reserve);
    units::add_to(
        out,
        fmt::format("{} on day {} {} of {} (expected {})", name_in(rest.plan.places, leaving.place),
                    leaving.leaves.day + 1,
                    amount_toward(info, leaving.must_have, system, Toward::up), reserve_words(info),
                    amount_toward(info, leaving.has, system, Toward::down)),
        "; ");
  }
  return out.empty() ? out : "When you leave a supply you must have: " + out + ".";
}

/// Whether something is still driven.
bool drives_on(const answers::PlanRun& rest) {
  const std::vector<engine::TimeStep>& steps = rest.course.timeline->steps;
  const auto now = steps.begin() + static_cast<std::ptrdiff_t>(rest.course.judged_from());
  return std::any_of(now, steps.end(),
                     [](const engine::TimeStep& step) { return step.drive >= 0; });
}

/// What life depends on and is to be had where they are.
std::string here_line(const Resumed& resumed) {
  const answers::PlanRun& rest = resumed.rest;
  const int here = engine::place_at(resumed.now.at);
  if (here < 0 || !drives_on(rest)) return {};
  const plan::Place& place = rest.plan.places[at(here)];
  std::vector<std::string> names;
  for (const engine::ReserveInfo& info : rest.course.reserves) {
    if (!info.life_supporting || !info.commodity) continue;
    const bool sure = std::ranges::any_of(place.supplies, [&](const plan::Supply& supply) {
      return supply.commodity == *info.commodity && supply.confirmed &&
             supply.quality == plan::WaterQuality::potable &&
             engine::is_open(supply, date_of(rest, resumed.now.day));
    });
    if (sure) names.push_back(plan::words(rest.plan, *info.commodity));
  }
  if (names.empty()) return {};
  return fmt::format("{} has {}: fill up before you go on.", place.name,
                     units::listed(units::each_once(std::move(names)), " and "));
}

std::string turn_back_line(const Resumed& resumed, units::System system) {
  const answers::PlanRun& rest = resumed.rest;
  if (!drives_on(rest)) return {};
  const double now_h = resumed.now.trip_h();
  for (const answers::Window& window : resumed.turn_back.vital) {
    if (answers::leads_on(rest, resumed.turn_back, window, true)) continue;
    if (window.last.trip_h() <= now_h + minute_h) continue;
    if (window.from.trip_h() > now_h + minute_h) {
      return fmt::format("Turning back to a sure supply is not possible now, but from {} on.",
                         moment_words(rest, window.from, Toward::up, system));
    }
    const std::string to = back_to_words(resumed, system);
    if (window.decides < 0) {
      return fmt::format("Turning back{} stays possible until the end.",
                         to.empty() ? "" : " to " + to);
    }
    return fmt::format("Turn back{} by {}. {} decides.", to.empty() ? "" : " to " + to,
                       moment_words(rest, window.last, Toward::down, system),
                       capital(reserve_words(reserve_of(rest, window.decides))));
  }
  return "To turn back is no better than to go on: no supply behind is reached with every margin "
         "whole.";
}

}  // namespace

std::string resume_text(const ResumeAnswer& answer, const TextOptions& options) {
  const Resumed& resumed = answer.resumed;
  const answers::PlanRun& rest = resumed.rest;
  const units::System system = options.system;
  const bool good = surely_holds(rest, answer.without_unconfirmed);
  std::string text = headline(verdict_line(answer, system), good, options.color);
  if (!rest.verdict.holds) text += paragraph(others_words(rest, system));
  text += paragraph(other_rates_line(resumed));
  text += paragraph(without_unconfirmed_words(rest, answer.without_unconfirmed, system));
  text += paragraph(help_words(resumed, system));
  text += "\n" + trip_line(rest) + paragraph(now_line(resumed, system));
  if (!resumed.readings.back().found.empty()) text += "\n" + found_table(resumed, system);
  text += paragraph(partly_words(resumed));
  for (const answers::Doubt& doubt : rest.learned.doubts) {
    if (doubt.reading + 1 != rest.course.readings.size() && !options.all) continue;
    text += paragraph("Look: " + doubt_words(rest, doubt, system));
  }
  text += "\n" + paragraph(tomorrow_line(resumed, system));
  text += paragraph(here_line(resumed));
  text += paragraph(next_stop_line(resumed, system));
  text += paragraph(turn_back_line(resumed, system));
  const std::string message =
      message_words(resumed.rest, system, resumed.help.kind == answers::Help::Kind::alarm);
  text += "\n" + fmt::format("To send home ({} characters):\n", message.size()) +
          wrap_after("  ", message, page_columns());
  return text + "\n" + caution_lines(options);
}

}  // namespace drystage::report
