#include "report/card/front.h"

#include <fmt/core.h>

#include <algorithm>

#include "report/card/day_rows.h"
#include "report/card/evening_figures.h"
#include "report/card/isolated_answer.h"
#include "report/card/leave_rules.h"
#include "report/card/pieces.h"
#include "report/card/turn_back_rules.h"
#include "report/needs/words.h"
#include "report/run/words.h"
#include "report/text/breach_words.h"
#include "report/text/capital.h"
#include "report/text/cautions.h"
#include "report/text/margin_words.h"
#include "report/text/page.h"
#include "report/text/rounding.h"
#include "report/text/words.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Flow;
using drawing::Font;
using drawing::Typesetter;

constexpr Font trip_font{.size_pt = 10};
constexpr Font verdict_font{.size_pt = 11, .bold = true};
constexpr double part_gap_pt = 3;

class Front {
 public:
  Front(Flow& flow, const Typesetter& typesetter, const CardAnswer& answer, units::System system)
      : flow_(flow),
        typesetter_(typesetter),
        answer_(with_isolated_names(answer)),
        trial_(answer_.needs.trial),
        system_(system),
        width_pt_(flow.paper().column_pt()) {}

  void write() {
    write_trip();
    write_verdict();
    write_margins();
    write_use();
    flow_.add(drawing::space(part_gap_pt));
    write_day_rows(flow_, typesetter_, answer_, system_);
    flow_.add(drawing::space(part_gap_pt));
    flow_.add(
        stacked(drawing::paragraph(typesetter_, std::string(cautions), body_font, width_pt_)));
  }

 private:
  void say(const std::string& words, const Font& font = body_font) {
    if (words.empty()) return;
    // As one text where it is not long: what begins in English stays English, whatever names its
    // lines begin with.
    constexpr double long_pt = 200;
    drawing::Text text = typesetter_.text(words, font, {}, width_pt_);
    const double height = text.box.height;
    if (height > long_pt) {
      flow_.add(drawing::paragraph(typesetter_, words, font, width_pt_));
    } else {
      flow_.add(Block{.height_pt = height, .marks = {std::move(text)}});
    }
  }

  void write_trip() {
    const plan::Plan& plan = trial_.plan;
    say(plan.trip.title, title_font);
    const std::size_t days = trial_.record.days();
    const plan::Date last = trial_.course.timeline->days.back().schedule.date;
    say(days == 1
            ? fmt::format("{}, 1 day", long_date(last))
            : fmt::format("{} to {}, {} days", long_date(plan.trip.start), long_date(last), days),
        {.size_pt = trip_font.size_pt, .bold = true});
    std::string people;
    for (const plan::Person& person : plan.people) {
      units::add_to(people, person.name);
    }
    std::string vehicles;
    for (const plan::Vehicle& vehicle : plan.vehicles) {
      units::add_to(
          vehicles,
          vehicle.name + (vehicle.fuel == plan::FuelKind::diesel ? " (diesel)" : " (petrol)"));
    }
    std::string words;
    if (!people.empty()) words = "People: " + people + ".";
    if (!vehicles.empty()) {
      units::add_to(
          words,
          std::string(plan.vehicles.size() == 1 ? "Vehicle: " : "Vehicles: ") + vehicles + ".",
          " ");
    }
    if (!answer_.source.empty()) {
      units::add_to(words, ("Plan: " + answer_.source + "."), " ");
    }
    say(words, trip_font);
    flow_.add(drawing::space(part_gap_pt));
  }

  void write_verdict() {
    constexpr double side_pt = 6;
    constexpr double above_pt = 4;
    Block out;
    drawing::Text text = typesetter_.text(
        verdict_words(trial_, answer_.without_unconfirmed, system_, answer_.spells), verdict_font,
        {.x = side_pt, .y = above_pt}, width_pt_ - 2 * side_pt);
    constexpr double stroke_pt = 1.5;
    const double height = text.box.bottom() + above_pt;
    out.marks.emplace_back(std::move(text));
    out.marks.emplace_back(drawing::outline({.x = stroke_pt / 2,
                                             .y = stroke_pt / 2,
                                             .width = width_pt_ - stroke_pt,
                                             .height = height - stroke_pt},
                                            {.width_pt = stroke_pt}));
    out.height_pt = height + part_gap_pt;
    flow_.add(std::move(out));
    if (!trial_.verdict.holds) say(others_words(trial_, system_));
    const std::string unconfirmed =
        without_unconfirmed_words(trial_, answer_.without_unconfirmed, system_);
    if (!unconfirmed.empty()) {
      const std::string below = below_must_words(answer_);
      say(unconfirmed + " What must be on board is reckoned to a confirmed supply beyond." +
              (below.empty() ? "" : " " + below),
          strong_font);
    }
    say(not_judged_words(trial_));
    for (const std::string& warning : answer_.needs.warnings) say("Warning: " + warning + ".");
    std::string by_the_model;
    for (const plan::Vehicle& vehicle : trial_.plan.vehicles) {
      const std::string words = by_the_model_words(vehicle);
      if (!words.empty()) units::add_to(by_the_model, words, " ");
    }
    say(by_the_model);
  }

  void write_margins() {
    std::string words;
    for (const std::string& line : margin_lines(trial_, system_)) {
      units::add_to(words, line, "; ");
    }
    if (!words.empty()) say("Margins to keep: " + words + ".");
    say(reach_words());
    say(turn_back_words(answer_.needs));
  }

  /// What must be had is enough for.
  [[nodiscard]] std::string reach_words() const {
    struct Reach {
      std::string to;
      std::string reserves;
    };
    std::vector<Reach> all;
    for (const std::size_t i : reserves_with_boxes(answer_.needs)) {
      const auto reserve = static_cast<std::size_t>(answer_.needs.needs.reserves[i]);
      const std::string name = reserve_words(trial_.course.reserves[reserve]);
      const std::string to = lasts_to_words(trial_, answer_.needs.needs, i);
      const auto same = std::ranges::find(all, to, &Reach::to);
      if (same == all.end()) {
        all.push_back({.to = to, .reserves = name});
      } else {
        units::add_to(same->reserves, name);
      }
    }
    std::string words;
    for (const Reach& reach : all) {
      units::add_to(words, fmt::format("{} to {}", reach.reserves, reach.to), "; ");
    }
    return words.empty() ? words : "Must have lasts, with the margin whole: " + words + ".";
  }

  /// What no pump gets out of a tank is no part of the figures.
  [[nodiscard]] std::string unusable_words() const {
    std::string words;
    for (const plan::Vehicle& vehicle : trial_.plan.vehicles) {
      double unusable_l = 0;
      for (const plan::Tank& tank : vehicle.tanks) unusable_l += tank.unusable_l;
      if (unusable_l <= 0) continue;
      const units::Display litres = units::display(units::Kind::volume, system_);
      const double number = rounded(litres.number(unusable_l), 1, Toward::up);
      units::add_to(words,
                    fmt::format("{} {} in {}", units::format_number(number, units::significant(3)),
                                litres.unit, vehicle.name));
    }
    return words.empty() ? words
                         : " Of fuel leave out what cannot be drawn from the tanks: " + words + ".";
  }

  [[nodiscard]] std::string signs() const {
    bool lacks = false;
    bool held = false;
    for (const std::size_t i : reserves_with_boxes(answer_.needs)) {
      for (std::size_t day = 0; day < trial_.record.days(); ++day) {
        const answers::Need& need = answer_.needs.needs.need(day, i);
        lacks = lacks || need.lacks();
        held = held || (!need.fits && !is_endless(need));
      }
    }
    std::string words;
    if (lacks) words += " ! and a frame: too little even by the plan.";
    if (held) words += " + more than can be held.";
    return words + " - the trip ends.";
  }

  void write_use() {
    flow_.add(drawing::space(part_gap_pt / 2));
    say("Each evening write in what is really on board. Is it less than must have? Do not go on.\n"
        "Is it more, but clearly less than plan? You use more than was reckoned: must have is too "
        "low for you.",
        {.size_pt = 10, .bold = true});
    say("Then multiply must have by what you used since the last filling, divide by what the plan "
        "used, and go by that; better, run the plan again. The back says what to do first. What "
        "stands above a row is met on its day. Figures are for midnight: read late, take off what "
        "will still be used. Of drinking water count the drinking containers alone." +
        unusable_words() + signs());
  }

  Flow& flow_;
  const Typesetter& typesetter_;
  const CardAnswer answer_;
  const answers::Trial& trial_;
  units::System system_;
  double width_pt_;
};

}  // namespace

void write_front(Flow& flow, const Typesetter& typesetter, const CardAnswer& answer,
                 units::System system) {
  Front(flow, typesetter, answer, system).write();
}

}  // namespace drystage::report
