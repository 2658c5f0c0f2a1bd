#pragma once

#include <string>
#include <string_view>

namespace drystage::cli {

/// What the surroundings say of the locale; each is null when it is not set.
struct LocaleVariables {
  const char* all = nullptr;    ///< LC_ALL
  const char* ctype = nullptr;  ///< LC_CTYPE
  const char* lang = nullptr;   ///< LANG
};

/// Whether text is in UTF-8: by the first of the three that is set and not empty (POSIX.1-2017,
/// Base Definitions, 8.2), and what stands after its point, or the whole where it has none.
inline bool is_utf8(const LocaleVariables& variables) {
  for (const char* value : {variables.all, variables.ctype, variables.lang}) {
    if (value == nullptr || *value == '\0') continue;
    const std::string_view locale(value);
    const std::size_t point = locale.find('.');
    const std::string_view after = point == std::string_view::npos ? locale : locale.substr(point);
    std::string codeset;
    for (const char c : after.substr(0, after.find('@'))) {
      if (c >= 'A' && c <= 'Z') codeset += static_cast<char>(c - 'A' + 'a');
      if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) codeset += c;
    }
    return codeset == "utf8";
  }
  return false;
}

/// Whether to draw lines of block characters: only on a terminal that is not a dumb one, and where
/// text is in UTF-8. `term` is the variable TERM, null when it is not set.
inline bool wants_sparklines(bool terminal, const char* term, const LocaleVariables& locale) {
  return terminal && term != nullptr && std::string_view(term) != "dumb" && is_utf8(locale);
}

}  // namespace drystage::cli
