#include "support/plan_text.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <stdexcept>

#include "plan/read.h"

namespace drystage::support {
namespace {

constexpr std::array<const char*, 12> months{"jan", "feb", "mar", "apr", "may", "jun",
                                             "jul", "aug", "sep", "oct", "nov", "dec"};

void add_lines(std::string& out, const std::string& indent, const std::string& key,
               const std::vector<std::string>& lines, const char* lead) {
  if (lines.empty()) return;
  out += indent + key + ":\n";
  for (const std::string& line : lines) out += indent + "  " + lead + line + "\n";
}

}  // namespace

std::string PlanText::person(const std::string& name, const std::string& drinking) {
  const std::string observed =
      drinking.empty() ? "" : fmt::format(", observed: {{drinking: {}, meals: 3}}", drinking);
  return fmt::format("{{name: {}, mass: 70 kg, height: 172 cm, age: 40, sex: male{}}}", name,
                     observed);
}

std::string PlanText::steady_climate(const std::string& name, double air_c,
                                     const std::string& sun) {
  return climate_of(name, air_c, air_c, "30 %", sun);
}

std::string PlanText::climate_of(const std::string& name, double max_c, double min_c,
                                 const std::string& humidity, const std::string& sun) {
  std::string out = name + ": {";
  for (const char* month : months) {
    out += fmt::format("{}{}: {{max: {} °C, min: {} °C, humidity: {}, wind: 2 m/s, sun: {}}}",
                       month == months.front() ? "" : ", ", month, max_c, min_c, humidity, sun);
  }
  return out + "}";
}

std::string PlanText::place(const std::string& name, const std::string& climate_name,
                            const std::string& supplies) {
  return fmt::format(
      "{}: {{at: {{latitude: 0°, longitude: 0°, elevation: 0 m}}, climate: {}, supplies: {{{}}}}}",
      name, climate_name, supplies);
}

std::string PlanText::text() const {
  std::string out = fmt::format(
      "drystage: 1\ntrip: {{title: A test, start: {}, time_zone: \"{}\", driving: {}{}}}\n", start,
      time_zone, driving, more_of_trip);
  add_lines(out, "", "margins", margins, "");
  add_lines(out, "", "people", people, "- ");
  // Stated drinking scales the model. At rest in air that stays the same, that is the same every
  // hour and every day.
  const bool stated = std::ranges::all_of(people, [](const std::string& person) {
    return person.find("observed: {drinking") != std::string::npos;
  });
  const std::vector<std::string> at_rest{"camp: {}", "on_the_road: {}"};
  add_lines(out, "", "activities", activities.empty() && stated ? at_rest : activities, "");
  out += "water:\n";
  add_lines(out, "  ", "containers", containers, "- ");
  add_lines(out, "  ", "utility_use", utility_use, "");
  add_lines(out, "", "vehicles", vehicles, "- ");
  add_lines(out, "", "cold", cold, "- ");
  add_lines(out, "", "food", food, "- ");
  add_lines(out, "", "consumables", consumables, "- ");
  out += "power:\n";
  add_lines(out, "  ", "batteries", batteries, "- ");
  add_lines(out, "  ", "charging", charging, "- ");
  add_lines(out, "  ", "loads", loads, "- ");
  add_lines(out, "", "climate", climate, "");
  add_lines(out, "", "weather", weather, "- ");
  add_lines(out, "", "places", places, "");
  add_lines(out, "", "itinerary", itinerary, "- ");
  add_lines(out, "", "roads", roads, "- ");
  add_lines(out, "", "mishaps", mishaps, "");
  add_lines(out, "", "uncertainty", uncertainty, "");
  add_lines(out, "", "size", size, "");
  return out;
}

std::string all_but(std::initializer_list<plan::Source> drawn) {
  std::string out;
  for (const auto& word : plan::source_words) {
    if (std::ranges::find(drawn, word.value) != drawn.end()) continue;
    out += (out.empty() ? "" : ", ") + std::string(word.text);
  }
  return "leave_out: [" + out + "]";
}

plan::Plan read_plan(const std::string& text) {
  plan::ReadPlan reading = plan::read_text(text);
  if (reading.plan) return std::move(*reading.plan);
  std::string all;
  for (const plan::Diagnostic& diagnostic : reading.diagnostics) {
    all += plan::render(diagnostic, reading, "plan", false);
  }
  throw std::runtime_error(all + "\n" + text);
}

plan::Plan PlanText::plan() const { return read_plan(text()); }

}  // namespace drystage::support
