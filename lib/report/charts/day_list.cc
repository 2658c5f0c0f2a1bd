#include "report/charts/day_list.h"

#include <fmt/core.h>

#include "units/list.h"

namespace drystage::report {

std::string day_list(const std::vector<int>& days) {
  if (days.empty()) return {};
  std::vector<std::string> ranges;
  for (std::size_t i = 0; i < days.size();) {
    std::size_t last = i;
    while (last + 1 < days.size() && days[last + 1] == days[last] + 1) ++last;
    // Two in a row are not worth a range.
    if (last == i + 1) last = i;
    ranges.push_back(last == i ? fmt::format("{}", days[i] + 1)
                               : fmt::format("{} to {}", days[i] + 1, days[last] + 1));
    i = last + 1;
  }
  return (days.size() == 1 ? "day " : "days ") + units::listed(ranges, " and ");
}

}  // namespace drystage::report
