#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace drystage::units {

/// One way of writing one unit. `symbol` is the name by which registry.h knows the unit.
struct Spelling {
  std::string_view text;
  std::string_view symbol;
  bool is_time = false;
};

/// A word that names units of more than one size, and what to write in its place.
struct Ambiguity {
  std::string_view word;  // in small letters
  std::string_view trouble;
  std::string_view write_1;  // a unit that is sure
  std::string_view write_2;  // another; empty if there is none
  bool rescale;              // the sure units need another number than the one written
};

/// Every known spelling, in groups of one quantity.
std::span<const Spelling> all_spellings();

/// The longest known spelling at the start of `text` that does not end inside a word, or null.
/// `text` has single blanks only and none before an opening bracket. Case counts.
const Spelling* longest_spelling(std::string_view text);

/// The ambiguity that `word` is an instance of, or null. Case does not count.
const Ambiguity* ambiguity(std::string_view word);

/// True if `phrase` would be a known spelling if its capitals were set right.
bool is_spelling_but_for_case(std::string_view phrase);

/// The known spelling nearest to `word` among those that `may_be` what was meant, or nothing if
/// none is near.
std::optional<std::string> nearest_spelling(
    std::string_view word, const std::function<bool(std::string_view)>& may_be = {});

}  // namespace drystage::units
