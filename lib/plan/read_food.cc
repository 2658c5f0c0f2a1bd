#include <fmt/core.h>

#include "plan/food_kinds.h"
#include "plan/sections.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

// A cabinet for frozen goods has a frozen part, or is a freezer as a whole.
bool suits(const Cabinet& cabinet, Kept kept) {
  return kept == Kept::chilled || cabinet.frozen.has_value() || is_freezer(cabinet);
}

// Where a frozen or chilled item is kept: as said, or in the first cabinet that suits.
int cabinet_of(Fields& fields, Kept kept, const Plan& plan) {
  Log& log = fields.log();
  const char* kept_word = kept == Kept::frozen ? "frozen" : "chilled";
  const Node* in = fields.get("food.in");
  if (in != nullptr) {
    const auto chosen = fields.reference_if("food.in", names_of(plan.cold));
    if (chosen && !suits(plan.cold[at(*chosen)], kept)) {
      log.error(in->origin,
                fmt::format("{} is kept frozen, but cabinet {} has no frozen part", fields.what(),
                            units::in_quotes(in->text)),
                "a cabinet with \"frozen_below\" or \"freezer\", or one set to -5 °C or colder");
    }
    return chosen.value_or(-1);
  }
  for (std::size_t i = 0; i < plan.cold.size(); ++i) {
    if (suits(plan.cold[i], kept)) return static_cast<int>(i);
  }
  log.error(fields.get("food.kept") != nullptr ? fields.get("food.kept")->origin : fields.origin(),
            fmt::format("{} is kept {}, but there is no cabinet for it", fields.what(), kept_word),
            kept == Kept::frozen
                ? "a cabinet with \"frozen_below\" or \"freezer\", or one set to -5 °C or colder"
                : "a cabinet under \"cold\"");
  return -1;
}

Keeps read_keeps(Log& log, const Node& node) {
  Keeps made;
  Fields fields(log, node, "keeps");
  made.life_days = fields.number("food.keeps.for") / 24;
  made.at_c = fields.number("food.keeps.at");
  fields.finish();
  return made;
}

void read_amount(Fields& fields, FoodItem& made) {
  Log& log = fields.log();
  const bool cold = made.kept != Kept::dry;
  const bool has_energy = fields.get("food.energy") != nullptr;
  const bool has_meals = fields.get("food.meals") != nullptr;
  const auto mass = fields.number_if("food.mass");
  made.mass_kg = mass.value_or(0);
  if (cold || has_energy) {
    const Node* node = fields.need("food.mass");
    if (mass && *mass <= 0) {
      log.error(node->origin, fmt::format("{} has no mass", fields.what()), "more than 0 kg");
    }
  }
  made.meals = fields.number("food.meals");
  made.energy_kj_kg = fields.number_if("food.energy");
  if (!has_meals && !has_energy && fields.usable()) {
    log.error(fields.origin(), fmt::format("{} lacks \"meals\"", fields.what()),
              "meals: 24, or the energy in it, such as energy: 9 MJ/kg");
  }
}

FoodItem read_item(Log& log, const Node& node, const Plan& plan) {
  FoodItem made;
  made.mark = node.origin.mark;
  Fields fields(log, node, "a food");
  made.name = fields.name("food.item");
  refuse_same_name(log, node.origin, "items of food", made.name, plan.food);
  const auto kept = fields.word_if("food.kept", kept_words);
  made.kept = kept.value_or(Kept::dry);
  read_amount(fields, made);
  made.water_fraction = fields.number_if("food.water").value_or(usual_water(made.kept));
  // What is dry is not frozen, so that nothing is to be said of it.
  made.freezing_c = made.kept == Kept::dry ? fields.number_if("food.freezes_at").value_or(0)
                                           : fields.number("food.freezes_at");
  if (made.kept == Kept::frozen) {
    made.starts_at_c = fields.number("food.from");
    if (made.starts_at_c > 0) {
      log.error(fields.get("food.from")->origin,
                fmt::format("{} is kept frozen, but goes in at {}", fields.what(),
                            fields.get("food.from")->text),
                "at most 0 °C");
    }
  } else if (made.kept == Kept::chilled) {
    made.bought_at_c = fields.number_if("food.from");
  } else if (kept) {
    fields.refuse("food.from",
                  "only what is kept frozen or chilled has a temperature it goes in at");
  }
  made.kind = fields.word_if("food.kind", food_kind_words);
  if (const Node* keeps = fields.get("food.keeps")) made.keeps = read_keeps(log, *keeps);
  made.potentially_hazardous =
      fields.yes_no_if("food.potentially_hazardous").value_or(is_usually_hazardous(made));
  if (kept && *kept != Kept::dry) {
    made.cabinet = cabinet_of(fields, made.kept, plan);
  } else if (kept) {
    fields.refuse("food.in", "dry stores are not in a cabinet; \"carried_by\" names their vehicle");
  } else {
    fields.get("food.in");
    fields.get("food.from");
  }
  const Carrier carrier = read_carrier(fields, "food.carried_by", plan);
  made.vehicle = carrier.index;
  if (made.cabinet >= 0) {
    fields.refuse("food.carried_by", "it rides where its cabinet does");
    made.vehicle = plan.cold[at(made.cabinet)].vehicle;
    refuse_spot(fields, "it lies where its cabinet does");
  }
  made.spot = read_spot(fields, carrier.vehicle);
  fields.finish();
  return made;
}

}  // namespace

double usual_water(Kept kept) {
  return default_number("food.water", kept == Kept::dry ? "dry" : "").value();
}

void read_food(Log& log, const Node& node, Plan& plan) {
  for (const Node& item : list_items(log, node, "food")) {
    plan.food.push_back(read_item(log, item, plan));
  }
}

}  // namespace drystage::plan
