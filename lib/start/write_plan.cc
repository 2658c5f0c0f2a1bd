#include "start/write_plan.h"

#include <fmt/core.h>

#include <algorithm>
#include <boost/date_time/gregorian/gregorian.hpp>
#include <cmath>

#include "engine/reserves/food.h"
#include "engine/surfaces.h"
#include "engine/usual_sizes.h"
#include "models/radiation.h"
#include "plan/text_edit.h"
#include "plan/vehicle.h"
#include "plan/word_lists.h"
#include "units/format.h"
#include "units/list.h"

namespace drystage::start {
namespace {

using units::Kind;

// What a first plan says of people and margins (ours): a large adult, and 3 days, 150 km.
constexpr double person_kg = 80;
constexpr double set_point_c = 3;

/// The same number of cans for an amount, none larger than 20 L where 12 of these will do.
struct Cans {
  int count = 0;
  double holds_l = 0;
};
Cans cans_for(double amount_l) {
  constexpr double size_l = 20;
  constexpr double most = 12;
  if (amount_l <= 0) return {};
  const double count = std::clamp(std::ceil(amount_l / size_l - 0.01), 1.0, most);
  return {.count = static_cast<int>(count), .holds_l = amount_l / count};
}

// What is left free in a fuel can, for the fuel swells.
constexpr double filled_share = 0.95;

class Writer {
 public:
  Writer(const Answers& answers, int nights, const Kit& kit)
      : answers_(answers), nights_(nights), kit_(kit) {
    for (const Country& country : countries) {
      if (country.name == text("country")) country_ = &country;
    }
  }

  [[nodiscard]] std::string plan() const {
    return head() + trip() + own("margins", &Writer::margins) + own("people", &Writer::people) +
           climate() + places() + itinerary() + own("vehicles", &Writer::vehicles) +
           own("water", &Writer::water) + own("food", &Writer::food) + own("cold", &Writer::cold) +
           own("power", &Writer::power);
  }

 private:
  /// A section, unless the kit has it.
  [[nodiscard]] std::string own(std::string_view section,
                                std::string (Writer::*write)() const) const {
    return kit_.has(section) ? std::string() : (this->*write)();
  }
  [[nodiscard]] const std::string& text(std::string_view option) const {
    return answers_.at(option).text;
  }
  [[nodiscard]] std::string quoted(std::string_view option) const {
    return plan::yaml_text(text(option));
  }
  /// Of an amount; 0 where the question did not arise.
  [[nodiscard]] double number(std::string_view option) const {
    const auto found = answers_.find(option);
    return found == answers_.end() ? 0 : found->second.number;
  }
  [[nodiscard]] int count(std::string_view option) const {
    return static_cast<int>(number(option));
  }
  [[nodiscard]] plan::Date start() const {
    return boost::gregorian::from_simple_string(text("start"));
  }
  [[nodiscard]] Cans fuel_cans() const { return cans_for(number("fuel-cans")); }
  [[nodiscard]] Cans water_cans() const { return cans_for(number("drinking")); }

  /// With everything in it, to 10 kg.
  [[nodiscard]] double loaded_kg() const {
    const Cans fuel = fuel_cans();
    const Cans water = water_cans();
    const auto kind = plan::fuel_words.at(static_cast<std::size_t>(number("fuel"))).value;
    const double sum_kg =
        number("mass") + number("people") * person_kg + number("drinking") + number("utility") +
        water.count * engine::usual_container_kg(water.holds_l) +
        fuel.count * engine::usual_fuel_can_kg(fuel.holds_l) +
        plan::fuel_kg_l(kind) * (number("tank") + filled_share * number("fuel-cans"));
    return 10 * std::round(sum_kg / 10);
  }

  [[nodiscard]] std::string head() const {
    std::string made =
        "# A first plan from a few answers. Where a remark says usual values, put in your own.\n"
        "# `drystage check FILE` finds slips. `drystage run FILE` says whether the plan holds.\n"
        "drystage: 1\n";
    if (kit_.include.empty()) return made;
    return made + fmt::format("include: {}    # has {}; what stands here wins\n",
                              plan::yaml_text(kit_.include), units::listed(kit_.sections, " and "));
  }

  /// What can be had where the trip begins.
  [[nodiscard]] std::string fuels() const {
    std::string made;
    for (const std::string& fuel : kit_.has("vehicles") ? kit_.fuels : std::vector{text("fuel")}) {
      made += fuel + ": {}, ";
    }
    return made;
  }

  [[nodiscard]] std::string trip() const {
    const double from_greenwich_h = std::round(number("longitude") / 15);
    std::string made = fmt::format(
        "\ntrip:\n"
        "  title: {} {} of {}\n"
        "  start: {}\n"
        "  time_zone: \"{}{:02}:00\"         # by the longitude; put in the clock you live by\n",
        count("days"), count("days") == 1 ? "day" : "days", text("country"), text("start"),
        from_greenwich_h < 0 ? '-' : '+', std::abs(static_cast<int>(from_greenwich_h)));
    if (is_dark()) made += "  driving: {daylight_only: no}    # there is little daylight\n";
    return made;
  }

  /// Whether some day of the trip is too short to drive by daylight.
  [[nodiscard]] bool is_dark() const {
    constexpr double least_h = 6;
    const auto daylight_h = [&](const plan::Date& date) {
      return models::daylight_hours(number("latitude"), date.day_of_year());
    };
    return daylight_h(start()) < least_h ||
           daylight_h(start() + boost::gregorian::days(count("days"))) < least_h;
  }

  [[nodiscard]] std::string margins() const {
    return fmt::format(
        "\nmargins:                      # what must always be left; choose your own\n"
        "  drinking_water: 3 days      # what 3 days of waiting would use\n"
        "{}"
        "  fuel: 150 km\n"
        "  food: 2 days\n",
        number("utility") > 0 ? "  utility_water: 10 %\n" : "");
  }

  [[nodiscard]] std::string people() const {
    std::string made =
        "\npeople:                       # usual values: large adults, who need most\n";
    for (int i = 1; i <= count("people"); ++i) {
      made +=
          fmt::format("  - {{name: person {}, mass: {} kg, height: 180 cm, age: 40, sex: male}}\n",
                      i, person_kg);
    }
    return made;
  }

  [[nodiscard]] std::string climate() const {
    std::string made = fmt::format(
        "\nclimate:                      # usual values, not a station's: look up your own\n"
        "  {}:\n",
        text("country"));
    // A delay may lead into the month after.
    constexpr int most_delay_days = 14;
    const plan::Date last = start() + boost::gregorian::days(count("days") + most_delay_days);
    plan::Date month(start().year(), start().month(), 1);
    for (int i = 0; i < 12 && month <= last; ++i, month += boost::gregorian::months(1)) {
      const int number_of_month = month.month().as_number();
      UsualMonth usual = usual_month(*country_, number("latitude"), number_of_month);
      constexpr double charges_nothing = 0.2;
      if (usual.sun_kwh_m2 < charges_nothing) usual.sun_kwh_m2 = 0;
      made += fmt::format(
          "    {}: {{max: {} °C, min: {} °C, dew_point: {} °C, sun: {:.1f} kWh/m2/day}}\n",
          plan::month_names.at(static_cast<std::size_t>(number_of_month - 1)), usual.max_c,
          usual.min_c, usual.dew_point_c, usual.sun_kwh_m2);
    }
    return made;
  }

  [[nodiscard]] std::string places() const {
    const std::string position = fmt::format(
        "    at: {{latitude: {}, longitude: {}, elevation: {} m}}\n"
        "    climate: {}\n",
        quoted("latitude"), quoted("longitude"), country_->elevation_m, text("country"));
    return fmt::format(
        "\nplaces:                       # put in their names, positions and elevations\n"
        "  Start:\n"
        "{0}"
        "    supplies: {{{1}drinking_water: {{}}, utility_water: {{}}, food: {{}}}}\n"
        "  Camp:\n"
        "{0}",
        position, fuels());
  }

  [[nodiscard]] std::string itinerary() const {
    std::string made = "\nitinerary:\n  - {at: Start}\n" + drive("Camp", false);
    if (nights_ > 0) made += fmt::format("  - stay: {{nights: {}}}\n", nights_);
    return made + drive("Start", true);
  }

  [[nodiscard]] std::string drive(std::string_view to, bool back) const {
    const double sealed_km = number("distance") - number("rough");
    const std::string sealed =
        "sealed: " +
        units::format(sealed_km, Kind::distance, units::System::metric, units::significant(6));
    const std::string track = "track: " + quoted("rough");
    const std::string surfaces = number("rough") <= 0 ? "sealed"
                                 : sealed_km <= 0     ? "track"
                                 : back               ? fmt::format("{{{}, {}}}", track, sealed)
                                                      : fmt::format("{{{}, {}}}", sealed, track);
    return fmt::format("  - drive: {{to: {}, distance: {}, surfaces: {}}}\n", to,
                       quoted("distance"), surfaces);
  }

  [[nodiscard]] std::string vehicles() const {
    std::string made = fmt::format(
        "\nvehicles:\n"
        "  - name: {}\n"
        "    fuel: {}\n"
        "    mass: {{empty: {}, limit: {}}}\n"
        "    tanks:                    # in the order of use\n"
        "      - {{name: main tank, holds: {}, filled: {}}}\n",
        quoted("vehicle"), text("fuel"), quoted("mass"), quoted("limit"), quoted("tank"),
        quoted("tank"));
    const Cans cans = fuel_cans();
    for (int i = 1; i <= cans.count; ++i) {
      made += fmt::format("      - {{name: fuel can {}, holds: {}, filled: {}, empty_mass: {}}}\n",
                          i, units::format(cans.holds_l, Kind::volume),
                          units::format(filled_share * cans.holds_l, Kind::volume),
                          units::format(engine::usual_fuel_can_kg(cans.holds_l), Kind::mass,
                                        units::System::metric, units::significant(2)));
    }
    return made + fmt::format(
                      "    observed:                 # mass: as it sets out; speed: a usual value\n"
                      "      - {{surface: sealed, speed: {}, mass: {:.0f} kg, uses: {}}}\n",
                      units::format(engine::surface_figures(plan::Surface::sealed).speed_km_h,
                                    Kind::speed),
                      loaded_kg(), quoted("uses"));
  }

  [[nodiscard]] std::string water() const {
    std::string made = "\nwater:\n  containers:\n";
    const Cans cans = water_cans();
    for (int i = 1; i <= cans.count; ++i) {
      const std::string holds = units::format(cans.holds_l, Kind::volume);
      made += fmt::format(
          "    - {{name: can {}, holds: {}, filled: {}, for: drinking, empty_mass: {}}}\n", i,
          holds, holds,
          units::format(engine::usual_container_kg(cans.holds_l), Kind::mass, units::System::metric,
                        units::significant(2)));
    }
    if (number("utility") > 0) {
      made += fmt::format(
          "    - {{name: water tank, holds: {0}, filled: {0}, for: utility}}\n"
          "  utility_use:                # for each person; give each use a line of its own\n"
          "    cooking and washing: {1}\n",
          quoted("utility"), quoted("utility-use"));
    }
    return made;
  }

  [[nodiscard]] std::string food() const {
    constexpr int meals_a_day = 3;
    const int meals = count("food") * count("people") * meals_a_day;
    return fmt::format(
        "\nfood:                         # {} meals for each person, each day; mass: usual\n"
        "  - {{item: dry food, kept: dry, meals: {}, mass: {:.0f} kg}}\n",
        meals_a_day, meals, std::ceil(meals * engine::reserves::bought_kg_per_meal));
  }

  [[nodiscard]] std::string cold() const {
    if (number("fridge") <= 0) return {};
    return fmt::format(
        "\ncold:\n"
        "  - {{name: fridge, volume: {}, set_point: {} °C, "
        "rated: {{draw: {}, ambient: 32 °C, inside: 4 °C}}}}\n",
        quoted("fridge"), set_point_c, quoted("fridge-draw"));
  }

  [[nodiscard]] std::string power() const {
    if (number("battery") <= 0) return {};
    std::string made = fmt::format(
        "\npower:\n"
        "  batteries:\n"
        "    - {{name: battery, kind: {}, capacity: {}}}\n",
        text("battery-kind"), quoted("battery"));
    const bool charger = number("charger") > 0;
    const bool panel = number("panel") > 0;
    if (charger || panel) made += "  charging:\n";
    if (charger) made += fmt::format("    - {{name: charger, current: {}}}\n", quoted("charger"));
    if (panel) made += fmt::format("    - {{name: panel, solar: {}}}\n", quoted("panel"));
    if (number("loads") <= 0) return made;
    return made + fmt::format("  loads:\n    - {{name: lights and telephones, energy: {}}}\n",
                              quoted("loads"));
  }

  const Answers& answers_;
  int nights_;
  const Kit& kit_;
  const Country* country_ = nullptr;
};

}  // namespace

std::string write_plan(const Answers& answers, int nights, const Kit& kit) {
  return Writer(answers, nights, kit).plan();
}

}  // namespace drystage::start
