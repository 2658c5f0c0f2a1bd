#pragma once

#include <fmt/core.h>

#include <charconv>
#include <cstdint>
#include <string>

#include "usage_error.h"

namespace drystage::cli {

/// A whole number of `least` or more, and nothing else. Throws UsageError.
inline std::uint64_t whole_number(const std::string& text, const char* option, std::uint64_t least,
                                  std::uint64_t most) {
  std::uint64_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  const bool is_number = error == std::errc{} && end == text.data() + text.size();
  if (!is_number || number < least || number > most) {
    throw UsageError(
        fmt::format("--{} {}: expected a whole number, from {} to {}", option, text, least, most));
  }
  return number;
}

}  // namespace drystage::cli
