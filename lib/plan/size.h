#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/item.h"
#include "plan/mark.h"
#include "plan/power.h"

namespace drystage::plan {

/// What `drystage size` may choose from. Where a mass or an outside volume is not given, the usual
/// one for the size is taken (engine/usual_sizes.h).

/// A can or container of which so many are taken, or one of the sizes of a tank.
struct VesselOffer {
  double holds = 0;  ///< L, or in the unit of the consumable
  std::optional<double> empty_kg{};
  std::optional<double> cost{};     ///< of one, in whatever money the plan reckons in
  std::optional<double> space_l{};  ///< outside volume of one
  std::optional<int> most{};        ///< of a can or container: so many of them at the most
  std::optional<int> vehicle{};     ///< of a water container: carried by
  Mark mark{};
};

/// Cans that a vehicle may carry its fuel in.
struct FuelCanOffers {
  int vehicle = 0;
  std::vector<VesselOffer> cans;
};

/// Stores that a consumable may be carried in.
struct ConsumableOffers {
  int consumable = 0;
  std::vector<VesselOffer> stores;
};

/// Sizes in which one water container or fuel tank may be had.
struct TankOffers {
  Item tank;  ///< a container or a tank
  std::vector<VesselOffer> sizes;
};

struct BatteryOffer {
  double capacity_ah = 0;
  std::optional<BatteryKind> kind{};  ///< none: as the plan's
  std::optional<double> mass_kg{};
  std::optional<double> cost{};
  std::optional<double> space_l{};
  Mark mark{};
};
struct BatteryOffers {
  int bank = 0;
  std::vector<BatteryOffer> sizes;
};

struct PanelOffer {
  double power_w = 0;  ///< 0: no panel
  std::optional<double> mass_kg{};
  std::optional<double> cost{};
  Mark mark{};
};
struct PanelOffers {
  int charger = 0;  ///< index into Power::chargers
  std::vector<PanelOffer> sizes;
};

struct CabinetOffer {
  double volume_l = 0;
  std::optional<double> rated_draw_w{};  ///< at the plan's rating point; none: by the size
  std::optional<double> mass_kg{};
  std::optional<double> cost{};
  std::optional<double> space_l{};
  Mark mark{};
};
struct CabinetOffers {
  int cabinet = 0;
  std::vector<CabinetOffer> sizes;
};

/// An item of dry food, taken by the day.
struct FoodOffer {
  std::string item;      ///< of the plan, or a new one
  double meals_day = 0;  ///< meals in a day's worth of it
  std::optional<double> kg_day{};
  std::optional<double> cost{};  ///< of a day's worth
  std::optional<double> space_l{};
  std::optional<int> most_days{};
  Mark mark{};
};

/// Spare wheels of a vehicle.
struct SpareWheelOffers {
  int vehicle = 0;
  int most = 0;
};

/// What the sized plan may not exceed. A vehicle's own limit holds besides.
struct SizeLimits {
  std::vector<std::optional<double>> mass_kg;  ///< by vehicle: loaded
  std::optional<double> space_l{};             ///< outside volume of all that is chosen
  std::optional<double> budget{};              ///< cost of all that is chosen
};

/// `size:` of a plan. What is not listed stays as it is; where nothing is listed, cans, containers,
/// dry food, stores of consumables and spare wheels may change (answers/decision.h), and nothing
/// that is fitted.
struct Size {
  std::vector<VesselOffer> drinking;
  std::vector<VesselOffer> utility;
  std::vector<FuelCanOffers> fuel_cans;
  std::vector<TankOffers> tanks;
  std::vector<BatteryOffers> batteries;
  std::vector<PanelOffers> panels;
  std::vector<CabinetOffers> cabinets;
  std::vector<FoodOffer> food;
  std::vector<ConsumableOffers> consumables;
  std::vector<SpareWheelOffers> spare_wheels;
  SizeLimits limits;
  std::vector<Item> keep;  ///< stays as it is, whatever is on offer

  /// Whether anything is listed that may change.
  [[nodiscard]] bool lists_offers() const {
    return !(drinking.empty() && utility.empty() && fuel_cans.empty() && tanks.empty() &&
             batteries.empty() && panels.empty() && cabinets.empty() && food.empty() &&
             consumables.empty() && spare_wheels.empty());
  }
};

/// Whether anything that is on offer has a cost, and whether all of it has.
bool has_costs(const Size& size);
bool all_have_costs(const Size& size);

}  // namespace drystage::plan
