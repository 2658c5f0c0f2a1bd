#include "report/page/figures.h"

#include <algorithm>
#include <cmath>

#include "report/card/evening_figures.h"
#include "report/needs/words.h"
#include "report/text/amounts.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report::page {
namespace {

class Figures {
 public:
  Figures(const CardAnswer& answer, std::size_t need, units::System system)
      : answer_(answer),
        planned_(answer.needs.planned),
        need_(need),
        reserve_(at(answer.needs.needs.reserves[need])),
        info_(planned_.course.reserves[reserve_]),
        system_(system) {}

  [[nodiscard]] Shown shown() {
    Shown out{.need = need_,
              .id = info_.name,
              .name = reserve_words(info_),
              .unit = unit(info_, system_),
              .vital = info_.life_supporting,
              .digits = info_.decimals,
              .rules = {.evenings = {},
                        .step = std::pow(10.0, -info_.decimals),
                        .holds = up(info_.capacity, info_.decimals),
                        .rated = !engine::is_bank(info_) && !info_.counted},
              .written = {}};
    const auto& ways = answer_.ways_out.reserves;
    const auto found = std::ranges::find(ways, static_cast<int>(reserve_));
    if (found != ways.end()) out.way = static_cast<std::size_t>(found - ways.begin());
    for (std::size_t evening = 0; evening <= planned_.record.days(); ++evening) {
      add(out, evening);
    }
    return out;
  }

  [[nodiscard]] double up(double level, int digits) const {
    if (!std::isfinite(level)) return level;
    return rounded(display_number(info_, level, system_), digits, Toward::up);
  }

 private:
  [[nodiscard]] double down(double level, int digits) const {
    return rounded(display_number(info_, level, system_), digits, Toward::down);
  }

  [[nodiscard]] std::string words(double number, int digits) const {
    return units::format_number(number, units::decimals(digits)) + " " + unit(info_, system_);
  }

  void add(Shown& out, std::size_t evening) const {
    const std::size_t days = planned_.record.days();
    Evening figures;
    if (evening > 0) figures.takes = takes(evening - 1);
    if (evening == days) {
      figures.plan = down(planned_.record.reserve(days - 1, reserve_).end, info_.decimals);
      out.rules.evenings.push_back(figures);
      out.written.push_back(
          {.plan = words(figures.plan, info_.decimals), .must = "-", .lacks = false});
      return;
    }
    const answers::Need& need = answer_.needs.needs.need(evening, need_);
    int digits = info_.decimals;
    const auto missed = [&] {
      return !need.lacks() && up(need.must_have, digits) > down(need.has, digits);
    };
    if (missed()) ++digits;
    figures.must = up(need.must_have, digits);
    // What differs by less than that is the same: enough never looks like too little.
    figures.plan = missed() ? figures.must : down(need.has, digits);
    const engine::ReserveDay& day = planned_.record.reserve(evening, reserve_);
    figures.use = display_number(info_, day.used + day.lost, system_);
    if (out.way && evening > 0) {
      const answers::WaysOut& ways = answer_.ways_out.ways(evening, *out.way);
      figures.once = up(ways.at_once.least, info_.decimals);
      if (ways.back) figures.back = up(ways.back->least, info_.decimals);
    }
    out.rules.evenings.push_back(figures);
    Written written{.plan = words(figures.plan, digits), .must = no_amount, .lacks = need.lacks()};
    if (!need.judged) {
      written = {.plan = "-", .must = "-", .lacks = false};
    } else if (!is_endless(need)) {
      written.must = words(figures.must, digits);
      if (!need.fits) written.must += ", more than can be held";
    }
    out.written.push_back(std::move(written));
  }

  /// Whether the company changes on a day, and with it what there is.
  [[nodiscard]] bool somebody_comes_or_goes(std::size_t day) const {
    const engine::Timeline& timeline = *planned_.course.timeline;
    const int number = static_cast<int>(day);
    const engine::IndexRange steps = engine::steps_of_days(timeline, number, number + 1);
    const int before = timeline.steps[steps.from == 0 ? 0 : steps.from - 1].company;
    return timeline.steps[steps.until - 1].company != before;
  }

  /// Whether the plan stops for more of it on a day, or has more of it than it began with.
  [[nodiscard]] bool takes(std::size_t day) const {
    constexpr double slight = 1e-3;
    if (day > 0 && planned_.record.reserve(day, reserve_).gained > slight) return true;
    if (somebody_comes_or_goes(day)) return true;
    return std::ranges::any_of(planned_.course.orders, [&](const engine::OrderInfo& order) {
      return order.reserve == static_cast<int>(reserve_) && at(order.day) == day &&
             (order.day > 0 || order.hour > 0);
    });
  }

  const CardAnswer& answer_;
  const answers::PlanRun& planned_;
  std::size_t need_;
  std::size_t reserve_;
  const engine::ReserveInfo& info_;
  units::System system_;
};

}  // namespace

std::vector<Shown> shown_reserves(const CardAnswer& answer, units::System system) {
  std::vector<Shown> out;
  for (const std::size_t need : needs_order(answer.needs)) {
    out.push_back(Figures(answer, need, system).shown());
  }
  return out;
}

std::string least_number(const CardAnswer& answer, const Shown& shown, double least,
                         units::System system) {
  if (!std::isfinite(least)) return "no amount";
  return units::format_number(Figures(answer, shown.need, system).up(least, shown.digits),
                              units::decimals(shown.digits));
}

Json json_reserve(const Reserve& reserve) {
  Json out{{"step", reserve.step},
           {"holds", json_number(reserve.holds)},
           {"rated", reserve.rated},
           {"evenings", Json::array()}};
  for (const Evening& evening : reserve.evenings) {
    out["evenings"].push_back({{"plan", evening.plan},
                               {"must", json_number(evening.must)},
                               {"use", evening.use},
                               {"takes", evening.takes},
                               {"once", json_number(evening.once)},
                               {"back", json_number(evening.back)}});
  }
  return out;
}

}  // namespace drystage::report::page
