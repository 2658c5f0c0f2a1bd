#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "answers/odds/odds.h"
#include "models/chance.h"
#include "report/odds/report.h"
#include "units/format.h"

namespace drystage::report {

/// A chance in percent: "12 %", "1.9 %", "0.02 %". What never happened is "0 %".
std::string percent_words(double chance);

/// The ends of its interval: "11 to 13 %".
std::string interval_words(const models::Chance& chance);

/// How likely it is that margins are kept, never more than it is, with its interval: "95.2 % of
/// trips (94.1 to 96.2 %)".
std::string kept_words(const models::Chance& chance);

/// What a source is called in a table and in a sentence: "heat", "missing supplies".
std::string source_words(plan::Source source);

/// What one of the trips had that the plan does not: first what was the most unusual, then what
/// happened: "drinking 1.34 times, fuel 1.21 times, day 5: halted for 2 days".
/// `reserve`: what acts on this one alone; -1: all.
std::string story_words(const answers::PlanRun& planned, const answers::TripDraw& draw,
                        const std::vector<answers::Happened>& happened, units::System system,
                        int reserve = -1);

/// One thing that happened on it, without its day: "main tank lost".
std::string happening_words(const answers::PlanRun& planned, const answers::Happened& happened);

/// How many trips were drawn, and whether the plan holds as calculated.
std::string odds_trips_words(const OddsAnswer& answer);

/// The answer in one sentence: "12 % of trips fall below a margin of drinking water or fuel (11 to
/// 13 %)."
std::string odds_verdict_words(const OddsAnswer& answer);
/// How often that runs out, and when.
std::string odds_dry_words(const OddsAnswer& answer);
/// What would help most; empty where nothing was found.
std::string odds_help_words(const OddsAnswer& answer);

/// Reserves of which there is something to tell, those that life depends on first; `all`: all.
std::vector<std::size_t> told_reserves(const OddsAnswer& answer, bool all);

/// What whoever reads a chance must know.
inline constexpr std::string_view odds_cautions =
    "A chance counts what is drawn (uncertainty: in the plan) and nothing else. What nobody "
    "thought "
    "of is not in it. It is no permission to go.";

/// The day on which so much of all first breaches has happened, counted from 0; -1 where there is
/// none.
int day_of_share(const std::vector<std::uint64_t>& days, double share);

}  // namespace drystage::report
