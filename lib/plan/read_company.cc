#include <fmt/core.h>

#include <algorithm>
#include <cctype>
#include <string>
#include <vector>

#include "plan/fields.h"
#include "plan/sections.h"
#include "plan/word_lists.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

// The places that the itinerary comes to, in order; the first is where it begins.
std::vector<int> places_in_order(const Plan& plan) {
  std::vector<int> made;
  for (const ItineraryItem& item : plan.itinerary) {
    if (const auto* start = std::get_if<At>(&item); start != nullptr && made.empty()) {
      made.push_back(start->place);
    }
    if (const auto* drive = std::get_if<Drive>(&item)) made.push_back(drive->to);
  }
  return made;
}

class CompanyReader {
 public:
  CompanyReader(Log& log, Plan& plan) : log_(log), plan_(plan), way_(places_in_order(plan)) {}

  void read(const Node& people, const Node& vehicles) {
    // The lists were read in full, so that each node has its person or vehicle.
    for (std::size_t v = 0; v < plan_.vehicles.size(); ++v) {
      plan_.vehicles[v].along = read_along(vehicles.items[v], plan_.vehicles[v].name);
    }
    for (std::size_t p = 0; p < plan_.people.size(); ++p) {
      Person& person = plan_.people[p];
      person.along = read_along(people.items[p], person.name);
      if (at(person.vehicle) >= plan_.vehicles.size()) continue;
      const Along& ride = plan_.vehicles[at(person.vehicle)].along;
      if (!person.along.from.is_said()) person.along.from = ride.from;
      if (!person.along.until.is_said()) person.along.until = ride.until;
    }
    check_somebody_stays();
    check_own(vehicles);
    for (std::size_t v = 0; v < plan_.vehicles.size(); ++v) check_water(static_cast<int>(v));
    check_left();
  }

 private:
  Along read_along(const Node& node, const std::string& name) {
    Along made;
    const Node* from = node.find("from");
    const Node* until = node.find("until");
    if (from != nullptr) made.from = read_moment(*from, "from");
    if (until != nullptr) made.until = read_moment(*until, "until");
    if (made.from.day >= 0 && made.until.day >= 0 && made.until.day < made.from.day) {
      log_.error(until->origin,
                 fmt::format("{} goes home on day {} and comes along from day {}",
                             units::in_quotes(name), until->text, from->text),
                 "until the same day or a later one");
    }
    if (made.until.place >= 0) check_comes_there(made, *until, name);
    return made;
  }

  Moment read_moment(const Node& node, std::string_view key) {
    Moment made;
    made.mark = node.origin.mark;
    const auto text = read_text(log_, node, key);
    if (!text) return made;
    const bool is_number =
        std::ranges::all_of(*text, [](unsigned char c) { return std::isdigit(c) != 0; });
    if (is_number) {
      const auto day = read_whole_number(log_, node, "changes.day", key);
      made.day = day.value_or(1) - 1;
      return made;
    }
    const std::vector<std::string> names = names_of(plan_.places);
    const auto place = std::ranges::find(names, *text);
    if (place == names.end()) {
      log_.error(node.origin,
                 fmt::format("{}: {} is neither a day nor a place", key, units::in_quotes(*text)),
                 "a day of the trip, counted from 1, or " + one_of(names),
                 did_you_mean(*text, names));
      return made;
    }
    made.place = static_cast<int>(place - names.begin());
    if (std::ranges::find(way_, made.place) == way_.end() && !way_.empty()) {
      log_.error(node.origin,
                 fmt::format("{}: the itinerary never comes to {}", key, units::in_quotes(*text)),
                 "a place that the itinerary comes to, or a day");
    }
    return made;
  }

  // Whoever goes home at a place must come to it once they are there.
  void check_comes_there(const Along& along, const Node& until, const std::string& name) {
    auto joins = way_.begin();
    if (along.from.place >= 0) joins = std::ranges::find(way_, along.from.place);
    if (joins == way_.end()) return;
    if (std::find(joins + 1, way_.end(), along.until.place) != way_.end()) return;
    if (std::ranges::find(way_, along.until.place) == way_.end()) return;
    log_.error(until.origin,
               fmt::format("{} goes home at {}, and the itinerary does not come there {}",
                           units::in_quotes(name), units::in_quotes(until.text),
                           along.from.place >= 0 ? "after they joined" : "after it began"),
               "a place that it comes to later, or a day");
  }

  // The plan is that of somebody who makes the whole trip.
  void check_somebody_stays() {
    const auto all_the_way = [](const auto& one) { return one.along.is_all_the_way(); };
    if (!plan_.people.empty() && std::ranges::none_of(plan_.people, all_the_way)) {
      log_.error({plan_.people.front().mark, {}}, "nobody makes the whole trip",
                 "at least one person without from and until, who rides in a vehicle without them");
    }
    if (!plan_.vehicles.empty() && std::ranges::none_of(plan_.vehicles, all_the_way)) {
      log_.error({plan_.vehicles.front().mark, {}}, "no vehicle makes the whole trip",
                 "at least one vehicle without from and until");
    }
  }

  // What is kept apart is kept from somebody. (Of a kit, whose trip is in no file, that cannot be
  // known.)
  void check_own(const Node& vehicles) {
    if (plan_.trip.mark.file < 0) return;
    for (std::size_t v = 0; v < plan_.vehicles.size(); ++v) {
      const Vehicle& its = plan_.vehicles[v];
      const Node* node = vehicles.items[v].find("own");
      if (node == nullptr || its.own.empty()) continue;
      for (const Stock stock : its.own) {
        const auto keeps = [&](const Vehicle& one) {
          return std::ranges::find(one.own, stock) != one.own.end();
        };
        if (v > 0 || !std::ranges::all_of(plan_.vehicles, keeps)) continue;
        log_.error(node->origin,
                   fmt::format("own: every vehicle has its own {}, so none is common",
                               text_of(stock_words, stock)),
                   "left out for one vehicle: its people use what no other keeps");
      }
    }
  }

  [[nodiscard]] bool has_all_water(int vehicle) const {
    const auto& containers = plan_.water.containers;
    const auto is_in_it = [&](const Container& one) { return one.vehicle == vehicle; };
    return !containers.empty() && std::ranges::all_of(containers, is_in_it);
  }

  void check_water(int vehicle) {
    const Vehicle& its = plan_.vehicles[at(vehicle)];
    if (its.along.is_all_the_way() || !has_all_water(vehicle)) return;
    const bool goes = its.along.until.is_said();
    log_.error({goes ? its.along.until.mark : its.along.from.mark, {}},
               fmt::format("{} {} and carries all the water", units::in_quotes(its.name),
                           goes ? "goes home" : "comes later"),
               "containers of water in a vehicle that makes the whole trip");
  }

  // What is left is picked up again, and somebody has water until then.
  void check_left() {
    std::size_t stop = 0;
    for (const ItineraryItem& item : plan_.itinerary) {
      const auto* drive = std::get_if<Drive>(&item);
      if (drive == nullptr) continue;
      const int begins = way_[std::min(stop++, way_.size() - 1)];
      if (drive->leaves.empty()) continue;
      const bool comes_back = std::find(way_.begin() + static_cast<std::ptrdiff_t>(stop),
                                        way_.end(), begins) != way_.end();
      if (!comes_back) {
        log_.error({drive->mark, {}},
                   fmt::format("the drive leaves things at {}, and the itinerary does not come "
                               "there again",
                               units::in_quotes(plan_.places[at(begins)].name)),
                   "an itinerary that comes back for them; a vehicle that goes home has until: "
                   "there");
      }
      for (const int vehicle : drive->leaves.vehicles) {
        if (!has_all_water(vehicle)) continue;
        log_.error({drive->mark, {}},
                   fmt::format("{} stays behind with all the water",
                               units::in_quotes(plan_.vehicles[at(vehicle)].name)),
                   "containers of water in the vehicle that drives");
      }
    }
  }

  Log& log_;
  Plan& plan_;
  std::vector<int> way_;
};

}  // namespace

void read_company(Log& log, const Node& people, const Node& vehicles, Plan& plan) {
  const bool as_read =
      people.items.size() == plan.people.size() && vehicles.items.size() == plan.vehicles.size();
  if (as_read) CompanyReader(log, plan).read(people, vehicles);
}

}  // namespace drystage::plan
