#pragma once

#include <string>

#include "report/size/report.h"

namespace drystage::support {

/// So many cans of 20 L of a stuff, of so many kg each, where the plan has so many. `can` is what
/// one is called: "can", "container".
answers::SizedLine cans_of(const std::string& stuff, const std::string& can, double plan_amount,
                           double amount, double each_kg);

/// The same of cans that hold so much.
answers::SizedLine holding(answers::SizedLine cans, double holds_l);

/// So many days of a food of two, of so many kg each.
answers::SizedLine days_of(const std::string& food, double plan_amount, double amount,
                           double each_kg);

/// A thing in another size.
answers::SizedLine sized(const std::string& name, const std::string& unit, double plan_amount,
                         double amount, double plan_kg, double kg);

/// What fails: a margin on a day from 0, by so much; a mishap that strikes on a day from 0 and runs
/// drinking water dry the day after, 4 L short; something that is passed by so much.
answers::Failing below(const report::SizeAnswer& answer, const std::string& reserve, int day,
                       double by);
answers::Failing struck(const report::SizeAnswer& answer, const std::string& mishap, int day);
answers::Failing beyond(answers::Failing::Reason reason, double over, int subject = -1);

/// The totals of some lines, those that are kept left out.
answers::Totals totals_of(const std::vector<answers::SizedLine>& lines);

/// A trip of 14 days from Monday 1 March 2027 of a truck that may weigh 3500 kg, with drinking
/// water, diesel, food and a cabinet called chest, and nothing found yet.
report::SizeAnswer unsized();

/// The same with a set: eight containers of drinking water where the plan has six, and with seven
/// it is 2.4 L below its margin on day 11; one can of diesel where the plan has four; a lithium
/// battery in place of a lead one.
report::SizeAnswer sized_answer();

/// The same with a trade-off for one day less to two days more, of which the last is not on offer.
report::SizeAnswer traded();

/// The first trip, where the nearest set lacks 12 L of drinking water at its tightest.
report::SizeAnswer missed();

}  // namespace drystage::support
