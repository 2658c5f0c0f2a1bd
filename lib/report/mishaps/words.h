#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "report/mishaps/report.h"
#include "units/format.h"

namespace drystage::report {

// What `mishaps` says of a plan in sentences, without line breaks.

/// "1 run", "2 runs".
std::string counted(std::size_t count, std::string_view one, std::string_view many);

/// What a failure is called.
const std::string& failure_name(const answers::Sweep& sweep, int failure);

/// Kinds of mishap as in the plan file: "supply, heat_wave".
std::string mishap_kinds(const std::vector<plan::MishapKind>& of);

/// How much of what was asked for is done: "PARTIAL: ..."; empty where it is all.
std::string mishaps_partial_words(const MishapsAnswer& answer);

/// What comes first: "SURVIVES any one mishap: ..." or "DOES NOT SURVIVE ...".
std::string mishaps_verdict_words(const MishapsAnswer& answer, units::System system);

/// What else was found and what was tried.
std::string mishaps_scope_words(const MishapsAnswer& answer);

/// Where the plan is not whole as it stands, what mishaps are judged against; else empty.
std::string mishaps_plan_itself_words(const MishapsAnswer& answer, units::System system);

/// Failures of which there is nothing to show day by day, and what is to be said of them: "Hold on
/// every day"; "NOT TRIED YET".
struct HarmlessFailures {
  std::string what;
  std::vector<std::string> names;
};
std::vector<HarmlessFailures> harmless_failures(const MishapsAnswer& answer);

/// What a blank in a matrix of failures by days means: "cannot strike then", and what else it may.
std::string mishaps_blank_words(const MishapsAnswer& answer);

}  // namespace drystage::report
