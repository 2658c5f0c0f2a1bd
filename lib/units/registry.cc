#include "units/registry.h"

#include <udunits2.h>

#include <array>
#include <cmath>
#include <map>
#include <memory>
#include <mutex>
#include <new>
#include <stdexcept>
#include <string>
#include <utility>

namespace drystage::units {
namespace {

struct Free {
  void operator()(ut_system* p) const { ut_free_system(p); }
  void operator()(ut_unit* p) const { ut_free(p); }
  void operator()(cv_converter* p) const { cv_free(p); }
};
using System = std::unique_ptr<ut_system, Free>;
using Unit = std::unique_ptr<ut_unit, Free>;
using Converter = std::unique_ptr<cv_converter, Free>;

// Volume, angle and meals are base quantities here, so that a volume per distance is not taken for
// an area, nor an angle or a number of meals for a share. Time is counted in hours.
constexpr std::array<const char*, 8> base_symbols{"kg", "m", "h", "A", "K", "L", "rad", "meal"};

struct Definition {
  const char* symbol;
  const char* meaning;
};

// Factors are the exact definitions in NIST SP 811 (2008), appendix B, unless a note says
// otherwise. A symbol may not end in a digit, which UDUNITS-2 takes for a power. Each line may use
// the ones above it.
constexpr auto definitions = std::to_array<Definition>({
    {"percent", "0.01"},
    {"deg", "0.017453292519943295 rad"},
    {"g", "0.001 kg"},
    {"mg", "1e-6 kg"},
    {"t", "1000 kg"},
    {"lb", "0.45359237 kg"},
    {"stone", "14 lb"},  // UK Weights and Measures Act 1985, schedule 1
    {"km", "1000 m"},
    {"cm", "0.01 m"},
    {"mm", "0.001 m"},
    {"in", "0.0254 m"},
    {"ft", "0.3048 m"},
    {"yd", "0.9144 m"},
    {"mi", "1609.344 m"},
    {"nmi", "1852 m"},
    {"mL", "0.001 L"},
    {"cL", "0.01 L"},
    {"dL", "0.1 L"},
    {"cubic_m", "1000 L"},
    {"cubic_ft", "28.316846592 L"},
    {"US_gal", "3.785411784 L"},
    {"US_qt", "0.946352946 L"},
    {"US_pt", "0.473176473 L"},
    {"imp_gal", "4.54609 L"},
    {"imp_qt", "1.1365225 L"},
    {"imp_pt", "0.56826125 L"},
    {"day", "24 h"},
    {"week", "168 h"},
    {"min", "h/60"},
    {"s", "h/3600"},
    {"kph", "km/h"},
    {"mph", "mi/h"},
    {"knot", "nmi/h"},
    {"mpg_US", "mi/US_gal"},
    {"mpg_imp", "mi/imp_gal"},
    {"degC", "K @ 273.15"},
    {"degR", "K/1.8"},
    {"degF", "degR @ 459.67"},
    {"J", "kg.m^2/s^2"},
    {"kJ", "1000 J"},
    {"MJ", "1e6 J"},
    {"kcal", "4184 J"},  // the thermochemical calorie
    {"W", "J/s"},
    {"kW", "1000 W"},
    {"mW", "0.001 W"},
    {"Wh", "W.h"},
    {"kWh", "1000 W.h"},
    {"mA", "0.001 A"},
    {"Ah", "A.h"},
    {"mAh", "0.001 A.h"},
    {"V", "W/A"},
    {"kV", "1000 V"},
    {"mV", "0.001 V"},
    {"Pa", "kg/m/s^2"},
    {"hPa", "100 Pa"},
    {"kPa", "1000 Pa"},
    {"bar", "1e5 Pa"},
    {"psi", "6894.757293168 Pa"},  // lb times 9.80665 m/s2 over in2
});

constexpr auto kinds = std::to_array<const char*>({
    "kg",    "m",      "km", "m",      "L",     "km/h", "m/s",      "h",     "L/km",        "L/h",
    "L/day", "kg/day", "Wh", "Wh/day", "h/day", "meal", "meal/day", "kJ/kg", "m^2",         "W",
    "Ah",    "V",      "A",  "W/K",    "degC",  "K",    "1",        "deg",   "kWh/m^2/day", "kPa",
});
static_assert(kinds.size() == kind_count);

/// What UDUNITS-2 has made, which may be nothing. Throws where that is for want of memory: else a
/// unit would be taken for a wrong one.
template <class Held>
Held made(Held held) {
  if (!held && ut_get_status() == UT_OS) throw std::bad_alloc();
  return held;
}

class Registry {
 public:
  // Built at first use: about a tenth of a millisecond, against three and a half to read the
  // database that UDUNITS-2 installs, and no file is needed at run time.
  static Registry& instance() {
    static Registry registry;
    return registry;
  }

  std::optional<Conversion> conversion(const Expression& unit, Kind kind) {
    if (!rate_agrees(unit, kind)) return std::nullopt;
    const bool thermometer = kind == Kind::temperature;
    if (thermometer && !unit.is_thermometer()) return std::nullopt;
    const std::scoped_lock lock(mutex_);
    // A plan has the same few units again and again.
    const std::pair key{kind, counted(unit, kind)};
    auto known = known_.find(key);
    if (known == known_.end()) known = known_.emplace(key, between(key.second, kind)).first;
    std::optional<Conversion> out = known->second;
    if (out && thermometer) {
      const Unit scale = parse(unit.udunits(true));
      const Converter direct =
          made(Converter(ut_get_converter(scale.get(), to_thermometer_.get())));
      out->offset = cv_convert_double(direct.get(), 0.0);
    }
    return out;
  }

 private:
  Registry() : system_(ut_new_system()) {
    ut_set_error_message_handler(ut_ignore);
    for (const char* symbol : base_symbols) {
      const Unit unit = made(Unit(ut_new_base_unit(system_.get())));
      define(symbol, unit.get());
    }
    for (const Definition& d : definitions) {
      const Unit unit = parse(d.meaning);
      define(d.symbol, unit.get());
    }
    for (std::size_t i = 0; i < kinds.size(); ++i) {
      const bool thermometer = static_cast<Kind>(i) == Kind::temperature;
      canonical_.at(i) = parse(thermometer ? "K" : kinds.at(i));
      if (!canonical_.at(i)) throw std::logic_error("a canonical unit is not defined");
    }
    to_thermometer_ = parse("degC");
  }

  /// Of a unit in the spelling of UDUNITS-2; of thermometers, between their degrees.
  [[nodiscard]] std::optional<Conversion> between(const std::string& unit, Kind kind) const {
    const Unit from = parse(unit);
    ut_unit* const to = canonical_.at(static_cast<std::size_t>(kind)).get();
    if (!from || to == nullptr) return std::nullopt;
    const bool same = quotient_is_one_dimension(from.get(), to);
    if (!same && !(kind == Kind::fuel_use && product_is_one_dimension(from.get(), to))) {
      return std::nullopt;
    }
    Conversion out = scaling(from.get(), to);
    out.inverse = !same;
    return out;
  }

  static void define(const char* symbol, const ut_unit* unit) {
    if (unit == nullptr || ut_map_symbol_to_unit(symbol, UT_ASCII, unit) != UT_SUCCESS) {
      if (ut_get_status() == UT_OS) throw std::bad_alloc();
      throw std::logic_error(std::string("the unit cannot be defined: ") + symbol);
    }
  }

  [[nodiscard]] Unit parse(const std::string& text) const {
    return made(Unit(ut_parse(system_.get(), text.c_str(), UT_ASCII)));
  }

  // In "3 /day" the meals go without saying.
  static std::string counted(const Expression& unit, Kind kind) {
    const bool bare = kind == Kind::meals_per_day && unit.terms.size() == 1 && unit.per_time();
    return bare ? "meal." + unit.udunits(false) : unit.udunits(false);
  }

  static bool rate_agrees(const Expression& unit, Kind kind) {
    switch (kind) {
      case Kind::energy_per_day:
      case Kind::time_per_day:
      case Kind::daily_radiation:
        return unit.per_time();
      case Kind::power:
      case Kind::fraction:
        return !unit.per_time();
      default:
        return true;
    }
  }

  static bool quotient_is_one_dimension(const ut_unit* a, const ut_unit* b) {
    const Unit quotient = made(Unit(ut_divide(a, b)));
    return quotient && ut_is_dimensionless(quotient.get()) != 0;
  }

  static bool product_is_one_dimension(const ut_unit* a, const ut_unit* b) {
    const Unit product = made(Unit(ut_multiply(a, b)));
    return product && ut_is_dimensionless(product.get()) != 0;
  }

  // UDUNITS-2 works through base units, so that a factor of exactly 100 may come back a last
  // digit out; a factor or divisor that is whole to within rounding is made whole again.
  static Conversion scaling(ut_unit* from, ut_unit* to) {
    constexpr double rounding = 1e-13;
    Conversion out;
    const Converter converter = made(Converter(ut_get_converter(from, to)));
    const double scale = cv_convert_double(converter.get(), 1.0);
    const double whole = std::round(scale);
    const double divisor = std::round(1.0 / scale);
    if (whole >= 1.0 && std::abs(scale - whole) <= rounding * whole) {
      out.scale = whole;
    } else if (divisor >= 1.0 && std::abs(1.0 / scale - divisor) <= rounding * divisor) {
      out.divisor = divisor;
    } else {
      out.scale = scale;
    }
    return out;
  }

  System system_;
  std::array<Unit, kind_count> canonical_;
  Unit to_thermometer_;
  std::map<std::pair<Kind, std::string>, std::optional<Conversion>> known_;
  std::mutex mutex_;  // UDUNITS-2 keeps its parser and its status in globals
};

}  // namespace

double Conversion::apply(double x) const {
  if (inverse) return scale / (divisor * x);
  return x * scale / divisor + offset;
}

Conversion Conversion::reversed() const {
  if (inverse) return *this;
  return {divisor, scale, -offset * divisor / scale, false};
}

std::optional<Conversion> conversion(const Expression& unit, Kind kind) {
  return Registry::instance().conversion(unit, kind);
}

std::optional<Kind> kind_of(const Expression& unit) {
  for (std::size_t i = 0; i < kind_count; ++i) {
    const auto kind = static_cast<Kind>(i);
    if (conversion(unit, kind)) return kind;
  }
  return std::nullopt;
}

}  // namespace drystage::units
