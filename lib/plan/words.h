#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace drystage::plan {

/// "did you mean ...?" about the candidate nearest to `word` by spelling, or those that are as
/// near; an empty text if none is near enough to be what was meant.
std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates);
std::string did_you_mean(std::string_view word, const std::vector<std::string>& candidates);

/// "a", "a or b", "a, b or c"; of very many only the first 13, then "...".
std::string one_of(std::span<const std::string_view> words);
std::string one_of(const std::vector<std::string>& words);

/// A word of the plan file and what it stands for.
template <class E>
struct Word {
  std::string_view text;
  E value;
};

/// The texts of a table of words.
template <class E, std::size_t n>
constexpr std::array<std::string_view, n> texts(const std::array<Word<E>, n>& words) {
  std::array<std::string_view, n> made{};
  for (std::size_t i = 0; i < n; ++i) made[i] = words[i].text;
  return made;
}

/// The text of a value that a table of words has.
template <class E, std::size_t n>
constexpr std::string_view text_of(const std::array<Word<E>, n>& words, E value) {
  for (const Word<E>& word : words) {
    if (word.value == value) return word.text;
  }
  return {};
}

}  // namespace drystage::plan
