#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "answers/onward/return_way.h"
#include "report/needs/words.h"
#include "report/text/amounts.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

/// "Tessarin (day 1) to Imrel Bore (day 6)".
std::string stretch_words(const answers::PlanRun& planned, const answers::SupplyStretch& stretch) {
  const auto place = [&](int index) {
    return index < 0 ? std::string("the end of the trip") : name_in(planned.plan.places, index);
  };
  return fmt::format("{} (day {}) to {} (day {})", place(stretch.from_place),
                     stretch.leaves.day + 1, place(stretch.to_place), stretch.arrives.day + 1);
}

/// "from ... until ...", or "to the end" where nothing but the stretch ends it.
std::string between(const answers::PlanRun& planned, const answers::Window& window,
                    units::System system) {
  const std::string from = "from " + moment_words(planned, window.from, Toward::up, system);
  if (window.decides < 0) return from + " to the end";
  return from + " until " + moment_words(planned, window.last, Toward::down, system);
}

std::string until_when(const answers::PlanRun& planned, const answers::SupplyStretch& stretch,
                       units::System system) {
  if (stretch.always) return "always possible.";
  const std::vector<answers::Window>& all = stretch.windows;
  if (!stretch.last && all.empty()) return "never possible.";
  std::string text;
  if (stretch.last) {
    text = fmt::format("until {}.", moment_words(planned, *stretch.last, Toward::down, system));
    if (all.size() < 2) return text;
  }
  text += stretch.last ? " Possible again " : "not possible at first, only ";
  for (std::size_t w = stretch.last ? 1 : 0; w < all.size(); ++w) {
    text += (text.ends_with(' ') ? "" : ", and ") + between(planned, all[w], system);
  }
  return text + ".";
}

std::string entry(const answers::PlanRun& planned, const answers::SupplyStretch& stretch,
                  units::System system) {
  std::string text = stretch_words(planned, stretch) + ": " + until_when(planned, stretch, system);
  if (stretch.even) {
    text += fmt::format(
        " Going on and going back need the same, {}, on {}.",
        amount_toward(reserve_of(planned, stretch.reserve), stretch.even_need, system, Toward::up),
        moment_words(planned, *stretch.even, Toward::down, system));
  }
  return wrap_after("  - ", text, page_columns());
}

/// A name at the head of its own lines.
std::string heading(std::string name) {
  return wrap_after("  ", capital(std::move(name)), page_columns());
}

bool at_end(const answers::PlanRun& planned, const answers::Moment& moment) {
  const double end_h = day_h * static_cast<double>(planned.record.days());
  return day_h * moment.day + moment.hour > end_h - minute_h;
}

std::string window_words(const answers::PlanRun& planned, const answers::Window& window,
                         units::System system) {
  const bool at_outset = window.from.day == 0 && window.from.done_km <= 0;
  const std::string from = moment_words(planned, window.from, Toward::up, system);
  std::string text = at_outset ? "" : "from " + from;
  if (at_end(planned, window.last)) {
    text += at_outset ? "to the end of the trip" : ", to the end of the trip";
  } else {
    text += at_outset ? "until " : ". Until ";
    text += moment_words(planned, window.last, Toward::down, system);
  }
  if (window.decides >= 0) {
    text += ". " + capital(reserve_words(reserve_of(planned, window.decides))) + " decides";
  }
  return text + ".";
}

}  // namespace

std::vector<answers::Window> told_windows(const NeedsAnswer& answer, bool vital) {
  std::vector<answers::Window> out;
  for (const answers::Window& window : vital ? answer.turn_back.vital : answer.turn_back.windows) {
    if (!out.empty() && answers::leads_on(answer.planned, answer.turn_back, window, vital))
      continue;
    out.push_back(window);
  }
  return out;
}

std::string without_sure_supply(const NeedsAnswer& answer, bool vital) {
  std::string names;
  for (const std::size_t i : needs_order(answer)) {
    const int reserve = answer.needs.reserves[i];
    const engine::ReserveInfo& info = reserve_of(answer.planned, reserve);
    const auto& all = answer.turn_back.stretches;
    if (!info.commodity || (vital && !info.life_supporting)) continue;
    if (std::ranges::find(all, reserve, &answers::SupplyStretch::reserve) != all.end()) continue;
    units::add_to(names, reserve_words(info));
  }
  return names;
}

std::string turn_back_list(const NeedsAnswer& answer, const TextOptions& options) {
  const answers::PlanRun& planned = answer.planned;
  const units::System system = options.system;
  if (planned.course.timeline->legs.empty()) {
    return "Turning back: nothing is driven, so there is nowhere to turn back from.\n";
  }
  const bool has_roads = !planned.plan.roads.empty();
  const auto named = [&](const char* name, bool vital) {
    const std::string unsure = without_sure_supply(answer, vital);
    return name + (unsure.empty() ? unsure : ", not counting " + unsure);
  };
  const auto list = [&](const std::vector<answers::Window>& windows) {
    std::string lines;
    for (const answers::Window& window : windows) {
      lines += wrap_after("  - ", window_words(planned, window, system), page_columns());
    }
    return lines.empty() ? "  - never possible.\n" : lines;
  };
  const answers::TurnBack& found = answer.turn_back;
  if (!options.all && !found.stretches.empty()) {
    return paragraph(std::string("Turning back to the last supply") +
                     (has_roads ? ", or one that a road leads to: " : ": ") +
                     named("drinking water and fuel", true) + " (more with --all)") +
           list(told_windows(answer, true));
  }
  std::string text = paragraph(
      std::string("Turning back: when the last supply behind") +
      (has_roads
           ? ", or one that a road leads to, is still in reach, margin intact. By the way "
             "you came, or the plan's ways back and roads."
           : " is still in reach, margin intact. By the way you came, or the plan's way back."));
  if (!found.stretches.empty()) {
    text +=
        heading(named("drinking water and fuel together", true)) + list(told_windows(answer, true));
    text += heading(named("all together", false)) + list(told_windows(answer, false));
  }
  for (const std::size_t i : needs_order(answer)) {
    const int reserve = answer.needs.reserves[i];
    std::string entries;
    for (const answers::SupplyStretch& stretch : answer.turn_back.stretches) {
      if (stretch.reserve == reserve) entries += entry(planned, stretch, system);
    }
    if (entries.empty()) continue;
    text += heading(reserve_words(reserve_of(planned, reserve))) + entries;
  }
  const std::string without = without_sure_supply(answer, false);
  if (!without.empty()) {
    text += wrap_after(
        "  ", "No supply behind is sure, so there is none to turn back to: " + without + ".",
        page_columns());
  }
  return text;
}

}  // namespace drystage::report
