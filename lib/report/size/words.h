#pragma once

#include <string>
#include <string_view>

#include "answers/offers/sized_line.h"
#include "report/size/report.h"
#include "report/text/amounts.h"
#include "units/format.h"

namespace drystage::report {

/// How much of a thing: "8" of what is counted, "100 Ah agm" of what has a size, "none".
std::string amount_words(const answers::SizedLine& line, double amount, const std::string& detail,
                         units::System system);

/// Whether a set has more or less of a thing than the plan, or another kind of it.
bool changed(const answers::SizedLine& line);

/// What is more or less: "41 kg less", what is saved rounded down, what comes on top up. Empty
/// where it is the same.
std::string mass_change_words(double more_kg, units::System system);

/// What a set has more or less of a thing than the plan: "the plan has 3 too many (61 kg)", "in
/// place of 100 Ah agm, 7 kg less". Of a set that is not enough nothing is too many: "3 fewer than
/// the plan has (61 kg)". Empty where it is the same.
std::string change_words(const answers::SizedLine& line, bool enough, units::System system);

/// What a set fails in, for a note ("truck 40 kg over its limit") or for a sentence ("truck is
/// ..."). What is lacking or too much is rounded up. The run gives names and dates: any of the
/// same plan.
enum class Manner { note, sentence };
std::string failing_words(const answers::PlanRun& planned, const answers::Failing& failing,
                          units::System system, Manner manner);

/// "margin", "overload", "packing", "space", "budget", "mishap", "chance".
std::string_view reason_name(answers::Failing::Reason reason);

/// What a vehicle may weigh, loaded: its own limit or that of the plan's `size:`, the lesser;
/// infinite where there is none.
double mass_limit(const plan::Plan& plan, std::size_t vehicle);

// What `size` says first, without line breaks.

/// The set that was found keeps every margin only if what nobody has confirmed is there.
bool size_hopes(const SizeAnswer& answer);

/// "LOAD 412 kg: the lightest set on offer that keeps every margin."; "NOT ENOUGH ON OFFER: ..."
/// with what the nearest set lacks; or that nothing is known.
std::string size_first_words(const SizeAnswer& answer, units::System system);

/// What is to be kept on the trips that are drawn: "every margin", or "every margin that life
/// depends on".
std::string margins_words(const SizeAnswer& answer);

/// How likely it is that margins are kept with the set, and which are broken most often: "With it
/// every margin is kept on 96.2 % of trips (95.3 to 97.0 %); 2000 were drawn. ..."; of a miss
/// whether more load would help, or which limit stands in the way. Empty where no confidence is
/// asked for.
std::string size_odds_words(const SizeAnswer& answer, units::System system);

/// That the search was stopped before it was done; empty where it was not.
std::string size_partial_words(const SizeAnswer& answer);

/// A row for each thing of a set: what the plan has, what is to be loaded, its mass (cost and
/// space where they are given), and below it what the plan has too much or too little and what one
/// fewer would do. Where cans of one size stand in for those of another, they are compared by what
/// all of them hold. What is kept has one row. Then the totals of the set and of what the plan has
/// of the same. Columns are as
/// wide as what stands in them; a name that does not fit is broken to further lines.
std::string size_table(const SizeAnswer& answer, const answers::SizedPlan& set,
                       const TextOptions& options);

}  // namespace drystage::report
