#include <fmt/core.h>

#include <algorithm>
#include <boost/date_time/gregorian/gregorian.hpp>

#include "plan/sections.h"
#include "units/list.h"

namespace drystage::plan {
namespace {

// What a month's normals and a named day have in common.
struct Values {
  std::optional<double> max_c, min_c, humidity, dew_point_c, wind_m_s, sun_kwh_m2;
};

Values read_values(Fields& fields) {
  Log& log = fields.log();
  Values made;
  made.max_c = fields.number_if("weather.max");
  made.min_c = fields.number_if("weather.min");
  made.humidity = fields.number_if("weather.humidity");
  made.dew_point_c = fields.number_if("weather.dew_point");
  made.wind_m_s = fields.number_if("weather.wind");
  made.sun_kwh_m2 = fields.number_if("weather.sun");
  if (made.max_c && made.min_c && *made.max_c < *made.min_c) {
    log.error(fields.get("weather.max")->origin,
              fmt::format("the maximum {} is lower than the minimum {}",
                          fields.get("weather.max")->text, fields.get("weather.min")->text),
              "max at or above min");
  }
  if (made.max_c && made.dew_point_c && *made.dew_point_c > *made.max_c) {
    log.error(fields.get("weather.dew_point")->origin,
              fmt::format("the dew point {} is above the maximum {}",
                          fields.get("weather.dew_point")->text, fields.get("weather.max")->text),
              "air is never warmer than saturated at its dew point");
  }
  return made;
}

Weather read_month(Log& log, const Entry& entry, const std::string& region) {
  Weather made;
  made.mark = entry.origin.mark;
  Fields fields(log, entry.value, fmt::format("{} of {}", entry.key, units::in_quotes(region)));
  const Values values = read_values(fields);
  fields.need("climate.max");
  fields.need("climate.min");
  fields.need("climate.sun");
  if (fields.get("climate.humidity") == nullptr && fields.get("climate.dew_point") == nullptr &&
      fields.usable()) {
    log.error(fields.origin(), fmt::format("{} lacks \"humidity\"", fields.what()),
              "humidity: 30 %, or dew_point: 4 °C");
  }
  made.max_c = values.max_c.value_or(0);
  made.min_c = values.min_c.value_or(0);
  made.humidity = values.humidity;
  made.dew_point_c = values.dew_point_c;
  made.wind_m_s = values.wind_m_s;
  made.sun_kwh_m2 = values.sun_kwh_m2.value_or(0);
  made.spread_c = fields.number_if("climate.spread");
  fields.finish();
  return made;
}

std::optional<std::size_t> month_index(std::string_view text) {
  const std::string lower = units::lower_ascii(text);
  for (std::size_t i = 0; i < month_names.size(); ++i) {
    if (lower == month_names[i] || lower == month_names[i].substr(0, 3)) return i;
  }
  return std::nullopt;
}

Climate read_region(Log& log, const Entry& entry, const Plan& plan) {
  Climate made;
  made.mark = entry.origin.mark;
  made.name = key_name(log, entry, "climate");
  refuse_same_name(log, entry.origin, "climates", made.name, plan.climates);
  for (const Entry& month : map_entries(log, entry.value, entry.key)) {
    const auto index = month_index(month.key);
    if (!index) {
      log.error(month.origin, fmt::format("there is no month {}", units::in_quotes(month.key)),
                one_of(month_names), did_you_mean(month.key, month_names));
      continue;
    }
    if (made.months[*index]) {
      log.error(month.origin,
                fmt::format("{} of {} is given twice", month_names[*index], entry.key),
                "each month once");
    }
    made.months[*index] = read_month(log, month, made.name);
  }
  return made;
}

void read_when(Fields& fields, NamedDays& made) {
  Log& log = fields.log();
  const Node* on = fields.get("weather.on");
  const Node* from = fields.get("weather.from");
  const Node* to = fields.get("weather.to");
  const bool one_day = on != nullptr && from == nullptr && to == nullptr;
  const bool several = on == nullptr && from != nullptr && to != nullptr;
  if (!one_day && !several) {
    if (fields.usable()) {
      log.error(fields.origin(), "weather needs the days it is for",
                "on: 2027-02-10, or both from: 2027-02-10 and to: 2027-02-12");
    }
    return;
  }
  const auto first = read_date(log, one_day ? *on : *from, one_day ? "on" : "from");
  const auto last = one_day ? first : read_date(log, *to, "to");
  if (!first || !last) return;
  if (*last < *first) log.error(to->origin, R"("to" is before "from")", "a later date");
  made.from = *first;
  made.to = *last;
}

/// The figures that an entry gives. Humidity and dew point are one figure: the later one wins.
std::vector<std::string> figures(const NamedDays& days) {
  std::vector<std::string> made;
  if (days.max_c) made.emplace_back("max");
  if (days.min_c) made.emplace_back("min");
  if (days.humidity || days.dew_point_c) made.emplace_back("humidity");
  if (days.wind_m_s) made.emplace_back("wind");
  if (days.sun_kwh_m2) made.emplace_back("sun");
  return made;
}

NamedDays read_days(Log& log, const Node& node) {
  NamedDays made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "weather");
  read_when(fields, made);
  const Values values = read_values(fields);
  made.max_c = values.max_c;
  made.min_c = values.min_c;
  made.humidity = values.humidity;
  made.dew_point_c = values.dew_point_c;
  made.wind_m_s = values.wind_m_s;
  made.sun_kwh_m2 = values.sun_kwh_m2;
  const std::size_t errors = log.errors();
  fields.finish();
  if (figures(made).empty() && log.errors() == errors && fields.usable()) {
    log.error(fields.origin(), "weather of some days that says nothing of it",
              "one or more of max, min, humidity, dew_point, wind and sun");
  }
  return made;
}

/// Logs what an entry gives for days for which an earlier one has given it.
void ask_of_overlap(Log& log, const Origin& origin, const NamedDays& days,
                    const std::vector<NamedDays>& earlier) {
  for (const NamedDays& other : earlier) {
    if (other.to < days.from || days.to < other.from) continue;
    const auto given = figures(other);
    auto twice = figures(days);
    std::erase_if(twice, [&](const std::string& figure) {
      return std::ranges::find(given, figure) == given.end();
    });
    if (twice.empty()) continue;
    const std::string line = log.line_of(other.mark, origin);
    log.warning(origin,
                fmt::format("{} of {} is given twice: what stands last is used",
                            units::listed(twice, " and "),
                            to_iso_extended_string(std::max(days.from, other.from))),
                "each day once", line.empty() ? line : "the other entry is on " + line);
  }
}

}  // namespace

void read_climate(Log& log, const Node& node, Plan& plan) {
  for (const Entry& entry : map_entries(log, node, "climate")) {
    plan.climates.push_back(read_region(log, entry, plan));
  }
}

void read_weather(Log& log, const Node& node, Plan& plan) {
  for (const Node& item : list_items(log, node, "weather")) {
    NamedDays days = read_days(log, item);
    ask_of_overlap(log, item.origin, days, plan.weather);
    plan.weather.push_back(days);
  }
}

}  // namespace drystage::plan
