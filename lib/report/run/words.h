#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "answers/base/plan_run.h"
#include "answers/mishaps/spell.h"
#include "report/run/report.h"
#include "report/text/page.h"
#include "units/format.h"

namespace drystage::report {

// The sentences that `run` says of a plan, each without line breaks. `without_unconfirmed` is the
// verdict with every supply shut that nobody has confirmed, where the plan leans on such.

/// Whether a plan holds, and not only if what nobody has confirmed is there.
bool surely_holds(const answers::PlanRun& planned,
                  const std::optional<answers::Verdict>& without_unconfirmed);

/// What comes first: "HOLDS: every reserve keeps its margin on all 9 days." or "DOES NOT HOLD: ..."
/// with what is worst of all that fails, when, and by how much. Where a spell breaks what life
/// depends on, it holds IN USUAL WEATHER alone, and the spell is named.
std::string verdict_words(const answers::PlanRun& planned,
                          const std::optional<answers::Verdict>& without_unconfirmed,
                          units::System system,
                          const std::optional<answers::Spells>& spells = std::nullopt);

/// What depends on supplies that nobody has confirmed: "Not confirmed: water at Bir Aslam. Without,
/// ..." Empty when the plan leans on none.
std::string without_unconfirmed_words(const answers::PlanRun& planned,
                                      const std::optional<answers::Verdict>& without_unconfirmed,
                                      units::System system);

/// When a vehicle is heaviest, and its limit: "truck is heaviest on day 1: 3105 kg, limit 3500 kg."
/// Empty where it has no limit.
std::string heaviest_words(const answers::PlanRun& planned, std::size_t vehicle,
                           units::System system);

/// Of its axles, wheels, roof, bays and trailer that which is nearest its limit: "Nearest its
/// limit: rear axle, 2150 kg of 2200 kg." Empty where only the vehicle has one.
std::string part_words(const answers::PlanRun& planned, std::size_t vehicle, units::System system);

/// That a vehicle's use of fuel has not been measured; empty where it has.
std::string by_the_model_words(const plan::Vehicle& vehicle);

/// Of vehicles whose spares are judged: the punctures to be expected on the whole way, what there
/// is for them where it is tightest, and the usual caution. Empty where there is none.
std::string tyre_words(const answers::PlanRun& planned);

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

/// One row per day: date, from, to, distance, hours, maximum temperature, and for each reserve what
/// is left at the day's low point and how long that lasts. A day below the margin is marked by a
/// sign, and by colour too. Columns are as wide as what stands in them. Where not all reserves fit
/// in 80 columns the first to fail and drinking water are shown, then others that fail, then those
/// that life depends on, then those nearest to their margin; a line says which were left out. Asked
/// for all, they follow in further tables; wide, all stand in one. `also_hidden` is named with
/// those that were left out.
std::string day_table(const answers::PlanRun& planned, const TextOptions& options,
                      const std::string& also_hidden = {});

/// A line for each reserve, of all days side by side: for each day's low point a block character,
/// U+2581 to U+2588, which says in which eighth it lies between empty and full; then the first
/// day's figure and the worst of all. Of what is kept cold it is the day's warmest, between the
/// coldest day and the warmest. Under a day below its margin stands "!". Where there are more days
/// than columns, each block is the worst of several. Never wider than 80 columns; a long name has a
/// line of its own.
std::string sparklines(const answers::PlanRun& planned, const TextOptions& options);

}  // namespace drystage::report
