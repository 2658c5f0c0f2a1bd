#include <fmt/core.h>

#include <algorithm>

#include "report/needs/report.h"
#include "report/needs/words.h"
#include "report/text/breach_words.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

/// The first morning on which a reserve lacks something.
struct Lack {
  std::size_t day = 0;
  std::size_t i = 0;  ///< index into Needs::reserves
};

const engine::ReserveInfo& needed(const NeedsAnswer& answer, std::size_t i) {
  return reserve_of(answer.planned, answer.needs.reserves[i]);
}

bool is_vital(const NeedsAnswer& answer, std::size_t i) {
  return needed(answer, i).life_supporting;
}

/// One for each reserve that lacks, those first on which life depends, then in time order; on the
/// same morning as they are shown.
std::vector<Lack> first_lacks(const NeedsAnswer& answer) {
  std::vector<Lack> out;
  std::vector<bool> told(answer.needs.reserves.size());
  const std::vector<std::size_t> order = needs_order(answer);
  for (std::size_t day = 0; day < answer.planned.record.days(); ++day) {
    for (const std::size_t i : order) {
      if (told[i] || !answer.needs.need(day, i).lacks()) continue;
      told[i] = true;
      out.push_back({.day = day, .i = i});
    }
  }
  std::stable_partition(out.begin(), out.end(),
                        [&](const Lack& lack) { return is_vital(answer, lack.i); });
  return out;
}

std::string first_line(const NeedsAnswer& answer, const std::vector<Lack>& lacking,
                       units::System system) {
  if (lacking.empty()) {
    return "MET: every morning the plan has at least what it must have.";
  }
  const Lack& first = lacking.front();
  return fmt::format(
      "{}. On {}, {}.",
      is_vital(answer, first.i) ? "NOT MET" : "MET FOR WHAT LIFE DEPENDS ON, NOT FOR ALL",
      day_words(answer.planned, static_cast<int>(first.day)),
      need_words(answer.planned, answer.needs.reserves[first.i],
                 answer.needs.need(first.day, first.i), system));
}

/// The reserves that lack beside the one that is named first.
std::string others_line(const NeedsAnswer& answer, const std::vector<Lack>& lacking) {
  std::string names;
  for (std::size_t n = 1; n < lacking.size(); ++n) {
    units::add_to(names, fmt::format("{} (day {})", reserve_words(needed(answer, lacking[n].i)),
                                     lacking[n].day + 1));
  }
  return names.empty() ? names : paragraph("Too little too: " + names + ".");
}

std::string unconfirmed_line(const NeedsAnswer& answer) {
  const std::string names = unconfirmed_words(answer.planned);
  if (names.empty()) return {};
  return paragraph(fmt::format("Not confirmed: {}. Must have does not count on it.", names));
}

/// The limited supplies that must have counts on: without one of them it is too low.
std::string counted_on_line(const NeedsAnswer& answer, const std::vector<std::size_t>& order) {
  std::vector<Taken> taken;
  for (std::size_t day = 0; day < answer.planned.record.days(); ++day) {
    for (const std::size_t i : order) {
      for (const int place : answer.needs.need(day, i).taking_at) {
        taken.push_back({.place = place, .reserve = answer.needs.reserves[i]});
      }
    }
  }
  const std::string words = taken_words(answer.planned, taken);
  return words.empty() ? words : paragraph("Must counts on " + words + ".");
}

/// `run` asks for more: margins to the last midnight, and the cold.
std::string run_line(const NeedsAnswer& answer, bool met, units::System system) {
  if (!met || answer.planned.verdict.holds) return {};
  return paragraph(
      fmt::format("Yet the plan does not hold: {}. drystage run says more.",
                  breach_note(answer.planned, answer.planned.verdict.breaches.front(), system)));
}

/// What life depends on and the plan sets no margin for.
std::string no_margin_line(const NeedsAnswer& answer) {
  std::string names;
  for (const engine::ReserveInfo& info : answer.planned.course.reserves) {
    const engine::MarginRule& rule = info.margin;
    if (!info.life_supporting || rule.fixed + rule.days + rule.km > 0) continue;
    units::add_to(names, reserve_words(info));
  }
  if (names.empty()) return {};
  return paragraph("No margin is set for " + names +
                   ": what must be on board is to the last drop.");
}

}  // namespace

std::string needs_text(const NeedsAnswer& answer, const TextOptions& options) {
  const std::vector<Lack> lacking = first_lacks(answer);
  std::string text =
      headline(first_line(answer, lacking, options.system), lacking.empty(), options.color);
  text += others_line(answer, lacking);
  text += run_line(answer, lacking.empty(), options.system);
  text += no_margin_line(answer);
  const std::string on_trips = on_trips_words(answer);
  if (!on_trips.empty()) text += paragraph(on_trips);
  text += unconfirmed_line(answer);
  text += title_line(answer.planned);
  text += warning_lines(answer.warnings) + "\n";
  // On one screen no more blank lines than must be.
  const char* const apart = options.all ? "\n" : "";
  text += needs_table(answer, options) + apart;
  std::vector<std::size_t> order = needs_order(answer);
  if (!options.all) std::erase_if(order, [&](std::size_t i) { return !is_vital(answer, i); });
  text += until_list(answer.planned, answer.needs, order, options.all);
  if (!options.all) text += counted_on_line(answer, order);
  text += apart + turn_back_list(answer, options);
  return text + "\n" + caution_lines(options);
}

}  // namespace drystage::report
