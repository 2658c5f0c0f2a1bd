#include <fmt/core.h>

#include <string>
#include <vector>

#include "report/card/day_facts.h"
#include "report/card/evening_figures.h"
#include "report/card/rules.h"
#include "report/card/writers.h"
#include "report/needs/words.h"
#include "report/run/words.h"
#include "report/text/breach_words.h"
#include "report/text/margin_words.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Font;

constexpr Font name_font{.size_pt = 13, .bold = true};
constexpr double part_gap_pt = 2;

constexpr const char* front_cautions =
    "A planning aid only. Local rules, licensed practice and medical advice come first. Tell "
    "someone where you go.";

class Front {
 public:
  explicit Front(const Sheet& sheet)
      : sheet_(sheet), answer_(sheet.answer), planned_(sheet.planned()) {}

  void write() {
    say(planned_.plan.trip.title, name_font);
    say(trip_words(planned_, true));
    if (!planned_.course.readings.empty()) {
      say(reading_words(planned_) + " Must have has that in it already.");
    }
    write_verdict();
    say("Margins: " + units::listed(margin_lines(planned_, sheet_.system), {}, "; ") + ".");
    say(reach_words());
    say(on_trips_words(answer_.needs));
    say(turn_back_words(answer_.needs));
    write_use();
    sheet_.flow.add(drawing::space(part_gap_pt));
    Block foot = stacked(
        drawing::paragraph(sheet_.typesetter, front_cautions, sheet_.small(), sheet_.width_pt()));
    write_day_rows(sheet_, foot.height_pt + part_gap_pt);
    sheet_.flow.add(drawing::space(part_gap_pt));
    sheet_.flow.add(std::move(foot));
  }

 private:
  void say(const std::string& words) { say(words, sheet_.small()); }

  void say(const std::string& words, const Font& font) {
    if (words.empty()) return;
    // As one text where it is not long: what begins in English stays English, whatever names its
    // lines begin with.
    constexpr double long_pt = 200;
    drawing::Text text = sheet_.typesetter.text(words, font, {}, sheet_.width_pt());
    const double height = text.box.height;
    if (height > long_pt) {
      sheet_.say(words, font);
    } else {
      sheet_.flow.add(Block{.height_pt = height, .marks = {std::move(text)}});
    }
  }

  [[nodiscard]] bool depends_on_unconfirmed() const {
    return planned_.verdict.holds && !surely_holds(planned_, answer_.without_unconfirmed);
  }

  /// In one line, if names are not long: what fails, without the minute, or on what it depends.
  [[nodiscard]] std::string verdict_line() const {
    if (depends_on_unconfirmed()) {
      return fmt::format("HOLDS ONLY IF there is {}. Nobody has confirmed it.",
                         unconfirmed_words(planned_));
    }
    if (planned_.verdict.holds) {
      return verdict_words(planned_, answer_.without_unconfirmed, sheet_.system, answer_.spells);
    }
    const answers::Breach& worst = planned_.verdict.breaches.front();
    std::string words = breach_note(planned_, worst, sheet_.system);
    // The date stands in its row.
    const std::string date = ", " + short_date(date_of(planned_, worst.day));
    const std::size_t at = words.find(date);
    if (at != std::string::npos) words.erase(at, date.size());
    return "DOES NOT HOLD: " + words + ".";
  }

  void write_verdict() {
    constexpr double side_pt = 5;
    constexpr double above_pt = 2.5;
    constexpr double stroke_pt = 1.5;
    const double width_pt = sheet_.width_pt();
    const std::string verdict = verdict_line();
    Font font{.size_pt = 10, .bold = true};
    if (sheet_.typesetter.width(verdict, font) > width_pt - 2 * side_pt) font.size_pt = 9;
    Block out;
    drawing::Text text = sheet_.typesetter.text(verdict, font, {.x = side_pt, .y = above_pt},
                                                width_pt - 2 * side_pt);
    const double height = text.box.bottom() + above_pt;
    out.marks.emplace_back(std::move(text));
    out.marks.emplace_back(drawing::outline({.x = stroke_pt / 2,
                                             .y = stroke_pt / 2,
                                             .width = width_pt - stroke_pt,
                                             .height = height - stroke_pt},
                                            {.width_pt = stroke_pt}));
    out.height_pt = height + part_gap_pt;
    sheet_.flow.add(drawing::space(part_gap_pt));
    sheet_.flow.add(std::move(out));
    if (!planned_.verdict.holds) say(others_words(planned_, sheet_.system));
    if (depends_on_unconfirmed() && answer_.spells && answer_.spells->break_something()) {
      say(capital(spell_breaks_words(planned_, *answer_.spells)) + ".", sheet_.small_strong());
    }
    const std::string unconfirmed =
        without_unconfirmed_words(planned_, answer_.without_unconfirmed, sheet_.system);
    if (!unconfirmed.empty()) {
      // Of drawn trips it is told apart.
      const std::string below = answer_.needs.on_trips ? "" : below_must_words(answer_);
      say(unconfirmed + (below.empty() ? "" : " " + below) +
              " Must have reaches a confirmed supply.",
          sheet_.small_strong());
    }
    const std::string lack = on_trips_lack();
    if (!lack.empty()) say(lack, sheet_.small_strong());
    say(not_judged_words(planned_));
    for (const std::string& warning : answer_.needs.warnings) say("Warning: " + warning + ".");
    std::string by_the_model;
    for (const plan::Vehicle& vehicle : planned_.plan.vehicles) {
      const std::string words = by_the_model_words(vehicle);
      if (!words.empty()) units::add_to(by_the_model, words, " ");
    }
    say(by_the_model);
  }

  /// Where a plan that holds has less than must be there on drawn trips.
  [[nodiscard]] std::string on_trips_lack() const {
    if (!answer_.needs.on_trips || !planned_.verdict.holds) return {};
    for (std::size_t day = 0; day < planned_.record.days(); ++day) {
      for (const std::size_t i : life_supporting(answer_.needs)) {
        const answers::Need& need = answer_.needs.needs.need(day, i);
        if (!need.lacks()) continue;
        return fmt::format(
            "NOT ENOUGH ON {:g} % OF DRAWN TRIPS: on {}, {}.",
            100 * answer_.needs.on_trips->asked.chance,
            report::day_words(planned_, static_cast<int>(day)),
            need_words(planned_, answer_.needs.needs.reserves[i], need, sheet_.system));
      }
    }
    return {};
  }

  /// What must be had is enough for.
  [[nodiscard]] std::string reach_words() const {
    std::vector<Said> all;
    for (const std::size_t i : life_supporting(answer_.needs)) {
      const std::string name = reserve_words(reserve_of(planned_, answer_.needs.needs.reserves[i]));
      say_of(all, name, lasts_to_words(planned_, answer_.needs.needs, i, false));
    }
    if (all.empty()) return {};
    std::string words;
    if (all.size() == 1) {
      words = "Must have brings you to " + all.front().what + " with the whole margin left.";
    } else {
      for (const auto& [to, reserves] : all) {
        units::add_to(words, fmt::format("{} to {}", reserves, to), "; ");
      }
      words = "Must have brings you, with the whole margin left: " + words + ".";
    }
    const std::string taken = taken_on_the_way();
    return taken.empty() ? words : words + " It counts on " + taken + ".";
  }

  /// The limited supplies that must have counts on.
  [[nodiscard]] std::string taken_on_the_way() const {
    std::vector<Taken> taken;
    for (const std::size_t i : life_supporting(answer_.needs)) {
      for (std::size_t day = 0; day < planned_.record.days(); ++day) {
        for (const int place : answer_.needs.needs.need(day, i).taking_at) {
          taken.push_back({.place = place, .reserve = answer_.needs.needs.reserves[i]});
        }
      }
    }
    return taken_words(planned_, taken);
  }

  [[nodiscard]] std::string signs() const {
    bool lacks = false;
    bool held = false;
    bool away = false;
    for (const std::size_t i : life_supporting(answer_.needs)) {
      for (std::size_t day = 0; day < planned_.record.days(); ++day) {
        const answers::Need& need = answer_.needs.needs.need(day, i);
        lacks = lacks || need.lacks();
        held = held || (!need.fits && !is_endless(need));
        away = away || !need.judged;
      }
    }
    std::string words = lacks ? " ! and a frame: the plan has less." : "";
    for (const std::size_t r : small_reserves(planned_)) {
      if (!planned_.verdict.reserves[r].first_breach_day) continue;
      words += " ! without a box: below its margin.";
      break;
    }
    if (held) words += " + more than can be held.";
    return words + " A dash (-): the trip ends here" + (away ? ", or it is not with you." : ".");
  }

  void write_use() {
    const std::string undrawable = undrawable_words(planned_, sheet_.system);
    sheet_.flow.add(drawing::space(part_gap_pt));
    say("Write tonight's readings in. Below must have: do not go on, turn over.", strong_font);
    say("Well below plan? You use more than planned: must have is too low for you. Run the plan "
        "again, or multiply must have by what you used and divide by what " +
        std::string(planned_.course.readings.empty() ? "was planned" : "this card has for it") +
        ". Figures are for midnight: take off what you will still use. Drinking water: count "
        "drinking "
        "containers only." +
        (undrawable.empty() ? "" : " If your gauge shows all fuel, take off " + undrawable + ".") +
        " A bar above a row belongs to that day." +
        (planned_.course.timeline->legs.empty()
             ? ""
             : " With less than planned, the last place to turn back comes earlier.") +
        signs());
  }

  const Sheet& sheet_;
  const CardAnswer& answer_;
  const answers::PlanRun& planned_;
};

}  // namespace

void write_front(const Sheet& sheet) { Front(sheet).write(); }

}  // namespace drystage::report
