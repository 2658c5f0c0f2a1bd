#pragma once

#include <initializer_list>
#include <string>
#include <vector>

#include "plan/plan.h"

namespace drystage::support {

/// A plan for a test, section by section, in the words of the plan file. What a test does not set
/// is the plainest that will do: one person who drinks 4 L and eats 3 meals a day, dry stores
/// without end, at one place, in air that never changes and has no sun.
struct PlanText {
  std::string start = "2027-03-01";
  std::string time_zone = "+00:00";
  std::string driving = "{most_per_day: 10 h, daylight_only: no}";
  std::string more_of_trip{};  ///< what else it says, each after a comma
  std::vector<std::string> margins{};
  std::vector<std::string> people{person("Ada", "4 L/day")};
  std::vector<std::string> activities{};
  std::vector<std::string> containers{};
  std::vector<std::string> utility_use{};
  std::vector<std::string> vehicles{};
  std::vector<std::string> cold{};
  std::vector<std::string> food{"{item: stores, kept: dry, meals: 5000}"};
  std::vector<std::string> consumables{};
  std::vector<std::string> batteries{};
  std::vector<std::string> charging{};
  std::vector<std::string> loads{};
  std::vector<std::string> climate{steady_climate("air", 20)};
  std::vector<std::string> weather{};
  std::vector<std::string> places{place("Base", "air")};
  std::vector<std::string> itinerary{"{at: Base}", "stay: {nights: 5}"};
  std::vector<std::string> roads{};
  std::vector<std::string> mishaps{};
  std::vector<std::string> uncertainty{};
  std::vector<std::string> size{};

  /// One person whose drinking (when given) and meals are stated.
  static std::string person(const std::string& name, const std::string& drinking);

  /// A climate of the same temperature day and night, all the year.
  static std::string steady_climate(const std::string& name, double air_c,
                                    const std::string& sun = "0 kWh/m2/day");

  /// A climate of the same days all the year.
  static std::string climate_of(const std::string& name, double max_c, double min_c,
                                const std::string& humidity, const std::string& sun);

  /// A place on the equator and the meridian, where clock and sun agree, with what is sold there.
  static std::string place(const std::string& name, const std::string& climate_name,
                           const std::string& supplies = "");

  [[nodiscard]] std::string text() const;

  /// The plan, read. Throws with every diagnostic when it is not right.
  [[nodiscard]] plan::Plan plan() const;
};

/// What of `uncertainty` leaves out every source but some.
std::string all_but(std::initializer_list<plan::Source> drawn);

/// Reads a plan's text; throws with every diagnostic when it is not right.
plan::Plan read_plan(const std::string& text);

}  // namespace drystage::support
