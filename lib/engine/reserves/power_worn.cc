// Banks that have lost part of their capacity, without compiling anew.

#include "engine/reserves/power.h"
#include "units/index.h"

namespace drystage::engine::reserves {

void Power::wear(Compiled& worn, CourseBase& course, const Compiled& whole,
                 const CourseBase& whole_course, const plan::Plan& plan, double left) {
  for (std::size_t b = 0; b < whole.banks.size(); ++b) {
    const Bank& was = whole.banks[b];
    Bank& bank = worn.banks[b];
    bank.params.capacity_ah = left * was.params.capacity_ah;
    bank.cut_off_ah = left * was.cut_off_ah;
    bank.reconnect_ah = left * was.reconnect_ah;
    course.stores[at(bank.store)].capacity = left * whole_course.stores[at(bank.store)].capacity;
    course.stores[at(bank.store)].initial = left * whole_course.stores[at(bank.store)].initial;
    const ReserveInfo& reserve_was = whole_course.reserves[at(bank.reserve)];
    ReserveInfo& reserve = course.reserves[at(bank.reserve)];
    reserve.capacity = left * reserve_was.capacity;
    reserve.empty_at = left * reserve_was.empty_at;
    const plan::Margin* margin = margin_of(plan, reserve_was);
    const bool amount = margin != nullptr && margin->kind == plan::MarginKind::amount;
    reserve.margin.fixed = (amount ? 1 : left) * reserve_was.margin.fixed;
  }
  for (std::size_t l = 0; l < whole.loads.size(); ++l) {
    worn.loads[l].shed_below_ah = left * whole.loads[l].shed_below_ah;
    worn.loads[l].back_above_ah = left * whole.loads[l].back_above_ah;
  }
  Tables& tables = *worn.tables;
  const std::size_t banks = worn.banks.size();
  for (std::size_t cell = 0; cell < tables.use_ah_day.size(); ++cell) {
    tables.use_ah_day[cell] = worn.banks[cell % banks].given_ah_day(tables.drawn_ah_day[cell]);
  }
}

}  // namespace drystage::engine::reserves
