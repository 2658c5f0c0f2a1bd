#include "report/card/evening_figures.h"

#include <algorithm>
#include <utility>

#include "answers/base/supplies.h"
#include "engine/route_point.h"
#include "report/needs/words.h"
#include "report/text/amounts.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

const engine::ReserveInfo& info_of(const NeedsAnswer& answer, std::size_t i) {
  return reserve_of(answer.planned, answer.needs.reserves[i]);
}

/// A tenth more than the reserve's own digits where whole ones would make enough look too little.
int digits_that_decide(const engine::ReserveInfo& info, const answers::Need& need,
                       units::System system) {
  const auto shown = [&](double level, Toward toward) {
    return rounded(display_number(info, level, system), info.decimals, toward);
  };
  const bool decides = !is_endless(need) && !need.lacks() &&
                       shown(need.must_have, Toward::up) > shown(need.has, Toward::down);
  return info.decimals + (decides ? 1 : 0);
}

}  // namespace

std::vector<std::size_t> life_supporting(const NeedsAnswer& answer) {
  std::vector<std::size_t> out;
  for (const std::size_t i : needs_order(answer)) {
    if (info_of(answer, i).life_supporting) out.push_back(i);
  }
  return out;
}

std::vector<std::size_t> small_reserves(const answers::PlanRun& planned) {
  std::vector<std::size_t> out;
  for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
    if (!planned.course.reserves[r].life_supporting) out.push_back(r);
  }
  return out;
}

std::size_t evenings(const NeedsAnswer& answer) { return answer.planned.record.days() + 1; }

std::size_t first_evening(const answers::PlanRun& planned) {
  return planned.course.readings.empty() ? 0 : at(planned.course.first_judged_day()) + 1;
}

EveningFigures evening_figures(const NeedsAnswer& answer, std::size_t i, std::size_t evening,
                               units::System system) {
  const engine::ReserveInfo& info = info_of(answer, i);
  const std::size_t days = answer.planned.record.days();
  if (evening >= days) {
    const auto reserve = static_cast<std::size_t>(answer.needs.reserves[i]);
    const engine::ReserveDay& last = answer.planned.record.reserve(days - 1, reserve);
    if (!last.judged) return {.plan = "-", .must_have = "-"};
    const double end = last.end;
    return {.plan = amount_toward(info, end, system, Toward::down, info.decimals),
            .must_have = "-"};
  }
  const answers::Need& need = answer.needs.need(evening, i);
  if (!need.judged) return {.plan = "-", .must_have = "-"};
  const int digits = digits_that_decide(info, need, system);
  EveningFigures out{.plan = amount_toward(info, need.has, system, Toward::down, digits),
                     .must_have = no_amount,
                     .lacks = need.lacks()};
  if (is_endless(need)) return out;
  const bool missed = rounded(display_number(info, need.must_have, system), digits, Toward::up) >
                      rounded(display_number(info, need.has, system), digits, Toward::down);
  out.must_have =
      (need.fits ? "" : "+") + amount_toward(info, need.must_have, system, Toward::up, digits);
  // What differs by less than a tenth is the same: enough never looks like too little.
  if (missed && !need.lacks()) out.plan = out.must_have;
  return out;
}

/// Whether it is still with the party when a day ends: what has gone home in it is not.
bool is_there_at_night(const engine::Course& course, std::size_t day, std::size_t reserve) {
  const auto& steps = course.timeline->steps;
  const int next = static_cast<int>(day) + 1;
  const auto end = std::ranges::lower_bound(steps, next, {}, &engine::TimeStep::day);
  return answers::is_there(course, at(static_cast<int>(end - steps.begin()) - 1),
                           static_cast<int>(reserve));
}

SmallFigure small_figure(const NeedsAnswer& answer, std::size_t reserve, std::size_t evening,
                         units::System system) {
  const engine::ReserveInfo& info = answer.planned.course.reserves[reserve];
  const bool cold = info.sense == engine::Sense::keep_below;
  const Toward toward = cold ? Toward::up : Toward::down;
  const auto figure = [&](double level) {
    const int digits = cold ? info.decimals : digits_for(info, level, system);
    return amount_toward(info, level, system, toward, digits);
  };
  if (evening > 0) {
    const engine::ReserveDay& day = answer.planned.record.reserve(evening - 1, reserve);
    if (!day.judged || !is_there_at_night(answer.planned.course, evening - 1, reserve)) {
      return {.plan = "-"};
    }
    return {.plan = figure(cold ? day.lowest : day.end), .low = day.breach_h >= 0};
  }
  const std::optional<std::size_t> i = need_of(answer.needs, static_cast<int>(reserve));
  if (!i) return {};
  const answers::Need& need = answer.needs.need(0, *i);
  return {.plan = need.judged ? figure(need.has) : "-"};
}

EveningTable evening_table(const NeedsAnswer& answer, units::System system) {
  EveningTable out;
  const std::vector<std::size_t> vital = life_supporting(answer);
  const std::vector<std::size_t> small = small_reserves(answer.planned);
  const auto name = [system](const engine::ReserveInfo& info) {
    return capital(reserve_words(info)) + ", " + unit(info, system);
  };
  for (const std::size_t i : vital) {
    out.reserves.push_back(name(reserve_of(answer.planned, answer.needs.reserves[i])));
  }
  for (const std::size_t r : small) out.small.push_back(name(answer.planned.course.reserves[r]));
  out.start = engine::route_point_name(answer.planned.plan,
                                       answer.planned.course.timeline->days.front().schedule.from);
  for (std::size_t evening = 0; evening < evenings(answer); ++evening) {
    EveningRow row;
    if (evening > 0) row.facts = day_facts(answer.planned, evening - 1, system);
    for (const std::size_t i : vital) {
      row.figures.push_back(evening_figures(answer, i, evening, system));
    }
    for (const std::size_t r : small) {
      row.small.push_back(small_figure(answer, r, evening, system));
    }
    out.rows.push_back(std::move(row));
  }
  return out;
}

std::string load_words(const EveningTable& table, const EveningRow& row) {
  const bool lacks = std::ranges::any_of(row.figures, &EveningFigures::lacks);
  return "At " + table.start + ": " +
         (lacks ? "load to plan; with ! even that is too little" : "load to plan, as packed");
}

std::string small_words(const EveningTable& table, const EveningRow& row) {
  std::string words;
  for (std::size_t r = 0; r < row.small.size(); ++r) {
    const SmallFigure& figure = row.small[r];
    if (figure.plan.empty() || figure.plan == "-") continue;
    const std::string& name = table.small[r];
    const std::size_t comma = name.rfind(", ");
    units::add_to(
        words,
        name.substr(0, comma) + " " + marked(figure.plan, figure.low) + name.substr(comma + 1),
        "; ");
  }
  return words;
}

std::string marked(const std::string& figure, bool low) { return (low ? "! " : "") + figure; }

}  // namespace drystage::report
