// What readings teach of use, against two independent ways of working it out, with numpy and scipy.
// generate/use_factors.py made the recorded values.

#include "models/use_factors.h"

#include <gtest/gtest.h>

#include <cstddef>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace drystage::models::published_use_factors_test {
namespace {

using Json = nlohmann::json;

Json recorded_cases() {
  std::ifstream file(std::string(DRYSTAGE_TEST_DATA) + "/published/data/use_factors.json");
  EXPECT_TRUE(file.is_open());
  return Json::parse(file).at("cases");
}

UseFactors learn_of(const Json& recorded) {
  const UsePrior prior{recorded.at("common_sd").get<double>(),
                       recorded.at("part_sd").get<std::vector<double>>()};
  std::vector<UseInterval> intervals;
  for (const Json& one : recorded.at("intervals")) {
    intervals.push_back({one.at("expected").get<std::vector<double>>(),
                         one.at("used").get<double>(), one.at("begin_error").get<double>(),
                         one.at("end_error").get<double>(), one.at("shares_begin").get<bool>(),
                         one.at("scatter").get<double>()});
  }
  return learn(prior, intervals);
}

UseFactor mix_of(const Json& recorded, const UseFactors& found) {
  return found.of(recorded.at("mix").get<std::vector<double>>());
}

void expect_near(const UseFactor& found, const Json& range, double median_within,
                 double ends_within, const Json& name) {
  EXPECT_NEAR(found.factor, range.at(0).get<double>(), median_within) << name;
  EXPECT_NEAR(found.low, range.at(1).get<double>(), ends_within) << name;
  EXPECT_NEAR(found.high, range.at(2).get<double>(), ends_within) << name;
}

TEST(PublishedUseFactors, AreTheMostProbableOnes) {
  const Json cases = recorded_cases();
  ASSERT_GE(cases.size(), 7U);
  for (const Json& recorded : cases) {
    const UseFactors found = learn_of(recorded);
    const Json& probable = recorded.at("most_probable");
    // Of what is far out the library takes the weight that it has, for the range as well.
    const double ends_within = recorded.contains("exact") ? 2e-5 : 3e-3;
    ASSERT_EQ(found.parts.size(), probable.at("parts").size());
    for (std::size_t part = 0; part < found.parts.size(); ++part) {
      expect_near(found.parts[part], probable.at("parts").at(part), 2e-5, ends_within,
                  recorded.at("name"));
    }
    expect_near(mix_of(recorded, found), probable.at("mix"), 2e-5, ends_within,
                recorded.at("name"));
  }
}

// That the range is of a normal distribution of the logarithms costs little, and is on the wide
// side.
TEST(PublishedUseFactors, AreNearTheExactDistribution) {
  std::size_t compared = 0;
  for (const Json& recorded : recorded_cases()) {
    if (!recorded.contains("exact")) {
      continue;
    }
    const UseFactors found = learn_of(recorded);
    const auto compare = [&](const UseFactor& ours, const Json& range) {
      const double wide = range.at(2).get<double>() - range.at(1).get<double>();
      expect_near(ours, range, 0.04 * wide, 0.12 * wide, recorded.at("name"));
      ++compared;
    };
    for (std::size_t part = 0; part < found.parts.size(); ++part) {
      compare(found.parts[part], recorded.at("exact").at("parts").at(part));
    }
    compare(mix_of(recorded, found), recorded.at("exact").at("mix"));
  }
  EXPECT_GE(compared, 15U);
}

}  // namespace
}  // namespace drystage::models::published_use_factors_test
