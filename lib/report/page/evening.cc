#include "report/page/evening.h"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "engine/route_point.h"
#include "report/card/day_facts.h"
#include "report/card/day_notes.h"
#include "report/card/leave_rules.h"
#include "report/card/supply_words.h"
#include "report/card/turn_back_rules.h"
#include "report/page/html.h"
#include "report/page/way_out.h"
#include "report/text/capital.h"
#include "report/text/event_list.h"
#include "report/text/rounding.h"
#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report::page {
namespace {

/// Something that comes before a night, and when.
struct Before {
  double hour = 0;
  const char* open = "";  ///< the tag of its element
  std::string words{};
};

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

class Sections {
 public:
  Sections(const CardAnswer& answer, const std::vector<Shown>& reserves, units::System system)
      : planned_(answer.needs.planned),
        answer_(answer),
        reserves_(reserves),
        system_(system),
        told_(told_events(planned_)),
        turns_(turn_back_rules(answer.needs, system)),
        leaves_(leave_rules(answer, system)) {}

  [[nodiscard]] std::string all() const {
    std::string out;
    for (std::size_t evening = 0; evening <= planned_.record.days(); ++evening) {
      out += section(evening);
    }
    return out;
  }

 private:
  [[nodiscard]] std::string section(std::size_t evening) const {
    std::string out = fmt::format(
        "<section class=\"evening\" id=\"day-{0}\" aria-labelledby=\"h-{0}\">\n", evening);
    out += evening == 0 ? outset() : day(evening - 1);
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

  [[nodiscard]] std::string outset() const {
    std::string out = element("h3 id=\"h-0\"", "Before setting out");
    std::vector<Before> all;
    for (SupplyLine& supply : supply_lines(planned_, 0, true, system_)) {
      all.push_back({.open = tag(supply), .words = std::move(supply.words)});
    }
    for (const LeaveRule& rule : leaves_) {
      if (at_outset(rule)) all.push_back({.open = "li class=\"grave\"", .words = rule.headline});
    }
    return out + list(all);
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
    return out + list(before(day));
  }

  static const char* tag(const SupplyLine& supply) {
    return supply.unsure ? "li class=\"grave\"" : "li";
  }

  static bool at_outset(const LeaveRule& rule) { return rule.day == 0 && rule.hour <= 0; }

  /// In the order of time; what is taken on comes before the rules of the same moment.
  [[nodiscard]] std::vector<Before> before(std::size_t day) const {
    std::vector<Before> out;
    for (SupplyLine& supply : supply_lines(planned_, day, false, system_)) {
      out.push_back({.hour = supply.hour, .open = tag(supply), .words = std::move(supply.words)});
    }
    for (const LeaveRule& rule : leaves_) {
      if (at(rule.day) != day || at_outset(rule)) continue;
      out.push_back({.hour = rule.hour, .open = "li class=\"rule\"", .words = rule.headline});
    }
    for (const TurnBackRule& rule : turns_) {
      if (at(rule.day) != day) continue;
      out.push_back({.hour = rule.hour,
                     .open = "li class=\"rule\"",
                     .words = rule.headline + (rule.words.empty() ? "" : " ") + rule.words});
    }
    for (DayNote& note : day_notes(planned_, told_, day, system_)) {
      out.push_back({.hour = note.hour,
                     .open = note.grave ? "li class=\"grave\"" : "li",
                     .words = std::move(note.words)});
    }
    std::ranges::stable_sort(out, {}, &Before::hour);
    return out;
  }

  static std::string list(const std::vector<Before>& all) {
    if (all.empty()) return {};
    std::string out = "<ul class=\"before\">\n";
    for (const Before& before : all) out += element(before.open, before.words);
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
      out += element("p class=\"grave\"", "The plan itself has too little here.");
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
  std::vector<ToldEvent> told_;
  std::vector<TurnBackRule> turns_;
  std::vector<LeaveRule> leaves_;
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

}  // namespace drystage::report::page
