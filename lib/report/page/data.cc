#include "report/page/data.h"

#include <string_view>

#include "report/page/evening.h"
#include "report/page/way_out.h"
#include "report/text/words.h"

namespace drystage::report::page {

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

std::string script_data(const CardAnswer& answer, const std::vector<Shown>& reserves) {
  const answers::PlanRun& planned = answer.needs.planned;
  Json out{{"title", planned.plan.trip.title}, {"start", iso_date(planned.plan.trip.start)},
           {"share", far_off_share},           {"steps", least_steps},
           {"evenings", Json::array()},        {"reserves", Json::array()}};
  for (std::size_t evening = 0; evening <= planned.record.days(); ++evening) {
    out["evenings"].push_back(
        {{"words", evening_words(planned, evening)}, {"ways", has_way_out(answer, evening)}});
  }
  for (const Shown& shown : reserves) {
    Json reserve{{"name", shown.name},
                 {"unit", shown.unit},
                 {"digits", shown.digits},
                 {"ways", shown.way.has_value()}};
    reserve.update(json_reserve(shown.rules));
    out["reserves"].push_back(std::move(reserve));
  }
  std::string safe;
  // A "<" could end the element or begin a comment in it.
  for (const char c : out.dump(-1, ' ', false, Json::error_handler_t::replace)) {
    if (c == '<') {
      safe += "\\u003c";
    } else {
      safe += c;
    }
  }
  return safe;
}

}  // namespace drystage::report::page
