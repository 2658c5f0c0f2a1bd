#include "engine/reserves/power_nodes.h"

#include <algorithm>

#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

double between(double left, double right, double part) { return left + part * (right - left); }

}  // namespace

void take_between(Power::Tables& out, const Power::Compiled& compiled, const CourseBase& course,
                  const PowerNodes& nodes, std::span<const SkyPlace> skies) {
  const Timeline& timeline = *course.timeline;
  const std::size_t banks = compiled.banks.size();
  const std::size_t cabinets = compiled.cabinets.size();
  for (std::size_t s = 0; s < timeline.steps.size(); ++s) {
    const TimeStep& step = timeline.steps[s];
    if (step.dt_h <= 0) continue;
    const SkyPlace& sky = skies[at(step.place_day)];
    const Power::Tables& colder = nodes.warm[sky.warm];
    const Power::Tables& warmer = nodes.warm[sky.warm + 1];
    for (std::size_t c = s * cabinets; c < (s + 1) * cabinets; ++c) {
      out.lid_w_k[c] = between(colder.lid_w_k[c], warmer.lid_w_k[c], sky.warm_part);
    }
    const PowerNodes::Sun& duller = nodes.sun[sky.sun];
    const PowerNodes::Sun& clearer = nodes.sun[sky.sun + 1];
    for (std::size_t cell = 2 * s * banks; cell < 2 * (s + 1) * banks; ++cell) {
      const double as_planned_a =
          between(duller.panel_a[cell], clearer.panel_a[cell], sky.sun_part);
      const double per_k =
          between(duller.panel_a_per_k[cell], clearer.panel_a_per_k[cell], sky.sun_part);
      const double others_a = nodes.planned.source_a[cell] - nodes.planned.panel_a[cell];
      out.panel_a[cell] = std::max(0.0, as_planned_a + per_k * sky.warmer_k);
      out.source_a[cell] = others_a + out.panel_a[cell];
    }
    out.charging_c[s] = nodes.planned.charging_c[s] + sky.warmer_k;
  }
  for (std::size_t h = 0; h < timeline.place_days.size(); ++h) {
    const SkyPlace& sky = skies[h];
    const Power::Tables& colder = nodes.warm[sky.warm];
    const Power::Tables& warmer = nodes.warm[sky.warm + 1];
    for (std::size_t c = h * cabinets; c < (h + 1) * cabinets; ++c) {
      out.lid_day_w_k[c] = between(colder.lid_day_w_k[c], warmer.lid_day_w_k[c], sky.warm_part);
    }
    for (std::size_t b = 0; b < banks; ++b) {
      const std::size_t cell = h * banks + b;
      out.drawn_ah_day[cell] =
          between(colder.drawn_ah_day[cell], warmer.drawn_ah_day[cell], sky.warm_part);
      out.use_ah_day[cell] = compiled.banks[b].given_ah_day(out.drawn_ah_day[cell]);
    }
  }
  for (std::size_t d = 0; d < timeline.days.size(); ++d) {
    for (std::size_t b = 0; b < banks; ++b) {
      out.in_reach[d * banks + b] = 1 / models::cold_factor(compiled.banks[b].params.kind,
                                                            timeline.conditions.days[d].mean_c);
    }
  }
}

}  // namespace drystage::engine::reserves
