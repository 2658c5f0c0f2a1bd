#pragma once

#include <cstdint>

namespace drystage::models {

/// How likely something is, 0 to 1, with the interval that has the true chance in it 95 times in
/// 100.
struct Chance {
  double chance = 0;
  double low = 0;
  double high = 1;

  bool operator==(const Chance&) const = default;
};

/// From how often something happened in how many independent trials. The interval is Wilson's
/// (Probable inference, J. American Statistical Association 22, 1927): also where it happened
/// never, or always, it says how sure that is. Of no trials nothing is known: 0 to 1.
[[nodiscard]] Chance chance_of(std::uint64_t times, std::uint64_t trials);

/// Half of the interval's width.
[[nodiscard]] double half_width(const Chance& chance);

}  // namespace drystage::models
