#pragma once

#include <string>

#include "answers/mishaps/spell.h"
#include "units/format.h"

namespace drystage::report {

// What a hot and a dull week do to a plan where they hurt most, in words without line breaks.

/// What they break, for the headline: "a hot week breaks drinking water on day 11".
std::string spell_breaks_words(const answers::PlanRun& planned, const answers::Spells& spells);

/// What one of them does: "A hot week (+4.5 °C): drinking water lasts, down to 12 L on day 9." What
/// is lacking is rounded up, what is left down. Empty where there is nothing to say: it changes
/// nothing, or the plan fails without it.
std::string spell_words(const answers::PlanRun& planned, const answers::SpellFinding& finding,
                        units::System system);

/// The weeks of which there is something to say: "hot week, dull week".
std::string weeks_told(const answers::PlanRun& planned, const answers::Spells& spells);

/// What each of them does, broken to the page, with line ends; and that in a long trip not all days
/// were tried.
std::string spell_lines(const answers::PlanRun& planned, const answers::Spells& spells,
                        units::System system);

/// Of a run in a spell, on which days it lies: "Weather shown: a hot week (+4.5 °C) on days 5 to
/// 11, where it hurts most."
std::string shown_spell_words(const answers::SpellFinding& finding, units::System system);

/// A verdict on such a run: "HOLDS: ..." becomes "HOLDS IN A HOT WEEK: ...".
std::string in_spell_words(std::string verdict, const answers::SpellFinding& finding);

/// "hot" or "dull", as on the command line.
std::string spell_name(plan::Spell spell);

}  // namespace drystage::report
