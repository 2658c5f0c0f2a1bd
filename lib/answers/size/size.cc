#include "answers/size/size.h"

#include <fmt/core.h>

#include <algorithm>
#include <deque>
#include <set>
#include <utility>

#include "answers/base/distance.h"
#include "answers/mishaps/sweep_plan.h"
#include "answers/offers/decision.h"
#include "answers/size/ground.h"
#include "answers/size/laws.h"
#include "answers/size/likelier.h"
#include "answers/size/placing.h"
#include "units/index.h"
#include "units/list.h"
#include "units/text.h"

namespace drystage::answers {
namespace {

/// What the next lesser of something is called.
std::string words(const SizedLine& line, const SizedLine& fewer) {
  if (!line.many.empty()) return fmt::format("{:g}", fewer.amount);
  if (fewer.amount <= 0) return "none";
  std::string text = fmt::format("{:g} {}", fewer.amount, fewer.unit);
  if (!fewer.detail.empty()) text += " " + fewer.detail;
  return text;
}

/// Every set of which one line has one fewer.
class Fewer {
 public:
  Fewer(const std::vector<Decision>& decisions, const ChoiceSet& set)
      : decisions_(decisions), set_(set) {}

  /// Calls `look` with the decision, its line, and what would be chosen instead, until it answers
  /// false.
  template <class Look>
  void each(const Look& look) const {
    for (std::size_t d = 0; d < decisions_.size(); ++d) {
      for (std::size_t line = 0; line < set_[d]->lines.size(); ++line) {
        const std::optional<Choice> fewer = decisions_[d].one_fewer(*set_[d], line);
        if (fewer && !look(d, line, *fewer)) return;
      }
    }
  }

 private:
  const std::vector<Decision>& decisions_;
  const ChoiceSet& set_;
};

std::vector<std::vector<SizedLine>> lines_of(const ChoiceSet& set) {
  std::vector<std::vector<SizedLine>> out;
  for (const Choice* choice : set) out.push_back(choice->lines);
  return out;
}

/// What is neither in the plan nor chosen is not worth a line.
std::vector<SizedLine> worth_a_line(std::vector<std::vector<SizedLine>> lines) {
  std::vector<SizedLine> out;
  for (std::vector<SizedLine>& each : lines) {
    for (SizedLine& line : each) {
      if (line.plan_amount > 0 || line.amount > 0) out.push_back(std::move(line));
    }
  }
  return out;
}

SizedPlan sized(const plan::Plan& before, const ChoiceSet& set, Judgement judgement,
                std::vector<std::vector<SizedLine>> lines) {
  give_bays(before, judgement.planned);
  SizedPlan out;
  out.plan = judgement.planned.plan;
  out.planned = std::move(judgement.planned);
  out.lines = worth_a_line(std::move(lines));
  out.totals = totals_of(set);
  return out;
}

/// The set that was found, with the reason why each thing is there: what fails with one fewer.
/// Should nothing fail, the lesser set is better, and is gone on with: the choices made on the way
/// are kept in `owned`.
SizedPlan explained(const SizeJudge& judge, const std::vector<Decision>& decisions, ChoiceSet set,
                    SizeJudge::Mishaps mishaps, std::deque<Choice>& owned) {
  while (true) {
    std::vector<std::vector<SizedLine>> lines = lines_of(set);
    bool better = false;
    Fewer(decisions, set).each([&](std::size_t d, std::size_t line, const Choice& fewer) {
      // A smaller tank may be dearer or heavier.
      const Least least = judge.options().least;
      if (!(objective(fewer.totals, least) < objective(set[d]->totals, least))) return true;
      ChoiceSet lesser = set;
      lesser[d] = &fewer;
      const std::vector<Failing> failing = failings_of(judge.judge(lesser, mishaps));
      if (judge.stopped()) return false;
      if (failing.empty()) {
        owned.push_back(fewer);
        set[d] = &owned.back();
        better = true;
        return false;
      }
      lines[d][line].fewer = words(set[d]->lines[line], fewer.lines[line]);
      lines[d][line].one_fewer = failing.front();
      return !judge.stopped();
    });
    if (!better)
      return sized(judge.plan(), set, judge.judge(set, SizeJudge::Mishaps::none), std::move(lines));
  }
}

KeptOdds odds_in(const Trial& trial) {
  KeptOdds out{.trips = trial.trips(), .kept = trial.kept()};
  for (std::size_t r = 0; r < trial.reserves(); ++r) {
    if (!trial.is_asked(r)) continue;
    out.reserves.push_back({.reserve = static_cast<int>(r),
                            .broken = models::chance_of(trial.broken(r), trial.trips())});
  }
  std::ranges::stable_sort(out.reserves, std::ranges::greater{},
                           [](const KeptOdds::OfReserve& each) { return each.broken.chance; });
  return out;
}

/// On drawn trips, where a confidence is asked for and nobody stops it.
std::optional<KeptOdds> odds_with(const SizeJudge& judge, const PlanRun& planned) {
  if (!judge.options().confidence || judge.stopped()) return std::nullopt;
  const Trial trial = judge.trial_of(planned, true);
  return judge.stopped() ? std::nullopt : std::optional(odds_in(trial));
}

/// What stands in the way of a likelier set: the limit that the next more of something passes with
/// which fewer of the trips that are drawn would fail. `unlimited` judges without limits.
std::optional<InTheWay> in_the_way(const SizeJudge& judge, const SizeJudge& unlimited,
                                   const std::vector<Decision>& decisions,
                                   const Judgement& judgement, const ChoiceSet& set) {
  std::set<std::size_t> tried;
  while (!judge.stopped()) {
    ChoiceSet more = set;
    const std::optional<std::size_t> which = take_likelier(decisions, judgement, more, tried);
    if (!which) return std::nullopt;
    tried.insert(*which);
    const Judgement limited = judge.judge(more, SizeJudge::Mishaps::none);
    if (limited.within_limits()) continue;
    const Judgement then = unlimited.judge(more, SizeJudge::Mishaps::all);
    if (!then.trial || then.trial->broken() >= judgement.trial->broken()) continue;
    const std::vector<Failing> failing = failings_of(limited);
    const auto limit = std::ranges::find_if(
        failing, [](const Failing& one) { return one.reason != Failing::Reason::margin; });
    if (limit == failing.end()) continue;
    const Decision& decision = decisions[*which];
    const bool is_store = decision.sort == Decision::Sort::store;
    return InTheWay{.reserve = is_store ? judgement.reserve(decision.reserve) : -1,
                    .limit = *limit};
  }
  return std::nullopt;
}

NearestMiss miss_of(const SizeJudge& judge, const SizeJudge& unlimited,
                    const std::vector<Decision>& decisions, const ChoiceSet& set) {
  NearestMiss out;
  // Of drawn trips all are told.
  Judgement judgement =
      judge.judge(set, judge.options().confidence ? SizeJudge::Mishaps::all
                                                  : SizeJudge::Mishaps::suspects_first);
  out.failing = failings_of(judgement);
  if (!out.failing.empty() && out.failing.front().breach) {
    const auto r = static_cast<std::size_t>(out.failing.front().breach->reserve);
    const Verdict& verdict =
        out.failing.front().unconfirmed ? *judgement.confirmed : judgement.planned.verdict;
    out.lacks = lacking(verdict.reserves[r]);
  }
  std::optional<KeptOdds> odds;
  if (judgement.trial) {
    odds = odds_in(*judgement.trial);
    const int reserve = judgement.trial->most_often();
    out.beyond_load =
        reserve >= 0 &&
        !SizeLaws(judge, decisions).is_decided(judgement.planned.course.reserves[at(reserve)].id);
    out.in_the_way = in_the_way(judge, unlimited, decisions, judgement, set);
  }
  out.set = sized(judge.plan(), set, std::move(judgement), lines_of(set));
  out.set.odds = std::move(odds);
  return out;
}

/// What is not given in the plan, and had to be reckoned with.
std::vector<std::string> remarks_on(const plan::Plan& plan,
                                    const std::vector<Decision>& decisions) {
  std::vector<std::string> out;
  if (!plan.margins.contains("drinking_water")) {
    out.emplace_back(
        "the plan asks for no margin of drinking water: the set may bring it home all but empty");
  }
  if (plan.size.limits.budget && !plan::has_costs(plan.size)) {
    out.emplace_back("nothing on offer has a cost, so the budget binds nothing");
  } else if (plan::has_costs(plan.size) && !plan::all_have_costs(plan.size)) {
    out.emplace_back("some of what is on offer has no cost: it counts as costing nothing");
  }
  if (std::ranges::any_of(decisions, [](const Decision& decision) {
        return decision.reserve.family == engine::Family::tyres;
      })) {
    out.emplace_back(
        "spare wheels are for side walls too, which no repair mends; check pressures and tread, "
        "the spares' too");
  }
  for (const plan::OwnMishap& own : plan.mishaps.own) {
    if (own.containers.empty() && own.tanks.empty()) continue;
    out.push_back(fmt::format("what mishap {} loses stays as it is", units::in_quotes(own.name)));
  }
  for (const plan::FoodItem& item : plan.food) {
    const bool changes =
        std::ranges::find(decisions, item.name, &Decision::item) != decisions.end();
    if (!changes || item.meals <= 0 || item.mass_kg > 0) continue;
    out.push_back(fmt::format(
        "no mass is given for {}: it weighs nothing in the plan, and what is usual in the set",
        item.name));
  }
  for (const Decision& decision : decisions) {
    if (decision.sort != Decision::Sort::equipment || decision.choices.size() < 2) continue;
    const SizedLine& line = decision.choices.front().lines.front();
    const bool weighed = decision.choices.front().weighed;
    if (line.plan_amount <= 0 || weighed) continue;
    out.push_back(fmt::format(
        "no mass is given for {}. It counts as part of the vehicle's empty mass. Another in its "
        "place weighs on top",
        line.one));
  }
  return out;
}

/// Of vessels that are others in the set, and were measured: the set says nothing of how to read
/// them.
template <class Vessel>
void remark_on_gauges(const std::vector<Vessel>& planned, const std::vector<Vessel>& found,
                      std::vector<std::string>& remarks) {
  for (const Vessel& was : planned) {
    const auto is = std::ranges::find(found, was.name, &Vessel::name);
    if (is == found.end() || !was.gauge.is_given() || is->gauge.is_given()) continue;
    remarks.push_back(
        fmt::format("{} is another one in the set: the shape or dip marks that the plan has for it "
                    "are left out",
                    units::in_quotes(was.name)));
  }
}

void remark_on_gauges(const plan::Plan& planned, const plan::Plan& found,
                      std::vector<std::string>& remarks) {
  remark_on_gauges(planned.water.containers, found.water.containers, remarks);
  for (std::size_t v = 0; v < planned.vehicles.size(); ++v) {
    remark_on_gauges(planned.vehicles[v].tanks, found.vehicles[v].tanks, remarks);
  }
}

/// Whether the loss of a can is drawn, or among the mishaps to be survived.
bool cans_may_be_lost(const plan::Plan& plan, const SizeOptions& options) {
  const plan::Uncertainty& drawn = plan.uncertainty;
  if (options.confidence &&
      (drawn.draws(plan::Source::containers) || drawn.draws(plan::Source::fills))) {
    return true;
  }
  if (!options.survive) return false;
  const auto among = [](const std::vector<plan::MishapKind>& kinds) {
    return std::ranges::find(kinds, plan::MishapKind::container) != kinds.end();
  };
  return !among(plan.mishaps.left_out) && (options.survive->empty() || among(*options.survive));
}

/// Notes which of the mishaps asked for can strike at all.
void note_tried(const SizeOptions& options, Sizing& sizing) {
  if (!options.survive || !sizing.found) return;
  const SweepPlan plan(sizing.found->planned, {.only = *options.survive});
  const auto is_tried = [&](plan::MishapKind kind) {
    return std::ranges::find(sizing.tried, kind) != sizing.tried.end();
  };
  for (const Mishap& mishap : plan.mishaps()) {
    if (!is_tried(mishap.failure.kind)) sizing.tried.push_back(mishap.failure.kind);
  }
  std::string names;
  for (const auto& [text, kind] : plan::mishap_words) {
    if (is_tried(kind) || std::ranges::find(*options.survive, kind) == options.survive->end()) {
      continue;
    }
    units::add_to(names, text);
  }
  if (sizing.tried.empty() && options.survive->empty()) names = "of any kind";
  if (names.empty()) return;
  sizing.remarks.push_back("mishaps that cannot strike in this plan, and that were not tried: " +
                           names);
}

/// Searches, and has whatever is found gone through once more. `nearest` is what came nearest where
/// nothing is.
Sizing sizing_of(const PlanRun& planned, const SizeGround& ground, const SizeJudge& judge,
                 SizeJudge::Mishaps mishaps, const Watch& watch,
                 std::optional<ChoiceSet>& nearest) {
  Sizing out;
  const std::vector<Decision>& decisions = *ground.decisions;
  for (const Decision& decision : decisions) {
    out.plan_totals.kg += decision.planned.kg;
    out.plan_totals.cost += decision.planned.cost;
    out.plan_totals.space_l += decision.planned.space_l;
  }
  out.costs_given = plan::has_costs(planned.plan.size);
  out.space_limited = planned.plan.size.limits.space_l.has_value();
  out.remarks = remarks_on(planned.plan, decisions);
  SearchResult result = search(judge, decisions, watch.progress, ground.known);
  std::deque<Choice> owned;
  if (result.best) out.found = explained(judge, decisions, *result.best, mishaps, owned);
  if (out.found) remark_on_gauges(planned.plan, out.found->plan, out.remarks);
  if (out.found) out.found->odds = odds_with(judge, out.found->planned);
  note_tried(judge.options(), out);
  nearest = std::move(result.nearest);
  out.given_up = result.cut_short;
  if (out.given_up) {
    out.remarks.push_back(
        fmt::format("the search was given up after {} runs: {}", judge.runs(),
                    result.best ? "with one fewer of anything this set would not do, but there may "
                                  "be another that is less"
                                : "there may be a set that is enough"));
  }
  out.stopped = judge.stopped();
  out.runs = judge.runs();
  auto left = std::make_shared<SizeGround>(ground);
  left->known = std::move(result.known);
  if (result.best) left->best = objective(totals_of(*result.best), judge.options().least);
  left->laid = judge.last_laid();
  out.ground = std::move(left);
  return out;
}

/// Whether an axle, a bay or another part has a limit: smaller cans may find a place where a larger
/// one does not.
bool has_parts(const engine::Course& course) {
  return course.scales.size() > course.vehicle_kg.size();
}

}  // namespace

SizeGround ground_of(const PlanRun& planned, const SizeOptions& options) {
  return {.decisions = std::make_shared<const std::vector<Decision>>(
              decisions_of(planned.plan, options.least,
                           cans_may_be_lost(planned.plan, options) || has_parts(planned.course))),
          .laid = keeping_timelines()};
}

Sizing size_plan(const PlanRun& planned, const SizeOptions& options, const Watch& watch) {
  const SizeGround ground = ground_of(planned, options);
  const SizeJudge judge(planned, options, watch, true, ground.laid);
  std::optional<ChoiceSet> nearest;
  Sizing out = sizing_of(planned, ground, judge, SizeJudge::Mishaps::all, watch, nearest);
  if (!out.found && !judge.stopped()) {
    // Were there no limits, would there be enough? Then it is by those that it fails. That is asked
    // of the plan as it is calculated: the set that comes nearest says more of chances.
    SizeOptions as_planned = options;
    as_planned.confidence.reset();
    const SizeJudge unlimited(planned, as_planned, watch, false, judge.last_laid());
    const SearchResult without = search(unlimited, *ground.decisions, watch.progress);
    if (without.best &&
        (!nearest || judge.judge(*without.best, SizeJudge::Mishaps::none).shortfall() <
                         judge.judge(*nearest, SizeJudge::Mishaps::none).shortfall())) {
      nearest = without.best;
    }
    out.given_up = out.given_up || without.cut_short;
    if (nearest) {
      const SizeJudge any_load(planned, options, watch, false, unlimited.last_laid());
      out.miss = miss_of(judge, any_load, *ground.decisions, *nearest);
    }
    if (out.miss) out.miss->most_of_all = !without.best;
    out.runs += unlimited.runs();
  }
  out.plan_odds = odds_with(judge, planned);
  out.stopped = judge.stopped();
  return out;
}

Sizing least_set(const PlanRun& planned, const SizeOptions& options, const Watch& watch,
                 const SizeGround& ground) {
  const SizeJudge judge(planned, options, watch, true, ground.laid);
  std::optional<ChoiceSet> nearest;
  return sizing_of(planned, ground, judge, SizeJudge::Mishaps::suspects_first, watch, nearest);
}

}  // namespace drystage::answers
