#pragma once

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <vector>

#include "answers/base/plan_run.h"

namespace drystage::report {

/// The reserves (indices into the course's) in the order of charts: first what life depends on.
inline std::vector<std::size_t> life_first(const answers::PlanRun& planned) {
  std::vector<std::size_t> order(planned.course.reserves.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_partition(order.begin(), order.end(), [&planned](std::size_t r) {
    return planned.course.reserves[r].life_supporting;
  });
  return order;
}

}  // namespace drystage::report
