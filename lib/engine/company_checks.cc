#include "engine/company_checks.h"

#include <fmt/core.h>

#include <algorithm>
#include <string>

#include "plan/own.h"
#include "units/format.h"
#include "units/index.h"
#include "units/text.h"

namespace drystage::engine {
namespace {

// A reading is good to so much.
constexpr double reading_l = 0.5;

class Checks {
 public:
  Checks(const plan::Plan& plan, const Calendar& calendar) : plan_(plan), calendar_(calendar) {}

  std::vector<plan::Diagnostic> find() {
    if (plan_.as_planned == nullptr) {
      check_days();
      check_goes_home();
      check_drives();
    }
    for (const plan::Reading& reading : plan_.readings) check_reading(reading);
    return std::move(out_);
  }

 private:
  void add(const plan::Mark& mark, std::string what, std::string expected) {
    out_.push_back({.mark = mark, .what = std::move(what), .expected = std::move(expected)});
  }

  void check_days() {
    const int days = static_cast<int>(calendar_.days.size());
    const auto check = [&](const std::string& name, const plan::Along& along) {
      for (const plan::Moment& moment : {along.from, along.until}) {
        if (moment.day < days) continue;
        add(moment.mark,
            fmt::format("{}: day {}, but the trip has {} days", units::in_quotes(name),
                        moment.day + 1, days),
            fmt::format("a day from 1 to {}", days));
      }
    };
    for (const plan::Vehicle& vehicle : plan_.vehicles) check(vehicle.name, vehicle.along);
    for (const plan::Person& person : plan_.people) {
      const auto same = [&](const plan::Vehicle& vehicle) { return vehicle.along == person.along; };
      if (std::ranges::none_of(plan_.vehicles, same)) check(person.name, person.along);
    }
  }

  /// Who is to go home at a place must be with the party there.
  void check_goes_home() {
    for (std::size_t v = 0; v < plan_.vehicles.size(); ++v) {
      const plan::Moment& until = plan_.vehicles[v].along.until;
      if (until.place < 0 || calendar_.companies.back().parted[v] != 0) continue;
      add(until.mark,
          fmt::format("{} is not with the party when that comes to {}",
                      units::in_quotes(plan_.vehicles[v].name),
                      units::in_quotes(plan_.places[at(until.place)].name)),
          "a place that it comes to, once it has joined, and where it is not left standing");
    }
  }

  void check_drives() {
    if (plan_.vehicles.empty()) return;
    for (const TimeStep& step : calendar_.steps) {
      if (step.drive < 0) continue;
      const std::vector<char>& drives = calendar_.companies[at(step.company)].vehicles;
      if (std::ranges::find(drives, 1) != drives.end()) continue;
      const int item = calendar_.legs[at(step.leg)].item;
      add(std::get<plan::Drive>(plan_.itinerary[at(item)]).mark,
          fmt::format("on day {} the party drives, and no vehicle is with it", step.day + 1),
          "a vehicle that has joined, and is not left standing");
      return;
    }
  }

  void check_reading(const plan::Reading& reading) {
    const std::size_t step = std::min(step_of(reading, calendar_), calendar_.steps.size() - 1);
    const Company& company = calendar_.companies[at(calendar_.steps[step].company)];
    const bool all_common = std::ranges::all_of(
        plan_.vehicles, [](const plan::Vehicle& vehicle) { return vehicle.own.empty(); });
    if (calendar_.companies.size() == 1 && all_common) return;
    const auto drives = [&](int vehicle) {
      return at(vehicle) >= company.vehicles.size() || company.vehicles[at(vehicle)] != 0;
    };
    for (const plan::FuelFound& fuel : reading.fuel) {
      if (!drives(fuel.vehicle)) refuse_fuel(reading, fuel.vehicle);
    }
    for (const plan::TankFound& found : reading.tanks) {
      if (!drives(found.tank.vehicle)) refuse_fuel(reading, found.tank.vehicle);
    }
    for (const auto use : {plan::WaterUse::drinking, plan::WaterUse::utility}) {
      const bool drinking = use == plan::WaterUse::drinking;
      const std::optional<double>& found_l = drinking ? reading.drinking_l : reading.utility_l;
      double room_l = 0;
      for (std::size_t c = 0; c < plan_.water.containers.size(); ++c) {
        const plan::Container& can = plan_.water.containers[c];
        const bool here = drives(can.vehicle) && !is_left(company, static_cast<int>(c));
        const bool common = plan::owner_of(plan_, can.vehicle, plan::Stock::water) < 0;
        if (can.use == use && here && common) room_l += can.holds_l;
      }
      if (found_l && *found_l > room_l + reading_l) {
        add(reading.mark,
            fmt::format("{}: {:.0f} L, but what is with you then holds {:.0f} L",
                        drinking ? "drinking" : "utility", *found_l, room_l),
            "what is with you and common: not what stands elsewhere, goes home, or is a vehicle's "
            "own");
      }
    }
  }

  void refuse_fuel(const plan::Reading& reading, int vehicle) {
    add(reading.mark,
        fmt::format("fuel: {} is not with you then",
                    units::in_quotes(plan_.vehicles[at(vehicle)].name)),
        "readings of what is with you");
  }

  [[nodiscard]] bool is_left(const Company& company, int container) const {
    return std::ranges::any_of(company.left_by, [&](int drive) {
      const plan::Things& left = std::get<plan::Drive>(plan_.itinerary[at(drive)]).leaves;
      return std::ranges::find(left.containers, container) != left.containers.end();
    });
  }

  const plan::Plan& plan_;
  const Calendar& calendar_;
  std::vector<plan::Diagnostic> out_;
};

}  // namespace

std::vector<plan::Diagnostic> company_problems(const plan::Plan& plan, const Calendar& calendar) {
  return Checks(plan, calendar).find();
}

}  // namespace drystage::engine
