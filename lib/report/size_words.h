#pragma once

#include <string>
#include <string_view>

#include "answers/size.h"
#include "report/rounding.h"
#include "units/format.h"

namespace drystage::report {

/// A mass in the units to show, rounded one way: whole, to a tenth below ten. Without its unit, and
/// with it: "412", "412 kg".
std::string mass_number(double kg, units::System system, Toward toward);
std::string mass_words(double kg, units::System system, Toward toward);

/// The same of a volume: "300 L".
std::string volume_number(double volume_l, units::System system, Toward toward);
std::string volume_words(double volume_l, units::System system, Toward toward);

/// Money, rounded up: whole, or with two digits after the point where it is not.
std::string cost_number(double cost);

/// How much of a thing: "8" of what is counted, "100 Ah agm" of what has a size, "none".
std::string amount_words(const answers::SizedLine& line, double amount, const std::string& detail,
                         units::System system);

/// So much of what cans and days of food are of: "60 L", "1 day", "9 days". The unit is that of
/// SizedLine.
std::string quantity_words(double quantity, std::string_view unit, units::System system);

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
/// ..."). What is lacking or too much is rounded up. The trial gives names and dates: any of the
/// same plan.
enum class Manner { note, sentence };
std::string failing_words(const answers::Trial& trial, const answers::Failing& failing,
                          units::System system, Manner manner);

/// "margin", "overload", "packing", "space", "budget", "mishap".
std::string_view reason_name(answers::Failing::Reason reason);

/// Whether two amounts, masses or costs are the same but for the rounding of a double.
bool same(double a, double b);

/// What a vehicle may weigh, loaded: its own limit or that of the plan's `size:`, the lesser;
/// infinite where there is none.
double mass_limit(const plan::Plan& plan, std::size_t vehicle);

}  // namespace drystage::report
