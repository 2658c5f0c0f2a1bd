#pragma once

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>

namespace drystage::cli {

/// How many columns a terminal on standard output has, as far as a page can use them: from 60 to
/// 200. 80 where there is none, or it does not say.
inline int terminal_columns() {
  constexpr int usual = 80;
  constexpr int fewest = 60;
  constexpr int most = 200;
  struct winsize size {};
  if (::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return usual;
  return std::clamp(static_cast<int>(size.ws_col), fewest, most);
}

}  // namespace drystage::cli
