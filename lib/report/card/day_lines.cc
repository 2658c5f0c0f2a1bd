#include "report/card/day_lines.h"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "report/card/rules.h"
#include "report/card/supply_words.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {

std::vector<DayNote> day_notes(const answers::PlanRun& planned, const std::vector<ToldEvent>& all,
                               std::size_t day, units::System system) {
  std::vector<DayNote> out;
  for (const ToldEvent& told : all) {
    const OnCard how = traits_of(told.first.kind).on_card;
    if (how == OnCard::no || at(told.first.day) != day) continue;
    const bool grave = how == OnCard::grave;
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

std::vector<std::vector<DayLine>> day_lines(const CardAnswer& answer, units::System system) {
  const answers::PlanRun& planned = answer.needs.planned;
  const std::vector<ToldEvent> told = told_events(planned);
  const std::vector<LeaveRule> leaves = leave_rules(answer, system);
  const std::vector<TurnBackRule> turns = turn_back_rules(answer.needs, system);
  std::vector<std::vector<DayLine>> out(planned.record.days() + 1);
  for (std::size_t evening = 0; evening < out.size(); ++evening) {
    std::vector<DayLine>& lines = out[evening];
    const bool outset = evening == 0;
    const std::size_t day = outset ? 0 : evening - 1;
    for (SupplyLine& supply : supply_lines(planned, day, outset, system)) {
      lines.push_back({.kind = DayLine::Kind::supply,
                       .hour = supply.hour,
                       .words = std::move(supply.words),
                       .grave = supply.unsure,
                       .shut = supply.shut});
    }
    for (const LeaveRule& rule : leaves) {
      if (at(rule.day) != day || outset != (day == 0 && rule.hour <= 0)) continue;
      lines.push_back({.kind = DayLine::Kind::leave,
                       .hour = rule.hour,
                       .words = rule.headline,
                       .grave = outset});
    }
    if (outset) continue;
    for (const TurnBackRule& rule : turns) {
      if (at(rule.day) != day) continue;
      lines.push_back({.kind = DayLine::Kind::turn_back,
                       .hour = rule.hour,
                       .words = rule.headline,
                       .more = rule.words,
                       .opens = rule.opens});
    }
    for (DayNote& note : day_notes(planned, told, day, system)) {
      lines.push_back({.kind = DayLine::Kind::note,
                       .hour = note.hour,
                       .words = std::move(note.words),
                       .grave = note.grave});
    }
    std::ranges::stable_sort(lines, {}, &DayLine::hour);
  }
  return out;
}

}  // namespace drystage::report
