#include "report/run/data.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "answers/resume/lessons.h"
#include "plan/word_lists.h"
#include "report/resume/message.h"
#include "report/resume/report.h"
#include "report/resume/words.h"
#include "report/text/breach_words.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

constexpr std::array<std::string_view, 8> help_names{"none",      "share",   "change", "ration",
                                                     "turn_back", "fill_up", "alarm",  "not_found"};

Json readings(const answers::Resumed& resumed) {
  Json out = Json::array();
  for (const answers::ReadingFound& reading : resumed.readings) {
    Json reserves = Json::object();
    for (const answers::FoundReserve& one : reading.found) {
      reserves[reserve_of(resumed.rest, one.reserve).name] = {
          {"planned", one.planned ? Json(*one.planned) : Json(nullptr)}, {"found", one.found}};
    }
    out.push_back(
        {{"day", reading.day + 1}, {"hour", reading.hour}, {"reserves", std::move(reserves)}});
  }
  return out;
}

/// Of each reserve of which something was learned.
Json rates(const answers::PlanRun& rest) {
  Json out = Json::object();
  for (const answers::UseFound& use : rest.learned.uses) {
    const auto factor = rest.learned.of(rest.course, use.reserve);
    if (!factor) continue;
    out[reserve_of(rest, use.reserve).name] = {
        {"factor", factor->factor}, {"low", factor->low}, {"high", factor->high}};
  }
  return out;
}

Json doubts(const answers::PlanRun& rest) {
  Json out = Json::array();
  for (const answers::Doubt& doubt : rest.learned.doubts) {
    const bool gained = doubt.kind == answers::Doubt::Kind::gained;
    out.push_back({{"reading", doubt.reading + 1},
                   {"kind", gained ? "gained" : "unexplained"},
                   {"of", doubt.store >= 0 ? rest.course.stores[at(doubt.store)].name
                                           : reserve_of(rest, doubt.reserve).name},
                   {"amount", doubt.amount},
                   {"days", doubt.days}});
  }
  return out;
}

Json taught(const answers::PlanRun& rest) {
  Json out = Json::array();
  for (const answers::Lesson& lesson : answers::lessons(rest)) {
    const engine::ReserveInfo& info = reserve_of(rest, lesson.reserve);
    Json surface = nullptr;
    if (lesson.surface) {
      surface = plan::surface_words.at(static_cast<std::size_t>(*lesson.surface)).text;
    }
    out.push_back({{"reserve", info.name},
                   {"surface", std::move(surface)},
                   {"unit", info.unit + (lesson.surface ? "/km" : "/day")},
                   {"planned", lesson.planned},
                   {"own", lesson.planned * lesson.factor.factor},
                   {"low", lesson.planned * lesson.factor.low},
                   {"high", lesson.planned * lesson.factor.high}});
  }
  return out;
}

}  // namespace

std::string resume_json(const ResumeAnswer& answer) {
  const answers::Resumed& resumed = answer.resumed;
  RunAnswer run{.planned = resumed.rest,
                .without_unconfirmed = answer.without_unconfirmed,
                .mend = resumed.help.mend,
                .warnings = answer.warnings};
  Json out = run_data(run);
  out["format"] = "drystage.resume/1";
  out["at_plan"] = json_verdict(resumed.rest, resumed.at_plan);
  out["rates_used"] = resumed.rest.rates == answers::Rates::learned ? "own" : "plan";
  out["late_days"] = resumed.late_days;
  out["readings"] = readings(resumed);
  out["rates"] = rates(resumed.rest);
  out["doubts"] = doubts(resumed.rest);
  out["lessons"] = taught(resumed.rest);
  out["help"] = {{"kind", help_names.at(static_cast<std::size_t>(resumed.help.kind))},
                 {"text", help_words(resumed, units::System::metric)}};
  out["message"] = message_words(resumed.rest, units::System::metric,
                                 resumed.help.kind == answers::Help::Kind::alarm);
  return out.dump(json_indent) + "\n";
}

std::string resume_csv(const ResumeAnswer& answer) {
  const answers::Resumed& resumed = answer.resumed;
  std::string out("day,date,hour,reserve,unit,planned,found,factor,low,high\r\n");
  for (const answers::ReadingFound& reading : resumed.readings) {
    for (const answers::FoundReserve& one : reading.found) {
      const engine::ReserveInfo& info = reserve_of(resumed.rest, one.reserve);
      const auto factor = resumed.rest.learned.of(resumed.rest.course, one.reserve);
      out += csv_row({std::to_string(reading.day + 1), iso_date(date_of(resumed.rest, reading.day)),
                      number(reading.hour), cell(info.name), cell(info.unit),
                      one.planned ? number(*one.planned) : "", number(one.found),
                      factor ? number(factor->factor) : "", factor ? number(factor->low) : "",
                      factor ? number(factor->high) : ""});
    }
  }
  return out;
}

}  // namespace drystage::report
