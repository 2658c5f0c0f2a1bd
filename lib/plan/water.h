#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/gauge.h"
#include "plan/loading.h"
#include "plan/mark.h"

namespace drystage::plan {

enum class WaterUse { drinking, utility };
enum class WaterQuality { potable, brackish };

/// A tank or can for water. Drinking containers never serve utility; brackish water makes a
/// container utility-only until it is emptied and cleaned.
struct Container {
  std::string name;
  double holds_l = 0;
  double filled_l = 0;
  WaterUse use = WaterUse::drinking;
  WaterQuality quality = WaterQuality::potable;
  bool opened_last = false;
  double empty_kg = 0;
  int vehicle = 0;
  Spot spot{};
  Gauge gauge{};
  Mark mark{};
};

/// Utility water for one purpose: `volume_l` every `every_days` days, per person or for the party.
/// What is potable is swallowed (cooking); the rest may be brackish.
struct UtilityUse {
  std::string name;
  double volume_l = 0;
  double every_days = 0;
  bool per_person = true;
  bool potable = true;
  Mark mark{};
};

struct Water {
  std::vector<Container> containers;  ///< in order of use, before `opened_last` is applied
  std::vector<UtilityUse> utility_uses;
};

}  // namespace drystage::plan
