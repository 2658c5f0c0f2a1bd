#pragma once

#include <algorithm>
#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "plan/keys/answers.h"
#include "plan/keys/changes.h"
#include "plan/keys/declaration.h"
#include "plan/keys/power.h"
#include "plan/keys/readings.h"
#include "plan/keys/stores.h"
#include "plan/keys/trip.h"
#include "plan/keys/uncertainty.h"
#include "plan/keys/way.h"

namespace drystage::plan {

/// Every key of a plan, and what it says. The reader, its errors and defaults, the tables of
/// docs/format.md and the schema for editors come from here. The map of the whole plan has the
/// empty path; items of a list and things under names have the keys under the path of the list.
inline constexpr std::array<std::span<const Declaration>, 8> declarations{
    keys::trip,    keys::stores,      keys::power,    keys::way,
    keys::answers, keys::uncertainty, keys::readings, keys::changes};

/// A map that has the keys of another one besides its own.
struct Included {
  std::string_view map;
  std::string_view other;
};
inline constexpr auto included = std::to_array<Included>({
    {"water.containers", "vessel"},
    {"vehicles.tanks", "vessel"},
    {"vessel", "spot"},
    {"vehicles.gear", "spot"},
    {"vehicles.tyres", "spot"},
    {"consumables.stores", "spot"},
    {"cold", "spot"},
    {"food", "spot"},
    {"power.batteries", "spot"},
    {"power.charging", "spot"},
    {"cold.freezer", "cold.frozen_below"},
    {"itinerary.drive", "road"},
    {"itinerary.side_trip", "road"},
    {"itinerary.drive.back", "road"},
    {"roads", "road"},
    {"supply.fuel", "supply"},
    {"supply.food", "supply"},
    {"supply.ice", "supply"},
    {"supply.consumable", "supply"},
    {"supply.water", "supply.fuel"},
    {"size.tanks", "offer"},
    {"size.tanks", "bulk"},
    {"size.fuel_cans", "size.tanks"},
    {"size.containers.*", "size.fuel_cans"},
    {"size.consumables", "offer"},
    {"size.consumables", "bulk"},
    {"size.batteries", "weight"},
    {"size.batteries", "offer"},
    {"size.batteries", "bulk"},
    {"size.panels", "weight"},
    {"size.panels", "offer"},
    {"size.cabinets", "weight"},
    {"size.cabinets", "offer"},
    {"size.cabinets", "bulk"},
    {"size.food", "weight"},
    {"size.food", "offer"},
    {"size.food", "bulk"},
});

/// Which keys of a map go together. For the schema: the reader says it in its own words.
enum class Together {
  exactly_one,   ///< of the keys is there
  at_least_one,  ///< of the keys is there
  not_both,      ///< the first is not there with any of the others
  needs,         ///< where the first is, all the others are
  only_with,     ///< the others are there only where the first is
};
struct Rule {
  std::string_view map;
  Together together;
  std::string_view keys;  ///< with blanks between
};
inline constexpr auto rules = std::to_array<Rule>({
    {"people.observed", Together::only_with, "drinking at"},
    {"vehicles.trailer", Together::needs, "gear drawbar"},
    {"climate", Together::at_least_one, "humidity dew_point"},
    {"weather", Together::exactly_one, "on from"},
    {"weather", Together::needs, "from to"},
    {"weather", Together::needs, "to from"},
    {"weather", Together::at_least_one, "max min humidity dew_point wind sun"},
    {"vessel", Together::not_both, "shape dip"},
    {"shape", Together::exactly_one, "box lying_cylinder standing_cylinder"},
    {"cold", Together::exactly_one, "ice set_point"},
    {"cold", Together::exactly_one, "ice rated"},
    {"cold", Together::needs, "ice heat_leak"},
    {"cold", Together::not_both, "ice running frozen_below freezer on"},
    {"cold", Together::not_both, "frozen_below freezer"},
    {"food", Together::at_least_one, "meals energy"},
    {"food", Together::needs, "energy mass"},
    {"power.charging", Together::exactly_one, "current solar mains generator"},
    {"power.charging", Together::only_with,
     "solar tilt facing noct losses mass bay at height right"},
    {"power.charging", Together::only_with, "generator fuel uses runs starts quiet burns"},
    {"power.charging", Together::needs, "generator fuel uses runs"},
    {"power.charging", Together::not_both, "from solar mains burns"},
    {"power.loads", Together::exactly_one, "draw energy"},
    {"power.loads", Together::not_both, "energy hours after_dark while"},
    {"power.loads", Together::not_both, "hours after_dark while"},
    {"itinerary", Together::exactly_one, "at drive stay side_trip resupply"},
    {"consumables.use", Together::at_least_one,
     "per_person_day per_meal per_day per_100km per_engine_hour doses in_cold in_heat"},
    {"consumables", Together::not_both, "fills keeps"},
    {"consumables.stores", Together::not_both, "in cabinet"},
    {"itinerary.resupply", Together::at_least_one,
     "drinking_water utility_water diesel petrol food ice consumables"},
    {"mishaps.own", Together::at_least_one, "loses stops without stuck hotter people"},
    {"mishaps.own", Together::needs, "hotter for"},
    {"mishaps.own", Together::needs, "for hotter"},
    {"changes", Together::exactly_one, "wait stay no_supply shut joins leaves lost"},
    {"changes", Together::needs, "stay nights"},
    {"changes", Together::needs, "nights stay"},
    {"changes", Together::needs, "of no_supply"},
    {"readings", Together::exactly_one, "evening day"},
    {"readings", Together::needs, "day hour"},
    {"readings", Together::needs, "hour day"},
    {"readings", Together::not_both, "at towards after"},
    {"readings", Together::needs, "towards after"},
    {"readings", Together::needs, "after towards"},
    {"readings", Together::at_least_one,
     "at towards drinking utility fuel containers tanks batteries cabinets meals spare_wheels "
     "repairs consumables"},
});

/// A key that is declared: any other does not compile.
class Key {
 public:
  consteval Key(const char* path) {  // NOLINT(google-explicit-constructor): written as a text
    // Done while compiling, a thousand times, by a slow interpreter: so the length and the last
    // letter rule out most.
    const std::string_view wanted(path);
    const std::size_t size = wanted.size();
    const char last = wanted.empty() ? '\0' : wanted.back();
    for (const auto& some : declarations) {
      const Declaration* const end = some.data() + some.size();
      for (const Declaration* one = some.data(); one != end; ++one) {
        if (one->path.size() != size) continue;
        if (size > 0 && one->path.back() != last) continue;
        if (one->path != wanted) continue;
        declaration_ = one;
        return;
      }
    }
    if (declaration_ == nullptr) throw "no such key";  // NOLINT(hicpp-exception-baseclass)
  }
  /// For whoever goes through all of them.
  explicit constexpr Key(const Declaration& declaration) : declaration_(&declaration) {}

  [[nodiscard]] constexpr const Declaration& operator*() const { return *declaration_; }
  [[nodiscard]] constexpr const Declaration* operator->() const { return declaration_; }
  [[nodiscard]] constexpr std::string_view name() const { return declaration_->name(); }
  [[nodiscard]] constexpr std::span<const Range> ranges() const {
    return declaration_->value.ranges();
  }

 private:
  const Declaration* declaration_ = nullptr;
};

/// How the value of a key could be written, for whoever has not written it.
std::string example_of(Key key);

/// The default of a key as it could be written; `when` is the word that another key says.
std::string_view default_of(Key key, std::string_view when = {});

/// The keys of a map with those of the maps that it includes, those first that are always required.
std::vector<Key> keys_of(std::string_view map);

/// Whether a rule of the map has this key, so that it may be required in some company only.
bool is_conditional(std::string_view map, std::string_view name);

/// The words of a text with blanks between.
std::vector<std::string_view> words_of(std::string_view text);

}  // namespace drystage::plan
