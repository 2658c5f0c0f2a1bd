#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "answers/base/plan_run.h"
#include "units/format.h"
#include "units/index.h"

namespace drystage::report {

/// "Mon 08 Feb": fixed width, in English whatever the locale.
std::string short_date(plan::Date date);

/// "Mon 08 Feb 2027".
std::string long_date(plan::Date date);

/// "2027-02-08".
std::string iso_date(plan::Date date);

/// "14:05" of a clock hour; 24:00 for the end of the day.
std::string clock(double hour);

/// An amount of a reserve as a number in the units to show.
double display_number(const engine::ReserveInfo& reserve, double level, units::System system);

/// An amount of a reserve without its unit, in the units to show: "68", "-3.5".
std::string amount(const engine::ReserveInfo& reserve, double level, units::System system);

/// The unit that goes with it: "L", "US gal", "°C".
std::string unit(const engine::ReserveInfo& reserve, units::System system);

/// Both: "68 L".
std::string amount_with_unit(const engine::ReserveInfo& reserve, double level,
                             units::System system);

/// The name of one of several things of the plan, by its index.
template <class List>
const std::string& name_in(const List& list, int index) {
  return list[at(index)].name;
}

/// A reserve of the plan, by its index.
const engine::ReserveInfo& reserve_of(const answers::PlanRun& planned, int reserve);

/// What a scale is called in a sentence: "truck", "rear axle of truck", "truck with its trailer".
std::string scale_words(const plan::Plan& plan, const engine::Scale& scale);

/// What a reserve is called in a sentence: "drinking water", "fuel of truck".
std::string reserve_words(const engine::ReserveInfo& reserve);

/// What life depends on, or the way home, of what the plan has: "drinking water or fuel", and
/// consumables that do.
std::string vital_words(const plan::Plan& plan);

/// A family in words: "drinking water".
std::string family_words(engine::Family family);

/// An endurance without its unit: "5.1", "310"; "-" where nothing is used.
std::string endurance(const engine::ReserveInfo& reserve, double value, units::System system);

/// Its unit: "days", "km", "mi", "h".
std::string endurance_unit(const engine::ReserveInfo& reserve, units::System system);

/// "water", "diesel for van" where there are several vehicles: what an order is for.
std::string ordered_words(const plan::Plan& plan, const engine::OrderInfo& order);

/// "water at Bir Aslam": an order and where.
std::string order_words(const plan::Plan& plan, const engine::OrderInfo& order);

/// "1 run", "2 runs".
std::string counted(std::size_t count, std::string_view one, std::string_view many);

/// Date of a day from 0; a mishap may have made the trip longer than was planned.
plan::Date date_of(const answers::PlanRun& planned, int day);

/// A name for a sentence: cut where it is longer than anybody reads.
std::string name_words(std::string_view name);

/// Words as they stand at the head of a line or a sentence: what begins with a small letter from a
/// to z begins with a capital. Names in other scripts stay as they are.
inline std::string capital(std::string words) {
  if (!words.empty() && words.front() >= 'a' && words.front() <= 'z') {
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
  }
  return words;
}

/// Names of which the same is said.
struct Said {
  std::string what;
  std::string names;
};

/// Says something of a name: with those of which the same has been said already, if there are any.
void say_of(std::vector<Said>& all, const std::string& name, std::string what);

}  // namespace drystage::report
