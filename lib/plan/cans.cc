#include "plan/cans.h"

#include <string>

#include "units/text.h"

namespace drystage::plan {
namespace {

// Full of water, what one person lifts (common practice).
constexpr double most_lifted_l = 30;

}  // namespace

bool is_called_can(std::string_view name) {
  const std::string lower = units::lower_ascii(name);
  for (const std::string_view word : {"can", "cans", "jerry", "jerrycan", "jerrycans"}) {
    for (std::size_t at = lower.find(word); at != std::string::npos;
         at = lower.find(word, at + 1)) {
      const auto is_letter = [&](std::size_t i) {
        return i < lower.size() && lower[i] >= 'a' && lower[i] <= 'z';
      };
      if (!(at > 0 && is_letter(at - 1)) && !is_letter(at + word.size())) return true;
    }
  }
  return false;
}

bool is_can(const Tank& tank) { return tank.empty_kg > 0 || is_called_can(tank.name); }

bool is_can(const Container& container) {
  return container.holds_l <= most_lifted_l || is_called_can(container.name);
}

}  // namespace drystage::plan
