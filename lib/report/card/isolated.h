#pragma once

#include <string>
#include <string_view>

#include "report/card/answer.h"
#include "units/list.h"

namespace drystage::report {

/// Words that, where some of them are written right to left, are set apart (Unicode's first strong
/// isolate), so that they do not turn round the numbers and commas beside them.
std::string isolated(std::string words);

/// A name for an English sentence, whole however long it is, and set apart where some of it is
/// written right to left.
std::string name_in_words(std::string_view name);

/// The same answer with names of places, people, vehicles and reserves set apart: for sentences
/// made elsewhere.
CardAnswer with_isolated_names(CardAnswer answer);

/// Several of them: "can 1, can 2, can 3".
template <class Names>
std::string list_of_names(const Names& names) {
  std::string text;
  for (const auto& name : names) units::add_to(text, name_in_words(name));
  return text;
}

}  // namespace drystage::report
