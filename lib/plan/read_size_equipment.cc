// Under `size:`: batteries, panels, cabinets and food, each by the name of the thing.
#include "plan/size_offers.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

// The solar panel that a name stands for, as an index into Power::chargers.
std::optional<int> read_panel(Log& log, const Node& node, const Power& power) {
  std::vector<int> panels;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < power.chargers.size(); ++i) {
    const Charger& charger = power.chargers[i];
    if (charger.kind == ChargerKind::solar) {
      panels.push_back(static_cast<int>(i));
      names.push_back(charger.name);
    }
  }
  const auto charger =
      std::ranges::find(power.chargers, units::tidy_blanks(node.text), &Charger::name);
  if (charger != power.chargers.end() && charger->kind != ChargerKind::solar) {
    log.error(node.origin,
              fmt::format("panels: charger {} is no solar panel", units::in_quotes(charger->name)),
              names.empty() ? "a charger with \"solar\"; the plan has none" : one_of(names));
    return std::nullopt;
  }
  const auto found = read_reference(log, node, "solar panel", names);
  if (!found) return std::nullopt;
  return panels[at(*found)];
}

// A cabinet's rated draw, at the rating point that the plan has for it.
std::optional<double> read_rated(Fields& fields, const Cabinet& cabinet, const Power& power) {
  if (cabinet.ice_box) {
    fields.refuse("size.cabinets.rated", "this is an ice box, and draws nothing");
    return std::nullopt;
  }
  const Node* rated = fields.get("size.cabinets.rated");
  if (rated == nullptr) return std::nullopt;
  const auto bank = static_cast<std::size_t>(cabinet.bank);
  const double voltage_v = bank < power.banks.size()
                               ? power.banks[bank].voltage_v
                               : default_number("power.batteries.voltage").value();
  return read_draw(fields.log(), *rated, "size.cabinets.rated", voltage_v);
}

// The names of the plan's food that can be had by the day.
std::vector<std::string> by_the_day(const std::vector<FoodItem>& food) {
  std::vector<std::string> names;
  for (const FoodItem& item : food) {
    if (item.kept == Kept::dry && item.meals > 0) names.push_back(item.name);
  }
  return names;
}

// Whether a name may be that of food by the day: of a dry item given in meals, or a new one.
void check_food(Log& log, const Entry& entry, const std::string& name,
                const std::vector<FoodItem>& food) {
  const auto item = std::ranges::find(food, name, &FoodItem::name);
  const auto names = by_the_day(food);
  if (item == food.end()) {
    const std::string hint = did_you_mean(name, names_of(food));
    if (hint.empty()) return;
    log.warning(
        entry.origin,
        fmt::format("the plan has no food {}: it is on offer as a new one", units::in_quotes(name)),
        one_of(names_of(food)), hint);
    return;
  }
  const bool dry = item->kept == Kept::dry;
  if (dry && (item->meals > 0 || !item->energy_kj_kg)) return;
  const char* why = "is given by its energy, not in meals";
  if (!dry) why = item->kept == Kept::frozen ? "is kept frozen" : "is kept chilled";
  log.error(entry.origin, fmt::format("food: {} {}", units::in_quotes(name), why),
            names.empty() ? "a dry item given in meals, or the name of a new one"
                          : fmt::format("a dry item given in meals ({}), or the name of a new one",
                                        one_of(names)));
}

}  // namespace

void read_battery_offers(Log& log, const Entry& entry, Plan& plan) {
  auto& made = plan.size.batteries;
  const auto bank = read_reference(log, key_node(entry), "battery", names_of(plan.power.banks));
  if (bank && is_twice(log, entry, "batteries", made, *bank, &BatteryOffers::bank)) return;
  const auto kind_of = [&](const BatteryOffer& offer) {
    const auto index = static_cast<std::size_t>(bank.value_or(0));
    const bool known = index < plan.power.banks.size();
    return offer.kind.value_or(known ? plan.power.banks[index].kind : BatteryKind::agm);
  };
  auto sizes = read_offers(
      log, entry.value,
      OfferForm<BatteryOffer>{.key = entry.key,
                              .size = &BatteryOffer::capacity_ah,
                              .size_key = "size.batteries.capacity",
                              .example = "75 Ah, {capacity: 100 Ah, kind: lfp, mass: 12 kg}",
                              .once = "each size of a kind once"},
      [](Fields& fields, BatteryOffer& offer) {
        offer.kind = fields.word_if("size.batteries.kind", battery_words);
        offer.mass_kg = fields.number_if("weight.mass");
        offer.cost = read_cost(fields);
        offer.space_l = read_space(fields);
      },
      [&](const BatteryOffer& a, const BatteryOffer& b) {
        return a.capacity_ah == b.capacity_ah && kind_of(a) == kind_of(b);
      });
  if (bank) made.push_back({*bank, std::move(sizes)});
}

void read_panel_offers(Log& log, const Entry& entry, Plan& plan) {
  auto& made = plan.size.panels;
  const auto charger = read_panel(log, key_node(entry), plan.power);
  if (charger && is_twice(log, entry, "panels", made, *charger, &PanelOffers::charger)) return;
  auto sizes = read_offers(
      log, entry.value,
      OfferForm<PanelOffer>{.key = entry.key,
                            .size = &PanelOffer::power_w,
                            .size_key = "size.panels.solar",
                            .example = "0 W, {solar: 160 W, mass: 11 kg, cost: 150}"},
      [](Fields& fields, PanelOffer& offer) {
        offer.mass_kg = fields.number_if("weight.mass");
        offer.cost = read_cost(fields);
      },
      [](const PanelOffer& a, const PanelOffer& b) { return a.power_w == b.power_w; });
  if (charger) made.push_back({*charger, std::move(sizes)});
}

void read_cabinet_offers(Log& log, const Entry& entry, Plan& plan) {
  auto& made = plan.size.cabinets;
  const auto index = read_reference(log, key_node(entry), "cabinet", names_of(plan.cold));
  if (index && is_twice(log, entry, "cabinets", made, *index, &CabinetOffers::cabinet)) return;
  const Cabinet unknown;
  const Cabinet& cabinet = index ? plan.cold[at(*index)] : unknown;
  auto sizes = read_offers(
      log, entry.value,
      OfferForm<CabinetOffer>{.key = entry.key,
                              .size = &CabinetOffer::volume_l,
                              .size_key = "size.cabinets.volume",
                              .example = "35 L, {volume: 50 L, rated: 1 A, mass: 18 kg}"},
      [&](Fields& fields, CabinetOffer& offer) {
        offer.rated_draw_w = read_rated(fields, cabinet, plan.power);
        offer.mass_kg = fields.number_if("weight.mass");
        offer.cost = read_cost(fields);
        offer.space_l = read_space(fields, offer.volume_l);
      },
      [](const CabinetOffer& a, const CabinetOffer& b) { return a.volume_l == b.volume_l; });
  if (index) made.push_back({*index, std::move(sizes)});
}

void read_food_offer(Log& log, const Entry& entry, Plan& plan) {
  auto& made = plan.size.food;
  FoodOffer offer;
  offer.mark = entry.origin.mark;
  offer.item = key_name(log, entry, "food");
  if (is_twice(log, entry, "food", made, offer.item, &FoodOffer::item)) return;
  if (!offer.item.empty()) check_food(log, entry, offer.item, plan.food);
  if (entry.value.kind == Node::Kind::text) {
    offer.meals_day = read_quantity(log, entry.value, "size.food.per_day", entry.key).value_or(0);
  } else if (entry.value.kind == Node::Kind::map) {
    Fields fields(log, entry.value, fmt::format("food {}", units::in_quotes(entry.key)));
    offer.meals_day = fields.number("size.food.per_day");
    offer.kg_day = fields.number_if("weight.mass");
    offer.cost = read_cost(fields);
    offer.space_l = read_space(fields);
    if (const Node* most = fields.get("size.food.most")) {
      offer.most_days = read_whole_days(log, *most, "size.food.most");
    }
    fields.finish();
  } else {
    log_wrong_form(log, entry.value, entry.key, "{per_day: 6 meals, mass: 1.8 kg}");
  }
  made.push_back(std::move(offer));
}

}  // namespace drystage::plan
