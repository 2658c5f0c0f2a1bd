#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>
#include <vector>

#include "engine/route_point.h"
#include "plan/utf8.h"
#include "report/run/words.h"
#include "report/text/amounts.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

int widest(const std::vector<std::string>& texts) {
  int width = 0;
  for (const std::string& text : texts) width = std::max(width, plan::columns(text));
  return width;
}

/// A column of figures, one for each day, under a head of one line.
struct Column {
  std::string head;
  std::vector<std::string> cells;

  [[nodiscard]] int width() const { return std::max(widest(cells), plan::columns(head)); }
};

/// What the table shows of one reserve: a sign, what is left, how long it lasts; of a cabinet,
/// where there is room without end, also how warm what lies frozen in it was.
struct ReserveColumns {
  std::size_t reserve = 0;
  std::string title;
  Column left;
  Column lasts;
  Column frozen;
  std::vector<bool> breached;

  [[nodiscard]] int width() const {
    return 1 + std::max(left.width() + 1 + lasts.width() + frozen_columns(), plan::columns(title));
  }
  [[nodiscard]] int frozen_columns() const { return frozen.cells.empty() ? 0 : frozen.width() + 1; }
};

/// How warm what lies frozen in a cabinet was, day by day, under a head of its own; nothing where
/// nothing ever does.
Column frozen_column(const answers::PlanRun& planned, std::size_t reserve, units::System system) {
  Column out{.head = "frozen", .cells = {}};
  bool any = false;
  for (std::size_t day = 0; day < planned.record.days(); ++day) {
    const double frozen_c = planned.record.reserve(day, reserve).frozen_c;
    any = any || !std::isnan(frozen_c);
    out.cells.push_back(
        std::isnan(frozen_c) ? "-" : amount(planned.course.reserves[reserve], frozen_c, system));
  }
  return any ? out : Column{};
}

ReserveColumns reserve_columns(const answers::PlanRun& planned, std::size_t reserve,
                               const TextOptions& options) {
  const units::System system = options.system;
  const engine::ReserveInfo& info = planned.course.reserves[reserve];
  ReserveColumns out{
      .reserve = reserve,
      .title = info.title,
      .left = {.head = info.kind == units::Kind::meals ? "meal" : unit(info, system), .cells = {}},
      .lasts = {.head = info.endurance == engine::Endurance::hours ? "hold"
                                                                   : endurance_unit(info, system),
                .cells = {}},
      .frozen = options.all ? frozen_column(planned, reserve, system) : Column{},
      .breached = {}};
  for (std::size_t day = 0; day < planned.record.days(); ++day) {
    const engine::ReserveDay& row = planned.record.reserve(day, reserve);
    out.breached.push_back(row.breach_h >= 0);
    if (!row.judged) {
      out.left.cells.emplace_back("-");
      out.lasts.cells.emplace_back("-");
      continue;
    }
    // As on the card and in needs: never better than it is.
    const bool above = info.sense == engine::Sense::keep_above;
    out.left.cells.push_back(amount_toward(info, row.lowest, system,
                                           above ? Toward::down : Toward::up,
                                           digits_for(info, row.lowest, system)));
    out.lasts.cells.push_back(endurance(info, row.endurance, system));
  }
  return out;
}

/// Reserves in the order in which they are shown while there is room.
std::vector<std::size_t> by_urgency(const answers::PlanRun& planned) {
  std::vector<std::size_t> order(planned.course.reserves.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const answers::Breach* worst = planned.verdict.worst_of_reserves();
  const auto rank = [&](std::size_t r) {
    const engine::ReserveInfo& info = planned.course.reserves[r];
    const answers::ReserveOutlook& outlook = planned.verdict.reserves[r];
    const bool leads = worst != nullptr && worst->reserve == static_cast<int>(r);
    const double scale = info.capacity > 0 ? info.capacity : 10;
    const bool first_need = info.id.family == engine::Family::drinking_water;
    // What is counted changes seldom, and has a line of its own.
    return std::tuple(!leads, !first_need, !outlook.first_breach_day, !info.life_supporting,
                      info.counted, outlook.slack / scale);
  };
  std::ranges::stable_sort(order, {}, rank);
  return order;
}

class DayTable {
 public:
  /// A table of as many reserves as there is room for, the most urgent of those given.
  DayTable(const answers::PlanRun& planned, const TextOptions& options,
           const std::vector<std::size_t>& by_urgency)
      : planned_(planned), options_(options) {
    fill_days();
    choose_reserves(by_urgency);
  }

  /// Of those given, what there was no room for.
  [[nodiscard]] const std::vector<std::size_t>& rest() const { return rest_; }

  [[nodiscard]] std::string rows() const {
    std::string out = heads();
    for (std::size_t day = 0; day < planned_.record.days(); ++day) out += row(day);
    return out;
  }

  [[nodiscard]] std::string notes() const {
    const bool cold = std::ranges::any_of(shown_, [this](const ReserveColumns& columns) {
      return planned_.course.reserves[columns.reserve].sense == engine::Sense::keep_below;
    });
    const bool cut = std::max(widest(from_.cells), widest(to_.cells)) > places_;
    return paragraph(fmt::format("Each day's low point{} and how long it lasts. ! below margin.{}",
                                 cold ? " (cold: the warmest)" : "",
                                 cut ? " ~ name cut short." : "")) +
           side_trips() + without_fuel();
  }

  /// What the columns of a cabinet mean.
  [[nodiscard]] std::string cold_notes() const {
    std::string out;
    const bool holds_cold = std::ranges::any_of(
        shown_, [](const ReserveColumns& columns) { return columns.lasts.head == "hold"; });
    if (holds_cold) out += "hold: hours for which it stays cold without power.\n";
    const bool frozen = std::ranges::any_of(
        shown_, [](const ReserveColumns& columns) { return !columns.frozen.cells.empty(); });
    if (frozen) out += "frozen: the warmest that the frozen part of the cabinet was.\n";
    return out;
  }

  [[nodiscard]] std::string left_out(const std::string& also_hidden) const {
    std::string names;
    for (const std::size_t r : rest_) {
      units::add_to(names, reserve_words(planned_.course.reserves[r]));
      if (planned_.verdict.reserves[r].first_breach_day) names += " (below its margin too)";
    }
    if (!also_hidden.empty()) units::add_to(names, also_hidden);
    return names.empty() ? names : paragraph("Not shown: " + names + ". --all shows them.");
  }

 private:
  void fill_days() {
    const auto number = [&](double value, units::Kind kind, int digits) {
      const double shown = units::display(kind, options_.system).number(value);
      return units::format_number(shown, units::decimals(digits));
    };
    int n = 0;
    for (const engine::DayInfo& day : planned_.course.timeline->days) {
      const bool driven = day.schedule.distance_km > 0;
      number_.cells.push_back(std::to_string(++n));
      date_.cells.push_back(short_date(day.schedule.date));
      from_.cells.push_back(engine::route_point_name(planned_.plan, day.schedule.from));
      const std::vector<std::string> turned_at = there_and_back(at(n - 1));
      to_.cells.push_back(turned_at.empty()
                              ? engine::route_point_name(planned_.plan, day.schedule.to)
                              : turned_at.front());
      from_bush_.push_back(engine::place_at(day.schedule.from) < 0);
      to_bush_.push_back(turned_at.empty() && engine::place_at(day.schedule.to) < 0);
      distance_.cells.push_back(driven ? number(day.schedule.distance_km, units::Kind::distance, 0)
                                       : "-");
      hours_.cells.push_back(driven ? units::format_number(day.schedule.drive_h, units::decimals(1))
                                    : "-");
      heat_.cells.push_back(number(planned_.course.timeline->conditions.days[at(n - 1)].max_c,
                                   units::Kind::temperature, 0));
    }
    distance_.head = units::display(units::Kind::distance, options_.system).unit;
    heat_.head = units::display(units::Kind::temperature, options_.system).unit;
    hours_.head = "h";
    number_.head = "day";
  }

  /// Where a day leads that ends where it began.
  [[nodiscard]] std::vector<std::string> there_and_back(std::size_t day) const {
    const engine::ScheduledDay& schedule = planned_.course.timeline->days[day].schedule;
    const int home = engine::place_at(schedule.from);
    std::vector<std::string> out;
    if (home < 0 || home != engine::place_at(schedule.to)) return out;
    for (const engine::TimeStep& step : planned_.course.timeline->steps) {
      if (step.drive < 0 || step.day != static_cast<int>(day)) continue;
      const engine::Leg& leg = planned_.course.timeline->legs[at(step.leg)];
      if (leg.from == home) continue;
      const std::string& name = name_in(planned_.plan.places, leg.from);
      if (out.empty() || out.back() != name) out.push_back(name);
    }
    return out;
  }

  /// That the trip goes on in the table, though nobody could drive.
  [[nodiscard]] std::string without_fuel() const {
    std::string out;
    for (const answers::Breach& breach : planned_.verdict.breaches) {
      if (breach.harm != answers::Harm::runs_out_vital || breach.reserve < 0) continue;
      const engine::ReserveInfo& info = reserve_of(planned_, breach.reserve);
      if (!info.vehicle) continue;
      out +=
          paragraph(fmt::format("From day {} on there is no {}: the rows go on as if there were.",
                                breach.day + 1, reserve_words(info)));
    }
    return out;
  }

  /// What the columns of places do not show of such days.
  [[nodiscard]] std::string side_trips() const {
    std::string out;
    for (std::size_t day = 0; day < planned_.record.days(); ++day) {
      std::string names;
      for (const std::string& name : there_and_back(day)) units::add_to(names, name);
      if (names.empty()) continue;
      out +=
          paragraph(fmt::format("Day {}: to {} and back to {}.", day + 1, names, from_.cells[day]));
    }
    return out;
  }

  [[nodiscard]] int fixed_columns() const {
    return number_.width() + 1 + date_.width() + 1 + distance_.width() + 1 + hours_.width() + 1 +
           heat_columns();
  }

  /// Room for the word "max" over the figures too.
  [[nodiscard]] int heat_columns() const { return std::max(heat_.width(), 3); }

  void choose_reserves(const std::vector<std::size_t>& by_urgency) {
    int room = table_columns() - fixed_columns() - 2 * (least_place_columns + 1);
    for (const std::size_t reserve : by_urgency) {
      ReserveColumns columns = reserve_columns(planned_, reserve, options_);
      if (!options_.wide && columns.width() > room) {
        if (!options_.all || !shown_.empty()) {
          rest_.push_back(reserve);
          continue;
        }
        // A name may be longer than a page is wide.
        columns.title = left(columns.title, room - 1);
      }
      room -= columns.width();
      shown_.push_back(std::move(columns));
    }
    std::ranges::sort(shown_, {}, &ReserveColumns::reserve);
    places_ = std::max(widest(from_.cells), widest(to_.cells));
    if (!options_.wide) places_ = std::min(places_, least_place_columns + room / 2);
    places_ = std::max(places_, 4);
  }

  [[nodiscard]] std::string heads() const {
    const std::string blank(
        static_cast<std::size_t>(fixed_columns() + 2 * (places_ + 1) - heat_columns()), ' ');
    std::string first = blank + right("max", heat_columns());
    std::string second = right(number_.head, number_.width()) + " " + left("date", date_.width()) +
                         " " + left("from", places_) + " " + left("to", places_) + " " +
                         right(distance_.head, distance_.width()) + " " +
                         right("h", hours_.width()) + " " + right(heat_.head, heat_columns());
    for (const ReserveColumns& columns : shown_) {
      first += right(columns.title, columns.width());
      second += right(right(columns.left.head, columns.left.width()) + " " +
                          right(columns.lasts.head, columns.lasts.width()) +
                          right(columns.frozen.head, columns.frozen_columns()),
                      columns.width());
    }
    return strong(first, options_.color) + "\n" + strong(second, options_.color) + "\n";
  }

  [[nodiscard]] std::string row(std::size_t day) const {
    std::string text = right(number_.cells[day], number_.width()) + " " + date_.cells[day] + " " +
                       place_cell(from_.cells[day], from_bush_[day], places_) + " " +
                       place_cell(to_.cells[day], to_bush_[day], places_) + " " +
                       right(distance_.cells[day], distance_.width()) + " " +
                       right(hours_.cells[day], hours_.width()) + " " +
                       right(heat_.cells[day], heat_columns());
    for (const ReserveColumns& columns : shown_) {
      const bool breached = columns.breached[day];
      // The sign stands next to the figure, in the blank before the column where that is full.
      const std::string left = (breached ? "!" : "") + columns.left.cells[day];
      const std::string figures = right(left, columns.left.width() + 1) + " " +
                                  right(columns.lasts.cells[day], columns.lasts.width()) +
                                  (columns.frozen.cells.empty() ? std::string()
                                                                : right(columns.frozen.cells[day],
                                                                        columns.frozen_columns()));
      const std::string cells = right(figures, columns.width());
      text += breached ? alarming(cells, options_.color) : cells;
    }
    return text + "\n";
  }

  const answers::PlanRun& planned_;
  const TextOptions& options_;
  Column number_, date_, from_, to_, distance_, hours_, heat_;
  std::vector<ReserveColumns> shown_;
  std::vector<std::size_t> rest_{};
  std::vector<bool> from_bush_{};
  std::vector<bool> to_bush_{};
  int places_ = least_place_columns;
};

}  // namespace

std::string day_table(const answers::PlanRun& planned, const TextOptions& options,
                      const std::string& also_hidden) {
  DayTable table(planned, options, by_urgency(planned));
  std::string out = table.rows() + table.notes() + table.cold_notes();
  if (!options.all) return out + table.left_out(also_hidden);
  for (std::vector<std::size_t> rest = table.rest(); !rest.empty();) {
    const DayTable more(planned, options, rest);
    out += "\n" + more.rows() + more.cold_notes();
    rest = more.rest();
  }
  return out;
}

}  // namespace drystage::report
