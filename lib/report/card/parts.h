#pragma once

#include <array>

#include "plan/words.h"

namespace drystage::report {

/// What goes with the sheet to carry, each on pages of its own.
struct CardParts {
  bool packing = false;
  bool charts = false;
  bool dips = false;
  bool notes = false;
  bool home = false;
};

/// The words by which they are asked for.
inline constexpr std::array<plan::Word<bool CardParts::*>, 5> card_part_words{
    {{"packing", &CardParts::packing},
     {"charts", &CardParts::charts},
     {"dips", &CardParts::dips},
     {"notes", &CardParts::notes},
     {"home", &CardParts::home}}};

}  // namespace drystage::report
