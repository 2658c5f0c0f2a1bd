#include "report/text/breach_words.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "report/text/amounts.h"
#include "report/text/margin_words.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::Breach;
using answers::Harm;

/// What fails: a reserve, a load, a vehicle or a part of it.
std::string subject_words(const answers::PlanRun& planned, const Breach& breach) {
  if (breach.scale >= 0) {
    return scale_words(planned.plan, planned.course.scales[at(breach.scale)]);
  }
  if (breach.load >= 0) return name_words(planned.plan.power.loads[at(breach.load)].name);
  const engine::ReserveInfo& info = reserve_of(planned, breach.reserve);
  if (breach.harm != Harm::runs_out_vital || !engine::is_bank(info))
    return name_words(reserve_words(info));
  // Of a bank it is what must never go dark that matters.
  std::string loads;
  for (std::size_t l = 0; l < planned.course.loads.size(); ++l) {
    const engine::LoadInfo& load = planned.course.loads[l];
    if (load.reserve == breach.reserve && load.never_shed)
      units::add_to(loads, name_words(planned.plan.power.loads[l].name));
  }
  return "the charge for " + loads;
}

std::string over_words(const Breach& breach, units::System system) {
  return mass_words(breach.left - breach.margin, system, Toward::up);
}

/// Where rounding would make what is left and the margin look the same, digits more.
std::string down_to_words(engine::ReserveInfo info, const Breach& breach, units::System system) {
  constexpr int most_decimals = 3;
  while (amount(info, breach.left, system) == amount(info, breach.margin, system) &&
         info.decimals < most_decimals) {
    ++info.decimals;
  }
  return fmt::format("{}, margin {}", amount_with_unit(info, breach.left, system),
                     margin_then_words(info, breach.margin, system));
}

/// ", since some of it was too warm or too cold", where that is why a consumable fails.
std::string spoiled_words(const answers::PlanRun& planned, const Breach& breach) {
  const engine::ReserveId id = reserve_of(planned, breach.reserve).id;
  if (id.family != engine::Family::consumable) return {};
  const bool spoiled = std::ranges::any_of(planned.record.events, [&](const engine::Event& event) {
    if (event.kind != engine::EventKind::perished || event.day > breach.day) return false;
    return planned.course.stores[at(event.subject)].of == id.of;
  });
  return spoiled ? ", since some of it was too warm or too cold" : "";
}

/// What happens, with when it does and how much, each with the comma or word before it.
std::string happens_words(const answers::PlanRun& planned, const Breach& breach,
                          const std::string& when, const std::string& by, units::System system) {
  const std::string subject = subject_words(planned, breach);
  switch (breach.harm) {
    case Harm::runs_out_vital:
    case Harm::runs_out:
      return fmt::format(
          "{} runs out {}, short by {}{}", subject, when,
          difference_words(reserve_of(planned, breach.reserve), breach.short_of, system),
          spoiled_words(planned, breach));
    case Harm::utility_drunk:
      return fmt::format(
          "the drinking containers run empty {}. Then {} of utility water are drunk", when,
          difference_words(reserve_of(planned, breach.reserve), breach.short_of, system));
    case Harm::overload:
      return fmt::format("{} is up to {} over its limit, first {}", subject,
                         over_words(breach, system), when);
    case Harm::load_off:
      return fmt::format("there is no charge for {} from {}, to the end", subject,
                         when.substr(std::string_view("on ").size()));
    case Harm::margin_vital:
    case Harm::margin:
      const bool above = reserve_of(planned, breach.reserve).sense == engine::Sense::keep_above;
      return fmt::format("{} {} its margin {}{}{}", subject, above ? "falls below" : "rises above",
                         when, by, spoiled_words(planned, breach));
  }
  return {};
}

/// One of several: "food runs out (day 12)".
std::string brief_words(const answers::PlanRun& planned, const Breach& breach,
                        units::System system) {
  const std::string subject = subject_words(planned, breach);
  const int day = breach.day + 1;
  switch (breach.harm) {
    case Harm::runs_out_vital:
    case Harm::runs_out:
      return fmt::format("{} runs out (day {})", subject, day);
    case Harm::utility_drunk:
      return fmt::format("the drinking containers run empty (day {})", day);
    case Harm::overload:
      return fmt::format("{} is {} over its limit (day {})", subject, over_words(breach, system),
                         day);
    case Harm::load_off:
      return fmt::format("no charge for {} (from day {})", subject, day);
    case Harm::margin_vital:
    case Harm::margin:
      const bool above = reserve_of(planned, breach.reserve).sense == engine::Sense::keep_above;
      return fmt::format("{} is {} its margin (day {})", subject, above ? "below" : "above", day);
  }
  return {};
}

/// In the order of Harm.
constexpr std::array<std::string_view, 7> harm_names{"runs_out",    "utility_drunk", "below_margin",
                                                     "overload",    "runs_out",      "load_off",
                                                     "below_margin"};

bool is_margin(const Breach& breach) {
  return breach.harm == Harm::margin || breach.harm == Harm::margin_vital;
}

}  // namespace

std::string breach_words(const answers::PlanRun& planned, const answers::Verdict& verdict,
                         const Breach& breach, units::System system) {
  const std::string when =
      fmt::format("on {}, at {}", day_words(planned, breach.day), clock(breach.hour));
  const std::string by =
      is_margin(breach) ? ": " + down_to_words(reserve_of(planned, breach.reserve), breach, system)
                        : "";
  std::string text = happens_words(planned, breach, when, by, system);
  if (breach.reserve < 0 || breach.load >= 0) return text;
  const engine::ReserveInfo& info = reserve_of(planned, breach.reserve);
  const auto& first_day = verdict.reserves[at(breach.reserve)].first_breach_day;
  if (first_day && *first_day < breach.day) {
    text +=
        fmt::format(". {} its margin from day {}",
                    info.sense == engine::Sense::keep_above ? "Below" : "Above", *first_day + 1);
  }
  const std::string at_worst = difference_words(info, breach.at_worst, system);
  const bool slight_at_first =
      at_worst != difference_words(info, std::abs(breach.margin - breach.left), system);
  if (is_margin(breach) && breach.worst_day != breach.day && slight_at_first) {
    text += fmt::format(". At worst {} {} it, on day {}", at_worst,
                        info.sense == engine::Sense::keep_above ? "below" : "above",
                        breach.worst_day + 1);
  }
  return text;
}

std::string breach_note(const answers::PlanRun& planned, const Breach& breach,
                        units::System system) {
  const std::string when =
      fmt::format("on day {}, {}", breach.day + 1, short_date(date_of(planned, breach.day)));
  std::string by;
  if (is_margin(breach)) {
    const double at_first = std::abs(breach.margin - breach.left);
    const bool worse_later = breach.at_worst > at_first + engine::rounding;
    by = std::string(worse_later ? ", by up to " : ", by ") +
         difference_words(reserve_of(planned, breach.reserve), std::max(at_first, breach.at_worst),
                          system);
  }
  return happens_words(planned, breach, when, by, system);
}

std::string others_words(const answers::PlanRun& planned, units::System system) {
  std::string names;
  for (const Breach& breach : planned.verdict.breaches) {
    if (&breach == &planned.verdict.breaches.front()) continue;
    units::add_to(names, brief_words(planned, breach, system));
  }
  return names.empty() ? names : "Besides: " + names + ".";
}

Json json_breach(const answers::PlanRun& planned, const Breach* breach) {
  if (breach == nullptr) return nullptr;
  const plan::Plan& plan = planned.plan;
  Json out{{"kind", harm_names.at(static_cast<std::size_t>(breach->harm))}};
  out.update(json_moment(planned, breach->day, breach->hour));
  const bool weighs = breach->vehicle >= 0;
  const auto name = [](const auto& all, int index) {
    return index < 0 ? Json(nullptr) : Json(all[at(index)].name);
  };
  out["reserve"] = name(planned.course.reserves, breach->reserve);
  out["load"] = name(plan.power.loads, breach->load);
  out["vehicle"] = name(plan.vehicles, breach->vehicle);
  const engine::Scale* scale =
      breach->scale < 0 ? nullptr : &planned.course.scales[at(breach->scale)];
  const bool is_part = scale != nullptr && scale->kind != engine::ScaleKind::total;
  if (is_part) out["part"] = engine::scale_name(plan, *scale);
  out["left"] = breach->left;
  out["margin"] = breach->margin;
  out["short"] = breach->short_of;
  out["unit"] = weighs ? "kg" : reserve_of(planned, breach->reserve).unit;
  return out;
}

Json json_verdict(const answers::PlanRun& planned, const answers::Verdict& verdict) {
  const Breach* worst = verdict.breaches.empty() ? nullptr : &verdict.breaches.front();
  const Breach* first = verdict.first_breach ? &*verdict.first_breach : nullptr;
  return {{"holds", verdict.holds},
          {"worst", json_breach(planned, worst)},
          {"first_breach", json_breach(planned, first)}};
}

}  // namespace drystage::report
