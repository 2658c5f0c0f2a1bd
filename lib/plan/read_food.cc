#include <fmt/core.h>

#include "plan/food_kinds.h"
#include "plan/sections.h"

namespace drystage::plan {
namespace {

constexpr std::array<Word<Kept>, 3> kept_words{
    {{"frozen", Kept::frozen}, {"chilled", Kept::chilled}, {"dry", Kept::dry}}};

// A cabinet for frozen goods has a frozen part, or is a freezer as a whole.
bool freezes(const Cabinet& cabinet) {
  constexpr double warmest_freezer_c = -5;
  return cabinet.frozen.has_value() ||
         (!cabinet.ice_box && cabinet.set_point_c <= warmest_freezer_c);
}

bool suits(const Cabinet& cabinet, Kept kept) { return kept == Kept::chilled || freezes(cabinet); }

// Where a frozen or chilled item is kept: as said, or in the first cabinet that suits.
int cabinet_of(Fields& fields, Kept kept, const Plan& plan) {
  Log& log = fields.log();
  const char* kept_word = kept == Kept::frozen ? "frozen" : "chilled";
  const Node* in = fields.get("in");
  if (in != nullptr) {
    const auto chosen = read_reference(log, *in, "cabinet", names_of(plan.cold), "cold");
    if (chosen && !suits(plan.cold[static_cast<std::size_t>(*chosen)], kept)) {
      log.error(in->spot,
                fmt::format("{} is kept frozen, but cabinet {} has no frozen part", fields.what(),
                            units::in_quotes(in->text)),
                "a cabinet with \"frozen_below\" or \"freezer\", or one set to -5 °C or colder");
    }
    return chosen.value_or(-1);
  }
  for (std::size_t i = 0; i < plan.cold.size(); ++i) {
    if (suits(plan.cold[i], kept)) return static_cast<int>(i);
  }
  log.error(fields.get("kept") != nullptr ? fields.get("kept")->spot : fields.spot(),
            fmt::format("{} is kept {}, but there is no cabinet for it", fields.what(), kept_word),
            kept == Kept::frozen
                ? "a cabinet with \"frozen_below\" or \"freezer\", or one set to -5 °C or colder"
                : "a cabinet under \"cold\"");
  return -1;
}

Keeps read_keeps(Log& log, const Node& node) {
  Keeps made;
  Fields fields(log, node, "keeps");
  made.life_days = fields.need_quantity("food.keeps.for").value_or(24) / 24;
  made.at_c = fields.quantity_or("food.keeps.at", made.at_c);
  fields.finish();
  return made;
}

void read_amount(Fields& fields, FoodItem& made) {
  Log& log = fields.log();
  const bool cold = made.kept != Kept::dry;
  const bool has_energy = fields.get("energy") != nullptr;
  const bool has_meals = fields.get("meals") != nullptr;
  const auto mass = fields.quantity("food.mass");
  made.mass_kg = mass.value_or(0);
  if (cold || has_energy) {
    const Node* node = fields.need("mass", "6 kg");
    if (mass && *mass <= 0) {
      log.error(node->spot, fmt::format("{} has no mass", fields.what()), "more than 0 kg");
    }
  }
  made.meals = fields.quantity_or("food.meals", 0);
  made.energy_kj_kg = fields.quantity("food.energy");
  if (!has_meals && !has_energy && fields.usable()) {
    log.error(fields.spot(), fmt::format("{} lacks \"meals\"", fields.what()),
              "meals: 24, or the energy in it, such as energy: 9 MJ/kg");
  }
}

FoodItem read_item(Log& log, const Node& node, const Plan& plan) {
  constexpr double dry_water = 0.1;  // flour, rice, dried fruit: common practice
  FoodItem made;
  made.mark = node.spot.mark;
  Fields fields(log, node, "a food");
  made.name = fields.name("item");
  refuse_same_name(log, node.spot, "items of food", made.name, plan.food);
  const auto kept = fields.need_word("kept", kept_words);
  made.kept = kept.value_or(Kept::dry);
  read_amount(fields, made);
  made.water_fraction = fields.quantity_or("food.water", made.kept == Kept::dry ? dry_water : 0.7);
  made.freezing_c = fields.quantity_or("food.freezes_at", made.freezing_c);
  if (made.kept == Kept::frozen) {
    made.starts_at_c = fields.quantity_or("food.from", made.starts_at_c);
    if (made.starts_at_c > 0) {
      log.error(fields.get("from")->spot,
                fmt::format("{} is kept frozen, but goes in at {}", fields.what(),
                            fields.get("from")->text),
                "at most 0 °C");
    }
  } else if (made.kept == Kept::chilled) {
    made.bought_at_c = fields.quantity("food.from");
  } else if (kept) {
    fields.refuse("from", "only what is kept frozen or chilled has a temperature it goes in at");
  }
  if (const Node* kind = fields.get("kind")) {
    made.kind = read_word(log, *kind, "kind", food_kind_words());
  }
  if (const Node* keeps = fields.get("keeps")) made.keeps = read_keeps(log, *keeps);
  const bool usually_hazardous =
      made.kind ? kept_kind(*made.kind).hazardous : made.kept != Kept::dry;
  made.potentially_hazardous = fields.yes_no_or("potentially_hazardous", usually_hazardous);
  if (kept && *kept != Kept::dry) {
    made.cabinet = cabinet_of(fields, made.kept, plan);
  } else if (kept) {
    fields.refuse("in", "dry stores are not in a cabinet; \"carried_by\" names their vehicle");
  } else {
    fields.get("in");
    fields.get("from");
  }
  made.vehicle = vehicle_of(fields, plan, "carried_by");
  if (made.cabinet >= 0) {
    fields.refuse("carried_by", "it rides where its cabinet does");
    made.vehicle = plan.cold[static_cast<std::size_t>(made.cabinet)].vehicle;
  }
  fields.finish();
  return made;
}

}  // namespace

void read_food(Log& log, const Node& node, Plan& plan) {
  for (const Node& item : list_items(log, node, "food")) {
    plan.food.push_back(read_item(log, item, plan));
  }
}

}  // namespace drystage::plan
