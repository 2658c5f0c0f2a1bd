#include "ask_reading.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <istream>
#include <memory>
#include <ostream>
#include <string>
#include <string_view>

#include "answers/resume/resume.h"
#include "engine/route_point.h"
#include "engine/timeline.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/text.h"

namespace drystage::cli {
namespace {

using engine::Family;

const ReadingOption& option_named(std::string_view name) {
  return *std::ranges::find(reading_options, name,
                            [](const ReadingOption& one) { return std::string_view(one.name); });
}

class Dialogue {
 public:
  Dialogue(const plan::ReadPlan& before, const CommonOptions& options, std::istream& in,
           std::ostream& out)
      : before_(before), plan_(*before.plan), options_(options), in_(in), out_(out) {}

  std::optional<std::vector<GivenReading>> ask() {
    out_ << "What is there tonight? Write the unit: 85 L, 80 %, 23 cm. Enter: not read.\n"
            "In brackets stands what is expected. Ctrl-D ends it.\n";
    if (!ask_when()) return std::nullopt;
    expect();
    const std::string here = here_.empty() ? "" : " [" + here_ + "]";
    if (!ask_one("at", "Where are you? " + place_names() + here, {})) return std::nullopt;
    expect();
    constexpr std::array walk{Family::drinking_water, Family::utility_water, Family::fuel,
                              Family::tyres,          Family::battery,       Family::cold,
                              Family::food,           Family::consumable};
    for (const Family family : walk) {
      for (std::size_t r = 0; r < run_.course.reserves.size(); ++r) {
        if (run_.course.reserves[r].id.family != family) continue;
        if (!ask_reserve(r)) return std::nullopt;
      }
    }
    return std::move(given_);
  }

 private:
  std::optional<std::string> line() {
    out_.flush();
    std::string text;
    if (!std::getline(in_, text)) {
      out_ << '\n';
      return std::nullopt;
    }
    return units::tidy_blanks(text);
  }

  bool ask_when() {
    const int next = plan_.readings.empty() ? 1 : plan_.readings.back().day + 2;
    while (true) {
      out_ << fmt::format("Which evening of the trip is it? [{}] ", next);
      const auto text = line();
      if (!text) return false;
      given_ = {{&option_named("evening"), text->empty() ? std::to_string(next) : *text}};
      if (is_right()) return true;
    }
  }

  /// Asks until the answer is right or left out; false where the input ends. `name`: of which thing
  /// of several.
  bool ask_one(std::string_view option, const std::string& question, const std::string& name) {
    while (true) {
      out_ << question << " ";
      const auto text = line();
      if (!text) return false;
      answered_ = !text->empty();
      if (!answered_) return true;
      given_.push_back({&option_named(option), name.empty() ? *text : name + "=" + *text});
      if (is_right()) return true;
      given_.pop_back();
    }
  }

  bool ask_reserve(std::size_t r) {
    const engine::ReserveInfo& info = run_.course.reserves[r];
    const std::string expected =
        expected_.empty()
            ? ""
            : fmt::format(" [{}]", report::amount_with_unit(info, expected_[r], options_.system));
    const std::string question = report::capital(report::reserve_words(info)) + "?" + expected;
    switch (info.id.family) {
      case Family::drinking_water:
        return ask_one("drinking", question, {}) && (answered_ || ask_containers(true));
      case Family::utility_water:
        return ask_one("utility", question, {}) && (answered_ || ask_containers(false));
      case Family::fuel:
        return ask_one("fuel", question, name_of(plan_.vehicles, info)) &&
               (answered_ || ask_tanks(plan_.vehicles[at(info.id.of)]));
      case Family::tyres: {
        const std::string& vehicle = name_of(plan_.vehicles, info);
        return ask_one("spare-wheels", "Spare wheels of " + vehicle + " that can be driven on?",
                       vehicle) &&
               ask_one("repairs", "Holes that can still be mended, of " + vehicle + "?", vehicle);
      }
      case Family::battery:
        return ask_one("battery", question, name_of(plan_.power.banks, info));
      case Family::cold:
        return ask_one("cabinet", question, name_of(plan_.cold, info));
      case Family::food:
        return ask_one("meals", question, {});
      case Family::consumable:
        return ask_one("consumable", question, name_of(plan_.consumables, info));
      case Family::other:
        return true;
    }
    return true;
  }

  template <class Things>
  static const std::string& name_of(const Things& things, const engine::ReserveInfo& info) {
    return things[at(info.id.of)].name;
  }

  /// Those that can be dipped, one by one.
  bool ask_containers(bool drinking) {
    return std::ranges::all_of(plan_.water.containers, [&](const plan::Container& can) {
      if ((can.use == plan::WaterUse::drinking) != drinking || !can.gauge.is_given()) return true;
      return ask_one("container", "  " + can.name + ", how much or how deep?", can.name);
    });
  }
  bool ask_tanks(const plan::Vehicle& vehicle) {
    return std::ranges::all_of(vehicle.tanks, [&](const plan::Tank& tank) {
      if (!tank.gauge.is_given() && vehicle.tanks.size() < 2) return true;
      return ask_one("tank", "  " + tank.name + ", how much or how deep?", tank.name);
    });
  }

  /// Whether the plan takes what was given so far; says why not.
  bool is_right() {
    std::vector<plan::Override> all = options_.overrides;
    try {
      for (plan::Override& one : reading_overrides(given_, plan_)) all.push_back(std::move(one));
    } catch (const UsageError& error) {
      out_ << "  " << error.what() << '\n';
      return false;
    }
    plan::ReadPlan with = plan::read_text(before_.source, all, options_.plan_path);
    bool right = true;
    for (const plan::Diagnostic& found : with.diagnostics) {
      if (found.severity != plan::Severity::error || says_nothing_yet(found)) continue;
      right = false;
      out_ << fmt::format("  {}; expected: {}{}\n", found.what, found.expected,
                          found.hint.empty() ? "" : " (" + found.hint + ")");
    }
    return right;
  }

  /// A reading of which only the evening has been asked is not wrong.
  [[nodiscard]] bool says_nothing_yet(const plan::Diagnostic& found) const {
    return given_.size() == 1 && found.what == plan::nothing_found;
  }

  [[nodiscard]] std::string place_names() const {
    std::string out;
    for (const plan::Place& place : plan_.places) out += (out.empty() ? "" : ", ") + place.name;
    return "(" + out + ")";
  }

  /// What the plan, and what was read before, has for tonight.
  void expect() {
    plan::Plan tonight = plan_;
    plan::Reading now{.in_the_evening = true};
    for (const GivenReading& one : given_) {
      const std::string_view name = one.option->name;
      if (name == "evening") now.day = std::stoi(one.value) - 1;
      if (name != "at") continue;
      const auto place = std::ranges::find(plan_.places, one.value, &plan::Place::name);
      now.at = plan::Whereabouts{.place = static_cast<int>(place - plan_.places.begin())};
    }
    std::erase_if(tonight.readings,
                  [&](const plan::Reading& other) { return other.moment() >= now.moment(); });
    tonight.readings.push_back(now);
    auto timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(tonight));
    here_.clear();
    expected_.clear();
    if (!timeline->problems.empty()) {
      // Said when the answers are taken together.
      tonight.readings.clear();
      timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(tonight));
      run_ = answers::run_plan(std::move(tonight), timeline);
      return;
    }
    run_ = answers::run_plan(std::move(tonight), timeline);
    here_ = engine::route_point_name(plan_, timeline->days[at(now.day)].schedule.to);
    expected_ = answers::levels_before(run_.course, run_.course.judged_from(), false);
  }

  const plan::ReadPlan& before_;
  const plan::Plan& plan_;
  const CommonOptions& options_;
  std::istream& in_;
  std::ostream& out_;
  std::vector<GivenReading> given_;
  bool answered_ = false;  ///< the last question, and not left out
  answers::PlanRun run_;
  std::string here_;              ///< where the plan has them tonight; empty: not known
  std::vector<double> expected_;  ///< by reserve; empty: not known
};

}  // namespace

std::optional<std::vector<GivenReading>> ask_reading(const plan::ReadPlan& before,
                                                     const CommonOptions& options, std::istream& in,
                                                     std::ostream& out) {
  return Dialogue(before, options, in, out).ask();
}

}  // namespace drystage::cli
