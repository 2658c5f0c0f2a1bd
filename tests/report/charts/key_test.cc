// Keys: signs and pieces of line with what they mean.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "report/charts/picture.h"
#include "support/charts.h"
#include "support/overlaps.h"

namespace drystage::report {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

const drawing::Typesetter& typesetter() {
  static const drawing::Typesetter one;
  return one;
}

TEST(Key, PutsALineBesideItsWords) {
  const KeyItem item = line_item(typesetter(), margin_line(), "margin");
  const drawing::Block block = key(typesetter(), {item}, 200);
  const auto lines = support::lines_of(block.marks, margin_line());
  ASSERT_THAT(lines, SizeIs(1));
  ASSERT_THAT(block.marks, SizeIs(2));
  const auto& words = std::get<drawing::Text>(block.marks[1]);
  EXPECT_EQ(words.words, "margin");
  EXPECT_GT(words.box.x, lines[0].back().x);
  EXPECT_NEAR(lines[0].back().y, words.box.y + words.box.height / 2, 0.01);
}

TEST(Key, StandsOnOneLineWhereThereIsRoom) {
  const std::vector<KeyItem> items{line_item(typesetter(), plan_line(), "plan"),
                                   line_item(typesetter(), margin_line(), "margin")};
  const double width_pt = key_width(typesetter(), items);
  EXPECT_DOUBLE_EQ(key(typesetter(), items, width_pt + 0.1).height_pt, key_line_pt(typesetter()));
  EXPECT_DOUBLE_EQ(key(typesetter(), items, width_pt - 1).height_pt, 2 * key_line_pt(typesetter()));
}

TEST(Key, BreaksWordsThatAreWiderThanALine) {
  const std::vector<KeyItem> items{line_item(
      typesetter(), plan_line(), "a meaning of so many words that no line of this key holds it")};
  const drawing::Block block = key(typesetter(), items, 120);
  EXPECT_GT(block.height_pt, 2 * key_line_pt(typesetter()));
  EXPECT_THAT(support::faults(typesetter(), block, 120), IsEmpty());
}

RC_GTEST_PROP(KeyProperty, OverlapsNothing, ()) {
  std::vector<KeyItem> items;
  const int count = *rc::gen::inRange(1, 8);
  for (int i = 0; i < count; ++i) {
    const auto words = static_cast<std::size_t>(*rc::gen::inRange(1, 60));
    std::string text;
    while (text.size() < words) text += text.size() % 7 == 6 ? ' ' : 'w';
    items.push_back(line_item(typesetter(), plan_line(), text));
    if (i % 3 == 2) items.back().sample_pt = 0, items.back().sample.clear();
  }
  const double width_pt = *rc::gen::inRange(120, 530);
  RC_ASSERT(support::faults(typesetter(), key(typesetter(), items, width_pt), width_pt).empty());
}

}  // namespace
}  // namespace drystage::report
