#include "report/text/page.h"

#include <fmt/core.h>

#include <algorithm>

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

}  // namespace

std::string paragraph(const std::string& words) {
  return words.empty() ? words : wrap(words, page_columns) + "\n";
}

std::string day_words(const answers::PlanRun& planned, int day) {
  const auto& info = planned.course.timeline->days[at(day)];
  return fmt::format("day {}, {}", day + 1, long_date(info.schedule.date));
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

std::string title_line(const answers::PlanRun& planned) {
  return paragraph(fmt::format("{}. {} from {}.", planned.plan.trip.title, party_words(planned),
                               long_date(planned.plan.trip.start))) +
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
    text += wrap_after("- ", remark_sentence(remark), page_columns);
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
  const std::string lines = wrap(text, page_columns);
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
