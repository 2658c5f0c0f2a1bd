#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "plan/own.h"
#include "report/run/report.h"
#include "report/run/words.h"
#include "report/size/words.h"
#include "report/text/amounts.h"
#include "report/text/breach_words.h"
#include "report/text/events.h"
#include "report/text/layout.h"
#include "report/text/margin_words.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

/// Where one of several vehicles carries all that there is to drink, or to eat.
std::string carries_for_all_words(const answers::PlanRun& planned) {
  if (planned.plan.vehicles.size() < 2) return {};
  std::string text;
  for (const auto& [family, what] : {std::pair{engine::Family::drinking_water, "drinking water"},
                                     std::pair{engine::Family::food, "food"}}) {
    const auto stock = family == engine::Family::food ? plan::Stock::food : plan::Stock::water;
    if (plan::owners(planned.plan, stock).size() > 1) continue;
    std::vector<int> carriers;
    for (const engine::StoreInfo& store : planned.course.stores) {
      if (store.family != family || store.capacity <= 0) continue;
      if (std::ranges::find(carriers, store.vehicle) == carriers.end()) {
        carriers.push_back(store.vehicle);
      }
    }
    if (carriers.size() != 1 || carriers.front() < 0) continue;
    units::add_to(text,
                  fmt::format("{} carries all the {}, for everybody.",
                              planned.plan.vehicles[at(carriers.front())].name, what),
                  " ");
  }
  return text;
}

/// What the figures rest on, and what the reader was warned of.
std::string notes(const RunAnswer& answer, units::System system) {
  std::string text;
  for (std::size_t v = 0; v < answer.planned.plan.vehicles.size(); ++v) {
    std::string line = heaviest_words(answer.planned, v, system);
    const std::string part = part_words(answer.planned, v, system);
    if (!part.empty()) units::add_to(line, part, " ");
    const std::string by_the_model = by_the_model_words(answer.planned.plan.vehicles[v]);
    line += (line.empty() || by_the_model.empty() ? "" : " ") + by_the_model;
    text += paragraph(line);
  }
  text += paragraph(carries_for_all_words(answer.planned));
  text += paragraph(tyre_words(answer.planned));
  return text + warning_lines(answer.warnings);
}

/// What must stay at home besides, which no mend looks for.
std::string overload_words(const answers::Verdict& verdict, const answers::PlanRun& planned,
                           units::System system) {
  std::string text;
  for (const answers::Breach& breach : verdict.breaches) {
    if (breach.vehicle < 0) continue;
    const engine::Scale& scale = planned.course.scales[at(breach.scale)];
    const std::string name = scale_words(planned.plan, scale);
    if (scale.kind != engine::ScaleKind::total) {
      units::add_to(text,
                    fmt::format("Fix: take {} off {}. drystage weigh says how.",
                                mass_words(breach.left - breach.margin, system, Toward::up), name),
                    " ");
      continue;
    }
    units::add_to(text,
                  fmt::format("{} must weigh {} less, which no fix does: leave so much at home.",
                              name, mass_words(breach.left - breach.margin, system, Toward::up)),
                  " ");
  }
  return text;
}

/// Why other nights help: what is shut as planned is open then.
std::string opens_words(const answers::PlanRun& planned, const answers::Mend& mend) {
  const auto& orders = planned.course.orders;
  const auto& then = mend.course.orders;
  std::string text;
  if (!mend.moves_days || orders.size() != then.size()) return text;
  for (std::size_t o = 0; o < orders.size(); ++o) {
    if (orders[o].open || !then[o].open) continue;
    const auto& day = mend.course.timeline->days[at(then[o].day)];
    units::add_to(
        text,
        fmt::format("{} is shut as planned, and open on {}.",
                    capital(order_words(planned.plan, orders[o])), long_date(day.schedule.date)),
        " ");
  }
  return text;
}

/// Whether something is taken from a supply that nobody has confirmed.
bool takes_unconfirmed(const answers::Mend& mend) {
  for (std::size_t o = 0; o < mend.course.orders.size(); ++o) {
    if (!mend.course.orders[o].supply.confirmed && mend.record.order_taken[o] > 0) return true;
  }
  return false;
}

/// Where another vehicle has the fuel that one lacks.
std::string shared_fuel_words(const answers::PlanRun& planned, const answers::Breach& breach,
                              units::System system) {
  if (breach.reserve < 0) return {};
  const auto& info_of = planned.course.reserves;
  const engine::ReserveInfo& dry = info_of[at(breach.reserve)];
  std::string text;
  for (std::size_t r = 0; r < info_of.size(); ++r) {
    const bool same_fuel = dry.commodity && dry.vehicle && info_of[r].vehicle &&
                           dry.vehicle != info_of[r].vehicle &&
                           dry.commodity == info_of[r].commodity;
    const double spare = planned.verdict.reserves[r].slack;
    if (!same_fuel || spare < 1) continue;
    units::add_to(
        text,
        fmt::format("{} has {} more of the same fuel than it needs on the whole trip: carrying it "
                    "over may be enough.",
                    planned.plan.vehicles[at(*info_of[r].vehicle)].name,
                    amount_toward(info_of[r], spare, system, Toward::down)),
        " ");
  }
  return text;
}

std::string mend(const RunAnswer& answer, units::System system) {
  if (!answer.seeks_mend) return {};
  const answers::Breach* worst = answer.planned.verdict.worst_of_reserves();
  if (worst == nullptr) {
    const std::string heavy = overload_words(answer.planned.verdict, answer.planned, system);
    return paragraph(heavy);
  }
  if (!answer.mend) {
    return paragraph(
        "Fix: none found. Tried: more water, fuel, food, panel or battery within the vehicles' "
        "limits, filling up on the way, a night fewer or more.");
  }
  const answers::Mend& mend = *answer.mend;
  std::string text;
  if (mend.changes.size() == 1) {
    text = paragraph("Fix: " + engine::words(mend.changes.front().name) + ".");
  } else {
    text = "Fix: all of these together.\n";
    for (const answers::Change& change : mend.changes)
      text += wrap_after("  - ", engine::words(change.name), page_columns());
  }
  if (mend.moves_days) text += "Days below are counted with the nights so changed.\n";
  text += paragraph(opens_words(answer.planned, mend));
  text += paragraph(shared_fuel_words(answer.planned, *worst, system));
  for (std::size_t v = 0; v < answer.planned.plan.vehicles.size(); ++v) {
    const plan::Vehicle& vehicle = answer.planned.plan.vehicles[v];
    const double before = answer.planned.record.heaviest[v].kg;
    const double after = mend.record.heaviest[v].kg;
    if (after <= before + 0.5) continue;
    const auto kg = [system](double mass_kg) {
      return units::format(mass_kg, units::Kind::mass, system, units::decimals(0));
    };
    text += fmt::format("{} would be at most {}{}.\n", vehicle.name, kg(after),
                        vehicle.limit_kg ? ", limit " + kg(*vehicle.limit_kg) : "");
  }
  const auto failed = at(worst->reserve);
  const answers::ReserveOutlook& outlook = mend.verdict.reserves[failed];
  const engine::ReserveInfo& info = mend.course.reserves[failed];
  const engine::ReserveDay& day = mend.record.reserve(at(outlook.tightest_day), failed);
  text +=
      paragraph(fmt::format("Then the plan holds{}. Least {}: {} on day {}, margin {}.",
                            takes_unconfirmed(mend) ? ", if what is not confirmed is there" : "",
                            reserve_words(info), amount_with_unit(info, day.left, system),
                            outlook.tightest_day + 1, margin_then_words(info, day.margin, system)));
  return text + paragraph(overload_words(mend.verdict, answer.planned, system));
}

}  // namespace

std::string run_text(const RunAnswer& answer, const TextOptions& options) {
  const answers::PlanRun& planned = answer.planned;
  const auto& without = answer.without_unconfirmed;
  const bool good =
      surely_holds(planned, without) && !(answer.spells && answer.spells->break_something());
  std::string verdict = verdict_words(planned, without, options.system, answer.spells);
  if (answer.shown) verdict = in_spell_words(std::move(verdict), *answer.shown);
  std::string text;
  if (answer.drawn) {
    text += paragraph(fmt::format("Trip {} of seed {}: {}.", answer.drawn->trip, answer.drawn->seed,
                                  answer.drawn->story)) +
            "\n";
  }
  text += headline(verdict, good, options.color);
  if (answer.shown) text += paragraph(shown_spell_words(*answer.shown, options.system));
  if (!planned.verdict.holds) text += paragraph(others_words(planned, options.system));
  text += paragraph(without_unconfirmed_words(planned, without, options.system));
  text += mend(answer, options.system);
  // What fails in usual weather is to be put right first.
  const bool tells_weeks = planned.verdict.holds || options.all;
  if (answer.spells && tells_weeks) text += spell_lines(planned, *answer.spells, options.system);
  text += "\n" + title_line(planned);
  text += notes(answer, options.system) + "\n";
  text += day_table(planned, options,
                    answer.spells && !tells_weeks ? weeks_told(planned, *answer.spells) : "");
  if (options.sparklines) text += "\n" + sparklines(planned, options);
  // Below them stand two blank lines, a heading and the caution.
  const std::ptrdiff_t room =
      screen_lines(planned.record.days()) - std::ranges::count(text, '\n') - 4;
  const std::string events = event_list(
      planned, options, room, answer.drawn ? answer.drawn->befell : std::vector<Befell>{});
  if (!events.empty()) text += "\n" + events;
  return text + "\n" + caution_lines(options);
}

}  // namespace drystage::report
