#pragma once

#include <array>

#include "report/text/page.h"

namespace drystage::cli {

/// Something that is worth a page of help beside the commands.
struct Topic {
  const char* name;
  const char* title;
  const char* text;  ///< paragraphs, a line each
};

inline constexpr std::array<Topic, 4> topics{{
    {"words", "What the words mean",
     "Reserve: anything that can run out, such as drinking water, fuel or the charge of a "
     "battery.\n"
     "Margin: what must always remain of a reserve. You choose it.\n"
     "Must have: the least that must be there to reach the next confirmed supply with the margin "
     "intact.\n"
     "To spare: what is there above must have.\n"
     "Short by: what is needed and not there.\n"
     "Holds: every reserve keeps its margin, every load has power at the end, and no vehicle is "
     "above its limit.\n"
     "Mishap: one thing that goes wrong. A plan survives it if drinking water and fuel last.\n"
     "Confirmed: somebody has said that a supply is there.\n"
     "Turn-back point: the last place from which the way back still holds."},
    {"margins", "How to choose margins",
     "A margin is an amount (20 L), a share of what can be held (10 %), a time (3 days), or a "
     "distance (150 km).\n"
     "A time is what staying put for so long would use, in that day's heat.\n"
     "A distance is driven on the worse road of this leg and the next.\n"
     "Begin with what your worst likely delay would use. How long until somebody looks for you? "
     "How far may a detour be?\n"
     "A reserve without a margin may go to the last drop. run and check warn of drinking water and "
     "fuel without one.\n"
     "drystage size shows what one more day of margin weighs. drystage mishaps shows what it is "
     "good for.\n"
     "In the plan: margins: {drinking_water: 3 days, fuel: 150 km, food: 2 days}"},
    {"cautions", "What to be careful of", report::cautions.data()},
    {"exit", "How drystage ends",
     "0: every reserve keeps its margin. Of mishaps: no single one runs drinking water or fuel "
     "dry. Of size: a set on offer is enough. Of odds: with --at-most, when that is kept; with "
     "--trip, as run; else always, but where it was stopped before the first trip.\n"
     "HOLDS ONLY IF and HOLDS IN USUAL WEATHER end with 0 too: read the first line.\n"
     "1: that is not so.\n"
     "2: the plan or the command line is wrong.\n"
     "3: a file could not be read or written, there is no font to draw with, or not enough "
     "memory.\n"
     "70: a fault of drystage itself."},
}};

}  // namespace drystage::cli
