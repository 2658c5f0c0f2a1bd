#include "report/text/data.h"

#include <cmath>
#include <numeric>
#include <string_view>

#include "report/odds/report.h"
#include "report/odds/words.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

constexpr std::string_view odds_header =
    "day,date,reserve,unit,lowest_p5,lowest_p50,lowest_p95,first_breach_chance,first_dry_"
    "chance\r\n";

/// Trips by day, counted from 1; days on which there is none are left out.
Json days_json(const std::vector<std::uint64_t>& days) {
  Json out = Json::object();
  for (std::size_t day = 0; day < days.size(); ++day) {
    if (days[day] > 0) out[std::to_string(day + 1)] = days[day];
  }
  return out;
}

Json reserve_json(const OddsAnswer& answer, std::size_t reserve) {
  const answers::ReserveOdds& its = answer.odds.reserves[reserve];
  Json bands = Json::array();
  for (std::size_t day = 0; day < its.bands.size(); ++day) {
    const answers::LevelBand& band = its.bands[day];
    if (std::isnan(band.p50)) continue;
    bands.push_back({{"day", day + 1}, {"p5", band.p5}, {"p50", band.p50}, {"p95", band.p95}});
  }
  return {{"name", answer.planned.course.reserves[reserve].name},
          {"unit", answer.planned.course.reserves[reserve].unit},
          {"breach", json_chance(its.breach)},
          {"dry", json_chance(its.dry)},
          {"first_breach_days", days_json(its.first_breach_days)},
          {"first_dry_days", days_json(its.first_dry_days)},
          {"bands", std::move(bands)}};
}

std::string share_of_trips(const std::vector<std::uint64_t>& days, std::size_t day,
                           std::uint64_t trips) {
  if (trips == 0) return {};
  const std::uint64_t count = day < days.size() ? days[day] : 0;
  return number(static_cast<double>(count) / static_cast<double>(trips));
}

}  // namespace

std::string odds_json(const OddsAnswer& answer) {
  const answers::Odds& odds = answer.odds;
  const auto& reserves = answer.planned.course.reserves;
  Json out{
      {"format", "drystage.odds/1"},
      {"trip", json_trip(answer.planned)},
      {"trips", odds.trips},
      {"seed", odds.seed},
      {"partial", odds.partial},
      {"any", {{"breach", json_chance(odds.breach)}}},
      {"life", {{"breach", json_chance(odds.life_breach)}, {"dry", json_chance(odds.life_dry)}}}};
  if (answer.at_most) {
    out["at_most"] = *answer.at_most;
    out["accepted"] = odds_accepted(answer);
  }
  out["reserves"] = Json::array();
  for (std::size_t r = 0; r < odds.reserves.size(); ++r) {
    out["reserves"].push_back(reserve_json(answer, r));
  }
  out["compared_trips"] = odds.compared;
  out["drivers"] = Json::array();
  for (const answers::Driver& driver : odds.drivers) {
    out["drivers"].push_back({{"source", plan::text_of(plan::source_words, driver.source)},
                              {"reserve", reserves[at(driver.reserve)].name},
                              {"share", driver.share},
                              {"low", driver.low},
                              {"high", driver.high}});
  }
  out["helps"] = Json::array();
  for (const answers::OddsHelp& help : odds.helps) {
    out["helps"].push_back(
        {{"change", engine::words(help.name)},
         {"reserve", reserves[at(help.reserve)].name},
         {"breach_before", json_chance(help.breach_before)},
         {"breach", json_chance(help.breach)},
         {"overloads", help.overloads},
         {"life",
          {{"breach", json_chance(help.life_breach)}, {"dry", json_chance(help.life_dry)}}}});
  }
  if (answer.told_worst > 0) out["worst"] = Json::array();
  for (const answers::WorstTrip& trip : odds.worst) {
    out["worst"].push_back(
        {{"trip", trip.trip},
         {"reserve", reserves[at(trip.reserve)].name},
         {"first_breach_day", trip.breach_day + 1},
         {"first_dry_day", trip.dry_day < 0 ? Json(nullptr) : Json(trip.dry_day + 1)},
         {"short", trip.short_of},
         {"story", story_words(answer.planned, trip.draw, trip.happened, units::System::metric,
                               trip.reserve)}});
  }
  out["warnings"] = answer.warnings;
  return out.dump(json_indent) + "\n";
}

std::string odds_csv(const OddsAnswer& answer) {
  std::string out(odds_header);
  const answers::Odds& odds = answer.odds;
  for (std::size_t day = 0; day < answer.planned.record.days(); ++day) {
    for (std::size_t r = 0; r < odds.reserves.size(); ++r) {
      const answers::ReserveOdds& its = odds.reserves[r];
      const answers::LevelBand& band = its.bands[day];
      if (std::isnan(band.p50)) continue;
      const engine::ReserveInfo& info = answer.planned.course.reserves[r];
      out += csv_row({std::to_string(day + 1),
                      iso_date(date_of(answer.planned, static_cast<int>(day))), cell(info.name),
                      cell(info.unit), number(band.p5), number(band.p50), number(band.p95),
                      share_of_trips(its.first_breach_days, day, odds.trips),
                      share_of_trips(its.first_dry_days, day, odds.trips)});
    }
  }
  return out;
}

}  // namespace drystage::report
