#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "report/card/answer.h"
#include "report/page/rules.h"
#include "report/text/data.h"
#include "units/format.h"

namespace drystage::report::page {

/// The figures of one reserve on one evening as they are read: "88 L".
struct Written {
  std::string plan;    ///< rounded down
  std::string must;    ///< rounded up; "no amount is enough"; "-" when the trip ends
  bool lacks = false;  ///< the plan itself has too little
};

/// A reserve of the page: all that are amounts.
struct Shown {
  std::size_t need = 0;              ///< index into Needs::reserves
  std::optional<std::size_t> way{};  ///< index into WaysOutTable::reserves
  std::string id;                    ///< "fuel:truck"
  std::string name;                  ///< "fuel of truck"
  std::string unit;
  bool vital = false;            ///< life depends on it
  int digits = 0;                ///< after the point, of a reading
  Reserve rules;                 ///< evening by evening; 0 is the one before setting out
  std::vector<Written> written;  ///< the same
};

/// Those that life depends on first. What is written and what the script compares with are the same
/// numbers: whole, unless a tenth decides.
std::vector<Shown> shown_reserves(const CardAnswer& answer, units::System system);

/// An amount that must be there, rounded up, without its unit: "51"; "no amount".
std::string least_number(const CardAnswer& answer, const Shown& shown, double least,
                         units::System system);

/// A reserve as the script takes it. What is infinite is null.
Json json_reserve(const Reserve& reserve);

/// One evening in a line: "Day 3, Wed 10 Mar, Shell Pan"; 0 is the one before setting out.
std::string evening_words(const answers::PlanRun& planned, std::size_t evening);

/// Every evening as a section: where, what comes before that night (supplies, rules for leaving and
/// turning back, warnings), the figures of each reserve with fields for readings, and the way out
/// from that camp. Names in the answer are set apart already (isolated.h).
std::string evening_sections(const CardAnswer& answer, const std::vector<Shown>& reserves,
                             units::System system);

/// Whether an evening has a way out from its camp: none before setting out, on the last evening,
/// and where nothing is driven.
bool has_way_out(const CardAnswer& answer, std::size_t evening);

}  // namespace drystage::report::page
