#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/fields.h"
#include "plan/item.h"
#include "plan/plan.h"

namespace drystage::plan {

/// One reader per section of the plan file. Each takes the section's node and fills its part of
/// the plan; what it refers to must have been read before, in the order in which they stand here.
/// An item that has errors is kept, so that references to it still resolve.
void read_version(Log& log, const Node& node);
void read_trip(Log& log, const Node& node, Plan& plan);
void read_activities(Log& log, const Node* node, Plan& plan);
void read_vehicles(Log& log, const Node& node, Plan& plan);
void read_people(Log& log, const Node& node, Plan& plan);
void read_water(Log& log, const Node& node, Plan& plan);
void read_batteries(Log& log, const Node& power, Plan& plan);
void read_cold(Log& log, const Node& node, Plan& plan);
void read_consumables(Log& log, const Node& node, Plan& plan);
void read_power(Log& log, const Node& node, Plan& plan);
/// Once the generators are known, which may burn one.
void refuse_unused_consumables(Log& log, const Plan& plan);
void read_food(Log& log, const Node& node, Plan& plan);
void read_climate(Log& log, const Node& node, Plan& plan);
void read_weather(Log& log, const Node& node, Plan& plan);
void read_places(Log& log, const Node& node, Plan& plan);
void read_itinerary(Log& log, const Node& node, Plan& plan);
/// Who and what comes along from when until when, once the itinerary is known. `people` and
/// `vehicles` are the nodes that those readers have read.
void read_company(Log& log, const Node& people, const Node& vehicles, Plan& plan);
/// What weighbridges said of vehicles, once all that may have been in them is known.
void read_weighed(Log& log, const Node& vehicles, Plan& plan);
void read_roads(Log& log, const Node& node, Plan& plan);
void read_margins(Log& log, const Node& node, Plan& plan);
void read_mishaps(Log& log, const Node& node, Plan& plan);
void read_uncertainty(Log& log, const Node& node, Plan& plan);
void read_size(Log& log, const Node& node, Plan& plan);
void read_changes(Log& log, const Node& node, Plan& plan);
void read_readings(Log& log, const Node& node, Plan& plan);

/// Warnings that need the whole plan, which must be free of errors: a vehicle over its limit, a
/// cabinet packed too full.
void review(Log& log, const Plan& plan);

// Parts that several sections share.

/// Reads an amount of a consumable, in its unit; `key` has all kinds of amounts of consumables.
std::optional<double> read_consumable_amount(Log& log, const Node& node, Key key,
                                             std::string_view name, const Consumable& of);

/// The words of the plan file for surfaces ("soft sand"; "soft_sand" will do too).
std::optional<Surface> surface_named(std::string_view text);
std::optional<Surface> read_surface(Log& log, const Node& node, std::string_view name);
std::optional<Surface> read_surface_key(Log& log, const Entry& entry);

/// A draw in W, or in A at the given voltage; in W.
std::optional<double> read_draw(Log& log, const Node& node, Key key, double voltage_v);

/// Reads the key as the vehicle that something is carried in; the first by default.
int vehicle_of(Fields& fields, Key key, const Plan& plan);
/// The vehicle of an index; null where there is none.
const Vehicle* vehicle_at(const Plan& plan, int index);
/// The same, and that vehicle; null where its name was not understood.
struct Carrier {
  int index = 0;
  const Vehicle* vehicle = nullptr;
};
Carrier read_carrier(Fields& fields, Key key, const Plan& plan);

/// Reads `holds` and `filled` of a tank or can, with the checks that they share.
void read_holds(Fields& fields, double& holds_l, double& filled_l);

/// Reads where a thing of a vehicle lies. It must lie within the vehicle.
Spot read_spot(Fields& fields, const Vehicle* vehicle);
/// Logs that a thing has no place of its own, where it says one.
void refuse_spot(Fields& fields, std::string_view reason);

/// Reads `shape` or `dip` of a tank or can that holds so much (0: what it holds is not known).
Gauge read_gauge(Fields& fields, double holds_l);

/// Reads a number of days that must be whole: "5 days".
std::optional<int> read_whole_days(Log& log, const Node& node, Key key);

/// The vehicle that carries a battery, and what is charged from it.
int vehicle_of_bank(const Plan& plan, int bank);

/// The nodes of one name, or of a list of names; logs what is neither.
std::vector<const Node*> one_or_more(Log& log, const Node* node, std::string_view key);

/// The one among some things of the plan that a name stands for, short or full. `things` says what
/// they are, for messages: "container or tank".
std::optional<Item> read_item(Log& log, const Node& node, std::string_view key,
                              std::string_view things, const std::vector<Item>& items);

/// The key of a map that the user chooses, as if it were a value.
Node key_node(const Entry& entry);

/// The key of a map that the user chooses, as a name: blanks tidied, checked like any name.
std::string key_name(Log& log, const Entry& entry, std::string_view thing);

}  // namespace drystage::plan
