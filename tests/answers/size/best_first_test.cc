#include "answers/size/best_first.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <set>

#include "support/random_plan.h"

namespace drystage::answers {
namespace {

using Lists = std::vector<std::vector<Objective>>;

std::vector<BestFirst::Entry> all_of(const Lists& lists) {
  BestFirst combinations(lists);
  std::vector<BestFirst::Entry> out;
  while (auto next = combinations.next()) out.push_back(std::move(*next));
  return out;
}

/// One to four sorted lists of small numbers, so that many sums are equal.
Lists random_lists() {
  const auto pick = support::rapidcheck_pick();
  Lists lists(static_cast<std::size_t>(pick(1, 4)));
  for (std::vector<Objective>& list : lists) {
    list.resize(static_cast<std::size_t>(pick(1, 5)));
    for (Objective& value : list) value = {.first = pick(-3, 5), .second = pick(0, 2)};
    std::ranges::sort(list, [](const Objective& a, const Objective& b) { return a < b; });
  }
  return lists;
}

RC_GTEST_PROP(BestFirstProperty, GivesEveryCombinationOnceTheLeastFirst, ()) {
  const Lists lists = random_lists();
  const std::vector<BestFirst::Entry> all = all_of(lists);
  std::size_t count = 1;
  for (const auto& list : lists) count *= list.size();
  std::set<std::vector<std::size_t>> seen;
  for (std::size_t i = 0; i < all.size(); ++i) {
    RC_ASSERT(seen.insert(all[i].places).second);
    Objective sum;
    for (std::size_t list = 0; list < lists.size(); ++list) {
      sum = sum + lists[list][all[i].places[list]];
    }
    RC_ASSERT(sum == all[i].sum);
    if (i > 0) RC_ASSERT(!(all[i].sum < all[i - 1].sum));
  }
  RC_ASSERT(seen.size() == count);
}

RC_GTEST_PROP(BestFirstProperty, OfEqualSumsTheOneFirstByItsPlacesComesFirst, ()) {
  const std::vector<BestFirst::Entry> all = all_of(random_lists());
  for (std::size_t i = 1; i < all.size(); ++i) {
    if (all[i].sum == all[i - 1].sum) RC_ASSERT(all[i - 1].places < all[i].places);
  }
}

TEST(BestFirst, GoesByTheSecondValueWhereTheFirstIsEqual) {
  const auto all = all_of({{{.first = 1, .second = 0}, {.first = 1, .second = 5}},
                           {{.first = 0, .second = 0}, {.first = 0, .second = 2}}});
  ASSERT_EQ(all.size(), 4U);
  EXPECT_EQ(all[1].sum, (Objective{.first = 1, .second = 2}));
  EXPECT_EQ(all[2].sum, (Objective{.first = 1, .second = 5}));
  EXPECT_EQ(all[3].sum, (Objective{.first = 1, .second = 7}));
}

TEST(BestFirst, OfNoListsHasOneCombination) {
  const auto all = all_of({});
  ASSERT_EQ(all.size(), 1U);
  EXPECT_TRUE(all.front().places.empty());
  EXPECT_EQ(all.front().sum, Objective{});
}

}  // namespace
}  // namespace drystage::answers
