#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "report/mishaps/report.h"
#include "report/text/data.h"
#include "units/format.h"

namespace drystage::report {

// What `mishaps` says of a plan in sentences, without line breaks.

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

/// How many failures come to what, each by the worst that it does. One that was not tried at any
/// moment counts nowhere.
struct Tally {
  std::size_t tried = 0;
  std::size_t vital = 0;   ///< run drinking water or fuel dry
  std::size_t dry = 0;     ///< run something else dry
  std::size_t margin = 0;  ///< eat into a margin
};
Tally tally(const answers::Sweep& sweep);

/// The worst moment of every failure that does any harm, the worst of all first: by outcome, and
/// then by what is lacking for the reserve's size. On a tie in the order of the sweep.
std::vector<const answers::Finding*> worst_moments(const MishapsAnswer& answer);

/// "day 5, Fri 05 Mar, 06:00", to the earlier minute.
std::string strike_words(const answers::PlanRun& planned, int day, double hour);

/// What comes of a finding that is not `holds`, a sentence or two: which reserve, when and where,
/// how much is lacking and for how long, and whether turning back would mend it. What is lacking
/// is rounded up.
std::string finding_words(const answers::PlanRun& planned, const answers::Finding& finding,
                          units::System system);

/// What mishaps put over a limit of mass, the worst moment of each failure; each a sentence. What
/// is taken over from a vehicle left behind lies halfway between the axles.
std::vector<std::string> overload_sentences(const MishapsAnswer& answer, units::System system);

/// "drinking water runs out on day 7": of a finding that does.
std::string short_words(const answers::PlanRun& planned, const answers::Finding& finding);

/// "supply", "heat_wave": as in the plan file and on the command line.
std::string_view kind_name(plan::MishapKind kind);

/// "holds", "eats_margin", "runs_out", "runs_out_vital".
std::string_view outcome_name(answers::Outcome outcome);

/// The words of kinds in JSON; and when and where a finding ran dry, null where it did not.
Json json_kinds(const std::vector<plan::MishapKind>& of);
Json json_dry(const answers::PlanRun& planned, const answers::Finding& finding);

/// A row for each failure that does harm and a column for each day, one sign in each: the worst
/// that comes of it when it strikes that day. Below it what the signs mean, and the names of the
/// failures that hold whenever they strike. Within 80 columns and a page, unless wide: columns of a
/// trip of more than 40 days stand for several days each, and of more than 40 failures the least
/// harmful are counted instead.
std::string mishap_matrix(const MishapsAnswer& answer, const TextOptions& options);

}  // namespace drystage::report
