#include "start/kit.h"

#include <fmt/core.h>

#include <algorithm>

#include "plan/word_lists.h"
#include "units/format.h"

namespace drystage::start {
namespace {

/// How it is reached from the plan; as it was given, if that was from the root.
std::string path_from(const std::filesystem::path& plan_file, const std::filesystem::path& file) {
  if (file.is_absolute()) return file.string();
  const std::filesystem::path folder =
      std::filesystem::relative(std::filesystem::absolute(file).parent_path(),
                                std::filesystem::absolute(plan_file).parent_path());
  return (folder / file.filename()).lexically_normal().string();
}

Answer volume_of(const plan::Water& water, plan::WaterUse use) {
  double sum_l = 0;
  for (const plan::Container& container : water.containers) {
    if (container.use == use) sum_l += container.filled_l;
  }
  return {.text = units::format(sum_l, units::Kind::volume), .number = sum_l};
}

}  // namespace

Kit kit_of(const plan::ReadPlan& reading, const std::filesystem::path& file,
           const std::filesystem::path& plan_file) {
  const plan::Plan& plan = reading.plan.value();
  Kit kit{
      .include = path_from(plan_file, file), .plan_file = plan_file, .sections = reading.sections};
  std::erase(kit.sections, "drystage");
  for (const plan::Vehicle& vehicle : plan.vehicles) {
    const std::string fuel(plan::text_of(plan::fuel_words, vehicle.fuel));
    if (std::ranges::find(kit.fuels, fuel) == kit.fuels.end()) kit.fuels.push_back(fuel);
  }
  if (kit.has("people")) {
    const auto count = plan.people.size();
    kit.known["people"] = {.text = fmt::format("{}", count), .number = static_cast<double>(count)};
  }
  if (kit.has("water")) {
    kit.known["drinking"] = volume_of(plan.water, plan::WaterUse::drinking);
    kit.known["utility"] = volume_of(plan.water, plan::WaterUse::utility);
  }
  return kit;
}

}  // namespace drystage::start
