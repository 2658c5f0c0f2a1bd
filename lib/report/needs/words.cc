#include "report/needs/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "plan/commodity.h"
#include "report/text/amounts.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

constexpr double tiny_h = 1e-6;
constexpr int most_digits = 1;

int common_digits(const engine::ReserveInfo& reserve, const answers::Need& need,
                  units::System system) {
  int digits = digits_for(reserve, need.has, system);
  if (is_endless(need)) return digits;
  digits = std::max({digits, digits_for(reserve, need.must_have, system),
                     digits_for(reserve, need.slack(), system)});
  const auto shown = [&](double level, Toward toward) {
    return rounded(display_number(reserve, level, system), digits, toward);
  };
  while (!need.lacks() && digits < most_digits &&
         shown(need.must_have, Toward::up) > shown(need.has, Toward::down)) {
    ++digits;
  }
  return digits;
}

/// Whether two mornings are told as one: until the same place, today's or the next day's; or each
/// until a bank is full again.
bool same_until(const answers::PlanRun& planned, const answers::Need& a, const answers::Need& b) {
  if (a.until_place != b.until_place) return false;
  if (a.until_place >= 0) return b.until_day - a.until_day <= 1;
  return until_end(planned, a) == until_end(planned, b);
}

/// Of the mornings from one to another, until when.
std::string until_words(const answers::PlanRun& planned, const engine::ReserveInfo& info,
                        const answers::Need& first, const answers::Need& last) {
  if (first.until_place >= 0) {
    const auto& place = planned.plan.places[at(first.until_place)];
    const auto supply = std::ranges::find_if(place.supplies, [&info](const plan::Supply& each) {
      return info.commodity == each.commodity && each.quality == plan::WaterQuality::brackish;
    });
    const char* const unfit = supply == place.supplies.end() ? "" : ", brackish: not to cook with";
    if (first.until_day == last.until_day) {
      return fmt::format("{} (day {}{})", place.name, first.until_day + 1, unfit);
    }
    return fmt::format("{} (days {} to {}{})", place.name, first.until_day + 1, last.until_day + 1,
                       unfit);
  }
  if (until_end(planned, first)) return "the end of the trip";
  return info.commodity ? "when its vehicle goes home" : "when it is full again";
}

}  // namespace

bool is_endless(const answers::Need& need) { return !std::isfinite(need.must_have); }

bool until_end(const answers::PlanRun& planned, const answers::Need& need) {
  const double end_h = day_h * static_cast<double>(planned.record.days());
  return need.until_place < 0 && day_h * need.until_day + need.until_h >= end_h - tiny_h;
}

NeedFigures need_figures(const engine::ReserveInfo& reserve, const answers::Need& need,
                         units::System system) {
  if (!need.judged) return {.must = "-", .has = "-", .spare = "-"};
  const int digits = common_digits(reserve, need, system);
  const auto text = [&](double level, Toward toward) {
    return amount_toward(reserve, level, system, toward, digits);
  };
  NeedFigures out{.must = "-", .has = text(need.has, Toward::down), .spare = "!"};
  if (is_endless(need)) return out;
  out.must = (need.fits ? "" : "+") + text(need.must_have, Toward::up);
  out.spare = (need.lacks() ? "!" : "") + text(need.slack(), Toward::down);
  return out;
}

std::string need_words(const answers::PlanRun& planned, int reserve, const answers::Need& need,
                       units::System system) {
  const auto& info = reserve_of(planned, reserve);
  const std::string name = reserve_words(info);
  const int digits = common_digits(info, need, system);
  const auto text = [&](double level, Toward toward) {
    return amount_toward(info, level, system, toward, digits) + " " + unit(info, system);
  };
  std::string end =
      info.commodity ? "to last until its vehicle goes home" : "to last until it is full again";
  if (need.until_place >= 0) {
    end = fmt::format("to reach {} (day {})", name_in(planned.plan.places, need.until_place),
                      need.until_day + 1);
  } else if (until_end(planned, need)) {
    end = "to last to the end of the trip";
  }
  end += ". The plan has " + text(need.has, Toward::down);
  if (is_endless(need)) {
    const char* what = info.commodity ? "amount of" : "charge in";
    return fmt::format("no {} {} is enough {}", what, name, end);
  }
  std::string out =
      fmt::format("{} must be at least {} {}", name, text(need.must_have, Toward::up), end);
  if (!need.fits) out += ", and can hold " + text(info.capacity, Toward::down);
  return out;
}

std::string taking_words(const answers::PlanRun& planned, int reserve,
                         const std::vector<int>& places) {
  const auto& commodity = reserve_of(planned, reserve).commodity;
  if (places.empty() || !commodity) return {};
  std::vector<std::string> names;
  names.reserve(places.size());
  for (const int place : places) names.push_back(name_in(planned.plan.places, place));
  return fmt::format("{}{} at {}", plan::is_emptied(planned.plan, *commodity) ? "" : "taking ",
                     plan::words(planned.plan, *commodity),
                     units::listed(units::each_once(std::move(names)), " and "));
}

std::string taken_words(const answers::PlanRun& planned, const std::vector<Taken>& taken) {
  std::vector<std::pair<int, std::vector<std::string>>> places;
  for (const Taken& one : taken) {
    const auto& commodity = reserve_of(planned, one.reserve).commodity;
    if (!commodity) continue;
    auto same =
        std::ranges::find(places, one.place, &std::pair<int, std::vector<std::string>>::first);
    if (same == places.end()) same = places.insert(same, {one.place, {}});
    same->second.push_back(plan::words(planned.plan, *commodity));
  }
  std::string text;
  for (auto& [place, what] : places) {
    units::add_to(text,
                  fmt::format("{} at {}", units::listed(units::each_once(std::move(what)), " and "),
                              name_in(planned.plan.places, place)),
                  "; ");
  }
  return text;
}

std::string lasts_to_words(const answers::PlanRun& planned, const answers::Needs& needs,
                           std::size_t i, bool with_taking) {
  std::string text;
  for (std::size_t day = at(needs.first_day); day < planned.record.days();) {
    const answers::Need& first = needs.need(day, i);
    if (!first.judged) {
      ++day;
      continue;
    }
    const answers::Need* last = &first;
    for (++day; day < planned.record.days(); ++day) {
      const answers::Need& next = needs.need(day, i);
      if (!next.judged || !same_until(planned, *last, next)) break;
      last = &next;
    }
    std::string until = until_words(planned, reserve_of(planned, needs.reserves[i]), first, *last);
    const std::string taking =
        with_taking ? taking_words(planned, needs.reserves[i], first.taking_at) : std::string();
    if (!taking.empty()) units::add_to(until, taking);
    units::add_to(text, until, ", then ");
  }
  return text;
}

std::string until_list(const answers::PlanRun& planned, const answers::Needs& needs,
                       const std::vector<std::size_t>& order, bool with_taking) {
  std::vector<Said> lines;
  for (const std::size_t i : order) {
    say_of(lines, reserve_words(reserve_of(planned, needs.reserves[i])),
           lasts_to_words(planned, needs, i, with_taking));
  }
  if (lines.size() == 1) {
    const bool all = order.size() == needs.reserves.size();
    return paragraph((all ? "All" : capital(lines[0].names)) + " must last to " + lines[0].what +
                     ".");
  }
  if (lines.empty()) return {};
  std::string text = "Must last to\n";
  for (const auto& [until, names] : lines) {
    text += wrap_after("  ", fmt::format("{}: {}.", names, until), page_columns());
  }
  return text;
}

std::optional<std::size_t> need_of(const answers::Needs& needs, int reserve) {
  const auto found = std::ranges::find(needs.reserves, reserve);
  if (found == needs.reserves.end()) return std::nullopt;
  return static_cast<std::size_t>(found - needs.reserves.begin());
}

std::string on_trips_words(const NeedsAnswer& answer) {
  if (!answer.on_trips) return {};
  const answers::NeedsOnTrips& its = *answer.on_trips;
  std::string words = fmt::format(
      "Must have is enough on {:g} % of drawn trips as well ({} trips, of which {} are on time to "
      "the end; seed {}). Nothing breaks on them, and confirmed supplies are there. It is never "
      "less than the plan itself needs. The last place to turn back is by the plan alone.",
      100 * its.asked.chance, its.asked.trips, its.on_time, its.asked.seed);
  constexpr std::uint64_t many = 1000;
  if (its.asked.trips < many) words += " Of more trips it may be less.";
  return words;
}

}  // namespace drystage::report
