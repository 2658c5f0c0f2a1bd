#pragma once

#include <optional>
#include <vector>

#include "engine/calendar.h"
#include "engine/weather_day.h"
#include "models/clearness.h"
#include "plan/plan.h"

namespace drystage::engine {

/// How the weather and the people of one trip differ from what its plan says. Nothing said is as
/// planned. (What differs in the use of things stands in `Factors`.)
struct Drawn {
  double season_k = 0;  ///< how much warmer the season is than the climate's mean
  /// By day, as are the next two: how much warmer it is than that, in standard deviations of a
  /// day's mean (the climate's spread).
  std::vector<double> heat{};
  /// How clear it is: of a normal variable, of which each value stands for as rare a day.
  std::vector<double> sun{};
  std::vector<double> drinking{};      ///< times what all people drink on the day
  std::vector<double> people{};        ///< by person: times what they drink
  double work = 1;                     ///< times the hours of each activity
  std::vector<double> headwind_m_s{};  ///< by leg: more than its own; below 0: from behind

  bool operator==(const Drawn&) const = default;
};

inline bool is_as_planned(const Drawn& drawn) {
  return drawn.season_k == 0 && drawn.heat.empty() && drawn.sun.empty() && drawn.drinking.empty() &&
         drawn.people.empty() && drawn.work == 1 && drawn.headwind_m_s.empty();
}

/// The value of a list that may say nothing of a day.
inline double of_day(const std::vector<double>& list, int day, double usual) {
  const auto index = static_cast<std::size_t>(day);
  return index < list.size() ? list[index] : usual;
}

/// How the weather of a day at a place differs from the plan's.
struct DrawnSky {
  double warmer_k = 0;
  std::optional<double> sun_share{};  ///< of the month's mean; nothing: as planned
};

/// How days differ from the normals of a climate, at each place and date of a calendar.
class Skies {
 public:
  Skies(const plan::Plan& plan, const Calendar& calendar);

  /// By PlaceDay. What a plan says of the weather of a day it keeps.
  void draw(const Drawn& drawn, std::vector<DrawnSky>& out) const;

  /// The sun of the clearest day of all over its month's mean.
  [[nodiscard]] double clearest() const;

 private:
  struct Spread {
    int day = 0;
    double heat_k = 0;
    bool knows_air = false;  ///< the plan says how warm that day is
    std::optional<models::ClearnessOfDays> clearness{};
    double wider = 1;  ///< than the month's clearness makes it

    [[nodiscard]] double sun_share(double share_of_days) const;
  };
  static Spread spread_of(const plan::Plan& plan, const PlaceDay& place, plan::Date date);
  std::vector<Spread> spreads_;  ///< by PlaceDay
};

/// Puts a drawn sky into the figures of a day.
void draw_into(DayFigures& figures, const DrawnSky& sky);

/// An activity of which each hour is so many times as long; all together at most a day.
plan::Activity at_work(const plan::Activity& activity, double times);

}  // namespace drystage::engine
