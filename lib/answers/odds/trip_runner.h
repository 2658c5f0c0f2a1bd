#pragma once

#include <cstdint>
#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "answers/base/laid_trip.h"
#include "answers/mishaps/mishap.h"
#include "answers/odds/chances.h"
#include "answers/odds/trip_draw.h"
#include "engine/changing_course.h"

namespace drystage::answers {

/// What became of one trip: what is asked of all of them.
struct TripOutcome {
  struct OfReserve {
    double slack = engine::without_limit;  ///< the least: level less margin (or the other way)
    int breach_day = -1;                   ///< first below its margin, or out; -1: never
    int dry_day = -1;                      ///< first wanted and not there; -1: never
    double short_of = 0;                   ///< in all
    std::vector<double> lowest;            ///< by day; not a number where it is not judged
  };
  std::vector<OfReserve> reserves;
  int days = 0;
  std::vector<Happened> happened;  ///< in time order
};

/// The mishap that an event of a trip is, on a trip as it stands; nothing where it does not apply
/// any more. With the step before which it strikes.
struct Struck {
  Mishap mishap;
  std::size_t step = 0;
};
std::optional<Struck> struck_by(const TripEvent& event, const LaidTrip& laid);

/// What all trips of a plan share. Nothing changes once it is made but what is kept for later, so
/// that many threads may use it.
class TripGround {
 public:
  /// The plan's run must outlive it. `like`: one with whose days it shares what is the same; null:
  /// none.
  explicit TripGround(const PlanRun& planned, const TripGround* like = nullptr);

  [[nodiscard]] const PlanRun& planned() const { return planned_; }
  [[nodiscard]] const LaidTrip& laid() const { return laid_; }
  [[nodiscard]] engine::ReadyDays& days() const { return *days_; }

  /// What has happened, as numbers: by this a laid trip is known again.
  using WayKey = std::vector<double>;
  /// The laid trip after all that, or the one that `make()` makes. For any number of threads.
  template <class Make>
  LaidTrip laid_after(const WayKey& happened, const Make& make) const {
    {
      const std::scoped_lock lock(mutex_);
      const auto known = laid_after_.find(happened);
      if (known != laid_after_.end()) return known->second;
    }
    LaidTrip made = make();
    const std::scoped_lock lock(mutex_);
    if (laid_after_.size() < most_laid) laid_after_.emplace(happened, made);
    return made;
  }

 private:
  static constexpr std::size_t most_laid = 100;  ///< some 200 kB each

  const PlanRun& planned_;
  LaidTrip laid_;  ///< its stops make up for what is lacking
  std::shared_ptr<engine::ReadyDays> days_;
  mutable std::mutex mutex_;
  mutable std::map<WayKey, LaidTrip> laid_after_;
};

/// Runs trips, one after the other. Each thread has its own.
class TripRunner {
 public:
  explicit TripRunner(const TripGround& ground);

  /// Runs a trip and sums up what became of it. The outcome is good until the next run.
  const TripOutcome& run(const TripDraw& draw);

  /// A trip run again, with all that comes of it.
  struct Replay {
    LaidTrip laid;  ///< with the days that it took
    engine::Record record;
    std::vector<Happened> happened;
  };
  Replay replay(const TripDraw& draw);

  /// A trip laid out with all that holds it up, to be run from any moment of it. Nothing breaks on
  /// it, and no supply is missing. Good until the next trip.
  struct WrittenOut {
    LaidTrip laid;                ///< its course has what is drawn
    std::size_t as_planned_to{};  ///< the step before which it is held up first; else their number
  };
  WrittenOut written_out(TripDraw draw);

 private:
  using Standing = engine::Engine::Standing;
  /// A laid trip whose course changes from trip to trip.
  struct Way {
    LaidTrip laid;
    engine::ChangingCourse course;
  };
  using WayKey = TripGround::WayKey;

  /// What happens next on a trip: which of its events, and how it strikes.
  struct Next {
    std::size_t event = 0;
    Struck struck;
  };
  [[nodiscard]] static std::optional<Next> next_of(const TripDraw& draw,
                                                   const std::vector<char>& done,
                                                   const LaidTrip& laid, std::size_t from);
  Way& way_after(Way& before, const WayKey& happened, const Struck& struck);
  /// `like`: one to share with what is the same; null: none.
  [[nodiscard]] std::unique_ptr<Way> made(LaidTrip laid, const Way* like) const;
  /// The way as a trip has it, from a day up to what happens next.
  const engine::Course& changed(Way& way, const TripDraw& draw, int from_day,
                                const std::optional<Next>& next) const;
  void patch(engine::Course& course, const engine::Course& planned, const TripDraw& draw) const;
  void go_on(Way& way, const engine::Course& course, Standing& standing, const TripDraw& draw,
             std::vector<char>& done, WayKey happened, std::size_t depth,
             const std::optional<Next>& next);
  engine::Record& record(std::size_t depth);
  engine::Record& blank(const engine::Course& course, std::size_t depth);
  void add(const engine::Record& record, const engine::Course& course, int from_day, int to_day);
  void keep_whole(const Way& way, const engine::Course& course, std::size_t depth);

  const TripGround& ground_;
  std::unique_ptr<Way> whole_;  ///< nothing happens on it
  std::map<WayKey, std::unique_ptr<Way>> ways_;
  std::map<WayKey, std::unique_ptr<Way>> written_out_;  ///< ready from their first step on
  std::list<engine::Record> records_;                   ///< by how many things have happened
  /// By what happened: the day on which it did, and whether it had begun.
  struct Cut {
    int day = 0;
    bool begun = false;
  };
  std::vector<Cut> cuts_;
  engine::Keep keep_ = engine::Keep::days;
  std::optional<Replay> replay_;
  TripOutcome outcome_;
};

}  // namespace drystage::answers
