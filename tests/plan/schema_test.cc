// The schema for editors against the reader, by a validator that is not ours.
#include "plan/schema.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <map>
#include <random>
#include <regex>
#include <set>

#include "declared.h"
#include "plan/log.h"
#include "plan/schema_patterns.h"
#include "plan_text.h"
#include "support/cases.h"
#include "support/richer_plan.h"
#include "support/schema_faults.h"
#include "units/parse.h"
#include "units/spelling.h"

namespace drystage::plan {
namespace {

std::string content(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<std::filesystem::path> plans_in(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> found;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".yaml") found.push_back(entry.path());
  }
  std::sort(found.begin(), found.end());
  return found;
}

TEST(Schema, TakesScenariosTheWholePlanAndRandomPlans) {
  std::vector<std::string> texts{whole_plan()};
  for (const auto& path : plans_in(DRYSTAGE_SCENARIOS)) texts.push_back(content(path));
  std::mt19937 random(20270208);
  for (int i = 0; i < support::cases(60); ++i) {
    texts.push_back(support::richer_plan([&](int low, int high) {
                      const auto choices = static_cast<unsigned>(high - low + 1);
                      return low + static_cast<int>(random() % choices);
                    }).text());
  }
  const auto faults = support::schema_faults(texts);
  ASSERT_EQ(faults.size(), texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i) EXPECT_EQ(faults[i], "valid") << texts[i];
}

// A kit, and a trip that lacks what the kit has, or changes it.
TEST(Schema, TakesAKitAndATripThatIncludesIt) {
  const std::string kit =
      "vehicles: [{name: truck, fuel: diesel, mass: {empty: 2 t}, tanks: [{name: tank, holds: 80 "
      "L, "
      "filled: 80 L}]}]\npeople: [{name: Ada, mass: 70 kg, height: 170 cm, age: 30, sex: female}]\n"
      "trip: {driving: {depart: '07:00'}}\n";
  const std::string trip =
      "include: truck.yaml\ntrip: {title: Walk, start: 2027-06-01, time_zone: UTC}\n"
      "vehicles: [{name: truck, mass: {gear: 90 kg}}]\nitinerary: [{at: Hut}]\nfood:\n"
      "power: {loads: [{name: lights, draw: , energy: 90 Wh/day}]}\n";
  const auto faults = support::schema_faults(
      {kit, "include: [base.yaml]\n" + kit, trip, kit + "vehicels: []\n", trip + "water: 5 L\n",
       "include: 5 kg\nmargins: {fuel: 5}\n", "include: {a: b}\n", trip.substr(trip.find("trip:")),
       "trip: {start: 2027-06-01}\n"});
  for (const std::size_t right : {0U, 1U, 2U}) EXPECT_EQ(faults.at(right), "valid");
  for (std::size_t wrong = 3; wrong < faults.size(); ++wrong) {
    EXPECT_NE(faults[wrong], "valid") << wrong;
  }
}

TEST(Schema, SeesTheWrongFilesButForWhatASchemaCannotSee) {
  // A stay before any place, a key given twice, what is only asked about, and other files.
  const std::set<std::string> unseen{"stay_before_any_place", "twice", "warnings", "circle"};
  std::vector<std::string> names;
  std::vector<std::string> texts;
  for (const auto& path : plans_in(DRYSTAGE_TEST_DATA "/wrong")) {
    if (path.stem() == "latin1") continue;  // is no text in UTF-8, so no editor gets so far
    names.push_back(path.stem());
    texts.push_back(content(path));
  }
  const auto faults = support::schema_faults(texts);
  ASSERT_EQ(faults.size(), texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i) {
    EXPECT_EQ(faults[i] == "valid", unseen.contains(names[i])) << names[i] << ": " << faults[i];
  }
}

// The node that a path of --set leads to.
Node* at(Node& root, const std::string& path) {
  Node* node = &root;
  std::string word;
  const auto step = [&] {
    if (!word.empty() && node != nullptr) node = node->find(word);
    word.clear();
  };
  for (std::size_t i = 0; i <= path.size(); ++i) {
    if (i == path.size() || path[i] == '.') {
      step();
    } else if (path[i] == '[') {
      step();
      const std::size_t end = path.find(']', i);
      node = &node->items[std::stoul(path.substr(i + 1, end - i - 1))];
      i = end;
    } else {
      word += path[i];
    }
  }
  return node;
}

Node text_node(std::string text) {
  Node node;
  node.kind = Node::Kind::text;
  node.text = std::move(text);
  return node;
}

// What somebody may put where something else belongs.
std::vector<Node> slips() {
  std::vector<Node> made;
  for (const char* text : {"nonsense", "5", "5 kg", "5 m2"}) {
    made.push_back(text_node(text));
  }
  made.emplace_back();
  Node map;
  map.kind = Node::Kind::map;
  map.entries.push_back({"nonsense", {}, text_node("5")});
  made.push_back(map);
  return made;
}

// The first place of each declared key in the plan that has every key.
std::map<std::string, std::string> places(const Node& root) {
  std::map<std::string, std::string> made;
  Walk([&](Key key, const std::string& path, const Node& /*value*/) {
    made.try_emplace(std::string(key->path), path);
  }).map(root, "");
  return made;
}

// Why the reader refuses what no schema can see.
bool is_beyond_schema(const ReadPlan& reading) {
  // No regular expression: tests are compiled without optimization, and that takes long there.
  constexpr std::array reasons{
      "there is no ",      "has no battery", "no cabinet",    "no vehicle",    "no container",
      "is too low",        "is too high",    "is negative",   "out of range",  "does not exist",
      "is filled with",    "holds",          "less than",     "together hold", "is not to be had",
      "there are ",        "more than",      "lower than",    "not colder",    "not a whole number",
      "do not fit",        "add up",         "shorter than",  "twice",         "does not",
      "brackish",          "above",          "below",         "is given",      "nothing happens",
      "nothing is listed", "no power",       "has both",      "before any",    "measured in",
      "measured by",       "has no unit",    "used up by",    "nothing uses",  "is not a unit",
      "is one of",         "is a number",    "neither a day", "never comes",   "stays behind",
      "goes home",         "is fitted",      "another fuel",  "whole trip",    "set out with"};
  return std::ranges::all_of(reading.diagnostics, [&](const Diagnostic& d) {
    return d.severity == Severity::warning || std::ranges::any_of(reasons, [&](const char* reason) {
             return d.what.find(reason) != std::string::npos;
           });
  });
}

TEST(Schema, AgreesWithTheReaderAboutSlipsAtEveryKey) {
  Log log;
  const Node root = parse_tree(whole_plan(), {}, log).value();
  std::vector<std::string> names;
  std::vector<std::string> texts;
  // Every key with every fourth slip, or with fewer, its neighbours with the rest: the validator
  // takes its time.
  const std::vector<Node> all = slips();
  const auto every = static_cast<std::size_t>(400 / support::cases(100));
  std::size_t next = 0;
  for (const auto& [key, path] : places(root)) {
    for (std::size_t i = next++ % every; i < all.size(); i += every) {
      const Node& slip = all[i];
      Node changed = root;
      *at(changed, path) = slip;
      names.push_back(path + " = " + support::json_text(slip));
      texts.push_back(support::json_text(changed));
    }
  }
  const auto faults = support::schema_faults_of_json(texts);
  ASSERT_EQ(faults.size(), texts.size());
  int seen = 0;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const ReadPlan reading = read_text(texts[i]);
    seen += faults[i] == "valid" ? 0 : 1;
    if (reading.plan) {
      EXPECT_EQ(faults[i], "valid") << names[i];
    } else if (faults[i] == "valid") {
      EXPECT_TRUE(is_beyond_schema(reading)) << names[i] << "\n" << all_of(reading);
    }
  }
  EXPECT_GT(seen, support::cases(300));
}

TEST(Schema, AgreesWithTheReaderAboutKeysThatAreMissing) {
  Log log;
  const Node root = parse_tree(whole_plan(), {}, log).value();
  std::vector<std::string> names;
  std::vector<std::string> texts;
  const int every = 100 / support::cases(100);
  int next = 0;
  for (const auto& [key, path] : places(root)) {
    if (next++ % every != 0) continue;
    const std::size_t dot = path.rfind('.');
    if (path.back() == ']') continue;
    Node changed = root;
    Node& map = dot == std::string::npos ? changed : *at(changed, path.substr(0, dot));
    const std::string key_name = path.substr(dot + 1);
    std::erase_if(map.entries, [&](const Entry& entry) { return entry.key == key_name; });
    names.push_back(path);
    texts.push_back(support::json_text(changed));
  }
  const auto faults = support::schema_faults_of_json(texts);
  ASSERT_EQ(faults.size(), texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const ReadPlan reading = read_text(texts[i]);
    const std::string found = all_of(reading);
    // A mass is wanted of food that is kept cold: by the value of another key.
    const bool is_missing =
        found.find(" lacks ") != std::string::npos && !names[i].starts_with("food[0].mass");
    if (!reading.plan && !is_missing) continue;
    EXPECT_EQ(faults[i] == "valid", reading.plan.has_value()) << names[i] << "\n"
                                                              << faults[i] << "\n"
                                                              << found;
  }
}

TEST(Schema, TakesEveryUnitThatTheReaderTakes) {
  std::vector<std::string> written;
  const auto spellings = units::all_spellings();
  for (std::size_t i = 0; i < spellings.size(); ++i) {
    const std::string one(spellings[i].text);
    for (const char* power : {"", "2", "^2", "²"}) written.push_back(one + power);
    for (std::size_t j = i % 37; j < spellings.size(); j += 37) {
      const std::string other(spellings[j].text);
      for (const char* sign : {"/", " per ", " "}) written.push_back(one + sign + other);
    }
    written.push_back("/" + one);
  }
  for (const char* unit :
       {"L/100km", "L / 100 km", "mpg ( US )", "US  gal", "kWh/m2/day", "W/m²"}) {
    written.emplace_back(unit);
  }
  const std::array<std::string, 4> numbers{"1.5 ", "-3", "+.5e1\t", "2. "};
  int taken = 0;
  for (std::size_t k = 0; k < units::kind_count; ++k) {
    const auto kind = static_cast<units::Kind>(k);
    const std::array<Range, 1> any{Range{kind, "", 0, 1, -1, 1}};
    const std::regex pattern(amount_pattern(any), std::regex::ECMAScript | std::regex::optimize);
    for (std::size_t i = 0; i < written.size(); ++i) {
      const std::string text = numbers.at(i % numbers.size()) + written[i];
      if (!units::parse(text, kind)) continue;
      ++taken;
      EXPECT_TRUE(std::regex_match(text, pattern)) << text << " as " << units::name(kind);
    }
  }
  EXPECT_GT(taken, 300);
}

}  // namespace
}  // namespace drystage::plan
