#pragma once

#include <array>
#include <boost/date_time/gregorian/gregorian_types.hpp>
#include <optional>
#include <string>

#include "plan/mark.h"

namespace drystage::plan {

using Date = boost::gregorian::date;

/// Normals of one month, or the weather of one day.
struct Weather {
  double max_c = 0;
  double min_c = 0;
  std::optional<double> humidity;     ///< mean relative humidity, 0..1
  std::optional<double> dew_point_c;  ///< wins over humidity
  double wind_m_s = 2;
  double sun_kwh_m2 = 0;  ///< mean daily global radiation on the level
  double spread_c = 0;    ///< day-to-day standard deviation of the mean temperature
  Mark mark{};
};

struct Climate {
  std::string name;
  std::array<std::optional<Weather>, 12> months;
  Mark mark{};
};

/// Weather of named days; each value that is given replaces the normal one.
struct NamedDays {
  Date from;
  Date to;  ///< inclusive
  std::optional<double> max_c, min_c, humidity, dew_point_c, wind_m_s, sun_kwh_m2;
  double warmer_k = 0;  ///< on top of all this, at the same vapour: a heat wave of an answer's
  Mark mark{};
};

}  // namespace drystage::plan
