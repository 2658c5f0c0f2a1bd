#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace drystage::start {

/// Usual weather of a month.
struct UsualMonth {
  double max_c;
  double min_c;
  double dew_point_c;
  double sun_kwh_m2;  ///< a day, on the level
};

/// A kind of country, and the usual weather of one station in it.
struct Country {
  std::string_view name;
  double least_deg;    ///< the latitudes at which it is offered, of either hemisphere
  double most_deg;     ///< ...
  double station_deg;  ///< where the figures are from, north
  double elevation_m;
  std::array<UsualMonth, 12> months;  ///< from January, in the north
};

// Where the figures come from:
// - highest and lowest temperature: climate normals of the national weather services, to 1 °C.
//   Phoenix, Fairbanks, Fresno and Albuquerque: as quoted in public tables that do not name their
//   30 years. Great Falls and Salem: US 1991-2020, memory. Niamey: WMO 1961-1990, memory.
// - dew point and sun: monthly means of the typical year TMY3 of that station (US NREL, National
//   Solar Radiation Data Base 1991-2005, public). Niamey: from the relative humidity and the hours
//   of sunshine of the normals (memory), by FAO-56 equations 19 and 35. January of Great Falls and
//   Fairbanks: from the relative humidity of TMY3, whose January was about 6 K colder and 4 K
//   warmer.
// The latitudes (ours) are those about the station where such country has such weather.
// Left out, for want of sound figures: high cold deserts, rain forest, beyond 70°.
inline constexpr std::array<Country, 7> countries{{
    // Phoenix, Arizona; TMY3 722780.
    {"hot desert",
     22,
     37,
     33.45,
     300,
     {{{20, 8, -2, 3.29},
       {22, 9, 4, 4.16},
       {26, 13, 3, 5.34},
       {30, 16, -2, 7.09},
       {35, 21, 2, 7.84},
       {40, 26, 6, 8.32},
       {42, 29, 14, 7.62},
       {41, 29, 14, 7.13},
       {38, 26, 9, 6.34},
       {32, 19, 6, 4.82},
       {25, 12, 2, 3.77},
       {19, 7, 1, 3.07}}}},
    // Niamey, Niger.
    {"dry tropics",
     0,
     22,
     13.48,
     200,
     {{{33, 16, 3, 5.45},
       {36, 19, 2, 6.07},
       {39, 23, 5, 6.11},
       {41, 27, 13, 6.24},
       {40, 28, 20, 6.15},
       {37, 26, 22, 6.08},
       {34, 24, 23, 5.82},
       {33, 23, 24, 5.40},
       {34, 24, 24, 5.76},
       {38, 24, 21, 6.08},
       {36, 20, 12, 5.72},
       {33, 17, 6, 5.25}}}},
    // Fresno, California; TMY3 723890.
    {"mediterranean",
     28,
     45,
     36.78,
     100,
     {{{12, 4, 4, 1.86},
       {16, 5, 6, 3.19},
       {19, 7, 7, 4.71},
       {23, 9, 7, 6.54},
       {28, 13, 9, 7.35},
       {33, 16, 8, 8.18},
       {36, 19, 12, 7.84},
       {35, 18, 11, 7.34},
       {32, 16, 12, 5.73},
       {26, 11, 9, 4.36},
       {17, 6, 7, 2.73},
       {12, 3, 4, 1.92}}}},
    // Albuquerque, New Mexico; TMY3 723650.
    {"high steppe",
     25,
     42,
     35.05,
     1600,
     {{{10, -2, -7, 3.13},
       {12, 0, -6, 4.14},
       {16, 3, -6, 5.09},
       {21, 7, -6, 6.80},
       {26, 12, -1, 7.17},
       {32, 17, 4, 7.69},
       {34, 19, 11, 7.39},
       {33, 19, 10, 6.98},
       {29, 14, 8, 5.80},
       {23, 8, 0, 4.54},
       {15, 2, -5, 3.41},
       {10, -2, -9, 2.93}}}},
    // Great Falls, Montana; TMY3 727750.
    {"cold steppe",
     38,
     55,
     47.47,
     1100,
     {{{2, -9, -10, 1.53},
       {3, -9, -10, 2.47},
       {7, -6, -8, 3.66},
       {12, -1, -3, 4.49},
       {18, 4, 0, 5.59},
       {23, 8, 5, 6.67},
       {29, 11, 7, 6.89},
       {28, 10, 5, 5.82},
       {22, 6, 4, 4.19},
       {14, 1, -1, 2.78},
       {7, -5, -7, 1.76},
       {2, -9, -11, 1.26}}}},
    // Salem, Oregon; TMY3 726940.
    {"temperate",
     38,
     58,
     44.90,
     100,
     {{{9, 2, 3, 1.33},
       {11, 1, 2, 1.99},
       {14, 3, 5, 3.11},
       {17, 4, 6, 4.33},
       {20, 7, 8, 5.45},
       {24, 9, 10, 6.26},
       {28, 12, 11, 6.79},
       {28, 11, 11, 5.57},
       {25, 9, 10, 4.56},
       {18, 6, 7, 2.56},
       {12, 3, 6, 1.36},
       {8, 2, 2, 1.01}}}},
    // Fairbanks, Alaska; TMY3 702610.
    {"boreal",
     52,
     70,
     64.82,
     100,
     {{{-17, -27, -23, 0.154},
       {-12, -25, -19, 0.748},
       {-4, -19, -17, 2.264},
       {7, -6, -9, 4.268},
       {16, 3, -2, 5.327},
       {22, 9, 6, 5.640},
       {23, 11, 10, 5.119},
       {19, 8, 8, 3.932},
       {13, 2, 2, 2.209},
       {0, -8, -7, 1.011},
       {-12, -21, -20, 0.256},
       {-15, -25, -22, 0.046}}}},
}};

/// Their names, in order.
inline constexpr std::array<std::string_view, countries.size()> country_names = [] {
  std::array<std::string_view, countries.size()> made;
  for (std::size_t i = 0; i < made.size(); ++i) made[i] = countries[i].name;
  return made;
}();

/// Those that are offered at a latitude, of either sign, in order.
std::vector<std::string> usual_countries(double latitude_deg);

/// The usual weather at a latitude in a month, 1..12. South of the equator the months are those six
/// months later. The sun has the station's clearness, the month's global over extraterrestrial
/// radiation (models/radiation.h), at this latitude.
UsualMonth usual_month(const Country& country, double latitude_deg, int month);

}  // namespace drystage::start
