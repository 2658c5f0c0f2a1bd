#include "report/text/margin_words.h"

#include <fmt/core.h>

#include <algorithm>

#include "engine/reserves/tyres.h"
#include "report/text/amounts.h"
#include "report/text/words.h"
#include "units/list.h"

namespace drystage::report {
namespace {

// A difference that is only the rounding of a double.
constexpr double least_fixed = 1e-6;

bool is_cold(const engine::ReserveInfo& info) { return info.sense == engine::Sense::keep_below; }

/// The share that a margin was given as: by the reserve's own name, by its family's, or as the
/// floor of a bank without a margin; 0 where it was given otherwise.
double share_of(const plan::Plan& plan, const engine::ReserveInfo& info) {
  if (const plan::Margin* margin = engine::margin_of(plan, info)) {
    return margin->kind == plan::MarginKind::share ? margin->value : 0;
  }
  if (!engine::is_bank(info) || info.capacity <= 0) return 0;
  return info.margin.fixed / info.capacity;
}

/// ", up to 57 Ah in the cold" of a bank whose margin was ever more than what it asks for by
/// itself.
std::string in_the_cold(const answers::PlanRun& planned, std::size_t reserve,
                        units::System system) {
  const engine::ReserveInfo& info = planned.course.reserves[reserve];
  if (!engine::is_bank(info)) return {};
  double most = info.margin.fixed;
  for (std::size_t day = 0; day < planned.record.days(); ++day) {
    most = std::max(most, planned.record.reserve(day, reserve).margin);
  }
  const std::string usual = amount_toward(info, info.margin.fixed, system, Toward::up);
  const std::string words = amount_toward(info, most, system, Toward::up);
  return words == usual ? std::string() : fmt::format(", up to {} in the cold", words);
}

std::string warmest_words(const engine::ReserveInfo& info, units::System system) {
  const double number =
      rounded(display_number(info, info.margin.fixed, system), info.decimals, Toward::down);
  return fmt::format("nothing warmer than {} {}",
                     units::format_number(number, units::significant(4)), unit(info, system));
}

std::string chance_words(const plan::Plan& plan, const engine::ReserveInfo& info) {
  constexpr double percent = 100;
  return fmt::format("enough for {} % of such trips",
                     units::format_number(percent * engine::reserves::chance_asked(plan, info),
                                          units::significant(4)));
}

std::string days_words(const engine::ReserveInfo& info) {
  const std::string number = units::format_number(info.margin.days, units::significant(3));
  return fmt::format("what {} {} of staying put would use{}", number,
                     number == "1" ? "day" : "days",
                     info.empty_at > 0 ? ", above where it is cut off" : "");
}

/// What a margin asks for; empty where it asks for nothing.
std::string asked(const answers::PlanRun& planned, std::size_t reserve, units::System system) {
  const engine::ReserveInfo& info = planned.course.reserves[reserve];
  if (is_cold(info)) return warmest_words(info, system);
  if (info.id.family == engine::Family::tyres) return chance_words(planned.plan, info);
  const bool lasts = info.margin.days > 0 || info.margin.km > 0;
  std::vector<std::string> parts;
  if (info.margin.km > 0) {
    parts.push_back(units::format(info.margin.km, units::Kind::distance, system));
  }
  // What lasts so long lasts it above empty.
  const double fixed = info.margin.fixed - (lasts ? info.empty_at : 0);
  if (fixed > least_fixed) {
    std::string amount = amount_toward(info, fixed, system, Toward::up);
    if (const double share = share_of(planned.plan, info); share > 0) {
      constexpr double percent = 100;
      amount +=
          fmt::format(" ({} %)", units::format_number(share * percent, units::significant(3)));
    }
    if (!lasts) amount += in_the_cold(planned, reserve, system);
    parts.push_back(std::move(amount));
  }
  if (info.margin.days > 0) parts.push_back(days_words(info));
  return units::listed(parts, " and ");
}

/// Whether a reserve should have a margin: what life depends on, and may be used to the last drop.
bool should_have_one(const engine::ReserveInfo& info) {
  return info.life_supporting && !is_cold(info);
}

}  // namespace

std::vector<std::string> margin_lines(const answers::PlanRun& planned, units::System system) {
  std::vector<std::string> lines;
  for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = planned.course.reserves[r];
    const std::string words = asked(planned, r, system);
    if (!words.empty()) {
      lines.push_back(reserve_words(info) + ": " + words);
    } else if (should_have_one(info)) {
      lines.push_back(reserve_words(info) + ": no margin, the plan may use it to the last drop");
    }
  }
  return lines;
}

std::string margin_then_words(const engine::ReserveInfo& reserve, double margin,
                              units::System system) {
  std::string text = amount_with_unit(reserve, margin, system);
  if (reserve.margin.days > 0) {
    return fmt::format("{} ({} {})", text,
                       units::format_number(reserve.margin.days, units::significant(3)),
                       reserve.margin.days == 1 ? "day" : "days");
  }
  if (reserve.margin.km > 0) {
    return fmt::format("{} ({})", text,
                       units::format(reserve.margin.km, units::Kind::distance, system));
  }
  return text;
}

std::string undrawable_words(const answers::PlanRun& planned, units::System system) {
  const units::Display litres = units::display(units::Kind::volume, system);
  std::string words;
  for (const plan::Vehicle& vehicle : planned.plan.vehicles) {
    double unusable_l = 0;
    for (const plan::Tank& tank : vehicle.tanks) unusable_l += tank.unusable_l;
    if (unusable_l <= 0) continue;
    const double number = rounded(litres.number(unusable_l), 1, Toward::up);
    units::add_to(words,
                  fmt::format("{} {} in {}", units::format_number(number, units::significant(3)),
                              litres.unit, vehicle.name));
  }
  return words;
}

}  // namespace drystage::report
