// What a trip says is laid over what its kit says.
#include "plan/merge.h"

#include <gtest/gtest.h>

#include <string>

#include "plan/log.h"
#include "plan/same_plan.h"

namespace drystage::plan {
namespace {

Node tree(const std::string& text) {
  Log log;
  return parse_tree(text, {}, log).value();
}

void expect_merged(const std::string& base, const std::string& over, const std::string& expected) {
  EXPECT_TRUE(same_node(laid_over(tree(base), tree(over)), tree(expected)))
      << base << "\n under " << over << "\n is not " << expected;
}

TEST(Merge, TakesWhatOnlyOneOfThemSays) {
  expect_merged("{a: 1}", "{b: 2}", "{a: 1, b: 2}");
  expect_merged("{}", "{b: 2}", "{b: 2}");
  expect_merged("{a: 1}", "{}", "{a: 1}");
}

TEST(Merge, LetsTheUpperOneWinKeyByKey) {
  expect_merged("{m: {fuel: 150 km, food: 2 days}}", "{m: {fuel: 200 km}}",
                "{m: {fuel: 200 km, food: 2 days}}");
  expect_merged("{a: {b: {c: 1, d: 2}}}", "{a: {b: {d: 3, e: 4}}}", "{a: {b: {c: 1, d: 3, e: 4}}}");
}

TEST(Merge, MergesItemsOfOneNameAndAddsTheOthers) {
  expect_merged("{v: [{name: can 1, holds: 20 L}, {name: can 2, holds: 10 L}]}",
                "{v: [{name: spare, holds: 5 L}, {name: can  1, filled: 3 L}]}",
                "{v: [{name: can  1, holds: 20 L, filled: 3 L}, {name: can 2, holds: 10 L}, "
                "{name: spare, holds: 5 L}]}");
  expect_merged("{food: [{item: rice, meals: 3}]}", "{food: [{item: rice, meals: 5}]}",
                "{food: [{item: rice, meals: 5}]}");
}

TEST(Merge, KeepsASecondItemOfOneNameForTheReaderToRefuse) {
  expect_merged("{v: [{name: a, x: 1}]}", "{v: [{name: a, x: 2}, {name: a, x: 3}]}",
                "{v: [{name: a, x: 2}, {name: a, x: 3}]}");
  expect_merged("{v: [{name: a, x: 1}, {name: a, x: 2}]}", "{v: [{name: a, x: 3}]}",
                "{v: [{name: a, x: 3}, {name: a, x: 2}]}");
}

TEST(Merge, AddsAnItemThatForgotItsName) {
  expect_merged("{v: [{name: a}]}", "{v: [{x: 1}]}", "{v: [{name: a}, {x: 1}]}");
}

TEST(Merge, ReplacesAllElse) {
  expect_merged("{o: [{surface: sand, uses: 1}]}", "{o: [{surface: track, uses: 2}]}",
                "{o: [{surface: track, uses: 2}]}");
  expect_merged("{k: [a, b]}", "{k: [c]}", "{k: [c]}");
  expect_merged("{k: {a: 1}}", "{k: 3 L}", "{k: 3 L}");
  expect_merged("{k: 3 L}", "{k: {a: 1}}", "{k: {a: 1}}");
  expect_merged("{c: {dip: {0 cm: 0 L, 9 cm: 9 L}}}", "{c: {dip: {0 cm: 0 L, 5 cm: 9 L}}}",
                "{c: {dip: {0 cm: 0 L, 5 cm: 9 L}}}");
  expect_merged("{c: {shape: {box: {}}}}", "{c: {shape: {lying_cylinder: {}}}}",
                "{c: {shape: {lying_cylinder: {}}}}");
}

TEST(Merge, LetsAnEmptyValueTakeAway) {
  expect_merged("{food: [{item: rice}], cold: 1}", "{food: }", "{cold: 1}");
  expect_merged("{l: {draw: 2 A, hours: 3}}", "{l: {draw: ~, energy: 4 Wh}}",
                "{l: {hours: 3, energy: 4 Wh}}");
  expect_merged("{v: [{name: a}]}", "{v: []}", "{v: []}");
  expect_merged("{m: {a: 1}}", "{m: {}}", "{m: {}}");
  expect_merged("{a: 1}", "{b: }", "{a: 1, b: }");
}

TEST(Merge, KeepsWhereEachValueStands) {
  Log log;
  const Node made = laid_over(parse_tree("v:\n  - {name: a, x: 1}\n", {}, log, 1).value(),
                              parse_tree("\nv: [{name: a, y: 2}]\n", {}, log, 0).value());
  const Node& item = made.find("v")->items.at(0);
  EXPECT_EQ(item.find("x")->origin.mark, (Mark{2, 18, 1}));
  EXPECT_EQ(item.find("y")->origin.mark, (Mark{2, 18, 0}));
  EXPECT_EQ(item.origin.mark, (Mark{2, 5, 0}));
}

}  // namespace
}  // namespace drystage::plan
