#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "answers/onward/needs.h"
#include "report/needs/report.h"
#include "units/format.h"

namespace drystage::report {

/// Whether no amount at all would be enough.
bool is_endless(const answers::Need& need);

/// Whether a reserve must last to the end of the trip.
bool until_end(const answers::PlanRun& planned, const answers::Need& need);

/// The figures of a need to the same digits, each to a tenth where one of them is below 10: what
/// must be on board rounded up, what there is and what is to spare rounded down. A digit or two
/// more where what is enough would look like too little.
struct NeedFigures {
  std::string must;  ///< "-" where no amount is enough; "+" before it where it cannot be held
  std::string has;
  std::string spare;  ///< "!" before it where it is too little
};
NeedFigures need_figures(const engine::ReserveInfo& reserve, const answers::Need& need,
                         units::System system);

/// What a need says in a sentence: "drinking water must be at least 51 L to reach Tessarin. The
/// plan has 47 L".
std::string need_words(const answers::PlanRun& planned, int reserve, const answers::Need& need,
                       units::System system);

/// "taking diesel at Sefa": the limited supplies that are counted on; empty where there is none.
std::string taking_words(const answers::PlanRun& planned, int reserve,
                         const std::vector<int>& places);

/// A limited supply that is counted on: of what, and where.
struct Taken {
  int place = 0;
  int reserve = 0;
};

/// "drinking water and diesel at Sefa; diesel at Brannock": each place and commodity once.
std::string taken_words(const answers::PlanRun& planned, const std::vector<Taken>& taken);

/// Where a reserve (an index into Needs::reserves) must last to, morning after morning: "Halt
/// Springs (day 4), taking diesel at Sefa, then Brannock (day 8)". What is taken may be left out.
std::string lasts_to_words(const answers::PlanRun& planned, const answers::Needs& needs,
                           std::size_t i, bool with_taking = true);

/// Where each reserve must last to, morning after morning, each told once; reserves of which the
/// same is told share a line.
std::string until_list(const answers::PlanRun& planned, const answers::Needs& needs,
                       const std::vector<std::size_t>& order, bool with_taking = true);

/// On how many drawn trips what must be there is enough as well; empty where that was not asked.
std::string on_trips_words(const NeedsAnswer& answer);

/// The order in which the reserves of the needs are shown: those that life depends on first.
/// Indices into Needs::reserves.
std::vector<std::size_t> needs_order(const NeedsAnswer& answer);

/// Where a reserve, an index into the course's, stands among the needs, if it does.
std::optional<std::size_t> need_of(const answers::Needs& needs, int reserve);

/// One row per morning: date, where the day begins, and for each reserve what must be on board,
/// what the plan has and what is to spare. As many reserves side by side as fit in 80 columns, the
/// others in further tables below; wide, all in one. A legend stands at the end.
std::string needs_table(const NeedsAnswer& answer, const TextOptions& options);

/// Until when and where turning back is possible: for each reserve and each stretch between its
/// supplies, then for all together with the reserve that decides; on one screen for drinking water
/// and fuel together alone. Within 80 columns. Moments that must not be passed are rounded to
/// earlier ones, and those to be waited for to later ones.
std::string turn_back_list(const NeedsAnswer& answer, const TextOptions& options);

/// When turning back is possible, for what life depends on (`vital`) or for all together. A window
/// after the first is left out where the way back is the way on.
std::vector<answers::Window> told_windows(const NeedsAnswer& answer, bool vital);

/// The reserves that can be topped up, of those that life depends on (`vital`) or of all, to which
/// no place behind is sure to supply anything: "fuel of car, food". Empty where there is none.
std::string without_sure_supply(const NeedsAnswer& answer, bool vital);

}  // namespace drystage::report
