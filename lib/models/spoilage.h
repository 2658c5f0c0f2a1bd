#pragma once

namespace drystage::models {

/// How fast chilled food ages at `temperature_c`, as a multiple of its rate at 0 °C:
/// (1 + 0.1 T)^2 above -10 °C, nothing at or below it.
/// Source: square-root spoilage model (Ratkowsky; Olley), T_min = -10 °C. Fitted to chilled food
/// below about 15 °C; used above that too, where food is lost within hours whichever curve is
/// taken.
[[nodiscard]] double relative_spoilage_rate(double temperature_c);

/// Share of the shelf life used up per hour at `temperature_c`, for food that keeps `life_days` at
/// `life_at_c`. A life of zero days or less is spent at once (infinite, or 0 where nothing ages).
/// A life stated for -9 °C or colder is taken as stated for -9 °C: the model has no rate to
/// scale from at -10 °C, and this errs on the short side.
[[nodiscard]] double shelf_life_used_per_h(double temperature_c, double life_days,
                                           double life_at_c);

/// Hours until the shelf life is spent, with `used` (0 to 1) of it gone and the temperature staying
/// at `temperature_c`; 0 if it is spent already, infinite where nothing ages.
[[nodiscard]] double hours_until_spent(double used, double temperature_c, double life_days,
                                       double life_at_c);

/// Days that food keeping `life_days` at `life_at_c` keeps at `temperature_c`; may be infinite.
[[nodiscard]] double shelf_life_days(double temperature_c, double life_days, double life_at_c);

/// Where food that may harm stands on the 2-hour/4-hour clock. Source: FSANZ 2-hour/4-hour guide.
enum class FoodClock {
  fine,        ///< Under 2 h in all between 5 and 60 °C: chill it again or eat it.
  use_now,     ///< 2 to 4 h: eat it now, do not chill it again.
  throw_away,  ///< Over 4 h.
};

inline constexpr double danger_from_c = 5.0;       ///< FSANZ guide.
inline constexpr double danger_to_c = 60.0;        ///< FSANZ guide.
inline constexpr double use_now_after_h = 2.0;     ///< FSANZ guide.
inline constexpr double throw_away_after_h = 4.0;  ///< FSANZ guide.

/// Whether the clock runs at `temperature_c`: strictly between 5 and 60 °C.
[[nodiscard]] bool food_clock_runs(double temperature_c);

/// Above this the clock runs twice as fast. Source: US Department of Agriculture, food safety
/// basics: of the two hours out of the cold, one above 90 °F (32 °C).
inline constexpr double great_heat_c = 32.0;
inline constexpr double great_heat_rate = 2.0;

/// Hours on the clock for each hour at `temperature_c`: 0 up to 5 °C and from 60 °C, 1 up to 32 °C,
/// 2 above.
[[nodiscard]] double food_clock_rate(double temperature_c);

/// The share of the straight line between two temperatures that lies above a third.
[[nodiscard]] double share_above(double limit_c, double from_c, double to_c);

/// Hours on the clock for each hour on the straight line between two temperatures. (Food of
/// people's does not get to 60 °C: above 32 °C counts as such.)
[[nodiscard]] double mean_food_clock_rate(double from_c, double to_c);

/// State of the clock after `hours` in all on it (0 or more). The hours add up and are never given
/// back by chilling.
[[nodiscard]] FoodClock food_clock(double hours);

/// Hours until the food must be used at once, after `hours` on the clock and staying at
/// `temperature_c`: 0 if that is so already, infinite if the clock stands still, half as many above
/// 32 °C.
[[nodiscard]] double hours_until_use_now(double hours, double temperature_c);

/// Hours until the food must be thrown away; as hours_until_use_now.
[[nodiscard]] double hours_until_throw_away(double hours, double temperature_c);

}  // namespace drystage::models
