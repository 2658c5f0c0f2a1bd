#include "report/page/way_out.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "report/needs/words.h"
#include "report/page/html.h"
#include "report/text/capital.h"
#include "report/text/words.h"
#include "units/list.h"

namespace drystage::report::page {
namespace {

using answers::WayOut;
using answers::WaysOut;

// Less than this is no drive.
constexpr double slight_km = 0.05;

class WayOutPart {
 public:
  WayOutPart(const CardAnswer& answer, std::size_t evening, units::System system)
      : answer_(answer), planned_(answer.needs.planned), evening_(evening), system_(system) {}

  [[nodiscard]] std::string row(const Shown& shown) const {
    const WaysOut& ways = ways_of(shown);
    return fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td><td>{}</td></tr>\n",
                       html(capital(shown.name) + ", " + shown.unit),
                       figure(shown, &ways.as_planned), figure(shown, &ways.at_once),
                       figure(shown, ways.back ? &*ways.back : nullptr));
  }

  /// Where the ways of a reserve lead: "on to Wenlow, 95 km, day 8; back to Marrabel, 60 km".
  [[nodiscard]] std::string directions(const Shown& shown) const {
    const WaysOut& ways = ways_of(shown);
    const WayOut& once = ways.at_once;
    std::vector<std::string> out{leads("on", ways.as_planned, shown)};
    if (once.place != ways.as_planned.place || std::abs(once.km - ways.as_planned.km) > slight_km) {
      out.push_back(leads("at once", once, shown));
    } else if (once.day != ways.as_planned.day) {
      out.back() += fmt::format(" (at once day {})", once.day + 1);
    }
    constexpr double slight = 0.05;
    if (once.shut_place >= 0 && once.least >= ways.as_planned.least + slight) {
      out.push_back(fmt::format("at once takes more: {} is shut on day {}", place(once.shut_place),
                                once.shut_day + 1));
    }
    if (!ways.back) {
      out.emplace_back("no sure supply behind");
    } else {
      out.push_back(leads("back", *ways.back, shown) +
                    (ways.back->own_road ? ", in part by another road than you came" : ""));
    }
    return units::listed(out, {}, "; ");
  }

 private:
  [[nodiscard]] const WaysOut& ways_of(const Shown& shown) const {
    return answer_.ways_out.ways(evening_, *shown.way);
  }

  [[nodiscard]] std::string figure(const Shown& shown, const WayOut* way) const {
    if (way == nullptr) return "-";
    const std::string number = least_number(answer_, shown, way->least, system_);
    return html((way->fits ? "" : "+") + number);
  }

  [[nodiscard]] std::string place(int index) const {
    return index < 0 ? "the end of the trip" : name_in(planned_.plan.places, index);
  }

  [[nodiscard]] std::string leads(const char* lead, const WayOut& way, const Shown& shown) const {
    std::string out =
        way.km < slight_km
            ? fmt::format("wait at {}, day {}", place(way.place), way.day + 1)
            : fmt::format("{} to {}, {}, day {}", lead, place(way.place),
                          units::format(way.km, units::Kind::distance, system_, units::decimals(0)),
                          way.day + 1);
    const std::string taking =
        taking_words(planned_, answer_.needs.needs.reserves[shown.need], way.taking_at);
    if (!taking.empty()) units::add_to(out, taking);
    return out;
  }

  const CardAnswer& answer_;
  const answers::PlanRun& planned_;
  std::size_t evening_;
  units::System system_;
};

}  // namespace

bool has_way_out(const CardAnswer& answer, std::size_t evening) {
  const answers::PlanRun& planned = answer.needs.planned;
  return evening > 0 && evening < planned.record.days() && !planned.course.timeline->legs.empty() &&
         !answer.ways_out.reserves.empty();
}

std::string way_out(const CardAnswer& answer, const std::vector<Shown>& reserves,
                    std::size_t evening, units::System system) {
  if (!has_way_out(answer, evening)) return {};
  const WayOutPart part(answer, evening, system);
  struct Where {
    std::string names;
    std::string words;
  };
  std::string rows;
  std::vector<Where> where;
  for (const Shown& shown : reserves) {
    if (!shown.way) continue;
    rows += part.row(shown);
    std::string words = part.directions(shown);
    const auto same = std::ranges::find(where, words, &Where::words);
    if (same == where.end()) {
      where.push_back({.names = capital(shown.name), .words = std::move(words)});
    } else {
      units::add_to(same->names, shown.name);
    }
  }
  std::string out =
      "<h4>The way out</h4>\n<table>\n<thead><tr><th scope=\"col\">Must have</th>"
      "<th scope=\"col\">On as planned</th><th scope=\"col\">On at once</th>"
      "<th scope=\"col\">Back</th></tr></thead>\n<tbody>\n" +
      rows + "</tbody>\n</table>\n<ul class=\"where\">\n";
  for (const Where& one : where) out += element("li", one.names + ": " + one.words + ".");
  return out + fmt::format("</ul>\n<output class=\"live\" id=\"e{}w\"></output>\n", evening);
}

}  // namespace drystage::report::page
