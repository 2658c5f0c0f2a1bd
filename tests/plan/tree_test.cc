#include "plan/tree.h"

#include <gtest/gtest.h>

#include "plan/limits.h"
#include "plan/log.h"
#include "plan_text.h"

namespace drystage::plan {
namespace {

std::string repeated(std::string_view text, std::size_t times) {
  std::string made;
  for (std::size_t i = 0; i < times; ++i) made += text;
  return made;
}

// The first thing said about a text.
std::string first_of(const std::string& source) {
  const ReadPlan reading = read_text(source);
  EXPECT_FALSE(reading.plan.has_value());
  if (reading.diagnostics.empty()) return {};
  EXPECT_FALSE(all_of(reading).empty());
  return reading.diagnostics[0].what;
}

TEST(Tree, KnowsWhereEveryValueStands) {
  Log log;
  const auto root = parse_tree("a: 1\nb: {ü: x, c: [y, 'z']}\n", {}, log);
  ASSERT_TRUE(root.has_value());
  const Node* b = root->find("b");
  ASSERT_NE(b, nullptr);
  EXPECT_EQ(b->origin.mark.line, 2);
  EXPECT_EQ(b->origin.mark.column, 4);
  EXPECT_EQ(b->entries[1].origin.mark.column, 11);  // in characters: ü counts once
  EXPECT_EQ(b->find("c")->items[1].origin.mark.column, 18);
  EXPECT_EQ(b->find("d"), nullptr);
}

TEST(Tree, RefusesWhatIsNotText) {
  EXPECT_EQ(first_of(std::string("a: \0b", 5)), "a character that no text may hold (U+0000)");
  EXPECT_EQ(first_of("a: \x1b[31mred"), "a character that no text may hold (U+001B)");
  EXPECT_EQ(first_of("a: \xC3\x28"), "a byte that is not text (hexadecimal c3)");
  EXPECT_EQ(first_of("\xFF\xFE"
                     "a"),
            "a byte that is not text (hexadecimal ff)");
}

TEST(Tree, RefusesWhatIsTooLarge) {
  EXPECT_EQ(first_of(std::string(most_source_bytes + 1, 'x')), "the plan is larger than 1 MiB");
  EXPECT_EQ(first_of(repeated("x", 10'000'000)), "the plan is larger than 1 MiB");
  EXPECT_EQ(first_of(repeated("- a\n", most_nodes + 1)), "more than 1000 items in one list or map");
  EXPECT_EQ(first_of(repeated("- a\n", most_in_one)).find("more than"), std::string::npos);
  EXPECT_EQ(first_of(repeated("- [" + repeated("a, ", 200) + "a]\n", 999)),
            "more than 100000 values in one plan");
  std::string keys;
  for (std::size_t i = 0; i <= most_in_one; ++i) keys += "k" + std::to_string(i) + ": 1\n";
  EXPECT_EQ(first_of(keys), "more than 1000 items in one list or map");
}

TEST(Tree, RefusesWhatIsTooDeep) {
  EXPECT_EQ(first_of("a: " + repeated("[", 60) + repeated("]", 60)),
            "more than 40 levels inside each other");
  EXPECT_EQ(first_of(repeated("- ", 5000)), "more than 40 levels inside each other");
  // Whatever these are taken for, it must be said and not crash.
  for (const char* piece : {"[", "{", "? ", "{a: ", "[a,", "&a ", "!a ", "\"a", "'", "|\n ", "*a ",
                            "%a\n", "---\n", ": ", "-\n"}) {
    EXPECT_NE(first_of(repeated(piece, 20'000)), "") << piece;
  }
}

TEST(Tree, RefusesWhatPlansHaveNoUseFor) {
  EXPECT_EQ(first_of("a: &x 1\nb: *x\n"), "a plan has no aliases");
  EXPECT_EQ(first_of("a: !!int 3\n"), "a plan has no tags");
  EXPECT_EQ(first_of("? [a, b]\n: c\n"), "a list or a map where a key belongs");
  EXPECT_EQ(first_of("a: 1\n---\nb: 2\n"), "a second YAML document");
  // Copies of copies of copies: refused at the first alias, long before they are many.
  EXPECT_EQ(first_of("a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\n"), "a plan has no aliases");
}

TEST(Tree, RefusesWhatIsNoMap) {
  EXPECT_EQ(first_of(""), "the plan is empty");
  EXPECT_EQ(first_of("# only a remark\n"), "the plan is empty");
  EXPECT_EQ(first_of("- a\n"), "a plan: a list does not belong here");
  EXPECT_EQ(first_of("hello\n"), "a plan: a plain value does not belong here");
}

TEST(Tree, ExplainsBrokenYaml) {
  const ReadPlan tab = read_text("a:\n\t- b\n");
  ASSERT_EQ(tab.diagnostics.size(), 1U) << all_of(tab);
  EXPECT_EQ(tab.diagnostics[0].mark.line, 2);
  EXPECT_NE(tab.diagnostics[0].hint.find("tabs"), std::string::npos) << all_of(tab);
  const ReadPlan colon = read_text("a: b: c\n");
  ASSERT_EQ(colon.diagnostics.size(), 1U) << all_of(colon);
  EXPECT_NE(colon.diagnostics[0].hint.find("quotes"), std::string::npos) << all_of(colon);
}

TEST(Tree, ReportsAKeyGivenTwiceWithTheLineOfTheFirst) {
  Log log;
  const auto root = parse_tree("a: 1\nb: 2\na: 3\n", {}, log);
  ASSERT_TRUE(root.has_value());
  EXPECT_EQ(root->find("a")->text, "1");
  const auto found = log.take();
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].what, "\"a\" is given twice");
  EXPECT_EQ(found[0].mark.line, 3);
  EXPECT_EQ(found[0].hint, "the first one is on line 1");
}

TEST(Log, KeepsALimitAndStillSaysThatThereWereErrors) {
  const ReadPlan reading = read_text("drystage: 1\n" + repeated("x: 1\n", 5000));
  EXPECT_FALSE(reading.plan.has_value());
  ASSERT_EQ(reading.diagnostics.size(), 501U);
  EXPECT_NE(reading.diagnostics.back().what.find("are not shown"), std::string::npos);
  EXPECT_EQ(reading.diagnostics.back().severity, Severity::error);
}

TEST(ReadPlan, ReportsAllErrorsInTheOrderOfTheFile) {
  std::string text = whole_plan_with("mass: 62 kg", "mass: 62");
  text.replace(text.find("kept: dry"), 9, "kept: wet");
  text.replace(text.find("{at: Oru}"), 9, "{at: Uru}");
  const ReadPlan reading = read_text(text);
  ASSERT_EQ(reading.diagnostics.size(), 3U) << all_of(reading);
  EXPECT_LT(reading.diagnostics[0].mark.line, reading.diagnostics[1].mark.line);
  EXPECT_LT(reading.diagnostics[1].mark.line, reading.diagnostics[2].mark.line);
}

}  // namespace
}  // namespace drystage::plan
