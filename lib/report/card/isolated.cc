#include "report/card/isolated.h"

#include <algorithm>
#include <array>

#include "plan/utf8.h"

namespace drystage::report {
namespace {

constexpr std::string_view first_strong_isolate = "\u2068";
constexpr std::string_view pop_isolate = "\u2069";

struct Range {
  char32_t from;
  char32_t to;
};

/// Where the Unicode Character Database has scripts that are written right to left.
constexpr std::array<Range, 5> right_to_left{
    {{0x0590, 0x08FF}, {0xFB1D, 0xFDFF}, {0xFE70, 0xFEFF}, {0x10800, 0x10FFF}, {0x1E800, 0x1EFFF}}};

bool has_right_to_left(std::string_view text) {
  while (!text.empty()) {
    const plan::Character next = plan::first_character(text);
    const auto holds = [&](Range r) { return r.from <= next.code && next.code <= r.to; };
    if (std::ranges::any_of(right_to_left, holds)) return true;
    text.remove_prefix(next.bytes);
  }
  return false;
}

}  // namespace

std::string isolated(std::string words) {
  if (!has_right_to_left(words)) return words;
  return std::string(first_strong_isolate) + words + std::string(pop_isolate);
}

CardAnswer with_isolated_names(CardAnswer answer) {
  const auto each = [](auto& list) {
    for (auto& one : list) one.name = isolated(one.name);
  };
  plan::Plan& plan = answer.needs.planned.plan;
  each(plan.places);
  each(plan.people);
  each(plan.vehicles);
  for (plan::Vehicle& vehicle : plan.vehicles) each(vehicle.tanks);
  each(plan.water.containers);
  each(plan.water.utility_uses);
  each(plan.food);
  each(plan.cold);
  each(plan.power.banks);
  each(plan.power.chargers);
  each(plan.power.loads);
  each(plan.consumables);
  for (plan::Consumable& consumable : plan.consumables) each(consumable.stores);
  engine::Course& course = answer.needs.planned.course;
  each(course.stores);
  each(course.things);
  for (engine::ReserveInfo& reserve : course.reserves) {
    reserve.owner = isolated(reserve.owner);
    const std::size_t colon = reserve.name.find(':');
    if (colon == std::string::npos) continue;
    reserve.name = reserve.name.substr(0, colon + 1) + isolated(reserve.name.substr(colon + 1));
  }
  return answer;
}

}  // namespace drystage::report
