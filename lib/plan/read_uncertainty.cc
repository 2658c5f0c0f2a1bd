#include <fmt/core.h>

#include <algorithm>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

// A source of which several numbers exist; without any where it is left out.
class SourceFields : public Fields {
 public:
  SourceFields(Fields& section, Key key)
      : Fields(section.log(), map_of(section, key), std::string(key.name())) {}

 private:
  static const Node& map_of(Fields& section, Key key) {
    static const Node none;
    const Node* node = section.get(key);
    if (node == nullptr) return none;
    // A number alone does not say which one it is.
    if (node->kind == Node::Kind::map || node->kind == Node::Kind::empty) return *node;
    log_wrong_form(section.log(), *node, key.name(),
                   fmt::format("{}: {}", key.name(), example_of(key)));
    return none;
  }
};

// A source of which one number exists, which may stand alone.
double only_number(Fields& section, Key source, Key number) {
  const Node* node = section.get(source);
  if (node == nullptr) return default_number(number).value_or(0);
  if (node->kind == Node::Kind::text) {
    return read_quantity(section.log(), *node, number, source.name())
        .value_or(default_number(number).value_or(0));
  }
  Fields fields(section.log(), *node, std::string(source.name()));
  const double made = fields.number(number);
  fields.finish();
  return made;
}

Uncertainty::Factor read_factor(Fields& section, Key source, Key usual, Key trip) {
  SourceFields fields(section, source);
  const Uncertainty::Factor made{fields.number(usual), fields.number(trip)};
  fields.finish();
  return made;
}

// One trip in twenty cannot have less than half of all trips; what one of the two says must go
// with what holds without the other.
void refuse_low_high(Fields& fields, const Uncertainty::Distance& made) {
  if (made.high >= made.usual) return;
  const Node* usual = fields.get("uncertainty.distance.usual");
  const Node* high = fields.get("uncertainty.distance.high");
  constexpr std::string_view expected = "high at least as much as usual";
  if (high == nullptr) {
    fields.log().error(usual->origin,
                       fmt::format("usual: {} is more than high, which is {} when left out",
                                   usual->text, default_of("uncertainty.distance.high")),
                       std::string(expected), "write high beside it");
  } else if (usual == nullptr) {
    fields.log().error(high->origin,
                       fmt::format("high: {} is less than usual, which is {} when left out",
                                   high->text, default_of("uncertainty.distance.usual")),
                       std::string(expected), "write usual beside it");
  } else {
    fields.log().error(high->origin,
                       fmt::format("high: {} is less than usual, {}", high->text, usual->text),
                       std::string(expected));
  }
}

Uncertainty::Distance read_distance(Fields& section) {
  SourceFields fields(section, "uncertainty.distance");
  const std::size_t errors = fields.log().errors();
  Uncertainty::Distance made;
  made.usual = fields.number("uncertainty.distance.usual");
  made.high = fields.number("uncertainty.distance.high");
  if (fields.log().errors() == errors) refuse_low_high(fields, made);
  fields.finish();
  return made;
}

void read_heat_and_sun(Fields& section, Uncertainty& made) {
  SourceFields heat(section, "uncertainty.heat");
  made.heat.year_k = heat.number("uncertainty.heat.year");
  made.heat.persistence = heat.number("uncertainty.heat.persistence");
  heat.finish();
  SourceFields sun(section, "uncertainty.sun");
  made.sun.day = sun.number_if("uncertainty.sun.day");
  made.sun.persistence = sun.number("uncertainty.sun.persistence");
  made.sun.with_heat = sun.number("uncertainty.sun.with_heat");
  sun.finish();
}

void read_use(Fields& section, Uncertainty& made) {
  // Of each person and vehicle the default depends on what was observed of it: none is filled in.
  SourceFields drinking(section, "uncertainty.drinking");
  made.drinking.person = drinking.number_if("uncertainty.drinking.person");
  made.drinking.day = drinking.number("uncertainty.drinking.day");
  drinking.finish();
  made.work_trip = only_number(section, "uncertainty.work", "uncertainty.work.trip");
  made.utility_trip = only_number(section, "uncertainty.utility", "uncertainty.utility.trip");
  made.meals_trip = only_number(section, "uncertainty.meals", "uncertainty.meals.trip");
  made.consumables_trip =
      only_number(section, "uncertainty.consumables", "uncertainty.consumables.trip");
  SourceFields fuel(section, "uncertainty.fuel");
  made.fuel.trip = fuel.number_if("uncertainty.fuel.trip");
  made.fuel.leg = fuel.number("uncertainty.fuel.leg");
  fuel.finish();
  made.distance = read_distance(section);
  made.headwind_leg_m_s = only_number(section, "uncertainty.headwind", "uncertainty.headwind.leg");
}

void read_equipment(Fields& section, Uncertainty& made) {
  made.loads_trip = only_number(section, "uncertainty.loads", "uncertainty.loads.trip");
  made.cabinets = read_factor(section, "uncertainty.cabinets", "uncertainty.cabinets.usual",
                              "uncertainty.cabinets.trip");
  made.lids_trip = only_number(section, "uncertainty.lids", "uncertainty.lids.trip");
  made.panels = read_factor(section, "uncertainty.panels", "uncertainty.panels.usual",
                            "uncertainty.panels.trip");
  made.batteries = read_factor(section, "uncertainty.batteries", "uncertainty.batteries.usual",
                               "uncertainty.batteries.trip");
  made.fills_vessel = only_number(section, "uncertainty.fills", "uncertainty.fills.vessel");
  made.spoilage_trip = only_number(section, "uncertainty.spoilage", "uncertainty.spoilage.trip");
}

void read_chances(Fields& section, Uncertainty& made) {
  SourceFields delays(section, "uncertainty.delays");
  made.delays.day = delays.number("uncertainty.delays.day");
  made.delays.soft_leg = delays.number("uncertainty.delays.soft_leg");
  made.delays.length_h = delays.number("uncertainty.delays.length");
  delays.finish();
  SourceFields supplies(section, "uncertainty.supplies");
  made.supplies.confirmed = supplies.number("uncertainty.supplies.confirmed");
  made.supplies.unconfirmed = supplies.number("uncertainty.supplies.unconfirmed");
  supplies.finish();
  made.containers_day =
      only_number(section, "uncertainty.containers", "uncertainty.containers.day");
  made.compressors_day =
      only_number(section, "uncertainty.compressors", "uncertainty.compressors.day");
  made.chargers_day = only_number(section, "uncertainty.chargers", "uncertainty.chargers.day");
  made.punctures = only_number(section, "uncertainty.punctures", "uncertainty.punctures.usual");
  made.illness_day = only_number(section, "uncertainty.illness", "uncertainty.illness.day");
}

void read_left_out(Fields& section, Uncertainty& made) {
  Log& log = section.log();
  for (const Node* word : one_or_more(log, section.get("uncertainty.leave_out"), "leave_out")) {
    const auto source = read_word(log, *word, "leave_out", source_words);
    if (!source) continue;
    if (made.draws(*source)) {
      made.left_out.push_back(*source);
    } else {
      log.error(word->origin,
                fmt::format("leave_out: {} is named twice", units::in_quotes(word->text)),
                "each one once");
    }
  }
}

}  // namespace

void read_uncertainty(Log& log, const Node& node, Plan& plan) {
  Fields section(log, node, "uncertainty");
  read_heat_and_sun(section, plan.uncertainty);
  read_use(section, plan.uncertainty);
  read_equipment(section, plan.uncertainty);
  read_chances(section, plan.uncertainty);
  read_left_out(section, plan.uncertainty);
  section.finish();
}

}  // namespace drystage::plan
