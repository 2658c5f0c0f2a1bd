#include "support/ways_home.h"

#include <algorithm>
#include <limits>
#include <utility>
#include <variant>

namespace drystage::support {

plan::Drive turned(plan::Drive drive, int to) {
  drive.leaves = {};
  drive.to = to;
  std::ranges::reverse(drive.surfaces);
  std::swap(drive.climb_m, drive.descent_m);
  drive.kind.headwind_m_s = 0;
  drive.back.reset();
  return drive;
}

plan::Drive way_home(const plan::Drive& drive, int to) {
  plan::Drive home = turned(drive, to);
  if (!drive.back) return home;
  home.distance_km = drive.back->distance_km;
  home.surfaces = drive.back->surfaces;
  home.climb_m = drive.back->climb_m;
  home.descent_m = drive.back->descent_m;
  home.kind = drive.back->kind;
  return home;
}

std::optional<plan::Resupply> limited_stop(const plan::Plan& plan, int place) {
  using plan::Commodity;
  plan::Resupply stop;
  if (place < 0 || static_cast<std::size_t>(place) >= plan.places.size()) return std::nullopt;
  for (const plan::Supply& supply : plan.places[static_cast<std::size_t>(place)].supplies) {
    const Commodity what = supply.commodity;
    if (!supply.most || !supply.confirmed || what == Commodity::mains || what == Commodity::ice) {
      continue;
    }
    if (supply.quality == plan::WaterQuality::brackish) continue;
    std::vector<int> burners;
    for (int v = 0; v < static_cast<int>(plan.vehicles.size()); ++v) {
      const plan::Vehicle& vehicle = plan.vehicles[static_cast<std::size_t>(v)];
      const Commodity burns =
          vehicle.fuel == plan::FuelKind::diesel ? Commodity::diesel : Commodity::petrol;
      if (burns == what) burners.push_back(v);
    }
    if (burners.empty()) {
      if (what == Commodity::diesel || what == Commodity::petrol) continue;
      stop.orders.push_back(
          {.commodity = what, .take = plan::Take::amount, .amount = *supply.most, .vehicle = {}});
    }
    for (const double share : {1.0 / std::max(1.0, static_cast<double>(burners.size())), 1.0}) {
      for (const int v : burners) {
        stop.orders.push_back({.commodity = what,
                               .take = plan::Take::amount,
                               .amount = share * *supply.most,
                               .vehicle = v});
      }
    }
  }
  if (stop.orders.empty()) return std::nullopt;
  return stop;
}

std::vector<plan::ItineraryItem> with_limited_stops(const plan::Plan& plan, int from,
                                                    const std::vector<plan::Drive>& drives) {
  std::vector<plan::ItineraryItem> out;
  const auto call_at = [&](int place) {
    if (const auto stop = limited_stop(plan, place)) out.emplace_back(*stop);
  };
  call_at(from);
  for (const plan::Drive& drive : drives) {
    out.emplace_back(drive);
    call_at(drive.to);
  }
  return out;
}

double km(const std::vector<plan::Drive>& drives) {
  double sum = 0;
  for (const plan::Drive& drive : drives) sum += drive.distance_km;
  return sum;
}

KnownRoads::KnownRoads(const plan::Plan& plan, int first, int end, int shut_from, int shut_to) {
  if (!plan.roads.empty()) first = 0;
  int place = std::get<plan::At>(plan.itinerary.front()).place;
  int leg = 0;
  for (const plan::ItineraryItem& item : plan.itinerary) {
    const auto* drive = std::get_if<plan::Drive>(&item);
    if (drive == nullptr) continue;
    if (leg >= first && leg < end) {
      roads_.push_back({.from = drive->to, .drive = way_home(*drive, place)});
      roads_.push_back({.from = place, .drive = *drive});
      roads_.back().drive.back.reset();
    }
    place = drive->to;
    ++leg;
  }
  std::erase_if(
      roads_, [&](const Road& road) { return road.from == shut_from && road.drive.to == shut_to; });
  for (const plan::Road& road : plan.roads) {
    roads_.push_back({.from = road.from, .drive = road.drive});
    if (!road.one_way) {
      roads_.push_back({.from = road.drive.to, .drive = turned(road.drive, road.from)});
    }
  }
}

/// Every way from a place, one after the other.
struct KnownRoads::Search {
  static constexpr double slight_km = 1e-9;

  const std::vector<Road>& roads;
  int to;
  std::vector<int> passed{};
  std::vector<plan::Drive> way{};
  std::optional<std::vector<plan::Drive>> best{};
  double best_km = std::numeric_limits<double>::infinity();

  void go_on(int place, double gone_km) {
    if (gone_km > best_km - slight_km) return;
    if (place == to) {
      best = way;
      best_km = gone_km;
      return;
    }
    passed.push_back(place);
    for (const Road& road : roads) {
      if (road.from != place || std::ranges::find(passed, road.drive.to) != passed.end()) continue;
      way.push_back(road.drive);
      go_on(road.drive.to, gone_km + road.drive.distance_km);
      way.pop_back();
    }
    passed.pop_back();
  }
};

std::optional<std::vector<plan::Drive>> KnownRoads::shortest(int from, int to) const {
  Search search{.roads = roads_, .to = to};
  search.go_on(from, 0);
  return std::move(search.best);
}

}  // namespace drystage::support
