#pragma once

#include <array>
#include <boost/date_time/gregorian/gregorian_types.hpp>
#include <optional>
#include <string>

#include "plan/mark.h"
#include "plan/words.h"

namespace drystage::plan {

using Date = boost::gregorian::date;

/// Normals of one month, or the weather of one day.
struct Weather {
  double max_c = 0;
  double min_c = 0;
  std::optional<double> humidity;     ///< mean relative humidity, 0..1
  std::optional<double> dew_point_c;  ///< wins over humidity
  std::optional<double> wind_m_s;     ///< nothing: not known
  double sun_kwh_m2 = 0;              ///< mean daily global radiation on the level
  std::optional<double> spread_c;     ///< day-to-day standard deviation of the mean temperature
  Mark mark{};
};

struct Climate {
  std::string name;
  std::array<std::optional<Weather>, 12> months;
  Mark mark{};
};

/// A week of unusual weather, of the size that a climate itself makes likely; see engine/spell.h.
enum class Spell {
  usual,  ///< none: the plan's own weather
  hot,    ///< hot and clear
  dull    ///< little sun, as warm as usual
};
inline constexpr int spell_count = 3;

/// The words for them, in the order of Spell.
inline constexpr std::array<Word<Spell>, spell_count> spell_words{
    {{"usual", Spell::usual}, {"hot", Spell::hot}, {"dull", Spell::dull}}};

/// How long a spell lasts. Docs/models.md says why.
inline constexpr int spell_days = 7;

/// Weather of named days; each value that is given replaces the normal one.
struct NamedDays {
  Date from;
  Date to;  ///< inclusive
  std::optional<double> max_c, min_c, humidity, dew_point_c, wind_m_s, sun_kwh_m2;
  double warmer_k = 0;  ///< on top of all this, at the same vapour: said by answers alone
  Spell spell{};        ///< on top of all this: said by answers alone
  Mark mark{};
};

}  // namespace drystage::plan
