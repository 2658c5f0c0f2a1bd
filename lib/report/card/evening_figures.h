#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "report/card/day_facts.h"
#include "report/needs/report.h"
#include "units/format.h"

namespace drystage::report {

/// What stands beside the empty box of one reserve on one evening.
struct EveningFigures {
  std::string plan;       ///< what the plan expects, rounded down
  std::string must_have;  ///< rounded up; "+" before it where it cannot be held; "-" on the last
                          ///< night, for the trip ends
  bool lacks = false;     ///< the plan itself has too little
};

/// The one figure of a reserve that life does not depend on.
struct SmallFigure {
  std::string plan;  ///< what the plan expects that night, rounded down; of a cabinet the warmest
                     ///< of the day, rounded up; empty where nothing is known
  bool low = false;  ///< below its margin that day
};

/// What stands for a figure where no amount is enough.
inline constexpr const char* no_amount = "no amount is enough";

/// The reserves that life depends on, which have boxes, in the order in which they are shown:
/// indices into Needs::reserves.
std::vector<std::size_t> life_supporting(const NeedsAnswer& answer);

/// All others, in the order of the course: indices into its reserves.
std::vector<std::size_t> small_reserves(const answers::PlanRun& planned);

/// How many evenings there are: the one before setting out, and one for each day.
std::size_t evenings(const NeedsAnswer& answer);

/// The first evening that there is something to say of: 0, the one before setting out; on the way
/// that of the last reading.
std::size_t first_evening(const answers::PlanRun& planned);

/// The figures of a reserve (an index into Needs::reserves) at the midnight that ends a day,
/// counted from 1; 0 is the midnight with which the trip begins, when what is taken on at the
/// outset is on board. They are those of the morning that follows, and after the last day what is
/// left. They are whole, unless a tenth decides whether there is enough.
EveningFigures evening_figures(const NeedsAnswer& answer, std::size_t i, std::size_t evening,
                               units::System system);

/// The same of a reserve without a box, an index into the course's.
SmallFigure small_figure(const NeedsAnswer& answer, std::size_t reserve, std::size_t evening,
                         units::System system);

/// What one evening shows: the facts of its day, if it ends one, the figures of every reserve that
/// life depends on, and one of every other.
struct EveningRow {
  std::optional<DayFacts> facts{};  ///< none: before setting out
  std::vector<EveningFigures> figures{};
  std::vector<SmallFigure> small{};
};

/// All evenings, and what the reserves are called.
struct EveningTable {
  std::vector<std::string> reserves{};  ///< "Drinking water, L"
  std::vector<std::string> small{};     ///< the same of those that have one figure
  std::vector<EveningRow> rows{};
  std::string start{};  ///< where the trip begins
};

EveningTable evening_table(const NeedsAnswer& answer, units::System system);

/// What is said of the evening before setting out: to load less than is planned is no way to begin.
std::string load_words(const EveningTable& table, const EveningRow& row);

/// The figures of the other reserves in a line: "Food 49 meals; !cold in chest 7 °C".
std::string small_words(const EveningTable& table, const EveningRow& row);

/// A figure, with a sign before it where there is too little.
std::string marked(const std::string& figure, bool low);

}  // namespace drystage::report
