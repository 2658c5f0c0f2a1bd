#include "units/spelling.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "units/expression.h"
#include "units/registry.h"
#include "units/text.h"

namespace drystage::units {
namespace {

TEST(Spelling, EachOneNamesAUnitThatMeasuresSomething) {
  for (const Spelling& s : all_spellings()) {
    const Result<Expression> unit = read_expression(tidy_blanks(s.text), "1");
    ASSERT_TRUE(unit.ok()) << s.text << ": " << unit.problem().line();
    ASSERT_EQ(unit->terms.size(), 1U) << s.text;
    EXPECT_EQ(unit->terms[0].symbol, s.symbol) << s.text;
    EXPECT_TRUE(kind_of(*unit).has_value()) << s.text;
    EXPECT_EQ(s.is_time, kind_of(*unit) == Kind::time_h) << s.text;
  }
}

TEST(Spelling, IsListedOnceAndIsNeverAnAmbiguousWord) {
  std::set<std::string_view> seen;
  for (const Spelling& s : all_spellings()) {
    EXPECT_TRUE(seen.insert(s.text).second) << s.text;
    EXPECT_EQ(ambiguity(s.text), nullptr) << s.text;
  }
}

TEST(Spelling, LongestWinsAndEndsAtAWordsEnd) {
  ASSERT_NE(longest_spelling("mpg(US)/day"), nullptr);
  EXPECT_EQ(longest_spelling("mpg(US)/day")->text, "mpg(US)");
  EXPECT_EQ(longest_spelling("km/h")->text, "km");
  EXPECT_EQ(longest_spelling("m3/day")->text, "m3");
  EXPECT_EQ(longest_spelling("kmx"), nullptr);
  EXPECT_EQ(longest_spelling(""), nullptr);
}

TEST(Spelling, NearestIsFoundOnlyWhenNear) {
  EXPECT_EQ(nearest_spelling("litters"), "liters");
  EXPECT_EQ(nearest_spelling("KM"), "km");
  EXPECT_EQ(nearest_spelling("farenheit"), "fahrenheit");
  EXPECT_EQ(nearest_spelling("parsec"), std::nullopt);
  EXPECT_EQ(nearest_spelling(""), std::nullopt);
}

}  // namespace
}  // namespace drystage::units
