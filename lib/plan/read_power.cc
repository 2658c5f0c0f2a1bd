#include <fmt/core.h>

#include <algorithm>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

constexpr std::array<Word<double>, 16> compass{{{"north", 0},
                                                {"north-east", 45},
                                                {"east", 90},
                                                {"south-east", 135},
                                                {"south", 180},
                                                {"south-west", 225},
                                                {"west", 270},
                                                {"north-west", 315},
                                                {"N", 0},
                                                {"NE", 45},
                                                {"E", 90},
                                                {"SE", 135},
                                                {"S", 180},
                                                {"SW", 225},
                                                {"W", 270},
                                                {"NW", 315}}};

double voltage(const Plan& plan, int bank) {
  const auto index = static_cast<std::size_t>(bank);
  return index < plan.power.banks.size() ? plan.power.banks[index].voltage_v : 12;
}

int bank_of(Fields& fields, const Plan& plan) {
  if (plan.power.banks.empty()) {
    fields.log().error(fields.spot(), fmt::format("{} has no battery", fields.what()),
                       "a battery under \"power: batteries\"");
    fields.get("on");
    return 0;
  }
  return fields.reference_or("on", 0, "battery", names_of(plan.power.banks), "power: batteries");
}

double read_facing(Log& log, const Node& node) {
  for (const Word<double>& word : compass) {
    if (node.kind == Node::Kind::text && node.text == word.text) return word.value;
  }
  const bool is_number = node.kind == Node::Kind::text && !node.text.empty() &&
                         node.text.find_first_of("0123456789") != std::string::npos;
  if (node.kind == Node::Kind::text && !is_number) {
    return read_word(log, node, "facing", compass).value_or(180);
  }
  const double degrees = read_quantity(log, node, "charging.facing", "facing").value_or(180);
  return degrees < 0 ? degrees + 360 : degrees;
}

void read_solar(Fields& fields, Charger& made) {
  Log& log = fields.log();
  made.kind = ChargerKind::solar;
  made.power_w = fields.need_quantity("charging.solar").value_or(0);
  made.tilt_deg = fields.quantity_or("charging.tilt", 0);
  if (const Node* facing = fields.get("facing")) {
    made.facing_deg = read_facing(log, *facing);
  } else if (made.tilt_deg > 0) {
    log.error(fields.get("tilt")->spot,
              fmt::format("{} is tilted but does not say which way it faces", fields.what()),
              "facing: north, or facing: 180°");
  }
  made.noct_c = fields.quantity("charging.noct");
  made.loss = fields.quantity_or("charging.losses", made.loss);
  made.mass_kg = fields.quantity_or("charging.mass", 0);
}

void read_mains(Fields& fields, Charger& made) {
  made.kind = ChargerKind::mains;
  const auto output =
      read_quantity_of(fields.log(), *fields.get("mains"), "charging.mains", "mains");
  if (!output) return;
  (output->kind == units::Kind::current ? made.current_a : made.power_w) = output->value;
}

void read_generator(Fields& fields, Charger& made, const Plan& plan) {
  Log& log = fields.log();
  made.kind = ChargerKind::generator;
  made.power_w = fields.need_quantity("charging.generator").value_or(0);
  const auto fuel = fields.need_word("fuel", fuel_words);
  made.fuel = fuel.value_or(FuelKind::petrol);
  made.uses_l_h = fields.need_quantity("charging.uses").value_or(0);
  made.hours_day = fields.need_quantity("charging.runs").value_or(made.hours_day);
  if (const Node* starts = fields.get("starts")) {
    made.starts_h = read_clock(log, *starts, "starts").value_or(made.starts_h);
  }
  // Its fuel comes from the tanks of a vehicle that burns the same.
  const auto same_fuel = [&](const Vehicle& vehicle) { return vehicle.fuel == made.fuel; };
  const Node* from = fields.get("from");
  if (from != nullptr) {
    made.vehicle = vehicle_of(fields, plan, "from");
    const auto index = static_cast<std::size_t>(made.vehicle);
    if (fuel && index < plan.vehicles.size() && !same_fuel(plan.vehicles[index])) {
      log.error(from->spot,
                fmt::format("{} burns another fuel than vehicle {}", fields.what(),
                            units::in_quotes(plan.vehicles[index].name)),
                "a vehicle whose tanks hold the generator's fuel");
    }
    return;
  }
  const auto found = std::find_if(plan.vehicles.begin(), plan.vehicles.end(), same_fuel);
  if (found != plan.vehicles.end()) {
    made.vehicle = static_cast<int>(found - plan.vehicles.begin());
  } else if (fuel) {
    log.error(fields.get("fuel")->spot,
              fmt::format("no vehicle carries the fuel of {}", fields.what()),
              "a vehicle whose tanks hold the generator's fuel");
  }
}

void read_dc_dc(Fields& fields, Charger& made, const Plan& plan) {
  static constexpr std::array<Word<bool>, 1> words{{{"driving", true}}};
  made.kind = ChargerKind::dc_dc;
  made.current_a = fields.need_quantity("charging.current").value_or(0);
  fields.word_or("while", true, words);
  made.vehicle = vehicle_of(fields, plan, "from");
  if (plan.vehicles.empty()) {
    fields.log().error(fields.spot(),
                       fmt::format("{} needs a vehicle whose engine drives it", fields.what()),
                       "a vehicle under \"vehicles\"");
  }
}

Charger read_charger(Log& log, const Node& node, const Plan& plan) {
  // The first of several that are given is read: a panel, since others may refer to it.
  static constexpr std::array<std::string_view, 4> sorts{"solar", "current", "mains", "generator"};
  Charger made;
  made.mark = node.spot.mark;
  Fields fields(log, node, "a charger");
  made.name = fields.name();
  refuse_same_name(log, node.spot, "chargers", made.name, plan.power.chargers);
  made.bank = bank_of(fields, plan);
  std::string_view sort;
  int given = 0;
  for (const std::string_view key : sorts) {
    if (fields.get(key) == nullptr) continue;
    if (sort.empty()) sort = key;
    ++given;
  }
  if (given != 1 && fields.usable()) {
    log.error(node.spot, fmt::format("{} must say what it is", fields.what()),
              R"(one of "current" (from an engine), "solar", "mains" and "generator")");
  }
  if (sort == "current") read_dc_dc(fields, made, plan);
  if (sort == "solar") read_solar(fields, made);
  if (sort == "mains") read_mains(fields, made);
  if (sort == "generator") read_generator(fields, made, plan);
  if (given == 1 && sort != "solar") {
    fields.refuse("mass",
                  "only a solar panel has one; that of other chargers is part of the "
                  "vehicle's: under \"mass\", as \"gear\" or in \"empty\"");
  }
  // Without a sort every key of a charger may be right: only say what is missing.
  if (given == 1) fields.finish();
  return made;
}

void read_hours(Fields& fields, Load& made) {
  made.hours_day = fields.quantity("loads.hours");
  made.after_dark_h = fields.quantity("loads.after_dark");
  if (fields.get("hours") != nullptr && fields.get("after_dark") != nullptr) {
    fields.log().error(fields.get("after_dark")->spot,
                       fmt::format(R"({} has both "hours" and "after_dark")", fields.what()),
                       "one of the two");
  }
}

void read_shedding(Fields& fields, Load& made) {
  made.never_shed = fields.yes_no_or("never_shed", false);
  const Node* shed = fields.get("shed");
  if (shed == nullptr) return;
  made.shed_order = fields.whole_number("loads.shed").value_or(0);
  if (made.never_shed) {
    fields.log().error(
        shed->spot, fmt::format("{} is never shed, so it has no place in the order", fields.what()),
        R"(one of "never_shed" and "shed")");
  }
}

Load read_load(Log& log, const Node& node, const Plan& plan) {
  Load made;
  made.mark = node.spot.mark;
  Fields fields(log, node, "a load");
  made.name = fields.name();
  refuse_same_name(log, node.spot, "loads", made.name, plan.power.loads);
  made.bank = bank_of(fields, plan);
  const Node* draw = fields.get("draw");
  const Node* energy = fields.get("energy");
  if (draw != nullptr) {
    made.draw_w = read_draw(log, *draw, "loads.draw", voltage(plan, made.bank)).value_or(0);
    read_hours(fields, made);
  }
  if (energy != nullptr) {
    if (const auto read = fields.quantity("loads.energy")) made.energy_wh_day = *read;
    if (draw == nullptr) {
      fields.refuse("hours", "an energy per day is spread over the whole day");
      fields.refuse("after_dark", "an energy per day is spread over the whole day");
    }
  }
  if ((draw == nullptr) == (energy == nullptr) && fields.usable()) {
    log.error(node.spot, fmt::format(R"({} needs either "draw" or "energy")", fields.what()),
              "draw: 14 W, or energy: 80 Wh/day");
    fields.get("hours");
    fields.get("after_dark");
  }
  if (made.hours_day || energy != nullptr) {
    fields.refuse("while", "hours and energy per day are spread over the whole day");
  } else {
    made.when = fields.word_or("while", While::always, while_words);
  }
  read_shedding(fields, made);
  fields.finish();
  return made;
}

}  // namespace

void read_power(Log& log, const Node& node, Plan& plan) {
  Fields fields(log, node, "power");
  fields.get("batteries");  // read before, by read_batteries
  if (const Node* charging = fields.get("charging")) {
    for (const Node& item : list_items(log, *charging, "charging")) {
      plan.power.chargers.push_back(read_charger(log, item, plan));
    }
  }
  if (const Node* loads = fields.get("loads")) {
    for (const Node& item : list_items(log, *loads, "loads")) {
      plan.power.loads.push_back(read_load(log, item, plan));
    }
  }
  fields.finish();
}

}  // namespace drystage::plan
