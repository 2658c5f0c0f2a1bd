// Random plans in random layouts, and every shipped scenario, with random changes.
#include <fmt/core.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <string>
#include <vector>

#include "plan/log.h"
#include "plan/read.h"
#include "plan/rewrite.h"
#include "plan/same_plan.h"
#include "plan/tree.h"
#include "support/plan_text.h"
#include "support/richer_plan.h"

namespace drystage::plan {
namespace {

using std::string;
using support::Pick;
using support::PlanText;
using support::read_plan;

// Writes the lists of a plan's text in a random layout, with a comment wherever one may stand.
class Writer {
 public:
  explicit Writer(const Pick& pick) : pick_(pick) {}

  // Comments that stay unless the thing of that name goes; "" stays always.
  std::vector<std::pair<string, string>> comments;

  // A list under a key; `items` are maps in braces on one line.
  string list(const string& key, const std::vector<string>& items, std::size_t indent) {
    if (items.empty()) return pick_(1, 2) == 1 ? "" : string(indent, ' ') + key + ":" + end("");
    const int form = pick_(1, 4);
    if (form == 1) return in_brackets(key, items, indent);
    string out = string(indent, ' ') + key + ":" + end("");
    const std::size_t dash = indent + (form == 2 ? 0 : 2);
    for (const string& item : items) {
      out += between(dash) + string(dash, ' ') + "-" + string(pick_(1, 3) == 1 ? 3U : 1U, ' ');
      const std::size_t column = out.size() - out.rfind('\n') - 1;
      out += pick_(1, 2) == 1 ? in_braces(item, column) : in_block(item, column);
    }
    return out;
  }

  // The end of a line, perhaps with a comment.
  string end(const string& owner) {
    return pick_(1, 3) == 1 ? "   " + comment(owner) + "\n" : "\n";
  }

  // Perhaps a blank line, perhaps a line of comment.
  string between(std::size_t indent) {
    string out;
    if (pick_(1, 5) == 1) out += "\n";
    if (pick_(1, 5) == 1) out += string(indent, ' ') + comment("") + "\n";
    return out;
  }

  static string name_of(const string& item) {
    const std::size_t at = item.find(": ") + 2;
    return item.substr(at, item.find_first_of(",}", at) - at);
  }

 private:
  string comment(const string& owner) {
    constexpr std::array odd{"it's", "} ]", "- a: {b", "\"quoted", "ü: [", "# #"};
    string made =
        fmt::format("# c{} {}", comments.size(), odd.at(static_cast<std::size_t>(pick_(0, 5))));
    comments.emplace_back(owner, made);
    return made;
  }

  // The members of a map in braces.
  static std::vector<string> members(const string& item) {
    std::vector<string> made(1);
    int depth = 0;
    for (std::size_t i = 1; i + 1 < item.size(); ++i) {
      const char c = item[i];
      if (c == '{' || c == '[') ++depth;
      if (c == '}' || c == ']') --depth;
      if (c == ',' && depth == 0) {
        made.emplace_back();
        ++i;
      } else {
        made.back() += c;
      }
    }
    return made;
  }

  // Without the tanks of a vehicle, which have a layout of their own.
  string member(const string& text, std::size_t column) {
    if (!text.starts_with("tanks: [")) return string(column, ' ') + text + end("");
    std::vector<string> tanks = members(text.substr(7) + "]");
    for (string& tank : tanks) {
      while (tank.ends_with(']')) tank.pop_back();
    }
    return list("tanks", tanks, column);
  }

  // A key with a map in braces, each of its members perhaps on a line of its own.
  string deep(const string& text, std::size_t column, const string& owner) {
    const std::size_t brace = text.find('{');
    if (brace == string::npos || pick_(1, 3) == 1) return string(column, ' ') + text + end(owner);
    string out = string(column, ' ') + text.substr(0, brace - 1) + end(owner);
    for (const string& one : members(text.substr(brace))) out += deep(one, column + 2, owner);
    return out;
  }

  string in_block(const string& item, std::size_t column) {
    string out;
    const string owner = name_of(item);
    for (const string& one : members(item)) {
      const bool is_first = out.empty();
      const bool is_tanks = one.starts_with("tanks: [");
      const bool is_deep = one.starts_with("shape: {") || one.starts_with("dip: {");
      string line = is_tanks  ? member(one, column)
                    : is_deep ? deep(one, column, owner)
                              : string(column, ' ') + one + end(owner);
      out += is_first ? line.substr(column) : line;
    }
    return out;
  }

  string in_braces(const string& item, std::size_t column) {
    if (pick_(1, 2) == 1) return item + end(name_of(item));
    string out = "{";
    for (const string& one : members(item)) {
      if (out.size() > 1) {
        out += pick_(1, 3) == 1 ? "," + end(name_of(item)) + string(column + 1, ' ') : ", ";
      }
      out += one;
    }
    return out + "}" + end(name_of(item));
  }

  string in_brackets(const string& key, const std::vector<string>& items, std::size_t indent) {
    const bool on_lines = pick_(1, 2) == 1;
    const bool comma_at_end = pick_(1, 3) == 1;
    string out = string(indent, ' ') + key + ": [" + (on_lines ? end("") : "");
    for (std::size_t i = 0; i < items.size(); ++i) {
      const bool is_last = i + 1 == items.size();
      if (on_lines) out += between(indent + 4) + string(indent + 4, ' ');
      out += items[i] + (is_last && !comma_at_end ? "" : ",");
      out += on_lines ? end(name_of(items[i])) : is_last ? "" : " ";
    }
    return out + (on_lines ? string(indent + 1, ' ') : "") + "]" + end("");
  }

  const Pick& pick_;
};

// An item of an itinerary without what it leaves behind: that may go too.
string without_leaves(string item) {
  const std::size_t begin = item.find(", leaves: ");
  if (begin == string::npos) return item;
  const std::size_t value = begin + string(", leaves: ").size();
  const std::size_t end =
      item[value] == '[' ? item.find(']', value) + 1 : item.find_first_of(",}", value);
  return item.erase(begin, end - begin);
}

// The text of a random plan, in a random layout; without mishaps and sizes, which name things that
// may go.
string laid_out(PlanText plan, Writer& writer, const Pick& pick) {
  for (string& can : plan.containers) can.replace(can.find("can"), 3, "kannu á");
  for (string& vehicle : plan.vehicles) {
    const std::size_t can = vehicle.find("levels: {can");
    if (can != string::npos) vehicle.replace(can + 9, 3, "kannu á");
  }
  for (string& item : plan.itinerary) {
    item = without_leaves(item);
    if (!item.starts_with('{')) item = "{" + item + "}";
  }
  string out = fmt::format(
      "drystage: 1{}trip: {{title: A test, start: {}, time_zone: \"{}\", driving: {}{}}}\n",
      writer.end(""), plan.start, plan.time_zone, plan.driving, plan.more_of_trip);
  const auto map = [&](const string& key, const std::vector<string>& entries, std::size_t indent) {
    if (entries.empty()) return string();
    string text = string(indent, ' ') + key + ":" + writer.end("");
    for (const string& entry : entries) text += string(indent + 2, ' ') + entry + writer.end("");
    return text;
  };
  const auto section = [&](const string& key, const string& inside) {
    if (inside.empty() && pick(1, 2) == 1) return string();
    return writer.between(0) + key + ":" + writer.end("") + inside;
  };
  out += map("margins", plan.margins, 0);
  out += writer.list("people", plan.people, 0);
  out += map("activities", plan.activities, 0);
  out += section("water", writer.list("containers", plan.containers, 2) +
                              map("utility_use", plan.utility_use, 2));
  out += writer.between(0) + writer.list("vehicles", plan.vehicles, 0);
  out += writer.between(0) + writer.list("cold", plan.cold, 0);
  out += writer.between(0) + writer.list("food", plan.food, 0);
  out += writer.between(0) + writer.list("consumables", plan.consumables, 0);
  out += section("power", writer.list("batteries", plan.batteries, 2) +
                              writer.list("charging", plan.charging, 2) +
                              writer.list("loads", plan.loads, 2));
  out += map("climate", plan.climate, 0) + writer.list("weather", plan.weather, 0);
  out += map("places", plan.places, 0) + writer.list("itinerary", plan.itinerary, 0);
  if (pick(1, 4) == 1) out.pop_back();
  if (pick(1, 4) == 1) {
    for (std::size_t at = 0; (at = out.find('\n', at)) != string::npos; at += 2) {
      out.insert(at, "\r");
    }
  }
  return (pick(1, 4) == 1 ? "\xEF\xBB\xBF" : "") + out;
}

// Random changes of what `rewrite` may change. Remembers the names of what goes.
class Changer {
 public:
  explicit Changer(const Pick& pick) : pick_(pick) {}

  std::vector<string> gone;
  std::vector<string>
      unmeasured;  // vessels that lost their shape or dip marks, and comments with them

  void change(Plan& plan) {
    for (const Vehicle& vehicle : plan.vehicles) {
      for (const Ticket& ticket : vehicle.tickets) {
        for (const Ticket::With& thing : ticket.with) weighed_.push_back(thing.name);
      }
    }
    change_vessels(plan.water.containers, [&](const Container& one) {
      // Somebody may take on water of this sort.
      return std::count_if(plan.water.containers.begin(), plan.water.containers.end(),
                           [&](const Container& other) { return other.use == one.use; }) > 1;
    });
    for (Vehicle& vehicle : plan.vehicles) {
      change_vessels(vehicle.tanks, [&](const Tank&) { return vehicle.tanks.size() > 1; });
      for (Tank& tank : vehicle.tanks) {
        if (tank.holds_l < tank.unusable_l) lose_gauge(tank);
        tank.holds_l = std::max(tank.holds_l, tank.unusable_l);
      }
    }
    change_food(plan);
    for (Consumable& consumable : plan.consumables) change_stores(consumable.stores);
    for (Bank& bank : plan.power.banks) change_bank(bank);
    for (Charger& charger : plan.power.chargers) {
      if (charger.kind != ChargerKind::solar) continue;
      perhaps(charger.power_w);
      perhaps(charger.mass_kg);
    }
    if (!plan.power.banks.empty() && pick_(1, 2) == 1) {
      const int bank = pick_(0, static_cast<int>(plan.power.banks.size()) - 1);
      Charger panel = solar_panel(new_name(), bank, amount());
      panel.mass_kg = amount();
      plan.power.chargers.push_back(panel);
    }
    for (Cabinet& cabinet : plan.cold) change_cabinet(cabinet);
  }

 private:
  double amount() { return pick_(1, 2) == 1 ? pick_(1, 200) : pick_(35, 20000) / 70.0; }

  void perhaps(double& value) {
    if (pick_(1, 3) == 1) value = amount();
  }

  string new_name() {
    constexpr std::array names{"can: {}", "#{}", "new {}",     "'{}'",
                               "ü{}",     "{}",  "yes {}, no", "[{}"};
    return fmt::format(fmt::runtime(names.at(static_cast<std::size_t>(pick_(0, 7)))), ++names_);
  }

  template <class Things, class MayGo>
  void take_out(Things& things, const MayGo& may_go) {
    for (auto one = things.begin(); one != things.end();) {
      // What a weighbridge ticket names is kept.
      const bool weighed = std::ranges::find(weighed_, one->name) != weighed_.end();
      if (pick_(1, 3) == 1 && may_go(*one) && !weighed) {
        gone.push_back(one->name);
        one = things.erase(one);
      } else {
        ++one;
      }
    }
  }

  template <class Vessel>
  void lose_gauge(Vessel& vessel) {
    if (vessel.gauge.is_given()) unmeasured.push_back(vessel.name);
    vessel.gauge = {};
  }

  template <class Vessel, class MayGo>
  void change_vessels(std::vector<Vessel>& vessels, const MayGo& may_go) {
    take_out(vessels, may_go);
    for (Vessel& one : vessels) {
      const double held_l = one.holds_l;
      perhaps(one.holds_l);
      if (one.holds_l != held_l || pick_(1, 4) == 1) lose_gauge(one);
      perhaps(one.empty_kg);
      if (pick_(1, 3) == 1) one.filled_l = one.holds_l * pick_(0, 7) / 7.0;
      one.filled_l = std::min(one.filled_l, one.holds_l);
    }
    for (int news = pick_(0, 3); news > 0; --news) {
      Vessel made;
      made.name = new_name();
      made.holds_l = made.filled_l = amount();
      if (pick_(1, 2) == 1) made.empty_kg = amount();
      if (pick_(1, 3) == 1) made.spot.at_m = amount() / 200;
      vessels.insert(vessels.begin() + pick_(0, static_cast<int>(vessels.size())), made);
    }
  }

  void change_food(Plan& plan) {
    take_out(plan.food, [](const FoodItem&) { return true; });
    for (FoodItem& item : plan.food) {
      perhaps(item.mass_kg);
      if (item.meals > 0) perhaps(item.meals);
    }
    for (int news = pick_(0, 2); news > 0; --news) {
      plan.food.insert(plan.food.begin() + pick_(0, static_cast<int>(plan.food.size())),
                       {.name = new_name(),
                        .mass_kg = amount(),
                        .meals = amount(),
                        .water_fraction = 0.1,
                        .potentially_hazardous = false});
    }
  }

  // Of what is taken on somewhere one stays.
  void change_stores(std::vector<ConsumableStore>& stores) {
    if (stores.size() > 1 && pick_(1, 2) == 1) {
      stores.erase(stores.begin() + pick_(0, static_cast<int>(stores.size()) - 1));
    }
    for (ConsumableStore& store : stores) {
      perhaps(store.holds);
      perhaps(store.empty_kg);
      if (pick_(1, 3) == 1) store.filled = store.holds * pick_(0, 7) / 7.0;
      store.filled = std::min(store.filled, store.holds);
    }
    for (int news = pick_(0, 2); news > 0; --news) {
      const double holds = amount();
      stores.insert(stores.begin() + pick_(0, static_cast<int>(stores.size())),
                    {.name = new_name(), .holds = holds, .filled = holds, .empty_kg = amount()});
    }
  }

  void change_bank(Bank& bank) {
    perhaps(bank.capacity_ah);
    perhaps(bank.mass_kg);
    if (pick_(1, 3) == 1) bank.kind = static_cast<BatteryKind>(pick_(0, 2));
    if (pick_(1, 3) == 1) bank.filled = pick_(0, 700) / 700.0;
    if (pick_(1, 3) == 1) {
      bank.cut_off = pick_(0, 70) / 70.0;
      bank.floor = std::max(bank.cut_off, pick_(0, 100) / 100.0);
    }
  }

  void change_cabinet(Cabinet& cabinet) {
    perhaps(cabinet.mass_kg);
    if (pick_(1, 3) == 1) cabinet.volume_l += amount();  // its ice must fit
    if (pick_(1, 3) == 1) cabinet.heat_leak_w_k = amount();
    if (cabinet.ice_box) return;
    perhaps(cabinet.rated_draw_w);
    if (pick_(1, 3) == 1) cabinet.running_w = cabinet.rated_draw_w + amount();
    // It may have been given, for a draw that was less.
    if (cabinet.running_w) cabinet.running_w = std::max(*cabinet.running_w, cabinet.rated_draw_w);
  }

  const Pick& pick_;
  int names_ = 0;
  std::vector<string> weighed_;
};

int occurrences(const string& text, const string& piece) {
  int count = 0;
  for (std::size_t at = 0; (at = text.find(piece, at)) != string::npos; ++at) ++count;
  return count;
}

/// A change that the reader would refuse: all water in a vehicle that comes or goes.
bool leaves_some_without_water(const Plan& plan) {
  const auto comes_or_goes = [&](const Container& one) {
    return !plan.vehicles.empty() &&
           !plan.vehicles[static_cast<std::size_t>(one.vehicle)].along.is_all_the_way();
  };
  return std::ranges::any_of(plan.water.containers, comes_or_goes) &&
         std::ranges::all_of(plan.water.containers, comes_or_goes);
}

RC_GTEST_PROP(RewriteProperty, ReadsBackAsTheChangedPlanWithEveryComment, ()) {
  const Pick pick = support::rapidcheck_pick();
  Writer writer(pick);
  const string source = laid_out(support::richer_plan(pick), writer, pick);
  RC_LOG() << source << "\n----\n";
  const Plan before = read_plan(source);
  RC_ASSERT(rewrite(source, before, before) == source);
  Plan after = before;
  Changer changer(pick);
  changer.change(after);
  RC_PRE(!leaves_some_without_water(after));
  const string made = rewrite(source, before, after);
  RC_LOG() << made;
  RC_ASSERT(difference(read_plan(made), after).empty());
  for (const auto& [owner, comment] : writer.comments) {
    const auto among = [&owner = owner](const std::vector<string>& names) {
      return std::find(names.begin(), names.end(), owner) != names.end();
    };
    const int stand = occurrences(made, comment);
    RC_ASSERT(stand == (among(changer.gone) ? 0 : 1) || (stand == 0 && among(changer.unmeasured)));
  }
  const bool crlf = source.find("\r\n") != string::npos;
  RC_ASSERT(occurrences(made, "\r\n") == (crlf ? occurrences(made, "\n") : 0));
  RC_ASSERT(rewrite(made, read_plan(made), after) == made);
}

Container can(const string& name, double holds_l) {
  return {.name = name, .holds_l = holds_l, .filled_l = holds_l, .empty_kg = 1.2};
}

// Of every shipped scenario: one can out, two in, and what else can be changed.
TEST(Rewrite, ChangesEveryShippedScenario) {
  int scenarios = 0;
  for (const auto& file : std::filesystem::directory_iterator(DRYSTAGE_SCENARIOS)) {
    if (file.is_directory()) continue;
    const ReadPlan reading = read_file(file.path());
    ASSERT_TRUE(reading.plan) << file.path();
    ++scenarios;
    Plan after = *reading.plan;
    auto& cans = after.water.containers;
    std::vector<bool> stays(cans.size());
    for (const OwnMishap& own : after.mishaps.own) {
      for (const int c : own.containers) stays[static_cast<std::size_t>(c)] = true;
    }
    for (const Item& kept : after.size.keep) {
      if (kept.sort == Item::Sort::container) stays[static_cast<std::size_t>(kept.index)] = true;
    }
    auto gone = cans.end();
    for (auto one = cans.begin(); one != cans.end(); ++one) {
      const bool is_kept = stays[static_cast<std::size_t>(one - cans.begin())];
      if (one->use == WaterUse::drinking && !is_kept) gone = one;
    }
    ASSERT_NE(gone, cans.end()) << file.path();
    const std::string name = gone->name;
    const auto place = cans.erase(gone);
    cans.insert(place, {can("extra 1", 20), can("extra 2", 10)});
    for (Bank& bank : after.power.banks) {
      bank.capacity_ah *= 1.5;
      bank.mass_kg += 10;
      bank.filled = 1;
    }
    for (Charger& charger : after.power.chargers) {
      if (charger.kind == ChargerKind::solar) charger.power_w += 40;
    }
    for (Vehicle& vehicle : after.vehicles) {
      vehicle.tanks.push_back({.name = "extra", .holds_l = 20, .filled_l = 20, .empty_kg = 4.5});
    }
    for (Cabinet& cabinet : after.cold) cabinet.mass_kg = 17;
    for (FoodItem& item : after.food) item.meals *= 2;
    const std::string made = rewrite(reading.source, *reading.plan, after);
    EXPECT_EQ(difference(read_plan(made), after), "") << file.path();
    EXPECT_EQ(made.find("name: " + name + ","), std::string::npos) << made;
    // No comment is lost, and nothing changes after the sections with what can be sized.
    EXPECT_EQ(std::count(made.begin(), made.end(), '#'),
              std::count(reading.source.begin(), reading.source.end(), '#'))
        << file.path();
    EXPECT_EQ(made.substr(made.find("\nclimate:")),
              reading.source.substr(reading.source.find("\nclimate:")))
        << file.path();
    EXPECT_EQ(rewrite(made, read_plan(made), read_plan(made)), made);
  }
  EXPECT_GE(scenarios, 8);
}

}  // namespace
}  // namespace drystage::plan
