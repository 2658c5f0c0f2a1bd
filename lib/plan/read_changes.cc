#include <fmt/core.h>

#include <algorithm>
#include <boost/date_time/gregorian/gregorian.hpp>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "plan/commodity.h"
#include "plan/fields.h"
#include "plan/items.h"
#include "plan/itinerary_reader.h"
#include "plan/sections.h"
#include "plan/way_back.h"
#include "units/index.h"
#include "units/text.h"

namespace drystage::plan {
namespace {

// A supply as it is written under `supplies`.
std::string supply_word(const Plan& plan, const Supply& supply) {
  for (const auto& word : commodity_words) {
    if (word.value == supply.commodity) return std::string(word.text);
  }
  return words(plan, supply.commodity);
}

class ChangeReader {
 public:
  ChangeReader(Fields& fields, Plan& plan, bool sound, Change& made)
      : fields_(fields), log_(fields.log()), plan_(plan), sound_(sound), made_(made) {}

  void read() {
    fields_.need("changes.day");
    made_.day = fields_.whole_number_if("changes.day").value_or(1) - 1;
    if (const Node* wait = fields_.get("changes.wait")) {
      made_.wait_days = read_whole_days(log_, *wait, "changes.wait").value_or(0);
    }
    read_stay();
    read_no_supply();
    read_shut();
    read_company();
    for (const Node* lost : one_or_more(log_, fields_.get("changes.lost"), "lost")) {
      read_lost(*lost);
    }
    check_sorts();
  }

 private:
  // Each line says one thing.
  void check_sorts() {
    int said = 0;
    for (const Key key :
         {Key("changes.wait"), Key("changes.stay"), Key("changes.no_supply"), Key("changes.shut"),
          Key("changes.joins"), Key("changes.leaves"), Key("changes.lost")}) {
      said += fields_.get(key) != nullptr ? 1 : 0;
    }
    if (said == 1 || !fields_.usable()) return;
    log_.error(fields_.origin(),
               said == 0 ? "a change that changes nothing" : "several changes in one",
               "wait, stay with nights, no_supply, shut, joins, leaves or lost: one in each item "
               "of the list");
  }

  void read_stay() {
    const Node* stay = fields_.get("changes.stay");
    const Node* nights = fields_.get("changes.nights");
    if (stay == nullptr && nights == nullptr) return;
    fields_.need("changes.stay");
    fields_.need("changes.nights");
    const auto number = fields_.whole_number_if("changes.nights");
    if (stay == nullptr) return;
    const auto place = read_place_name(log_, *stay, plan_);
    if (!place || !number || !sound_) return;
    std::vector<int> there;
    for (int i = 0; i < static_cast<int>(plan_.itinerary.size()); ++i) {
      const bool is_stay = std::holds_alternative<Stay>(plan_.itinerary[at(i)]);
      if (is_stay && place_before(at(i)) == *place) there.push_back(i);
    }
    if (there.size() == 1) {
      made_.stay = there.front();
      made_.nights = *number;
      std::get<Stay>(plan_.itinerary[at(made_.stay)]).nights = *number;
      return;
    }
    log_.error(stay->origin,
               fmt::format("stay: there {} at {}",
                           there.empty() ? std::string("is no stay")
                                         : fmt::format("are {} stays", there.size()),
                           units::in_quotes(stay->text)),
               there.empty() ? "a place with a stay in the itinerary; or wait: 2 days"
                             : "a place with one stay; else change the itinerary itself");
  }

  void read_no_supply() {
    const Node* shut = fields_.get("changes.no_supply");
    const Node* of = fields_.get("changes.of");
    if (shut == nullptr) {
      if (of != nullptr) fields_.need("changes.no_supply");
      return;
    }
    const auto place = read_place_name(log_, *shut, plan_);
    if (!place) return;
    std::vector<Supply>& supplies = plan_.places[at(*place)].supplies;
    std::vector<std::string> known;
    known.reserve(supplies.size());
    for (const Supply& supply : supplies) known.push_back(supply_word(plan_, supply));
    std::vector<std::size_t> meant;
    for (const Node* one : one_or_more(log_, of, "of")) {
      const auto found = std::ranges::find(known, one->text);
      if (found != known.end()) {
        meant.push_back(static_cast<std::size_t>(found - known.begin()));
        continue;
      }
      log_.error(one->origin,
                 fmt::format("of: {} is not to be had at {} anyway", units::in_quotes(one->text),
                             units::in_quotes(shut->text)),
                 known.empty() ? "nothing: that place supplies nothing" : one_of(known));
    }
    if (!sound_) return;
    // For ever, as far as this trip is concerned.
    const Date from = plan_.trip.start + boost::gregorian::days(made_.day);
    const DateRange since{.from = from, .to = from + boost::gregorian::years(100)};
    for (std::size_t s = 0; s < supplies.size(); ++s) {
      const bool is_meant = of == nullptr || std::ranges::find(meant, s) != meant.end();
      if (is_meant) supplies[s].shut_dates.push_back(since);
    }
  }

  void read_company() {
    if (const Node* joins = fields_.get("changes.joins")) read_who(*joins, &Along::from);
    if (const Node* leaves = fields_.get("changes.leaves")) read_who(*leaves, &Along::until);
  }

  // A person; or a vehicle, with those who ride in it.
  void read_who(const Node& node, Moment Along::*when) {
    std::vector<std::string> names = names_of(plan_.people);
    const std::size_t people = names.size();
    for (const Vehicle& vehicle : plan_.vehicles) names.push_back(vehicle.name);
    const auto who = read_reference(log_, node, "person or vehicle", names);
    if (!who) return;
    const Moment now{.day = made_.day, .mark = made_.mark};
    if (at(*who) < people) {
      plan_.people[at(*who)].along.*when = now;
      return;
    }
    const int vehicle = *who - static_cast<int>(people);
    plan_.vehicles[at(vehicle)].along.*when = now;
    for (Person& person : plan_.people) {
      if (person.vehicle == vehicle) person.along.*when = now;
    }
    const auto drives = [](const Vehicle& one) { return one.along.is_all_the_way(); };
    if (sound_ && std::ranges::none_of(plan_.vehicles, drives)) {
      log_.error(node.origin,
                 fmt::format("{} is the last vehicle that makes the whole trip",
                             units::in_quotes(node.text)),
                 "another vehicle that stays to the end");
    }
  }

  // The drive there goes by another road, or the trip turns back.
  void read_shut() {
    const Node* shut = fields_.get("changes.shut");
    if (shut == nullptr) return;
    const auto place = read_place_name(log_, *shut, plan_);
    if (!place || !sound_) return;
    std::vector<std::size_t> drives;
    for (std::size_t i = 0; i < plan_.itinerary.size(); ++i) {
      const auto* drive = std::get_if<Drive>(&plan_.itinerary[i]);
      if (drive != nullptr && drive->to == *place) drives.push_back(i);
    }
    if (drives.size() != 1) {
      log_.error(shut->origin,
                 fmt::format("shut: there {} to {}",
                             drives.empty() ? std::string("is no drive")
                                            : fmt::format("are {} drives", drives.size()),
                             units::in_quotes(shut->text)),
                 drives.empty() ? "a place that the itinerary drives to"
                                : "a place with one drive to it; else change the itinerary itself");
      return;
    }
    const std::size_t item = drives.front();
    const int from = place_before(item);
    auto& drive = std::get<Drive>(plan_.itinerary[item]);
    if (const auto other = shortest_road(from, drive.to)) {
      const auto activity = drive.activity;
      drive = *other;
      drive.activity = activity;
      drive.off_itinerary = false;
    } else {
      turn_back_before(item);
    }
  }

  [[nodiscard]] int place_before(std::size_t item) const {
    int here = 0;
    for (std::size_t i = 0; i < item; ++i) {
      if (const auto* begin = std::get_if<At>(&plan_.itinerary[i])) here = begin->place;
      if (const auto* drive = std::get_if<Drive>(&plan_.itinerary[i])) here = drive->to;
    }
    return here;
  }

  [[nodiscard]] std::optional<Drive> shortest_road(int from, int to) const {
    std::optional<Drive> best;
    for (const Road& road : plan_.roads) {
      const bool there = road.from == from && road.drive.to == to;
      const bool back = road.from == to && road.drive.to == from && !road.one_way;
      if (!there && !back) continue;
      if (best && best->distance_km <= road.drive.distance_km) continue;
      best = there ? road.drive : reversed(road.drive, road.from);
    }
    return best;
  }

  // Home by the way that was come. Where the plan stopped on arrival, it stops again.
  void turn_back_before(std::size_t item) {
    std::vector<ItineraryItem> home;
    for (std::size_t i = item; i-- > 0;) {
      const auto* drive = std::get_if<Drive>(&plan_.itinerary[i]);
      if (drive == nullptr) continue;
      const int from = place_before(i);
      home.emplace_back(way_back(*drive, from));
      for (const ItineraryItem& stop : stops_on_arrival(i)) home.push_back(stop);
    }
    plan_.itinerary.resize(item, ItineraryItem{At{}});
    plan_.itinerary.insert(plan_.itinerary.end(), home.begin(), home.end());
  }

  // Those at the place where drive `item` begins, made before it.
  [[nodiscard]] std::vector<ItineraryItem> stops_on_arrival(std::size_t item) const {
    std::vector<ItineraryItem> out;
    for (std::size_t i = item; i-- > 0 && !std::holds_alternative<Drive>(plan_.itinerary[i]);) {
      if (std::holds_alternative<Resupply>(plan_.itinerary[i])) {
        out.insert(out.begin(), plan_.itinerary[i]);
      }
    }
    return out;
  }

  void read_lost(const Node& node) {
    std::vector<Item> items = items_of(plan_);
    std::erase_if(items, [](const Item& item) {
      return item.sort != Item::Sort::container && item.sort != Item::Sort::tank &&
             item.sort != Item::Sort::store;
    });
    const auto item = read_item(log_, node, "lost", Key("changes.lost")->value.of, items);
    if (!item) return;
    if (item->sort == Item::Sort::container) {
      made_.containers.push_back(item->index);
    } else if (item->sort == Item::Sort::tank) {
      made_.tanks.push_back({item->of, item->index});
    } else {
      made_.stores.push_back({item->of, item->index});
    }
  }

  Fields& fields_;
  Log& log_;
  Plan& plan_;
  bool sound_;
  Change& made_;
};

}  // namespace

void read_changes(Log& log, const Node& node, Plan& plan) {
  const std::vector<Node>& items = list_items(log, node, "changes");
  if (!items.empty()) plan.as_planned = std::make_shared<const Plan>(plan);
  const bool sound = log.errors() == 0;
  for (const Node& item : items) {
    Change made;
    made.mark = item.origin.mark;
    Fields fields(log, item, "a change");
    ChangeReader(fields, plan, sound, made).read();
    fields.finish();
    plan.changes.push_back(std::move(made));
  }
}

}  // namespace drystage::plan
