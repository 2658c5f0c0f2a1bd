#include "support/size_of.h"

#include <algorithm>
#include <stdexcept>

#include "support/trip.h"

namespace drystage::support {

plan::Plan with_sections(const PlanText& plan, const std::string& sections) {
  return read_plan(plan.text() + sections + "\n");
}

answers::Sizing size_of(const plan::Plan& plan, const answers::SizeOptions& options) {
  return answers::size_plan(travel(plan), options);
}

answers::Sizing size_of(const PlanText& plan, const std::string& sections,
                        const answers::SizeOptions& options) {
  return size_of(with_sections(plan, sections), options);
}

const answers::SizedPlan& found(const answers::Sizing& sizing) {
  if (sizing.found) return *sizing.found;
  throw std::runtime_error(sizing.miss ? "nothing on offer is enough" : "nothing was found");
}

const answers::SizedLine& line_of(const answers::SizedPlan& set, const std::string& one) {
  const auto at = std::ranges::find(set.lines, one, &answers::SizedLine::one);
  if (at != set.lines.end()) return *at;
  std::string all;
  for (const answers::SizedLine& each : set.lines) all += "\n  " + each.one;
  throw std::runtime_error("there is no line '" + one + "' among:" + all);
}

double taken(const answers::Sizing& sizing, const std::string& one) {
  const std::vector<answers::SizedLine>& lines = found(sizing).lines;
  const auto at = std::ranges::find(lines, one, &answers::SizedLine::one);
  return at == lines.end() ? 0 : at->amount;
}

std::vector<std::string> container_names(const plan::Plan& plan) {
  std::vector<std::string> names;
  for (const plan::Container& container : plan.water.containers) names.push_back(container.name);
  return names;
}

std::vector<std::string> tank_names(const plan::Plan& plan, int vehicle) {
  std::vector<std::string> names;
  for (const plan::Tank& tank : plan.vehicles.at(static_cast<std::size_t>(vehicle)).tanks) {
    names.push_back(tank.name);
  }
  return names;
}

}  // namespace drystage::support
