#include "engine/remedy.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace drystage::engine {

std::string words(const ChangeName& name) {
  static constexpr std::array<const char*, most_pieces + 1> numbers{
      "no",    "one",   "two",  "three", "four",   "five",  "six",
      "seven", "eight", "nine", "ten",   "eleven", "twelve"};
  if (name.many.empty()) return name.one;
  const auto count = static_cast<std::size_t>(name.count);
  const std::string number =
      count < numbers.size() ? numbers.at(count) : std::to_string(name.count);
  return number + " " + (name.count == 1 ? name.one : name.many);
}

Remedy in_steps(const std::string& kind, const std::function<Remedy(int)>& make, int steps) {
  Remedy out = make(steps);
  out.kind = kind;
  out.steps = steps;
  out.of_steps = [=](int other) { return in_steps(kind, make, other); };
  return out;
}

int pieces_for(double lacking, double size) {
  return static_cast<int>(std::clamp(std::ceil(lacking / size) + 1, 1.0, 1.0 * most_pieces));
}

}  // namespace drystage::engine
