#include "report/text/data.h"

#include <fmt/format.h>

#include <cmath>

#include "report/text/words.h"
#include "units/format.h"

namespace drystage::report {

std::string cell(std::string_view text) {
  constexpr std::string_view formula_starts = "=+-@\t\r";
  std::string out;
  if (!text.empty() && formula_starts.find(text.front()) != std::string_view::npos) out = "'";
  out += text;
  if (out.find_first_of(",\"\r\n") == std::string::npos) return out;
  std::string quoted = "\"";
  for (const char c : out) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + "\"";
}

std::string number(double value) {
  constexpr int digits = 4;
  return std::isfinite(value) ? units::format_number(value, units::decimals(digits)) : "";
}

std::string csv_row(std::initializer_list<std::string> cells) {
  return fmt::format("{}\r\n", fmt::join(cells, ","));
}

std::string yes_no(bool value) { return value ? "yes" : "no"; }

Json json_number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json json_chance(const models::Chance& chance) {
  return {{"chance", chance.chance}, {"low", chance.low}, {"high", chance.high}};
}

Json json_place(const plan::Plan& plan, int place) {
  return place < 0 ? Json(nullptr) : Json(name_in(plan.places, place));
}

Json json_moment(const answers::PlanRun& planned, int day, double hour) {
  return {{"day", day + 1}, {"date", iso_date(date_of(planned, day))}, {"hour", hour}};
}

Json json_trip(const answers::PlanRun& planned) {
  return {{"title", planned.plan.trip.title},
          {"start", iso_date(planned.plan.trip.start)},
          {"days", planned.record.days()}};
}

}  // namespace drystage::report
