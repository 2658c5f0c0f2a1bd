#include "engine/opening.h"

#include <algorithm>

namespace drystage::engine {
namespace {

bool in_range(const plan::DateRange& range, plan::Date date) {
  return range.from <= date && date <= range.to;
}

}  // namespace

bool is_open(const plan::Supply& supply, plan::Date date) {
  const int sunday_first = date.day_of_week().as_number();
  const auto weekday = static_cast<std::size_t>((sunday_first + 6) % 7);
  if (!supply.open_weekdays.test(weekday)) return false;
  const auto holds = [&](const plan::DateRange& range) { return in_range(range, date); };
  if (std::ranges::any_of(supply.shut_dates, holds)) return false;
  return supply.open_dates.empty() || std::ranges::any_of(supply.open_dates, holds);
}

}  // namespace drystage::engine
