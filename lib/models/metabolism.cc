#include "models/metabolism.h"

#include <algorithm>
#include <numeric>

#include "units/day.h"

namespace drystage::models {
namespace {

constexpr double kj_per_kcal = 4.184;

// Basal metabolism is `per_kg` · mass + `fixed`, kcal a day, from `from_years` on.
struct BasalLine {
  double from_years;
  double per_kg;
  double fixed;
};

constexpr std::array<BasalLine, 6> basal_male{{{0.0, 59.512, -30.4},
                                               {3.0, 22.706, 504.3},
                                               {10.0, 17.686, 658.2},
                                               {18.0, 15.057, 692.2},
                                               {30.0, 11.472, 873.1},
                                               {60.0, 11.711, 587.7}}};

constexpr std::array<BasalLine, 6> basal_female{{{0.0, 58.317, -31.1},
                                                 {3.0, 20.315, 485.9},
                                                 {10.0, 13.384, 692.6},
                                                 {18.0, 14.818, 486.6},
                                                 {30.0, 8.126, 845.6},
                                                 {60.0, 9.082, 658.5}}};

}  // namespace

double basal_kj_per_day(double mass_kg, double age_years, Sex sex) {
  const auto& lines = sex == Sex::male ? basal_male : basal_female;
  BasalLine line = lines.front();
  for (const BasalLine& candidate : lines) {
    if (age_years >= candidate.from_years) {
      line = candidate;
    }
  }
  return std::max(0.0, line.per_kg * mass_kg + line.fixed) * kj_per_kcal;
}

double physical_activity_level(const std::array<double, work_class_count>& hours_in_class) {
  const double named_h = std::accumulate(hours_in_class.begin(), hours_in_class.end(), 0.0);
  const double shrink = named_h > day_h ? day_h / named_h : 1.0;
  double sum = 0.0;
  for (std::size_t i = 0; i < work_class_count; ++i) {
    sum += hours_in_class[i] * shrink * activity_ratio(static_cast<WorkClass>(i));
  }
  const double left_h = std::max(0.0, day_h - named_h);
  const double asleep_h = std::min(left_h, sleep_h);
  sum += asleep_h + (left_h - asleep_h) * activity_ratio(WorkClass::resting);
  return sum / day_h;
}

double daily_energy_kj(double mass_kg, double age_years, Sex sex,
                       const std::array<double, work_class_count>& hours_in_class) {
  return basal_kj_per_day(mass_kg, age_years, sex) * physical_activity_level(hours_in_class);
}

}  // namespace drystage::models
