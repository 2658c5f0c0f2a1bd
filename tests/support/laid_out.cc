#include "support/laid_out.h"

#include <algorithm>
#include <filesystem>
#include <stdexcept>
#include <utility>

#include "plan/read.h"

namespace drystage::support {

double total_km(const std::vector<engine::Segment>& segments) {
  double km = 0;
  for (const engine::Segment& segment : segments) km += segment.distance_km;
  return km;
}

double driven_by_km(const engine::Schedule& schedule, double hour) {
  double km = 0;
  for (const engine::Segment& segment : schedule.segments) {
    const double whole_h = ends_h(segment) - begins_h(segment);
    if (whole_h <= 0) continue;
    const double share = std::clamp((hour - begins_h(segment)) / whole_h, 0.0, 1.0);
    km += segment.distance_km * share;
  }
  return km;
}

double arrives_h(const engine::Schedule& schedule) {
  double hour = -1;
  for (const engine::Segment& segment : schedule.segments) {
    if (segment.drive >= 0) hour = std::max(hour, ends_h(segment));
  }
  return hour;
}

engine::Timeline lay(const plan::Plan& plan, std::vector<engine::Detour> detours) {
  return engine::lay_timeline(plan, engine::Layout{.detours = std::move(detours)});
}

Trip travel_with(const plan::Plan& plan, std::vector<engine::Detour> detours) {
  auto timeline = std::make_shared<const engine::Timeline>(lay(plan, std::move(detours)));
  return {answers::run_plan(plan, std::move(timeline))};
}

PlanText one_leg(const std::string& driving) {
  PlanText plan;
  plan.driving = driving;
  plan.places = {PlanText::place("Base", "air"), PlanText::place("There", "air")};
  plan.itinerary = {"{at: Base}",
                    "drive: {to: There, distance: 400 km, surfaces: sealed, speed: 100 km/h}",
                    "stay: {nights: 2}"};
  return plan;
}

std::vector<plan::Plan> all_scenarios() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(DRYSTAGE_SCENARIOS)) {
    if (entry.path().extension() == ".yaml") files.push_back(entry.path());
  }
  std::ranges::sort(files);
  std::vector<plan::Plan> plans;
  for (const std::filesystem::path& file : files) {
    plan::ReadPlan reading = plan::read_file(file);
    if (!reading.plan) throw std::runtime_error(file.string() + " cannot be read");
    plans.push_back(std::move(*reading.plan));
  }
  return plans;
}

}  // namespace drystage::support
