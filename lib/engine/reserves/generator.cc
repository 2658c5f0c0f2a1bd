#include "engine/reserves/generator.h"

#include <algorithm>

#include "engine/while.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

/// What is left of a run beside the quiet hours of its day and of those about it. Hours of quiet
/// are not made up for.
std::vector<Generator::Turn> turns_of(const plan::Charger& charger) {
  std::vector<Generator::Turn> out{
      {.from_h = charger.starts_h, .to_h = charger.starts_h + charger.hours_day}};
  if (!charger.quiet) return out;
  const double quiet_h = charger.quiet->to_h > charger.quiet->from_h
                             ? charger.quiet->to_h - charger.quiet->from_h
                             : charger.quiet->to_h + day_h - charger.quiet->from_h;
  for (const double day : {-day_h, 0.0, day_h}) {
    const double from_h = charger.quiet->from_h + day;
    std::vector<Generator::Turn> left;
    for (const Generator::Turn& turn : out) {
      left.push_back({.from_h = turn.from_h, .to_h = std::min(turn.to_h, from_h)});
      left.push_back({.from_h = std::max(turn.from_h, from_h + quiet_h), .to_h = turn.to_h});
    }
    std::erase_if(left, [](const Generator::Turn& turn) { return turn.to_h <= turn.from_h; });
    out = left;
  }
  return out;
}

void add_own_cans(Generator& generator, int consumable, const CourseBase& course) {
  generator.vehicle = -1;
  generator.reserve = find_reserve(course, {.family = Family::consumable, .of = consumable});
  for (std::size_t s = 0; s < course.stores.size(); ++s) {
    const StoreInfo& store = course.stores[s];
    if (store.family != Family::consumable || store.of != consumable) continue;
    generator.stores.push_back(static_cast<int>(s));
  }
}

}  // namespace

double Generator::uses_l_day() const {
  double hours = 0;
  for (const Turn& turn : turns) hours += turn.to_h - turn.from_h;
  return uses_l_h * hours;
}

std::vector<Generator> generators(const plan::Plan& plan, const CourseBase& course) {
  const Damage& damage = course.damage;
  std::vector<Generator> out;
  bool mains = false;
  for (std::size_t c = 0; c < plan.power.chargers.size(); ++c) {
    const plan::Charger& charger = plan.power.chargers[c];
    if (!works(plan, damage, c)) continue;
    const bool gives = charger.current_a > 0 || charger.power_w > 0;
    mains = mains || (charger.kind == plan::ChargerKind::mains && gives);
    if (charger.kind != plan::ChargerKind::generator) continue;
    out.push_back({.charger = static_cast<int>(c),
                   .bank = charger.bank,
                   .vehicle = carrier(plan, damage, charger.vehicle),
                   .when = charger.when,
                   .power_w = charger.power_w,
                   .uses_l_h = charger.uses_l_h,
                   .turns = turns_of(charger)});
    if (charger.burns >= 0) add_own_cans(out.back(), charger.burns, course);
  }
  for (Generator& generator : out) generator.rests_on_mains = mains;
  return out;
}

Running running(const Generator& generator, const Calendar& calendar, const TimeStep& step) {
  Running out{.from_h = step.from_h};
  const bool mains = calendar.place_days[at(step.place_day)].mains;
  if (!applies(generator.when, step)) return out;
  if (mains && step.drive < 0 && generator.rests_on_mains) return out;
  const double end = step.from_h + step.dt_h;
  // Today's run, and what of yesterday's goes on after midnight.
  for (const double day : {0.0, -day_h}) {
    if (day < 0 && step.day == 0) break;
    for (const Generator::Turn& turn : generator.turns) {
      const double from_h = std::max(step.from_h, turn.from_h + day);
      const double hours = std::min(end, turn.to_h + day) - from_h;
      if (hours <= 0) continue;
      out.from_h = out.hours > 0 ? std::min(out.from_h, from_h) : from_h;
      out.hours += hours;
    }
  }
  return out;
}

}  // namespace drystage::engine::reserves
