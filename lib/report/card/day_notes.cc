#include "report/card/day_notes.h"

#include <fmt/core.h>

#include <utility>

#include "report/text/words.h"

namespace drystage::report {
namespace {

using engine::EventKind;

enum class Weight { none, told, grave };

Weight weight(EventKind kind) {
  switch (kind) {
    case EventKind::short_of:
    case EventKind::only_brackish:
    case EventKind::vital_unserved:
      return Weight::grave;
    case EventKind::heat_ceiling:
    case EventKind::frost:
    case EventKind::not_used_to_heat:
    case EventKind::heat_unproven:
    case EventKind::observed_low:
    case EventKind::hot_wind:
    case EventKind::altitude:
    case EventKind::fast_ascent:
    case EventKind::potable_short:
    case EventKind::brackish_in:
    case EventKind::utility_drunk:
    case EventKind::charge_refused:
    case EventKind::generator_dry:
      return Weight::told;
    default:
      return Weight::none;
  }
}

}  // namespace

std::vector<DayNote> day_notes(const answers::PlanRun& planned, const std::vector<ToldEvent>& all,
                               std::size_t day, units::System system) {
  std::vector<DayNote> out;
  for (const ToldEvent& told : all) {
    const Weight how = weight(told.first.kind);
    if (how == Weight::none || static_cast<std::size_t>(told.first.day) != day) continue;
    const bool grave = how == Weight::grave;
    const std::string words = told_words(planned, told, system);
    if (!out.empty() && out.back().hour == told.first.hour && out.back().grave == grave) {
      out.back().words.append("; ").append(words);
      continue;
    }
    std::string when = fmt::format("Day {}", day + 1);
    // Weather is of the whole day.
    if (told.first.hour > 0) when.append(", ").append(clock(told.first.hour));
    when.append(": ").append(words);
    out.push_back({.words = std::move(when), .hour = told.first.hour, .grave = grave});
  }
  for (DayNote& note : out) note.words += ".";
  return out;
}

}  // namespace drystage::report
