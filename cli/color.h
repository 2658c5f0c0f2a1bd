#pragma once

#include <string_view>

namespace drystage::cli {

enum class Color { automatic, always, never };

/// Whether to write in colour. `automatic`: only to a terminal that is not a dumb one, and not when
/// NO_COLOR is set to anything (no-color.org). The variables are null when they are not set.
inline bool wants_color(Color color, bool terminal, const char* no_color, const char* term) {
  if (color != Color::automatic) return color == Color::always;
  if (no_color != nullptr && *no_color != '\0') return false;
  return terminal && term != nullptr && std::string_view(term) != "dumb";
}

}  // namespace drystage::cli
