// Where the defaults of `uncertainty` are from.
#include "plan/uncertainty_sources.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string_view>
#include <vector>

#include "plan/keys.h"

namespace drystage::plan::uncertainty_sources_test {
namespace {

using ::testing::Each;
using ::testing::ElementsAreArray;
using ::testing::IsEmpty;
using ::testing::Not;

// The keys that have a default which somebody must have found out: all amounts.
std::vector<std::string_view> amounts() {
  std::vector<std::string_view> made;
  for (const Declaration& one : keys::uncertainty) {
    if (one.value.sort == Sort::amount) made.push_back(one.path);
  }
  return made;
}

TEST(UncertaintySources, HaveOneRowForEachKeyThatHasADefault) {
  std::vector<std::string_view> paths;
  std::vector<std::string_view> sources;
  for (const UncertaintySource& one : uncertainty_sources) {
    paths.push_back(one.path);
    sources.push_back(one.source);
  }
  EXPECT_THAT(paths, ElementsAreArray(amounts()));
  EXPECT_THAT(sources, Each(Not(IsEmpty())));
}

TEST(Uncertainty, HasAKeyForEachSourceAndNoOther) {
  std::vector<std::string_view> names;
  for (const Key key : keys_of("uncertainty")) names.push_back(key.name());
  std::vector<std::string_view> expected;
  for (const auto& word : source_words) expected.push_back(word.text);
  expected.push_back("leave_out");
  EXPECT_THAT(names, ElementsAreArray(expected));
}

}  // namespace
}  // namespace drystage::plan::uncertainty_sources_test
