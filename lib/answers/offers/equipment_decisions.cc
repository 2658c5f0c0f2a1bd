// What is decided about electricity and cold: which battery, which solar panel, which cabinet.

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>

#include "answers/offers/decision.h"
#include "engine/usual_sizes.h"
#include "plan/packing.h"

namespace drystage::answers {
namespace {

using plan::Item;

/// One size of a piece of equipment.
struct EquipmentSize {
  double size = 0;
  std::string detail{};
  double kg = 0;  ///< 0 of the plan's own that has no mass there: part of the vehicle's
  double cost = 0;
  double space_l = 0;
  bool fits = true;
  bool as_planned = false;
  std::function<void(plan::Plan&)> apply{};
};

/// Everything that is decided about one piece of equipment.
struct EquipmentOffers {
  std::string name;
  std::string unit;
  int bank = 0;
  int vehicle = 0;
  std::size_t vehicles = 1;
  double planned_size = 0;
  double planned_kg = 0;
  std::string planned_detail{};
  bool weighed = true;
  bool kept = false;
  int cabinet = -1;
  std::vector<EquipmentSize> pieces{};
};

Choice choice_of(const EquipmentOffers& rack, std::size_t index) {
  const EquipmentSize& piece = rack.pieces[index];
  // What is kept is there already, and paid for.
  const double cost = rack.kept ? 0 : piece.cost;
  const double space_l = rack.kept ? 0 : piece.space_l;
  Choice out{.taken = {static_cast<int>(index)},
             .amount = piece.size,
             .load_kg = std::vector<double>(rack.vehicles, 0),
             .totals = {.kg = piece.kg, .cost = cost, .space_l = space_l},
             .fits = piece.fits,
             .cabinet = rack.cabinet,
             .weighed = rack.weighed};
  const auto vehicle = static_cast<std::size_t>(std::max(rack.vehicle, 0));
  out.load_kg[std::min(vehicle, rack.vehicles - 1)] = piece.kg;
  out.lines.push_back({.one = rack.name,
                       .plan_amount = rack.planned_size,
                       .amount = piece.size,
                       .unit = rack.unit,
                       .plan_detail = rack.planned_detail,
                       .detail = piece.detail,
                       .plan_kg = rack.planned_kg,
                       .kg = piece.kg,
                       .cost = cost,
                       .space_l = space_l,
                       .kept = rack.kept});
  out.apply = piece.apply;
  return out;
}

Decision decide(const EquipmentOffers& made, Least least) {
  Decision out{
      .sort = Decision::Sort::equipment, .bank = made.bank, .planned = {.kg = made.planned_kg}};
  for (const EquipmentSize& piece : made.pieces) {
    if (!piece.as_planned || made.kept) continue;
    out.planned.cost = piece.cost;
    out.planned.space_l = piece.space_l;
  }
  for (std::size_t i = 0; i < made.pieces.size(); ++i) out.choices.push_back(choice_of(made, i));
  sort_choices(out.choices, least);
  // What is next lesser is lesser by what there is to be least of.
  out.one_fewer = [choices = out.choices](const Choice& choice,
                                          std::size_t) -> std::optional<Choice> {
    const auto now = std::ranges::find(choices, choice.taken, &Choice::taken);
    if (now == choices.begin() || now == choices.end()) return std::nullopt;
    return *(now - 1);
  };
  return out;
}

std::string word(plan::BatteryKind kind) {
  switch (kind) {
    case plan::BatteryKind::flooded:
      return "flooded";
    case plan::BatteryKind::agm:
      return "agm";
    case plan::BatteryKind::lfp:
      return "lfp";
  }
  return {};
}

/// A bank of another kind has the levels that are usual for that kind, where it had the usual ones
/// of its own.
void change_kind(plan::Bank& bank, plan::BatteryKind kind) {
  const plan::UsualLevels before = plan::usual_levels(bank.kind);
  const plan::UsualLevels after = plan::usual_levels(kind);
  if (bank.floor == before.floor && bank.cut_off == before.cut_off) {
    bank.floor = after.floor;
    bank.cut_off = after.cut_off;
  }
  bank.kind = kind;
}

EquipmentSize bank_piece(const plan::Bank& bank, int index, const plan::BatteryOffer& offer) {
  const plan::BatteryKind kind = offer.kind.value_or(bank.kind);
  const bool own = offer.capacity_ah == bank.capacity_ah && kind == bank.kind && !offer.mass_kg;
  // Like the plan's own, where that has been weighed.
  const double kg_ah = bank.mass_kg > 0 && kind == bank.kind
                           ? bank.mass_kg / bank.capacity_ah
                           : engine::usual_bank_kg(kind, 1, bank.voltage_v);
  const double kg = offer.mass_kg.value_or(hundredths_up(kg_ah * offer.capacity_ah));
  EquipmentSize piece{.size = offer.capacity_ah,
                      .detail = word(kind),
                      .kg = own ? bank.mass_kg : kg,
                      .cost = offer.cost.value_or(0),
                      .space_l = offer.space_l.value_or(engine::usual_bank_space_l_ah *
                                                        bank.voltage_v / 12 * offer.capacity_ah),
                      .as_planned = own};
  piece.apply = [=](plan::Plan& plan) {
    if (own) return;
    plan::Bank& changed = plan.power.banks[static_cast<std::size_t>(index)];
    changed.capacity_ah = offer.capacity_ah;
    changed.mass_kg = kg;
    if (kind != changed.kind) change_kind(changed, kind);
  };
  return piece;
}

void add_bank(std::vector<Decision>& out, const plan::Plan& plan, int index, Least least) {
  const plan::Bank& bank = plan.power.banks[static_cast<std::size_t>(index)];
  const bool kept = is_kept(plan, Item::Sort::battery, index);
  std::vector<plan::BatteryOffer> offers;
  for (const plan::BatteryOffers& each : plan.size.batteries) {
    if (each.bank == index) offers = each.sizes;
  }
  if (kept) {
    offers = {{.capacity_ah = bank.capacity_ah}};
  }
  if (offers.empty()) return;
  EquipmentOffers rack{.name = bank.name,
                       .unit = "Ah",
                       .bank = index,
                       .vehicle = bank.vehicle,
                       .vehicles = std::max<std::size_t>(plan.vehicles.size(), 1),
                       .planned_size = bank.capacity_ah,
                       .planned_kg = bank.mass_kg,
                       .planned_detail = word(bank.kind),
                       .weighed = bank.mass_kg > 0,
                       .kept = kept};
  for (const plan::BatteryOffer& offer : offers) {
    const bool other_kind = offer.kind.value_or(bank.kind) != bank.kind;
    // What was measured of one kind says nothing of another.
    if (other_kind && (bank.peukert || bank.efficiency)) continue;
    rack.pieces.push_back(bank_piece(bank, index, offer));
  }
  if (!rack.pieces.empty()) out.push_back(decide(rack, least));
}

EquipmentSize panel_piece(const plan::Charger& panel, const plan::PanelOffer& offer) {
  const bool own = offer.power_w == panel.power_w && !offer.mass_kg;
  const double usual_kg = hundredths_up(engine::usual_panel_kg(offer.power_w));
  const double kg = own && panel.mass_kg > 0 ? panel.mass_kg : offer.mass_kg.value_or(usual_kg);
  EquipmentSize piece{.size = offer.power_w,
                      .kg = own ? panel.mass_kg : kg,
                      .cost = offer.cost.value_or(0),
                      .as_planned = own};
  piece.apply = [=](plan::Plan& plan) {
    if (own) return;
    const auto at = std::ranges::find(plan.power.chargers, panel.name, &plan::Charger::name);
    plan::Charger changed = panel;
    changed.power_w = offer.power_w;
    changed.mass_kg = kg;
    if (at != plan.power.chargers.end()) *at = changed;
  };
  return piece;
}

void add_panel(std::vector<Decision>& out, const plan::Plan& plan, const plan::Charger& panel,
               const std::vector<plan::PanelOffer>& offers, bool kept, Least least) {
  EquipmentOffers rack{.name = panel.name,
                       .unit = "W",
                       .bank = panel.bank,
                       .vehicle = plan.power.banks[static_cast<std::size_t>(panel.bank)].vehicle,
                       .vehicles = std::max<std::size_t>(plan.vehicles.size(), 1),
                       .planned_size = panel.power_w,
                       .planned_kg = panel.mass_kg,
                       .weighed = panel.mass_kg > 0 || panel.power_w <= 0,
                       .kept = kept};
  for (const plan::PanelOffer& offer : offers) rack.pieces.push_back(panel_piece(panel, offer));
  out.push_back(decide(rack, least));
}

void add_panels(std::vector<Decision>& out, const plan::Plan& plan, Least least) {
  for (std::size_t c = 0; c < plan.power.chargers.size(); ++c) {
    const plan::Charger& charger = plan.power.chargers[c];
    if (charger.kind != plan::ChargerKind::solar) continue;
    const int index = static_cast<int>(c);
    const bool kept = is_kept(plan, Item::Sort::panel, index);
    std::vector<plan::PanelOffer> offers;
    for (const plan::PanelOffers& each : plan.size.panels) {
      if (each.charger == index) offers = each.sizes;
    }
    if (kept) offers = {{.power_w = charger.power_w}};
    if (!offers.empty()) add_panel(out, plan, charger, offers, kept, least);
  }
}

/// A cabinet of another size with the same walls: the heat that leaks in, and with it the draw,
/// goes with the surface, which for boxes of one shape goes with the volume to the power of 2/3.
void resize(plan::Cabinet& cabinet, double volume_l, std::optional<double> rated_draw_w) {
  const double by_surface = std::pow(volume_l / cabinet.volume_l, 2.0 / 3);
  const double by_draw =
      rated_draw_w && cabinet.rated_draw_w > 0 ? *rated_draw_w / cabinet.rated_draw_w : by_surface;
  if (cabinet.running_w) *cabinet.running_w = hundredths_up(*cabinet.running_w * by_draw);
  if (cabinet.heat_leak_w_k)
    *cabinet.heat_leak_w_k = hundredths_up(*cabinet.heat_leak_w_k * by_draw);
  cabinet.rated_draw_w = rated_draw_w.value_or(hundredths_up(cabinet.rated_draw_w * by_surface));
  cabinet.volume_l = volume_l;
}

EquipmentSize cabinet_piece(const plan::Plan& plan, int index, const plan::CabinetOffer& offer) {
  const plan::Cabinet& cabinet = plan.cold[static_cast<std::size_t>(index)];
  const bool own = offer.volume_l == cabinet.volume_l && !offer.mass_kg && !offer.rated_draw_w;
  const double usual_kg = hundredths_up(engine::usual_cabinet_kg(offer.volume_l));
  const double kg = own && cabinet.mass_kg > 0 ? cabinet.mass_kg : offer.mass_kg.value_or(usual_kg);
  EquipmentSize piece{
      .size = offer.volume_l,
      .kg = own ? cabinet.mass_kg : kg,
      .cost = offer.cost.value_or(0),
      .space_l = offer.space_l.value_or(engine::usual_cabinet_space * offer.volume_l),
      .fits = plan::packed_kg(plan, index) <= plan::most_packed_kg_l * offer.volume_l,
      .as_planned = own};
  if (!own && offer.rated_draw_w) piece.detail = fmt::format("{:g} W", *offer.rated_draw_w);
  piece.apply = [=](plan::Plan& changed) {
    if (own) return;
    plan::Cabinet& other = changed.cold[static_cast<std::size_t>(index)];
    resize(other, offer.volume_l, offer.rated_draw_w);
    other.mass_kg = kg;
  };
  return piece;
}

void add_cabinets(std::vector<Decision>& out, const plan::Plan& plan, Least least) {
  for (int c = 0; c < static_cast<int>(plan.cold.size()); ++c) {
    const plan::Cabinet& cabinet = plan.cold[static_cast<std::size_t>(c)];
    const bool kept = is_kept(plan, Item::Sort::cabinet, c);
    std::vector<plan::CabinetOffer> offers;
    for (const plan::CabinetOffers& each : plan.size.cabinets) {
      if (each.cabinet == c) offers = each.sizes;
    }
    if (kept) offers = {{.volume_l = cabinet.volume_l}};
    if (offers.empty()) continue;
    EquipmentOffers rack{.name = cabinet.name,
                         .unit = "L",
                         .bank = cabinet.bank,
                         .vehicle = cabinet.vehicle,
                         .vehicles = std::max<std::size_t>(plan.vehicles.size(), 1),
                         .planned_size = cabinet.volume_l,
                         .planned_kg = cabinet.mass_kg,
                         .weighed = cabinet.mass_kg > 0,
                         .kept = kept,
                         .cabinet = c};
    for (const plan::CabinetOffer& offer : offers) {
      rack.pieces.push_back(cabinet_piece(plan, c, offer));
      // What the plan has packed is its own affair as long as it keeps it so.
      if (kept) rack.pieces.back().fits = true;
    }
    out.push_back(decide(rack, least));
  }
}

}  // namespace

std::vector<Decision> equipment_decisions(const plan::Plan& plan, Least least) {
  std::vector<Decision> out;
  for (int b = 0; b < static_cast<int>(plan.power.banks.size()); ++b) {
    add_bank(out, plan, b, least);
  }
  add_panels(out, plan, least);
  add_cabinets(out, plan, least);
  return out;
}

}  // namespace drystage::answers
