#include "support/tight.h"

#include <algorithm>

#include "engine/opening.h"

namespace drystage::support {
namespace {

using engine::Engine;
using engine::TimeStep;

constexpr double unnoticed = 1e-6;
constexpr double full = 0.995;

/// Of what is not with the party, nothing is asked.
double slack_now(const engine::ReserveInfo& info, engine::Run& run, int reserve) {
  if (!run.is_judged(reserve)) return engine::without_limit;
  const double margin = info.margin.fixed + info.margin.days * run.use_per_day(reserve) +
                        info.margin.km * run.use_per_km(reserve) + run.margin_more(reserve);
  return run.reserve_level(reserve) - margin;
}

double short_of(const engine::Record& record, int reserve) {
  double sum = 0;
  for (std::size_t d = 0; d < record.days(); ++d) {
    const engine::ReserveDay& day = record.reserve(d, static_cast<std::size_t>(reserve));
    sum += day.short_of + day.stood_in;
  }
  return sum;
}

}  // namespace

std::optional<plan::Commodity> tops_up(const plan::Plan& plan, const engine::ReserveInfo& reserve) {
  if (reserve.commodity) return reserve.commodity;
  const bool mains = std::ranges::any_of(plan.power.chargers, [&](const plan::Charger& charger) {
    const auto& bank = plan.power.banks[static_cast<std::size_t>(charger.bank)];
    return charger.kind == plan::ChargerKind::mains && reserve.name == "battery:" + bank.name;
  });
  return mains ? std::optional(plan::Commodity::mains) : std::nullopt;
}

bool supplies(const plan::Plan& plan, const engine::ReserveInfo& reserve, int place,
              plan::Date date) {
  const auto commodity = tops_up(plan, reserve);
  const auto& all = plan.places[static_cast<std::size_t>(place)].supplies;
  return commodity && std::ranges::any_of(all, [&](const plan::Supply& supply) {
           return supply.commodity == *commodity && supply.confirmed && !supply.most &&
                  engine::is_open(supply, date);
         });
}

plan::Date date_of(const engine::Timeline& timeline, std::size_t step) {
  return timeline.days[static_cast<std::size_t>(timeline.steps[step].day)].schedule.date;
}

std::size_t supplied_at(const plan::Plan& plan, const engine::Timeline& timeline, std::size_t from,
                        const engine::ReserveInfo& reserve, int added) {
  for (std::size_t s = from; s < timeline.steps.size(); ++s) {
    const TimeStep& step = timeline.steps[s];
    const bool drives = step.drive >= 0;
    const bool drove = s > 0 && timeline.steps[s - 1].drive >= 0;
    const bool comes = drove && timeline.steps[s - 1].leg != step.leg;
    if (!comes && (drives || step.from_h < plan.trip.driving.depart_h - unnoticed)) continue;
    if (!comes && step.stop >= added) continue;
    // A battery is not charged where the party only drives through.
    if ((drives || step.dt_h <= 0) && !reserve.commodity) continue;
    const int place = drives ? timeline.legs[static_cast<std::size_t>(step.leg)].from
                             : timeline.place_days[static_cast<std::size_t>(step.place_day)].place;
    if (place >= 0 && supplies(plan, reserve, place, date_of(timeline, s))) return s;
  }
  return timeline.steps.size();
}

Tight go_on_watching(const engine::Course& course, Engine::Standing& standing,
                     const engine::Record& record, std::size_t until, int reserve) {
  const engine::ReserveInfo& info = course.reserves[static_cast<std::size_t>(reserve)];
  const double short_before = short_of(record, reserve);
  const double full_ah = info.commodity ? engine::without_limit : full * info.capacity;
  Tight out{.slack = slack_now(info, standing.run, reserve)};
  bool used = false;
  while (standing.next < until) {
    Engine::go_on(course, standing, standing.next + 1);
    const double level = standing.run.reserve_level(reserve);
    out.slack = std::min(out.slack, slack_now(info, standing.run, reserve));
    out.dry = out.dry || (level < unnoticed && standing.run.is_judged(reserve));
    if (used && level >= full_ah) break;
    used = used || level < full_ah;
  }
  const double missing = short_of(record, reserve) - short_before;
  if (missing > unnoticed) out.slack = std::min(out.slack, 0.0) - missing;
  out.until = standing.next;
  return out;
}

}  // namespace drystage::support
