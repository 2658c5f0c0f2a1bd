#pragma once

#include <string>
#include <vector>

#include "report/mishaps/report.h"

namespace drystage::support {

/// An answer of no findings yet: a trip of so many days from Monday 1 March 2027, with drinking
/// water, food and a cabinet called chest, and failures of these names (all of them containers).
report::MishapsAnswer mishaps_answer(int days, const std::vector<std::string>& names);

/// Findings at six in the morning of a day from 0: that all holds; that a reserve is so far below
/// its margin; that it is dry at nine the same day at Base, for nine hours and 4 short.
answers::Finding holding(int failure, int day);
answers::Finding nibbling(const report::MishapsAnswer& answer, int failure, int day,
                          const std::string& reserve, double below);
answers::Finding dry(const report::MishapsAnswer& answer, int failure, int day,
                     const std::string& reserve,
                     answers::Outcome outcome = answers::Outcome::runs_out_vital);

/// Two failures, "can 1 lost" and "well dry", on each of 14 days, of which nothing comes.
report::MishapsAnswer calm_mishaps();

/// The same; of the first, struck on the fifth day, comes that drinking water runs out.
report::MishapsAnswer fatal_mishap();

}  // namespace drystage::support
