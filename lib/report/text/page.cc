#include "report/text/page.h"

#include <fmt/core.h>

#include <algorithm>

#include "engine/route_point.h"
#include "report/text/layout.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

constexpr std::string_view green = "\x1b[1;32m";
constexpr std::string_view red = "\x1b[1;31m";
constexpr std::string_view bold = "\x1b[1m";
constexpr std::string_view plain = "\x1b[0m";

constexpr int usual_columns = 80;

int& columns_of_the_page() {
  static int columns = usual_columns;
  return columns;
}

Toward other(Toward toward) { return toward == Toward::up ? Toward::down : Toward::up; }

/// A distance in whole units, to a tenth below ten.
double shown_distance(double distance_km, Toward toward, units::System system) {
  const double number = units::display(units::Kind::distance, system).number(distance_km);
  return rounded(number, number < 10 ? 1 : 0, toward);
}

}  // namespace

int page_columns() { return columns_of_the_page(); }

int table_columns() { return std::max(usual_columns, page_columns()); }

void set_page_columns(int columns) { columns_of_the_page() = columns; }

std::string paragraph(const std::string& words) {
  return words.empty() ? words : wrap(words, page_columns()) + "\n";
}

std::string day_words(const answers::PlanRun& planned, int day) {
  const auto& info = planned.course.timeline->days[at(day)];
  return fmt::format("day {}, {}", day + 1, long_date(info.schedule.date));
}

std::string when_words(const answers::PlanRun& planned, int day, double hour, Toward toward) {
  constexpr double minutes_per_hour = 60;
  const double minutes = rounded(hour * minutes_per_hour, 0, toward);
  return fmt::format("day {}, {}, {}", day + 1, short_date(date_of(planned, day)),
                     clock(minutes / minutes_per_hour));
}

std::string where_words(const answers::PlanRun& planned, const answers::Moment& moment,
                        Toward toward, units::System system) {
  const int here = engine::place_at(moment.at);
  if (here >= 0) return "at " + name_in(planned.plan.places, here);
  const double done = shown_distance(moment.done_km, toward, system);
  const double to_go = shown_distance(moment.to_go_km, other(toward), system);
  if (done <= 0) return "at " + name_in(planned.plan.places, moment.at.from);
  if (to_go <= 0) return "at " + name_in(planned.plan.places, moment.at.to);
  const auto text = [system](double distance) {
    return fmt::format("{} {}",
                       units::format_number(distance, units::decimals(distance < 10 ? 1 : 0)),
                       units::display(units::Kind::distance, system).unit);
  };
  return fmt::format("{} after {}, {} before {}", text(done),
                     name_in(planned.plan.places, moment.at.from), text(to_go),
                     name_in(planned.plan.places, moment.at.to));
}

std::string moment_words(const answers::PlanRun& planned, const answers::Moment& moment,
                         Toward toward, units::System system) {
  return when_words(planned, moment.day, moment.hour, toward) + ", " +
         where_words(planned, moment, toward, system);
}

std::vector<engine::Family> not_judged(const answers::PlanRun& planned) {
  using engine::Family;
  std::vector<Family> out{Family::utility_water, Family::food, Family::cold, Family::battery};
  std::erase_if(out, [&](Family family) {
    return std::ranges::any_of(planned.course.reserves, [&](const engine::ReserveInfo& reserve) {
      return reserve.id.family == family;
    });
  });
  return out;
}

std::string not_judged_words(const answers::PlanRun& planned) {
  std::string names;
  for (const engine::Family family : not_judged(planned)) {
    units::add_to(names, family_words(family));
  }
  return names.empty() ? names : "Not in the plan, so not judged: " + names + ".";
}

std::string party_words(const answers::PlanRun& planned) {
  return counted(planned.plan.people.size(), "person", "people") + ", " +
         counted(planned.record.days(), "day", "days");
}

std::string reading_words(const answers::PlanRun& planned) {
  if (planned.course.readings.empty()) return {};
  const engine::TimeStep& now = planned.course.timeline->steps[planned.course.judged_from()];
  std::string factors;
  std::vector<int> told;
  for (const answers::UseFound& use : planned.learned.uses) {
    if (std::ranges::find(told, use.reserve) != told.end()) continue;
    told.push_back(use.reserve);
    const auto factor = planned.learned.of(planned.course, use.reserve);
    if (!factor) continue;
    units::add_to(factors, fmt::format("{} {:.2f} times ({:.2f} to {:.2f})",
                                       reserve_words(planned.course.reserves[at(use.reserve)]),
                                       factor->factor, factor->low, factor->high));
  }
  std::string text =
      fmt::format("As found on {}, at {}.", day_words(planned, now.day), clock(now.from_h));
  if (!factors.empty()) text += " From then on, against the plan: " + factors + ".";
  return text;
}

std::string trip_line(const answers::PlanRun& planned) {
  return paragraph(fmt::format("{}. {} from {}.", planned.plan.trip.title, party_words(planned),
                               long_date(planned.plan.trip.start)));
}

std::string title_line(const answers::PlanRun& planned) {
  return trip_line(planned) + paragraph(reading_words(planned)) +
         paragraph(not_judged_words(planned));
}

std::string warning_lines(const std::vector<std::string>& warnings) {
  std::string text;
  for (const std::string& warning : warnings) text += paragraph("Warning: " + warning + ".");
  return text;
}

std::string remark_sentence(const std::string& remark) {
  return remark + (remark.ends_with('.') || remark.ends_with('!') ? "" : ".");
}

std::string remark_lines(const std::vector<std::string>& remarks) {
  std::string text;
  for (const std::string& remark : remarks) {
    text += wrap_after("- ", remark_sentence(remark), page_columns());
  }
  return text.empty() ? text : "\nHow it was calculated\n" + text;
}

std::string unconfirmed_words(const answers::PlanRun& planned) {
  std::vector<std::string> names;
  for (const engine::OrderInfo& order : planned.course.orders) {
    if (order.open && !order.supply.confirmed) names.push_back(order_words(planned.plan, order));
  }
  return units::listed(units::each_once(std::move(names)));
}

std::string caution_lines(const TextOptions& options) {
  return paragraph(std::string(options.all ? cautions : short_cautions));
}

std::string headline(std::string_view text, bool good, bool color) {
  const std::string lines = wrap(text, page_columns());
  if (!color) return lines + "\n";
  return fmt::format("{}{}{}\n", good ? green : red, lines, plain);
}

std::string alarming(const std::string& text, bool color) {
  return color ? fmt::format("{}{}{}", red, text, plain) : text;
}

std::string strong(const std::string& text, bool color) {
  return color ? fmt::format("{}{}{}", bold, text, plain) : text;
}

}  // namespace drystage::report
