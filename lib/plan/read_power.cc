#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

double voltage(const Plan& plan, int bank) {
  const auto index = static_cast<std::size_t>(bank);
  return index < plan.power.banks.size() ? plan.power.banks[index].voltage_v
                                         : default_number("power.batteries.voltage").value();
}

int bank_of(Fields& fields, Key key, const Plan& plan) {
  if (plan.power.banks.empty()) {
    fields.log().error(fields.origin(), fmt::format("{} has no battery", fields.what()),
                       "a battery under \"power: batteries\"");
    fields.get(key);
    return 0;
  }
  return fields.reference(key, names_of(plan.power.banks));
}

double read_facing(Log& log, const Node& node, Key key, double usual) {
  for (const Word<double>& word : compass_words) {
    if (node.kind == Node::Kind::text && node.text == word.text) return word.value;
  }
  const bool is_number = node.kind == Node::Kind::text && !node.text.empty() &&
                         node.text.find_first_of("0123456789") != std::string::npos;
  if (node.kind == Node::Kind::text && !is_number) {
    return read_word(log, node, key.name(), compass_words).value_or(usual);
  }
  const double degrees = read_quantity(log, node, key, key.name()).value_or(usual);
  return degrees < 0 ? degrees + 360 : degrees;
}

// When a charger charges: by what it is, or as is said. An engine charges while driving, a lead
// while parked.
void read_when(Fields& fields, Charger& made) {
  const auto said = fields.word_if("power.charging.while", while_words);
  const bool is_engine = made.kind == ChargerKind::dc_dc;
  const bool is_solar = made.kind == ChargerKind::solar;
  made.when = said.value_or(is_engine ? While::driving : is_solar ? While::always : While::parked);
  const Node* node = fields.get("power.charging.while");
  if (!said) return;
  const bool moves = made.when == While::driving || made.when == While::always;
  if (is_engine && made.when != While::driving) {
    fields.log().error(node->origin, fmt::format("{} charges while its engine runs", fields.what()),
                       "driving, or no \"while\"");
  }
  if (made.kind == ChargerKind::mains && moves) {
    fields.log().error(node->origin,
                       fmt::format("{} charges where mains is to be had", fields.what()),
                       "parked or camp");
  }
}

// Hours of quiet. Those of its run that fall into them are not run.
void read_quiet(Fields& fields, Charger& made) {
  const Node* quiet = fields.get("power.charging.quiet");
  if (quiet == nullptr) return;
  Fields hours(fields.log(), *quiet, "the quiet hours of " + fields.what());
  made.quiet = {.from_h = hours.clock_h("power.charging.quiet.from"),
                .to_h = hours.clock_h("power.charging.quiet.to")};
  hours.finish();
  if (hours.usable() && made.quiet->from_h == made.quiet->to_h) {
    fields.log().error(quiet->origin, "quiet: the two times do not differ",
                       R"(quiet: {from: "22:00", to: "07:00"})");
  }
}

// A generator with cans of its own.
void read_burns(Fields& fields, Charger& made, const Plan& plan) {
  const Node* node = fields.get("power.charging.burns");
  if (node == nullptr) return;
  const auto burns = fields.reference_if("power.charging.burns", names_of(plan.consumables));
  if (!burns) return;
  made.burns = *burns;
  const Consumable& of = plan.consumables[static_cast<std::size_t>(*burns)];
  if (of.kind != units::Kind::volume && !of.unit.empty()) {
    fields.log().error(node->origin,
                       fmt::format("{} is measured in {}", units::in_quotes(of.name), of.unit),
                       "a consumable with unit: L");
  }
  if (of.fills) {
    fields.log().error(node->origin, fmt::format("{} fills with use", units::in_quotes(of.name)),
                       "a consumable that does not");
  }
}

void read_solar(Fields& fields, Charger& made) {
  Log& log = fields.log();
  made.kind = ChargerKind::solar;
  made.power_w = fields.number("power.charging.solar");
  made.tilt_deg = fields.number("power.charging.tilt");
  constexpr Key key = "power.charging.facing";
  made.facing_deg = default_number(key).value();
  if (const Node* facing = fields.get(key)) {
    made.facing_deg = read_facing(log, *facing, key, made.facing_deg);
  } else if (made.tilt_deg > 0) {
    log.error(fields.get("power.charging.tilt")->origin,
              fmt::format("{} is tilted but does not say which way it faces", fields.what()),
              "facing: north, or facing: 180°");
  }
  made.noct_c = fields.number_if("power.charging.noct");
  made.loss = fields.number("power.charging.losses");
  made.mass_kg = fields.number("power.charging.mass");
}

void read_mains(Fields& fields, Charger& made) {
  made.kind = ChargerKind::mains;
  constexpr Key key = "power.charging.mains";
  const auto output = read_quantity_of(fields.log(), *fields.get(key), key, key.name());
  if (!output) return;
  (output->kind == units::Kind::current ? made.current_a : made.power_w) = output->value;
}

void read_generator(Fields& fields, Charger& made, const Plan& plan) {
  Log& log = fields.log();
  made.kind = ChargerKind::generator;
  made.power_w = fields.number("power.charging.generator");
  const auto fuel = fields.word_if("power.charging.fuel", fuel_words);
  made.fuel = fuel.value_or(FuelKind::petrol);
  made.uses_l_h = fields.number("power.charging.uses");
  made.hours_day = fields.number("power.charging.runs");
  made.starts_h = fields.clock_h("power.charging.starts");
  read_quiet(fields, made);
  read_burns(fields, made, plan);
  if (fields.get("power.charging.burns") != nullptr) {
    if (const Node* from = fields.get("power.charging.from")) {
      log.error(from->origin, fmt::format("{} burns what is in cans of its own", fields.what()),
                "one of \"from\" and \"burns\"");
    }
    return;
  }
  // Its fuel comes from the tanks of a vehicle that burns the same.
  const auto same_fuel = [&](const Vehicle& vehicle) { return vehicle.fuel == made.fuel; };
  const Node* from = fields.get("power.charging.from");
  if (from != nullptr) {
    made.vehicle = vehicle_of(fields, "power.charging.from", plan);
    const auto index = static_cast<std::size_t>(made.vehicle);
    if (fuel && index < plan.vehicles.size() && !same_fuel(plan.vehicles[index])) {
      log.error(from->origin,
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
    log.error(fields.get("power.charging.fuel")->origin,
              fmt::format("no vehicle carries the fuel of {}", fields.what()),
              "a vehicle whose tanks hold the generator's fuel");
  }
}

void read_dc_dc(Fields& fields, Charger& made, const Plan& plan) {
  made.kind = ChargerKind::dc_dc;
  made.current_a = fields.number("power.charging.current");
  made.vehicle = vehicle_of(fields, "power.charging.from", plan);
  if (plan.vehicles.empty()) {
    fields.log().error(fields.origin(),
                       fmt::format("{} needs a vehicle whose engine drives it", fields.what()),
                       "a vehicle under \"vehicles\"");
  }
}

Charger read_charger(Log& log, const Node& node, const Plan& plan) {
  // The first of several that are given is read: a panel, since others may refer to it.
  static constexpr std::array<Key, 4> sorts{"power.charging.solar", "power.charging.current",
                                            "power.charging.mains", "power.charging.generator"};
  Charger made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "a charger");
  made.name = fields.name("power.charging.name");
  refuse_same_name(log, node.origin, "chargers", made.name, plan.power.chargers);
  made.bank = bank_of(fields, "power.charging.on", plan);
  std::string_view sort;
  int given = 0;
  for (const Key key : sorts) {
    if (fields.get(key) == nullptr) continue;
    if (sort.empty()) sort = key.name();
    ++given;
  }
  if (given != 1 && fields.usable()) {
    log.error(node.origin, fmt::format("{} must say what it is", fields.what()),
              R"(one of "current" (from an engine), "solar", "mains" and "generator")");
  }
  if (sort == "current") read_dc_dc(fields, made, plan);
  if (sort == "solar") {
    read_solar(fields, made);
    made.spot = read_spot(fields, vehicle_at(plan, vehicle_of_bank(plan, made.bank)));
  }
  if (sort == "mains") read_mains(fields, made);
  if (sort == "generator") read_generator(fields, made, plan);
  if (!sort.empty()) read_when(fields, made);
  if (given == 1 && sort != "solar") {
    fields.refuse("power.charging.mass",
                  "only a solar panel has one; that of other chargers is part of the "
                  "vehicle's: under \"mass\", as \"gear\" or in \"empty\"");
    refuse_spot(fields, "only a solar panel has a mass of its own");
  }
  // Without a sort every key of a charger may be right: only say what is missing.
  if (given == 1) fields.finish();
  return made;
}

void read_hours(Fields& fields, Load& made) {
  made.hours_day = fields.number_if("power.loads.hours");
  made.after_dark_h = fields.number_if("power.loads.after_dark");
  if (fields.get("power.loads.hours") != nullptr &&
      fields.get("power.loads.after_dark") != nullptr) {
    fields.log().error(fields.get("power.loads.after_dark")->origin,
                       fmt::format(R"({} has both "hours" and "after_dark")", fields.what()),
                       "one of the two");
  }
}

void read_shedding(Fields& fields, Load& made) {
  made.never_shed = fields.yes_no("power.loads.never_shed");
  const Node* shed = fields.get("power.loads.shed");
  if (shed == nullptr) return;
  made.shed_order = fields.whole_number_if("power.loads.shed").value_or(0);
  if (made.never_shed) {
    fields.log().error(
        shed->origin,
        fmt::format("{} is never shed, so it has no place in the order", fields.what()),
        R"(one of "never_shed" and "shed")");
  }
}

Load read_load(Log& log, const Node& node, const Plan& plan) {
  Load made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "a load");
  made.name = fields.name("power.loads.name");
  refuse_same_name(log, node.origin, "loads", made.name, plan.power.loads);
  made.bank = bank_of(fields, "power.loads.on", plan);
  const Node* draw = fields.get("power.loads.draw");
  const Node* energy = fields.get("power.loads.energy");
  if (draw != nullptr) {
    made.draw_w = read_draw(log, *draw, "power.loads.draw", voltage(plan, made.bank)).value_or(0);
    read_hours(fields, made);
  }
  if (energy != nullptr) {
    made.energy_wh_day = fields.number("power.loads.energy");
    if (draw == nullptr) {
      fields.refuse("power.loads.hours", "an energy per day is spread over the whole day");
      fields.refuse("power.loads.after_dark", "an energy per day is spread over the whole day");
    }
  }
  if ((draw == nullptr) == (energy == nullptr) && fields.usable()) {
    log.error(node.origin, fmt::format(R"({} needs either "draw" or "energy")", fields.what()),
              "draw: 14 W, or energy: 80 Wh/day");
    fields.get("power.loads.hours");
    fields.get("power.loads.after_dark");
  }
  if (made.hours_day || energy != nullptr) {
    fields.refuse("power.loads.while", "hours and energy per day are spread over the whole day");
  } else {
    made.when = fields.word("power.loads.while", while_words);
  }
  read_shedding(fields, made);
  fields.finish();
  return made;
}

}  // namespace

Charger solar_panel(std::string name, int bank, double power_w) {
  return {.name = std::move(name),
          .kind = ChargerKind::solar,
          .bank = bank,
          .power_w = power_w,
          .facing_deg = default_number("power.charging.facing").value(),
          .loss = default_number("power.charging.losses").value()};
}

void read_power(Log& log, const Node& node, Plan& plan) {
  Fields fields(log, node, "power");
  fields.get("power.batteries");  // read before, by read_batteries
  for (const Node& item : fields.items("power.charging")) {
    plan.power.chargers.push_back(read_charger(log, item, plan));
  }
  for (const Node& item : fields.items("power.loads")) {
    plan.power.loads.push_back(read_load(log, item, plan));
  }
  fields.finish();
}

}  // namespace drystage::plan
