#include "report/text/event_list.h"

#include <fmt/core.h>

#include <algorithm>
#include <vector>

#include "report/text/event_words.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using engine::Event;
using engine::EventKind;

/// Switches may go back and forth within a day.
bool repeats_in_a_day(EventKind kind) {
  switch (kind) {
    case EventKind::shed:
    case EventKind::restored:
    case EventKind::cut_off:
    case EventKind::reconnected:
    case EventKind::generator_dry:
      return true;
    default:
      return false;
  }
}

/// Weather stays for days, and so do waiting for light and the lack of water fit to cook with.
bool repeats_by_day(EventKind kind) {
  switch (kind) {
    case EventKind::waits:
    case EventKind::frost:
    case EventKind::heat_ceiling:
    case EventKind::heat_unproven:
    case EventKind::observed_low:
    case EventKind::hot_wind:
    case EventKind::fast_ascent:
    case EventKind::not_used_to_heat:
    case EventKind::charge_refused:
    case EventKind::potable_short:
      return true;
    default:
      return false;
  }
}

/// Lines of events on one screen.
constexpr std::ptrdiff_t most_lines = 8;

/// The last is what goes as planned, and what the lines above the table say.
enum class Weight { danger, change, told_elsewhere };

Weight weight_of(EventKind kind) {
  switch (kind) {
    case EventKind::refill:
    case EventKind::restored:
    case EventKind::reconnected:
    case EventKind::short_of:
    case EventKind::unconfirmed:
      return Weight::told_elsewhere;
    case EventKind::camp_dusk:
    case EventKind::camp_hours:
    case EventKind::waits:
    case EventKind::altitude:
    case EventKind::frost:
    case EventKind::use_now:
    case EventKind::shed:
    case EventKind::cut_off:
    case EventKind::charge_refused:
    case EventKind::generator_dry:
      return Weight::change;
    default:
      return Weight::danger;
  }
}

bool is_more_of(const ToldEvent& told, const Event& event) {
  if (told.first.kind != event.kind || told.first.subject != event.subject) return false;
  if (repeats_in_a_day(event.kind)) return told.first.day == event.day;
  return repeats_by_day(event.kind) && event.day - told.last_day <= 1;
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

std::string again(const answers::PlanRun& planned, const ToldEvent& told) {
  if (told.times == 1) return {};
  if (told.last_day == told.first.day) return fmt::format(". {} times that day", told.times);
  const auto& day = planned.course.timeline->days[at(told.last_day)];
  return ". Every day until " + short_date(day.schedule.date);
}

}  // namespace

std::vector<ToldEvent> told_events(const answers::PlanRun& planned) {
  return gathered(all_events(planned));
}

std::string told_words(const answers::PlanRun& planned, const ToldEvent& told,
                       units::System system) {
  return event_words(planned.plan, planned.course, told.first, system) + again(planned, told);
}

std::string event_list(const answers::PlanRun& planned, const TextOptions& options,
                       std::ptrdiff_t room) {
  std::vector<ToldEvent> all = told_events(planned);
  std::vector<std::string> lines;
  for (const ToldEvent& told : all) {
    const auto& day = planned.course.timeline->days[at(told.first.day)];
    const std::string when =
        fmt::format("  {} {}  ", short_date(day.schedule.date), clock(told.first.hour));
    lines.push_back(wrap_after(when, told_words(planned, told, options.system), page_columns));
  }
  std::vector<bool> shown(all.size(), options.all);
  std::ptrdiff_t used = 0;
  for (const Weight weight : {Weight::danger, Weight::change}) {
    const std::ptrdiff_t most = weight == Weight::danger ? most_lines : std::min(most_lines, room);
    for (std::size_t i = 0; !options.all && i < all.size(); ++i) {
      const std::ptrdiff_t high = std::ranges::count(lines[i], '\n');
      if (weight_of(all[i].first.kind) != weight || used + high > most) continue;
      shown[i] = true;
      used += high;
    }
  }
  std::string text;
  for (std::size_t i = 0; i < all.size(); ++i) text += shown[i] ? lines[i] : "";
  if (planned.record.events_dropped > 0) {
    text += fmt::format("  and {} more\n", planned.record.events_dropped);
  }
  const std::ptrdiff_t hidden = std::ranges::count(shown, false);
  if (all.empty() || (text.empty() && hidden == 0)) return {};
  const std::string more = fmt::format("{} more with --all", hidden);
  if (text.empty()) return "No event of note; " + more + ".\n";
  return "Events" + (hidden == 0 ? "" : " (" + more + ")") + "\n" + text;
}

}  // namespace drystage::report
