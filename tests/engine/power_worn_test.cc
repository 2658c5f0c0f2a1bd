// Banks that have lost capacity, without compiling anew: as though compiled so.

#include <gtest/gtest.h>

#include "engine/changing_course.h"
#include "support/laid_out.h"

namespace drystage::engine {
namespace {

using reserves::Power;

TEST(WornBanks, AreAsThoughTheyHadBeenCompiledSo) {
  int banks = 0;
  for (const plan::Plan& plan : support::all_scenarios()) {
    const auto timeline = std::make_shared<const Timeline>(lay_timeline(plan));
    const Course whole = compile(plan, timeline);
    Damage worn;
    constexpr double left = 0.8;
    for (int b = 0; b < static_cast<int>(plan.power.banks.size()); ++b) {
      worn.banks.push_back({.bank = b, .left = left});
      ++banks;
    }
    const Course compiled = recompile(plan, timeline, whole, 0, worn);
    ReadyDays days;
    ChangingCourse changing(std::make_shared<const plan::Plan>(plan),
                            std::make_shared<const Course>(whole), days);
    const Course& changed = changing.draw({}, left);
    const Record is = Engine::run(changed);
    const Record should = Engine::run(compiled);
    for (std::size_t i = 0; i < should.reserve_days.size(); ++i) {
      const std::string& name = whole.reserves[i % whole.reserves.size()].name;
      ASSERT_NEAR(is.reserve_days[i].lowest, should.reserve_days[i].lowest, 1e-9) << name;
      if (should.reserve_days[i].slack < without_limit) {
        ASSERT_NEAR(is.reserve_days[i].slack, should.reserve_days[i].slack, 1e-9) << name;
      }
      ASSERT_EQ(is.reserve_days[i].breach_h, should.reserve_days[i].breach_h) << name;
    }
    // And back again, to the last digit.
    const Record again = Engine::run(changing.draw({}));
    const Record plain = Engine::run(whole);
    for (std::size_t i = 0; i < plain.reserve_days.size(); ++i) {
      ASSERT_EQ(again.reserve_days[i].slack, plain.reserve_days[i].slack);
    }
  }
  EXPECT_GT(banks, 5);
}

}  // namespace
}  // namespace drystage::engine
