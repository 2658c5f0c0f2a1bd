#include "support/convoy.h"

#include <fmt/core.h>

namespace drystage::support {

std::vector<std::string> lorries(const std::string& name, int count,
                                 const std::vector<std::string>& fuels) {
  std::vector<std::string> out;
  for (int n = 1; n <= count; ++n) {
    const std::string& fuel = fuels[static_cast<std::size_t>(n - 1) % fuels.size()];
    out.push_back(
        fmt::format("{{name: {} {}, fuel: {}, mass: {{empty: 2500 kg}}, tanks: [{{name: tank, "
                    "holds: 180 L, filled: 180 L, unusable: 2 L}}]}}",
                    name, n, fuel));
  }
  return out;
}

std::vector<std::string> travellers(int count, const std::string& lorry) {
  std::vector<std::string> out;
  for (int n = 1; n <= count; ++n) {
    out.push_back(
        fmt::format("{{name: Traveller number {}, mass: 70 kg, height: 172 cm, age: 40, sex: male, "
                    "rides_in: {}, observed: {{drinking: 4 L/day, meals: 3}}}}",
                    n, lorry));
  }
  return out;
}

}  // namespace drystage::support
