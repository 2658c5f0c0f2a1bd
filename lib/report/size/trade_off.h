#pragma once

#include <string>

#include "report/size/report.h"
#include "units/format.h"

namespace drystage::report {

/// What more and less safety weighs, or costs: a row for each number of days that margins are
/// moved by, with the least set, its difference to the row before, a bar of what it has more than
/// the least row, and what it takes more or less than the set for the plan's own margins. Empty
/// where it was not asked for.
std::string size_trade_off(const SizeAnswer& answer, const TextOptions& options);

/// What a set weighs or costs, as it is told: rounded up, so that steps are the differences of what
/// the reader sees.
struct TradeOffFigures {
  bool costs = false;
  units::System system = units::System::metric;

  [[nodiscard]] double number(const answers::Totals& totals) const;
  /// Without and with its unit: money has none.
  [[nodiscard]] std::string figure(double number) const;
  [[nodiscard]] std::string unit() const;
  [[nodiscard]] std::string words(double number) const { return figure(number) + unit(); }
};

/// By how much the margins are moved: "+2 days", "-1 day", "as planned".
std::string trade_off_margins(const answers::TradeOff& row);

/// What a row's set takes more or less than the set for the plan's own margins, in a few words for
/// each thing: "drinking water +20 L, camp battery 75 Ah agm"; or why there is none: "not on
/// offer". A set must have been found for the plan's own margins.
std::string trade_off_set(const answers::TradeOff& row, const SizeAnswer& answer,
                          units::System system);

/// Which margins are moved, and which are not.
std::string trade_off_scope(const plan::Plan& plan);

}  // namespace drystage::report
