#pragma once

#include <cstddef>

#include "answers/mishaps/mishaps.h"
#include "interrupt.h"
#include "progress.h"

namespace drystage::cli {

/// Searches, until Ctrl-C, with a line on the terminal that shows how far it is. An Interrupt must
/// be there.
template <class Search>
auto watched(const char* what, const Search& search) {
  ProgressLine line(what);
  return search(answers::Watch{
      .progress = [&line](std::size_t done, std::size_t total) { line.show(done, total); },
      .stop = Interrupt::flag()});
}

}  // namespace drystage::cli
