#include "report/card/evening_figures.h"

#include "report/needs/table.h"
#include "report/needs/words.h"
#include "report/text/rounding.h"

namespace drystage::report {
namespace {

const engine::ReserveInfo& info_of(const NeedsAnswer& answer, std::size_t i) {
  return answer.trial.course.reserves[static_cast<std::size_t>(answer.needs.reserves[i])];
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

std::vector<std::size_t> reserves_with_boxes(const NeedsAnswer& answer) {
  std::vector<std::size_t> out = life_supporting(answer);
  for (const int i : needs_order(answer)) {
    const auto index = static_cast<std::size_t>(i);
    if (info_of(answer, index).life_supporting) continue;
    const auto reserve = static_cast<std::size_t>(answer.needs.reserves[index]);
    bool fails = reserve < answer.trial.verdict.reserves.size() &&
                 answer.trial.verdict.reserves[reserve].first_breach_day.has_value();
    for (std::size_t day = 0; day < answer.trial.record.days(); ++day) {
      fails = fails || answer.needs.need(day, index).lacks();
    }
    if (fails) out.push_back(index);
  }
  return out;
}

std::size_t evenings(const NeedsAnswer& answer) { return answer.trial.record.days() + 1; }

EveningFigures evening_figures(const NeedsAnswer& answer, std::size_t i, std::size_t evening,
                               units::System system) {
  const engine::ReserveInfo& info = info_of(answer, i);
  const std::size_t days = answer.trial.record.days();
  if (evening >= days) {
    const auto reserve = static_cast<std::size_t>(answer.needs.reserves[i]);
    const double end = answer.trial.record.reserve(days - 1, reserve).end;
    return {.plan = amount_toward(info, end, system, Toward::down, digits_for(info, end, system)),
            .must_have = "-"};
  }
  const answers::Need& need = answer.needs.need(evening, i);
  NeedFigures figures = need_figures(info, need, system);
  if (is_endless(need)) figures.must = no_amount;
  return {
      .plan = std::move(figures.has), .must_have = std::move(figures.must), .lacks = need.lacks()};
}

}  // namespace drystage::report
