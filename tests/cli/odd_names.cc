#include "cli/odd_names.h"

#include <array>
#include <nlohmann/json.hpp>

#include "support/answer.h"
#include "support/plan_text.h"

namespace drystage::testing {
namespace {

/// A name as YAML takes it whatever is in it: what JSON quotes is YAML too.
std::string quoted(const std::string& name) { return nlohmann::json(name).dump(); }

}  // namespace

std::string plan_with_odd_names(const OddNames& names) {
  using support::PlanText;
  PlanText plan;
  plan.margins = {"drinking_water: 2 days", "fuel: 50 km"};
  plan.people = {PlanText::person(quoted(names.people), "4 L/day")};
  plan.containers = {"{name: " + quoted(names.container) +
                     ", holds: 60 L, filled: 60 L, for: drinking, empty_mass: 2 kg}"};
  plan.vehicles = {"{name: " + quoted(names.vehicle) +
                   ", fuel: diesel, mass: {empty: 2200 kg, limit: 3500 kg}, tanks: "
                   "[{name: main tank, holds: 90 L, filled: 90 L}]}"};
  plan.places = {PlanText::place(quoted(names.start), "air", "diesel: {}"),
                 PlanText::place(quoted(names.oasis), "air", "drinking_water: {confirmed: no}"),
                 PlanText::place(quoted(names.lake), "air"),
                 PlanText::place(quoted(names.spring), "air", "drinking_water: {}")};
  const auto drive = [](const std::string& to) {
    return "drive: {to: " + quoted(to) + ", distance: 60 km, surfaces: gravel}";
  };
  plan.itinerary = {"{at: " + quoted(names.start) + "}",
                    "stay: {nights: 1}",
                    drive(names.oasis),
                    "resupply: {drinking_water: 5 L}",
                    "stay: {nights: 1}",
                    drive(names.lake),
                    "stay: {nights: 1}",
                    drive(names.spring),
                    "resupply: {drinking_water: fill}",
                    "stay: {nights: 1}",
                    drive(names.start)};
  std::string text = plan.text();
  const std::string title = "title: A test";
  return text.replace(text.find(title), title.size(), "title: " + quoted(names.title));
}

std::string plain_words(const std::string& text) {
  // Embeddings, overrides, isolates, and the marks of direction.
  constexpr std::array marks{"\u200e", "\u200f", "\u202a", "\u202b", "\u202c", "\u202d",
                             "\u202e", "\u2066", "\u2067", "\u2068", "\u2069"};
  std::string out = text;
  for (const std::string mark : marks) {
    for (std::size_t at = out.find(mark); at != std::string::npos; at = out.find(mark, at)) {
      out.erase(at, mark.size());
    }
  }
  return support::unwrapped(out);
}

}  // namespace drystage::testing
