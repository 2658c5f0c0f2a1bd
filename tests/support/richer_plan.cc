#include "support/richer_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <initializer_list>
#include <stdexcept>
#include <utility>

#include "engine/company_checks.h"
#include "engine/empty_axles.h"
#include "engine/fuel_checks.h"
#include "plan/log.h"
#include "plan/read.h"
#include "plan/text_edit.h"
#include "support/random_value.h"

namespace drystage::support {
namespace {

using plan::Entry;
using plan::Node;
using std::string;

using Lines = std::vector<string>;

/// A part of a random plan's text, each line of which is a thing, or a name and a thing.
struct Part {
  Lines PlanText::*lines;
  const char* path;   ///< of the things' keys
  bool by_name;       ///< a line is a name and a thing
  const char* names;  ///< what references call a thing; none: nothing refers to one
};
constexpr std::array<Part, 16> parts{{
    {&PlanText::people, "people", false, "person"},
    {&PlanText::activities, "activities", true, "activity"},
    {&PlanText::containers, "water.containers", false, "container"},
    {&PlanText::utility_use, "water.utility_use", true, ""},
    {&PlanText::vehicles, "vehicles", false, "vehicle"},
    {&PlanText::cold, "cold", false, "cabinet"},
    {&PlanText::food, "food", false, "food"},
    {&PlanText::consumables, "consumables", false, "consumable"},
    {&PlanText::batteries, "power.batteries", false, "battery"},
    {&PlanText::charging, "power.charging", false, "charger"},
    {&PlanText::loads, "power.loads", false, ""},
    {&PlanText::climate, "climate", true, ""},
    {&PlanText::weather, "weather", false, ""},
    {&PlanText::places, "places", true, ""},
    {&PlanText::itinerary, "itinerary", false, ""},
    {&PlanText::roads, "roads", false, ""},
}};

/// The same, but each line is a key of the section and its value.
struct Section {
  Lines PlanText::*lines;
  const char* path;
};
constexpr std::array<Section, 4> sections{{{&PlanText::margins, "margins"},
                                           {&PlanText::mishaps, "mishaps"},
                                           {&PlanText::uncertainty, "uncertainty"},
                                           {&PlanText::size, "size"}}};

Node tree_of(const string& text) {
  plan::Log log;
  auto root = plan::parse_tree(text, {}, log);
  if (!root) throw std::runtime_error("no YAML: " + text);
  return std::move(*root);
}

/// A tree as it would stand in one line, as random plans have it.
string in_line(const Node& node);

string in_line(const Entry& entry) {
  return fmt::format("{}: {}", entry.key, in_line(entry.value));
}

string in_line(const Node& node) {
  Lines inside;
  for (const Node& item : node.items) inside.push_back(in_line(item));
  for (const Entry& entry : node.entries) inside.push_back(in_line(entry));
  const bool is_plain = node.text.find_first_of(":{}[],#\"'") == string::npos;
  switch (node.kind) {
    case Node::Kind::text:
      return is_plain ? node.text : plan::yaml_text(node.text);
    case Node::Kind::list:
      return fmt::format("[{}]", fmt::join(inside, ", "));
    case Node::Kind::map:
      return fmt::format("{{{}}}", fmt::join(inside, ", "));
    case Node::Kind::empty:
      break;
  }
  return {};
}

Names names_in(const PlanText& text) {
  Names names;
  const auto add = [&](const char* what, const string& name) { names[what].push_back(name); };
  for (const Part& part : parts) {
    if (*part.names == '\0') continue;
    for (const string& line : text.*part.lines) {
      const Node node = tree_of(line);
      const Node* own = node.find(part.path == string("food") ? "item" : "name");
      const string name = own != nullptr ? own->text : node.entries.front().key;
      add(part.names, name);
      if (const Node* bays = node.find("bays")) {
        for (const Entry& bay : bays->entries) add("bay", bay.key);
      }
      const Node* kept = node.find("kept");
      if (kept != nullptr && kept->text == "dry") add("dry food", name);
      if (node.find("solar") != nullptr) add("solar panel", name);
      for (const char* inner : {"tanks", "stores"}) {
        const Node* list = node.find(inner);
        if (list == nullptr) continue;
        for (const Node& item : list->items) {
          add(inner == string("tanks") ? "tank" : "store", item.find("name")->text);
        }
      }
    }
  }
  const auto together = [&](const char* what, std::initializer_list<const char*> of) {
    for (const char* one : of) {
      for (const string& name : Lines(names[one])) add(what, name);
    }
  };
  for (const string& line : text.places) add("day or place", tree_of(line).entries.front().key);
  for (const char* day : {"1", "2", "3"}) add("day or place", day);
  add("trailer", "trailer");
  together("vehicle, trailer, container, can or store",
           {"vehicle", "trailer", "container", "tank", "store"});
  together("container or tank", {"container", "tank"});
  together("thing or person", {"person", "trailer"});
  together("container, tank or store", {"container", "tank", "store"});
  together("container, tank, battery, solar panel, cabinet, food or store",
           {"container", "tank", "battery", "solar panel", "cabinet", "food", "store"});
  return names;
}

/// A drive's parts in order, each with what else may be said of it.
void write_parts(Node& itinerary, const Pick& pick, const Names& names) {
  Node* drive = itinerary.find("drive");
  Node* surfaces = drive == nullptr ? nullptr : drive->find("surfaces");
  if (surfaces == nullptr || pick(1, 4) > 1) return;
  Node list;
  list.kind = Node::Kind::list;
  for (const Entry& entry : surfaces->entries) {
    Node part = tree_of(fmt::format("{{surface: {}, distance: {}}}", entry.key, entry.value.text));
    add_keys(part, "road.surfaces", pick, names);
    list.items.push_back(std::move(part));
  }
  *surfaces = std::move(list);
}

string richer_line(const string& line, const Part& part, const Pick& pick, const Names& names) {
  // Twelve months take as long to read as all the rest of a plan.
  if (part.path == string("climate") && pick(1, 8) > 1) return line;
  Node root = tree_of(line);
  if (!part.by_name) {
    add_keys(root, part.path, pick, names);
    if (part.path == string("consumables")) add_keys(root, part.path, pick, names);
    write_parts(root, pick, names);
    const string text = in_line(root);
    return line.starts_with('{') ? text : text.substr(1, text.size() - 2);
  }
  Node& thing = root.entries.front().value;
  if (part.path != string("climate")) {
    if (thing.kind == Node::Kind::map) add_keys(thing, part.path, pick, names);
  } else {
    for (Entry& month : thing.entries) add_keys(month.value, part.path, pick, names);
  }
  return in_line(root.entries.front());
}

/// The lines of a plan's text with an error on them; "" if one stands on none.
Lines refused(const PlanText& text) {
  const string all = text.text();
  Lines lines{""};
  for (const char c : all) {
    if (c == '\n') {
      lines.emplace_back();
    } else {
      lines.back() += c;
    }
  }
  const plan::ReadPlan reading = plan::read_text(all);
  auto found = reading.diagnostics;
  if (reading.plan) {
    for (const auto& problems :
         {engine::fuel_problems(*reading.plan), engine::mass_problems(*reading.plan)}) {
      found.insert(found.end(), problems.begin(), problems.end());
    }
    // What the calendar alone can tell: of who comes along.
    const auto calendar = engine::lay_calendar(*reading.plan, {});
    const auto company = calendar.problems.empty()
                             ? engine::company_problems(*reading.plan, calendar)
                             : calendar.problems;
    found.insert(found.end(), company.begin(), company.end());
  }
  Lines made;
  for (const plan::Diagnostic& one : found) {
    if (one.severity != plan::Severity::error) continue;
    const auto line = static_cast<std::size_t>(std::max(one.mark.line, 1));
    string at = lines.at(line - 1);
    at.erase(0, at.find_first_not_of(" -"));
    made.push_back(at);
  }
  return made;
}

/// Draws anew, of `from`, what of a text is named, or all of it.
class Enrichment {
 public:
  Enrichment(const PlanText& from, const Pick& pick)
      : from_(from), pick_(pick), names_(names_in(from)), made_(from) {
    for (const Part& part : parts) draw(part, [](const string&) { return true; });
    for (const Section& section : sections) draw(section);
    draw_trip();
  }

  /// What is refused is drawn again, and in the end left as it was.
  PlanText take() {
    constexpr int rounds = 4;
    for (int round = 1; round <= rounds; ++round) {
      const Lines wrong = refused(made_);
      if (wrong.empty()) return made_;
      const bool again = round + 1 < rounds;
      const auto is_wrong = [&](const string& line) {
        return std::ranges::find(wrong, line) != wrong.end();
      };
      for (const Part& part : parts) {
        if (again) {
          draw(part, is_wrong);
        } else {
          take_back(part, is_wrong);
        }
      }
      for (const Section& section : sections) {
        if (std::erase_if(made_.*section.lines, is_wrong) > 0 && again) draw(section);
      }
      const bool is_trip =
          std::ranges::any_of(wrong, [](const string& line) { return line.starts_with("trip: "); });
      if (is_trip) {
        made_.driving = from_.driving;
        made_.more_of_trip = from_.more_of_trip;
      }
    }
    return refused(made_).empty() ? made_ : from_;
  }

 private:
  template <class Which>
  void draw(const Part& part, const Which& which) {
    for (std::size_t i = 0; i < (made_.*part.lines).size(); ++i) {
      string& line = (made_.*part.lines)[i];
      if (which(line)) line = richer_line((from_.*part.lines)[i], part, pick_, names_);
    }
  }

  template <class Which>
  void take_back(const Part& part, const Which& which) {
    for (std::size_t i = 0; i < (made_.*part.lines).size(); ++i) {
      string& line = (made_.*part.lines)[i];
      if (which(line)) line = (from_.*part.lines)[i];
    }
  }

  void draw(const Section& section) {
    Node root = tree_of("{" + fmt::format("{}", fmt::join(made_.*section.lines, ", ")) + "}");
    // Twice: what is new may have keys too that seldom come up.
    add_keys(root, section.path, pick_, names_);
    add_keys(root, section.path, pick_, names_);
    Lines lines;
    for (const Entry& entry : root.entries) lines.push_back(in_line(entry));
    made_.*section.lines = lines;
  }

  void draw_trip() {
    Node driving = tree_of(from_.driving);
    add_keys(driving, "trip.driving", pick_, names_);
    made_.driving = in_line(driving);
    if (pick_(1, 3) > 1) return;
    const auto weather = random_value("trip.weather", pick_, names_);
    made_.more_of_trip += ", weather: " + weather.value().text;
  }

  const PlanText& from_;
  const Pick& pick_;
  Names names_;
  PlanText made_;
};

/// Where the last drive of an itinerary began, and how long it was: to go there and back again.
string side_trip(const Lines& itinerary) {
  string here;
  string before;
  string distance;
  for (const string& line : itinerary) {
    const Node item = tree_of(line);
    if (const Node* at = item.find("at")) here = at->text;
    const Node* drive = item.find("drive");
    if (drive == nullptr) continue;
    before = std::exchange(here, drive->find("to")->text);
    distance = drive->find("distance")->text;
  }
  if (before.empty() || before == here) return {};
  return fmt::format("side_trip: {{to: {}, distance: {}, surfaces: track}}",
                     plan::yaml_text(before), distance);
}

}  // namespace

PlanText richer_plan(const Pick& pick) {
  PlanText plain = random_plan(pick);
  if (plain.weather.empty() && pick(1, 2) == 1) {
    plain.weather.emplace_back("{on: 2027-03-04, wind: 9 m/s}");
  }
  if (pick(1, 2) == 1) plain.roads = random_roads(pick);
  const string there_and_back = pick(1, 2) == 1 ? side_trip(plain.itinerary) : string();
  if (!there_and_back.empty()) plain.itinerary.push_back(there_and_back);
  return Enrichment(plain, pick).take();
}

}  // namespace drystage::support
