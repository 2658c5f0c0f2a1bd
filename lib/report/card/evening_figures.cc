#include "report/card/evening_figures.h"

#include <algorithm>

#include "report/needs/table.h"
#include "report/needs/words.h"
#include "report/text/rounding.h"
#include "report/text/words.h"

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
  for (const int i : needs_order(answer)) {
    const auto index = static_cast<std::size_t>(i);
    if (info_of(answer, index).life_supporting) out.push_back(index);
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

EveningFigures evening_figures(const NeedsAnswer& answer, std::size_t i, std::size_t evening,
                               units::System system) {
  const engine::ReserveInfo& info = info_of(answer, i);
  const std::size_t days = answer.planned.record.days();
  if (evening >= days) {
    const auto reserve = static_cast<std::size_t>(answer.needs.reserves[i]);
    const double end = answer.planned.record.reserve(days - 1, reserve).end;
    return {.plan = amount_toward(info, end, system, Toward::down, info.decimals),
            .must_have = "-"};
  }
  const answers::Need& need = answer.needs.need(evening, i);
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
    return {.plan = figure(cold ? day.lowest : day.end), .low = day.breach_h >= 0};
  }
  const auto& known = answer.needs.reserves;
  const auto found = std::ranges::find(known, static_cast<int>(reserve));
  if (found == known.end()) return {};
  return {.plan =
              figure(answer.needs.need(0, static_cast<std::size_t>(found - known.begin())).has)};
}

}  // namespace drystage::report
