#include "plan/write_reading.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "plan/items.h"
#include "plan/log.h"
#include "plan/read.h"
#include "plan/same_plan.h"
#include "plan/text_edit.h"
#include "plan/utf8.h"
#include "plan/written.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

using units::Kind;

// The keys of one reading, in the order in which the format's page has them.
class ReadingText {
 public:
  ReadingText(const Plan& plan, const Reading& reading) : plan_(plan), reading_(reading) {}

  std::vector<NewMember> members() {
    add_when_and_where();
    if (reading_.drinking_l) add("drinking", litres_text(*reading_.drinking_l));
    if (reading_.utility_l) add("utility", litres_text(*reading_.utility_l));
    add_fuel();
    add_vessels();
    add_map("batteries", reading_.banks, [&](const BankFound& found) {
      return entry(plan_.power.banks[at(found.bank)].name, in_bank(found));
    });
    add_map("cabinets", reading_.cabinets, [&](const CabinetFound& found) {
      return entry(plan_.cold[at(found.cabinet)].name,
                   written_amount(found.chilled_c, Kind::temperature));
    });
    if (reading_.meals) add("meals", fmt::format("{}", *reading_.meals));
    add_tyres("spare_wheels", &TyresFound::spare_wheels);
    add_tyres("repairs", &TyresFound::repairs);
    add_map("consumables", reading_.consumables, [&](const ConsumableFound& found) {
      const Consumable& of = plan_.consumables[at(found.consumable)];
      return entry(of.name, fmt::format("{} {}", found.amount, of.unit));
    });
    return std::move(made_);
  }

 private:
  static std::string litres_text(double volume_l) { return written_amount(volume_l, Kind::volume); }

  static std::string entry(const std::string& name, const std::string& value) {
    return yaml_text(name) + ": " + value;
  }

  void add(const char* key, std::string value) { made_.push_back({key, std::move(value)}); }

  template <class Things, class Entry>
  void add_map(const char* key, const Things& things, const Entry& entry_of) {
    if (things.empty()) return;
    std::string inside;
    for (const auto& thing : things) inside += (inside.empty() ? "" : ", ") + entry_of(thing);
    add(key, "{" + inside + "}");
  }

  void add_when_and_where() {
    const std::string day = std::to_string(reading_.day + 1);
    if (reading_.in_the_evening) {
      add("evening", day);
    } else {
      const long minutes = std::lround(reading_.hour * 60);
      add("day", day);
      add("hour", fmt::format("\"{:02}:{:02}\"", minutes / 60, minutes % 60));
    }
    if (!reading_.at) return;
    const std::string place = yaml_text(plan_.places[at(reading_.at->place)].name);
    add(reading_.at->after_km ? "towards" : "at", place);
    if (reading_.at->after_km) {
      add("after", written_amount(*reading_.at->after_km, Kind::distance));
    }
  }

  void add_fuel() {
    if (plan_.vehicles.size() == 1 && reading_.fuel.size() == 1) {
      add("fuel", litres_text(reading_.fuel.front().usable_l));
      return;
    }
    add_map("fuel", reading_.fuel, [&](const FuelFound& found) {
      return entry(plan_.vehicles[at(found.vehicle)].name, litres_text(found.usable_l));
    });
  }

  void add_tyres(const char* key, std::optional<int> TyresFound::*found) {
    std::vector<TyresFound> said = reading_.tyres;
    std::erase_if(said, [found](const TyresFound& one) { return !(one.*found); });
    const auto count = [found](const TyresFound& one) {
      return std::to_string((one.*found).value_or(0));
    };
    if (plan_.vehicles.size() == 1 && said.size() == 1) {
      add(key, count(said.front()));
      return;
    }
    add_map(key, said, [&](const TyresFound& one) {
      return entry(plan_.vehicles[at(one.vehicle)].name, count(one));
    });
  }

  void add_vessels() {
    const std::vector<Item> items = items_of(plan_);
    const auto name_of = [&](Item::Sort sort, int of, int index) {
      std::vector<Item> some = items;
      std::erase_if(some, [sort](const Item& item) { return item.sort != sort; });
      const auto found = std::ranges::find_if(
          some, [&](const Item& item) { return item.of == of && item.index == index; });
      return shortest_names(some).at(static_cast<std::size_t>(found - some.begin()));
    };
    add_map("containers", reading_.containers, [&](const ContainerFound& one) {
      return entry(name_of(Item::Sort::container, -1, one.container), in_vessel(one.found));
    });
    add_map("tanks", reading_.tanks, [&](const TankFound& one) {
      return entry(name_of(Item::Sort::tank, one.tank.vehicle, one.tank.tank),
                   in_vessel(one.found));
    });
  }

  static std::string in_vessel(const Found& found) {
    constexpr units::Display in_cm{.unit = "cm", .scale = 100};
    if (found.depth_m) return written_amount(*found.depth_m, Kind::length, in_cm);
    return litres_text(found.amount);
  }

  static std::string in_bank(const BankFound& found) {
    if (found.share) return written_amount(*found.share, Kind::fraction);
    if (found.charge_ah) return written_amount(*found.charge_ah, Kind::charge);
    return written_amount(found.resting_v.value_or(0), Kind::voltage);
  }

  const Plan& plan_;
  const Reading& reading_;
  std::vector<NewMember> made_;
};

// Each key on a line of its own; the first one's place is `indent`, where the text begins.
std::string in_lines(const std::vector<NewMember>& members, std::size_t indent,
                     std::string_view line_end) {
  std::string made;
  for (const NewMember& one : members) {
    if (!made.empty()) made += std::string(line_end) + std::string(indent, ' ');
    made += one.key + ": " + one.value;
  }
  return made;
}

std::string in_one_line(const std::vector<NewMember>& members) {
  std::string made;
  for (const NewMember& one : members) {
    made += (made.empty() ? "" : ", ") + one.key + ": " + one.value;
  }
  return "{" + made + "}";
}

Node tree_without(std::string_view text, std::string_view key) {
  Log log;
  Node root = parse_tree(text, {}, log).value();
  std::erase_if(root.entries, [key](const Entry& entry) { return entry.key == key; });
  return root;
}

// The text with an item in the list under a key of the plan, before the one of this index, or in
// its place. A list that is not there comes at the end.
std::string changed_text(const std::string& text, const TextPart& root, const std::string& key,
                         std::size_t index, bool replaces, const std::vector<NewMember>& members) {
  TextEdit edit(text);
  const std::string_view line_end = text.find("\r\n") == std::string::npos ? "\n" : "\r\n";
  const auto column = [&](std::size_t at) { return at - line_start(text, at); };
  const TextPart* list = root.find(key);
  if (list != nullptr && replaces) {
    const TextPart& old = list->items[index];
    edit.set_value(old, old.form == TextPart::Form::flow_map
                            ? in_one_line(members)
                            : in_lines(members, column(old.begin), line_end));
  } else if (list != nullptr && !list->items.empty()) {
    edit.change_list(*list, std::vector<bool>(list->items.size()),
                     {{static_cast<int>(index) - 1, members, true}});
  } else if (root.form == TextPart::Form::flow_map) {
    edit.begin_list(root, {key}, {{-1, members}}, {});
  } else {
    const std::string lead(column(root.members.front().begin), ' ');
    std::vector<std::string> lines;
    if (list == nullptr) lines = {"", lead + key + ":"};
    for (const NewMember& one : members) {
      lines.push_back(lead + (&one == members.data() ? "  - " : "    ") + one.key + ": " +
                      one.value);
    }
    if (list == nullptr) {
      edit.add_lines(root, lines);
    } else {
      edit.set_lines(*list, lines);
    }
  }
  return edit.result();
}

// Reads it again. Throws std::invalid_argument, which says why, where it is no plan any more.
Plan read_again(const std::string& text, const std::filesystem::path& file) {
  ReadPlan after = read_text(text, {}, file);
  if (!after.plan) {
    const auto error = std::ranges::find(after.diagnostics, Severity::error, &Diagnostic::severity);
    throw std::invalid_argument(error->what + "; expected: " + error->expected);
  }
  return std::move(*after.plan);
}

std::string with_mark_of(std::string_view source, const std::string& text) {
  return std::string(source.starts_with(byte_order_mark) ? byte_order_mark : "") + text;
}

bool same_readings(std::vector<Reading> a, std::vector<Reading> b) {
  for (Reading& one : a) one.mark = {};
  for (Reading& one : b) one.mark = {};
  return a == b;
}

}  // namespace

std::string with_reading(std::string_view source, const Reading& reading,
                         const std::filesystem::path& file) {
  const ReadPlan before = read_text(std::string(source), {}, file);
  if (!before.plan) throw std::logic_error("what a reading is to be written into is not a plan");
  Log log;
  const Node own = parse_tree(before.source, {}, log).value();
  std::vector<Reading> wanted = before.plan->readings;
  const Node* said = own.find("readings");
  if (wanted.size() != (said == nullptr ? 0 : said->items.size())) {
    throw std::invalid_argument("the readings stand in an included file, not in the plan's own");
  }
  const auto place = std::ranges::lower_bound(wanted, reading.moment(), {}, &Reading::moment);
  const auto index = static_cast<std::size_t>(place - wanted.begin());
  const bool replaces = place != wanted.end() && place->moment() == reading.moment();
  if (replaces) {
    *place = reading;
  } else {
    wanted.insert(place, reading);
  }
  const std::string text =
      changed_text(before.source, lay_out(before.source, own), "readings", index, replaces,
                   ReadingText(*before.plan, reading).members());
  const Plan after = read_again(text, file);
  const bool same =
      same_readings(after.readings, wanted) &&
      same_node(tree_without(text, "readings"), tree_without(before.source, "readings"));
  if (!same) throw std::logic_error("the plan with the reading reads otherwise");
  return with_mark_of(source, text);
}

std::string with_change(std::string_view source, const std::vector<NewMember>& members,
                        const std::filesystem::path& file) {
  const ReadPlan before = read_text(std::string(source), {}, file);
  if (!before.plan) throw std::logic_error("what a change is to be written into is not a plan");
  Log log;
  const Node own = parse_tree(before.source, {}, log).value();
  const Node* said = own.find("changes");
  const std::size_t count = said == nullptr ? 0 : said->items.size();
  if (before.plan->changes.size() != count) {
    throw std::invalid_argument("the changes stand in an included file, not in the plan's own");
  }
  const std::string text =
      changed_text(before.source, lay_out(before.source, own), "changes", count, false, members);
  read_again(text, file);
  if (!same_node(tree_without(text, "changes"), tree_without(before.source, "changes"))) {
    throw std::logic_error("the plan with the change reads otherwise");
  }
  return with_mark_of(source, text);
}

}  // namespace drystage::plan
