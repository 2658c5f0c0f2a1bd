#include "answers/resume/lessons.h"

#include <fmt/core.h>

#include <algorithm>

#include "plan/word_lists.h"
#include "report/resume/report.h"
#include "report/text/amounts.h"
#include "report/text/layout.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

/// "19.1 L/100km", "14.3 L a day".
std::string rate_words(const answers::PlanRun& rest, const answers::Lesson& lesson, double factor,
                       units::System system) {
  const engine::ReserveInfo& info = reserve_of(rest, lesson.reserve);
  const double rate = lesson.planned * factor;
  if (lesson.surface) {
    return units::format(rate, units::Kind::fuel_use, system, units::significant(3));
  }
  return fmt::format(
      "{} {} a day",
      units::format_number(display_number(info, rate, system), units::significant(3)),
      unit(info, system));
}

std::string what(const answers::PlanRun& rest, const answers::Lesson& lesson) {
  std::string out = reserve_words(reserve_of(rest, lesson.reserve));
  if (lesson.surface) {
    out += " on ";
    out += plan::surface_words.at(static_cast<std::size_t>(*lesson.surface)).text;
  }
  return out;
}

}  // namespace

std::string lessons_text(const ResumeAnswer& answer, const TextOptions& options) {
  const answers::PlanRun& rest = answer.resumed.rest;
  const std::vector<answers::Lesson> all = answers::lessons(rest);
  if (all.empty()) {
    return paragraph(
               "Nothing was learnt: no reading says how much water, fuel or food is left in all.") +
           "\n" + caution_lines(options);
  }
  std::string out = paragraph(fmt::format(
      "What {} taught of {}: your own rate, the range that has it 95 times in 100, and the plan's.",
      counted(answer.resumed.readings.size(), "reading", "readings"), rest.plan.trip.title));
  for (const answers::Lesson& lesson : all) {
    const auto rate = [&](double factor) {
      return rate_words(rest, lesson, factor, options.system);
    };
    // The unit stands behind the first.
    const auto number = [&](double factor) {
      const std::string words = rate(factor);
      return words.substr(0, words.find(' '));
    };
    out += wrap_after(
        "  - ",
        fmt::format("{}: {} ({} to {}), plan {}", what(rest, lesson), rate(lesson.factor.factor),
                    number(lesson.factor.low), number(lesson.factor.high), number(1)),
        page_columns());
  }
  return out + "\n" + caution_lines(options);
}

}  // namespace drystage::report
