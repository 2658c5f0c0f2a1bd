#include "plan/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "units/list.h"
#include "units/text.h"

namespace drystage::plan {
namespace {

// What people write for a word of the plan, where its spelling does not lead there.
constexpr auto other_words =
    std::to_array<std::pair<std::string_view, std::string_view>>({{"lifepo4", "lfp"},
                                                                  {"lifepo", "lfp"},
                                                                  {"lithium", "lfp"},
                                                                  {"gasoline", "petrol"},
                                                                  {"gasoil", "diesel"},
                                                                  {"on", "yes"},
                                                                  {"off", "no"},
                                                                  {"f", "female"},
                                                                  {"woman", "female"},
                                                                  {"m", "male"},
                                                                  {"man", "male"}});

// "unsealed" is not meant to be "sealed": what says no to a word is none of its spellings.
bool says_no_to(std::string_view word, std::string_view candidate) {
  static constexpr std::array<std::string_view, 5> nos{"un", "in", "im", "non", "not"};
  return word.size() > candidate.size() && word.ends_with(candidate) &&
         std::ranges::any_of(nos, [&](std::string_view no) { return word.starts_with(no); });
}

// The candidates nearest by spelling, in quotes; none if none is near enough to be what was meant.
std::vector<std::string> nearest(std::string_view word,
                                 std::span<const std::string_view> candidates) {
  const std::string small = units::lower_ascii(word);
  for (const auto& [other, meant] : other_words) {
    if (other != small || std::ranges::find(candidates, meant) == candidates.end()) continue;
    return {units::in_quotes(meant)};
  }
  for (const std::string_view candidate : candidates) {
    if (units::lower_ascii(candidate) == small) return {units::in_quotes(candidate)};
  }
  // A third of the letters may differ; in a short word one or two, but never all.
  constexpr std::size_t longest = 60;
  if (word.size() < 2 || word.size() > longest) return {};
  double limit = std::max(word.size() < 4 ? 1.0 : 2.0, static_cast<double>(word.size()) / 3.0);
  std::vector<std::string> best;
  for (const std::string_view candidate : candidates) {
    if (says_no_to(small, units::lower_ascii(candidate))) continue;
    const std::optional<double> distance = units::edit_distance(word, candidate, limit);
    if (!distance) continue;
    if (*distance < limit) best.clear();
    limit = *distance;
    best.push_back(units::in_quotes(candidate));
  }
  constexpr std::size_t most = 3;  // of more, none is near
  return best.size() > most ? std::vector<std::string>() : units::each_once(std::move(best));
}

std::vector<std::string_view> views(const std::vector<std::string>& words) {
  return {words.begin(), words.end()};
}

}  // namespace

std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates) {
  const auto found = nearest(word, candidates);
  return found.empty() ? std::string()
                       : fmt::format("did you mean {}?", units::listed(found, " or "));
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& candidates) {
  return did_you_mean(word, views(candidates));
}

std::string one_of(std::span<const std::string_view> words) {
  constexpr std::size_t most = 25;  // all keys of `uncertainty`
  const auto first = words.first(std::min(most, words.size()));
  const std::vector<std::string> made(first.begin(), first.end());
  if (words.size() > most) return units::listed(made) + ", ...";
  return units::listed(made, " or ");
}

std::string one_of(const std::vector<std::string>& words) { return one_of(views(words)); }

}  // namespace drystage::plan
