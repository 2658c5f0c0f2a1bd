#include "report/size/trade_off_words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "report/size/words.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::SizedLine;
using answers::TradeOff;

/// What a set has of one thing: of what is counted all of the same stuff, of whatever size and
/// whoever carries it; else the size that it is of.
struct Have {
  std::string of;
  std::string unit{};
  double quantity = 0;
  std::vector<SizedLine> lines{};  ///< of what is counted many, else one
};

/// Everything in a set, each name once. Of things in a size that share a name the second and
/// further ones are told apart by their number.
std::vector<Have> haves(const std::vector<SizedLine>& lines) {
  std::vector<Have> out;
  const auto known = [&out](const std::string& of) {
    return std::ranges::find(out, of, &Have::of);
  };
  for (const SizedLine& line : lines) {
    const bool counted = !line.many.empty();
    std::string of = counted ? line.of : line.one;
    if (counted) {
      auto have = known(of);
      if (have == out.end()) {
        out.push_back({.of = of, .unit = line.unit});
        have = out.end() - 1;
      }
      have->quantity += line.amount * line.each;
      if (line.amount > 0) have->lines.push_back(line);
      continue;
    }
    for (int number = 2; known(of) != out.end(); ++number) {
      of = fmt::format("{} ({})", line.one, number);
    }
    out.push_back({.of = of, .unit = line.unit, .quantity = line.amount, .lines = {line}});
  }
  return out;
}

bool alike(const Have& a, const Have& b) {
  return std::ranges::equal(a.lines, b.lines, [](const SizedLine& one, const SizedLine& other) {
    return one.one == other.one && same(one.amount, other.amount) && one.detail == other.detail;
  });
}

/// "drinking water -10 L", "camp battery 75 Ah agm", "drinking water carried otherwise"; empty
/// where both have the same.
std::string change_of(const Have& now, const Have& own, units::System system) {
  const double more = now.quantity - own.quantity;
  const bool equal = same(more, 0);
  if (equal && alike(now, own)) return {};
  const SizedLine& line = now.lines.empty() ? own.lines.front() : now.lines.front();
  if (line.many.empty()) {
    return now.of + " " +
           (now.lines.empty() ? "none" : amount_words(line, line.amount, line.detail, system));
  }
  // As much of it in other cans, or in another vehicle.
  if (equal) return now.of + " carried otherwise";
  return fmt::format("{} {}{}", now.of, more > 0 ? "+" : "-",
                     quantity_words(std::abs(more), now.unit, system));
}

/// What a set takes more or less than the set for the margins as planned: a few words for each
/// thing, in the order of that set, and then what it does not have at all.
std::string takes(const std::vector<SizedLine>& lines, const std::vector<SizedLine>& own,
                  units::System system) {
  const std::vector<Have> now = haves(lines);
  const std::vector<Have> before = haves(own);
  const auto in = [](const std::vector<Have>& list, const Have& like) {
    const auto found = std::ranges::find(list, like.of, &Have::of);
    return found != list.end() ? *found : Have{.of = like.of, .unit = like.unit};
  };
  std::string out;
  const auto add = [&out](const std::string& change) {
    if (!change.empty()) units::add_to(out, change);
  };
  for (const Have& have : before) add(change_of(in(now, have), have, system));
  for (const Have& have : now) {
    if (std::ranges::find(before, have.of, &Have::of) == before.end()) {
      add(change_of(have, {.of = have.of}, system));
    }
  }
  return out;
}

}  // namespace

std::string trade_off_margins(const TradeOff& row) {
  const double more_days = row.more_days;
  if (same(more_days, 0)) return "as planned";
  const std::string number = units::format_number(more_days, units::significant(3));
  const bool one = same(std::abs(more_days), 1);
  return fmt::format("{}{} {}", more_days > 0 ? "+" : "", number, one ? "day" : "days");
}

std::string trade_off_set(const TradeOff& row, const SizeAnswer& answer, units::System system) {
  if (!row.sizing.found) {
    return row.sizing.stopped    ? "not known: stopped"
           : row.sizing.given_up ? "not known: given up"
                                 : "not on offer";
  }
  std::string text = takes(row.sizing.found->lines, answer.sizing.found->lines, system);
  if (row.sizing.stopped || row.sizing.given_up) {
    text += text.empty() ? "or less: " : "; or less: ";
    text += row.sizing.stopped ? "stopped" : "given up";
  }
  if (text.empty()) text = same(row.more_days, 0) ? "the set above" : "the same set";
  return text;
}

std::string trade_off_scope(const plan::Plan& plan) {
  return fmt::format(
      "The margins of drinking water, utility water{} are moved. Fuel follows only through the "
      "mass; battery and cold stay as planned.",
      plan.consumables.empty() ? " and food" : ", food and consumables used by the day");
}

}  // namespace drystage::report
