#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

namespace drystage::report::page {

// What a reading says, compared and scaled from what the engine has worked out. The page's script
// (page.js) has the same rules; tests/cli/page_rules_test.cc gives both the same cases. All amounts
// are in the units that are shown.

/// The plan must be run again when use differs from the plan by more than this share of it (ours).
inline constexpr double far_off_share = 0.25;

/// A rate is told only where the plan uses at least so many steps (Reserve::step): below that, an
/// error of reading would look like a habit (ours).
inline constexpr double least_steps = 5;

/// What the plan says of one reserve on one evening.
struct Evening {
  double plan = 0;
  double must = 0;     ///< must have; infinite: no amount is enough; 0: the trip ends
  double use = 0;      ///< what the plan uses until the next evening
  bool takes = false;  ///< the plan has a stop for more of it on the day that this evening ends
  double once = std::numeric_limits<double>::infinity();  ///< must have to go on at once
  double back = std::numeric_limits<double>::infinity();  ///< must have to turn back
};

struct Reserve {
  std::vector<Evening> evenings;
  double step = 1;  ///< what one digit of a reading comes to
  double holds = std::numeric_limits<double>::infinity();
  bool rated = true;  ///< falls by use alone between stops: of a battery, use cannot be read
};

/// What was typed on one evening.
struct Entry {
  std::optional<double> reading{};
  std::optional<double> taken{};  ///< taken on since the evening before
};

enum class Stand { above, at, below };

/// Whether a way can be gone. `rate`: at the plan's rate, and not at one's own.
enum class Way { open, rate, unknown, shut };

/// What a reading says.
struct Answer {
  bool excess = false;         ///< more than there is room for: nothing else is said
  Stand stand = Stand::above;  ///< to must have; at: less than one step to spare
  double spare = 0;            ///< reading less must have
  bool asks = false;           ///< use is not known until what was taken on is typed
  int since = -1;              ///< the evening from which use is told; -1: none
  double used = 0;             ///< since then
  double planned = 0;          ///< the same by the plan
  std::optional<double> rate;  ///< used over planned
  double tomorrow = 0;  ///< tomorrow evening's must have at this rate, never below the plan's
  Way on = Way::open;   ///< as planned
  Way once = Way::shut;
  Way back = Way::shut;
  bool again = false;  ///< so far off that the plan must be run again
};

/// What tonight's reading says; nothing where none was typed. Entries go with the evenings. Use is
/// told from the nearest earlier reading from which the plan uses enough to tell a rate; where
/// there is none, from the earliest that reaches here without a gap.
std::optional<Answer> answer(const Reserve& reserve, const std::vector<Entry>& entries,
                             std::size_t evening);

/// One way for all reserves together: open if it is for each. Of a reserve without a reading it is
/// unknown.
Way together(const std::vector<Way>& ways);

}  // namespace drystage::report::page
