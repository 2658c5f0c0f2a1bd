#include "plan/words.h"

#include <algorithm>
#include <optional>

#include "units/text.h"

namespace drystage::plan {
namespace {

std::vector<std::string_view> views(const std::vector<std::string>& words) {
  return {words.begin(), words.end()};
}

}  // namespace

std::string nearest(std::string_view word, std::span<const std::string_view> candidates) {
  // A third of the letters may differ; in a short word one or two, but never all.
  constexpr std::size_t longest = 60;
  if (word.size() < 2 || word.size() > longest) return {};
  double limit = std::max(word.size() < 4 ? 1.0 : 2.0, static_cast<double>(word.size()) / 3.0);
  std::string_view best;
  for (const std::string_view candidate : candidates) {
    const std::optional<double> distance = units::edit_distance(word, candidate, limit);
    if (distance && (best.empty() || *distance < limit)) {
      best = candidate;
      limit = *distance;
    }
  }
  return std::string(best);
}

std::string nearest(std::string_view word, const std::vector<std::string>& candidates) {
  return nearest(word, views(candidates));
}

std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates) {
  const std::string near = nearest(word, candidates);
  return near.empty() ? std::string() : "did you mean " + units::in_quotes(near) + "?";
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& candidates) {
  return did_you_mean(word, views(candidates));
}

std::string one_of(std::span<const std::string_view> words) {
  constexpr std::size_t most = 13;  // all kinds of mishap
  std::string made;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i == most) return made + ", ...";
    if (i > 0) made += i + 1 == words.size() ? " or " : ", ";
    made += words[i];
  }
  return made;
}

std::string one_of(const std::vector<std::string>& words) { return one_of(views(words)); }

}  // namespace drystage::plan
