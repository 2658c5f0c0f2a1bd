#include <fmt/core.h>

#include <cmath>

#include "engine/route_point.h"
#include "report/card/day_facts.h"
#include "report/card/day_lines.h"
#include "report/card/evening_figures.h"
#include "report/needs/words.h"
#include "report/page/figures.h"
#include "report/page/html.h"
#include "report/text/amounts.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report::page {
namespace {

using answers::WayOut;
using answers::WaysOut;

/// The tag of the element that something met on a day stands in.
const char* tag(const DayLine& line) {
  if (line.grave) return "li class=\"grave\"";
  const bool rule = line.kind == DayLine::Kind::leave || line.kind == DayLine::Kind::turn_back;
  return rule ? "li class=\"rule\"" : "li";
}

/// The name under which a reading is kept: of its date, so that it outlives a change of the plan.
std::string entry_name(const answers::PlanRun& planned, const Shown& shown, std::size_t evening) {
  const plan::Date first = planned.plan.trip.start;
  return (evening == 0 ? iso_date(first) + " before"
                       : iso_date(date_of(planned, static_cast<int>(evening) - 1))) +
         " " + shown.id;
}

/// A field to type in; `answer` says what comes of it.
std::string field(const std::string& id, const std::string& answer, const std::string& name,
                  const std::string& label, bool hidden) {
  return fmt::format(
      "<label{}>{} <input id=\"{}\" name=\"{}\" type=\"text\" inputmode=\"decimal\" "
      "autocomplete=\"off\" aria-describedby=\"{}\"></label>\n",
      hidden ? " hidden" : "", html(label), id, plain_html(name), answer);
}

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
    if (!ways.judged) return "not with you then";
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
    if (way == nullptr || !ways_of(shown).judged) return "-";
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

/// "The way out" from the camp of an evening: for each reserve that life depends on, what must be
/// there to go on as planned, to go on at once and to turn back, and where these lead. Nothing
/// before setting out, on the last evening, and where nothing is driven.
std::string way_out(const CardAnswer& answer, const std::vector<Shown>& reserves,
                    std::size_t evening, units::System system) {
  if (!has_way_out(answer, evening)) return {};
  const WayOutPart part(answer, evening, system);
  std::string rows;
  std::vector<Said> where;
  for (const Shown& shown : reserves) {
    if (!shown.way) continue;
    rows += part.row(shown);
    say_of(where, shown.name, part.directions(shown));
  }
  std::string out =
      "<h4>The way out</h4>\n<table>\n<thead><tr><th scope=\"col\">Must have</th>"
      "<th scope=\"col\">On as planned</th><th scope=\"col\">On at once</th>"
      "<th scope=\"col\">Back</th></tr></thead>\n<tbody>\n" +
      rows + "</tbody>\n</table>\n<ul class=\"where\">\n";
  for (const auto& [words, names] : where) {
    out += element("li", capital(names) + ": " + words + ".");
  }
  return out + fmt::format("</ul>\n<output class=\"live\" id=\"e{}w\"></output>\n", evening);
}

class Sections {
 public:
  Sections(const CardAnswer& answer, const std::vector<Shown>& reserves, units::System system)
      : planned_(answer.needs.planned),
        answer_(answer),
        reserves_(reserves),
        system_(system),
        lines_(day_lines(answer, system)) {}

  [[nodiscard]] std::string all() const {
    std::string out;
    for (std::size_t evening = first_evening(planned_); evening <= planned_.record.days();
         ++evening) {
      out += section(evening);
    }
    return out;
  }

 private:
  [[nodiscard]] std::string section(std::size_t evening) const {
    std::string out = fmt::format(
        "<section class=\"evening\" id=\"day-{0}\" aria-labelledby=\"h-{0}\">\n", evening);
    out += evening == 0 ? element("h3 id=\"h-0\"", "Before setting out") : day(evening - 1);
    out += list(lines_[evening]);
    std::string others;
    std::size_t other_count = 0;
    bool open = false;  // what the plan has too little of is not to be looked for
    out += "<div class=\"reserves\">\n";
    for (std::size_t r = 0; r < reserves_.size(); ++r) {
      if (reserves_[r].vital) {
        out += reserve(r, evening);
      } else {
        others += reserve(r, evening);
        ++other_count;
        open = open || reserves_[r].written[evening].lacks;
      }
    }
    out += "</div>\n";
    if (other_count > 0) {
      out += fmt::format(
          "<details{}><summary>Other reserves ({})</summary>\n<div class=\"reserves\">\n{}</div>\n"
          "</details>\n",
          open ? " open" : "", other_count, others);
    }
    if (evening > 0) out += cold(evening - 1);
    return out + way_out(answer_, reserves_, evening, system_) + "</section>\n";
  }

  [[nodiscard]] std::string day(std::size_t day) const {
    const DayFacts facts = day_facts(planned_, day, system_);
    std::string where = facts.from;
    std::string drive;
    if (!facts.to.empty()) {
      where += (facts.by.empty() ? "" : " by " + facts.by) + " to " + facts.to;
      drive = facts.distance + ", " + facts.hours + " at the wheel. ";
    }
    std::string out = element("h3 id=\"h-" + facts.number + "\"",
                              fmt::format("Day {}, {}: {}", facts.number, facts.date, where));
    const std::string cold = facts.coldest.empty() ? "" : facts.coldest + " ";
    const bool rises = facts.sun.front() >= '0' && facts.sun.front() <= '9';
    out += element(
        "p", fmt::format("{}Air {}to {}. {}.", drive, cold.empty() ? "up " : cold, facts.warmest,
                         rises ? "Daylight " + facts.sun : capital(facts.sun)));
    return out;
  }

  static std::string list(const std::vector<DayLine>& all) {
    if (all.empty()) return {};
    std::string out = "<ul class=\"before\">\n";
    for (const DayLine& line : all) {
      out += element(tag(line), line.words + (line.more.empty() ? "" : " ") + line.more);
    }
    return out + "</ul>\n";
  }

  [[nodiscard]] std::string reserve(std::size_t r, std::size_t evening) const {
    const Shown& shown = reserves_[r];
    const Written& written = shown.written[evening];
    const std::string id = fmt::format("e{}r{}", evening, r);
    const std::string answer = id + "a";
    const std::string name = entry_name(planned_, shown, evening);
    std::string out = "<fieldset class=\"reserve\">\n" + element("legend", capital(shown.name));
    out += fmt::format(
        "<p class=\"figures\"><span>Plan <strong>{}</strong></span> "
        "<span>Must have <strong>{}</strong></span></p>\n",
        html(written.plan), html(written.must));
    if (written.lacks) {
      out += element("p class=\"grave\"", "The plan has less here.");
    }
    out += "<div class=\"fields\">\n" +
           field(id, answer, name, fmt::format("Reading, {}", shown.unit), false);
    if (shown.rules.rated && evening > 0) {
      out += field(id + "t", answer, name + " taken", fmt::format("Taken on, {}", shown.unit),
                   !shown.rules.evenings[evening].takes);
    }
    return out +
           fmt::format("</div>\n<output class=\"live\" id=\"{}\"></output>\n</fieldset>\n", answer);
  }

  /// What is kept cold has no amount to read: the warmest of the day beside the warmest it may be.
  [[nodiscard]] std::string cold(std::size_t day) const {
    std::string out;
    for (std::size_t r = 0; r < planned_.course.reserves.size(); ++r) {
      const engine::ReserveInfo& info = planned_.course.reserves[r];
      if (info.sense != engine::Sense::keep_below) continue;
      const engine::ReserveDay& ledger = planned_.record.reserve(day, r);
      if (!ledger.judged) continue;
      out += element(
          ledger.breach_h >= 0 ? "p class=\"grave\"" : "p",
          fmt::format("{}: {} at its warmest by the plan, may be {}.", capital(reserve_words(info)),
                      amount_toward(info, ledger.lowest, system_, Toward::up),
                      amount_toward(info, ledger.margin, system_, Toward::down)));
    }
    return out;
  }

  const answers::PlanRun& planned_;
  const CardAnswer& answer_;
  const std::vector<Shown>& reserves_;
  units::System system_;
  std::vector<std::vector<DayLine>> lines_;
};

}  // namespace

std::string evening_words(const answers::PlanRun& planned, std::size_t evening) {
  if (evening == 0) return "Before setting out";
  const engine::ScheduledDay& day = planned.course.timeline->days[evening - 1].schedule;
  return fmt::format("Day {}, {}, {}", evening, short_date(day.date),
                     engine::route_point_name(planned.plan, day.to));
}

std::string evening_sections(const CardAnswer& answer, const std::vector<Shown>& reserves,
                             units::System system) {
  return Sections(answer, reserves, system).all();
}

bool has_way_out(const CardAnswer& answer, std::size_t evening) {
  const answers::PlanRun& planned = answer.needs.planned;
  return evening > 0 && evening < planned.record.days() && !planned.course.timeline->legs.empty() &&
         !answer.ways_out.reserves.empty();
}

}  // namespace drystage::report::page
