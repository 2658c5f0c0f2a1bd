#include "start/countries.h"

#include <cmath>

#include "models/radiation.h"

namespace drystage::start {
namespace {

constexpr std::array<int, 12> middle_day{15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349};
constexpr double mj_per_kwh = 3.6;

double outside_kwh_m2(double latitude_deg, std::size_t month) {
  return models::extraterrestrial_mj_m2(latitude_deg, middle_day.at(month)) / mj_per_kwh;
}

}  // namespace

std::vector<std::string> usual_countries(double latitude_deg) {
  const double from_equator_deg = std::abs(latitude_deg);
  std::vector<std::string> names;
  for (const Country& country : countries) {
    if (from_equator_deg >= country.least_deg && from_equator_deg <= country.most_deg) {
      names.emplace_back(country.name);
    }
  }
  return names;
}

UsualMonth usual_month(const Country& country, double latitude_deg, int month) {
  const auto here = static_cast<std::size_t>(month - 1);
  const std::size_t there = latitude_deg < 0 ? (here + 6) % 12 : here;
  UsualMonth made = country.months.at(there);
  const double clearness = made.sun_kwh_m2 / outside_kwh_m2(country.station_deg, there);
  made.sun_kwh_m2 = clearness * outside_kwh_m2(latitude_deg, here);
  return made;
}

}  // namespace drystage::start
