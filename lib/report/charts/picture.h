#pragma once

#include <limits>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "drawing/flow.h"
#include "drawing/page.h"
#include "drawing/typesetter.h"
#include "report/text/type.h"

namespace drystage::report {

/// What a chart by itself stands on: 190 mm wide, so that it goes onto either paper, and as long as
/// it needs.
inline constexpr drawing::Paper picture{.width_pt = 190 * drawing::points_per_mm,
                                        .height_pt = std::numeric_limits<double>::infinity(),
                                        .margin_pt = 4 * drawing::points_per_mm};

/// Words over the whole width, with some space below. Nothing where there are none.
void write(drawing::Flow& flow, const drawing::Typesetter& typesetter, const std::string& words,
           const drawing::Font& font, double gap_pt = 4);

/// The trip's title, and below it people, days and dates.
void write_trip(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                const answers::PlanRun& planned);

/// What the reader was warned of, each by itself.
void write_warnings(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                    const std::vector<std::string>& warnings);

/// What the reader must know of how it was reckoned, each by itself.
void write_remarks(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                   const std::vector<std::string>& remarks);

/// The cautions, at the foot.
void write_cautions(drawing::Flow& flow, const drawing::Typesetter& typesetter);

// How charts look. Lines are told apart by dash, weight and dots alone, so that a bad copy in black
// and white still tells them apart.

inline drawing::Stroke plan_line() { return {.width_pt = 2}; }
inline drawing::Stroke margin_line() { return {.width_pt = 1.6, .dash_pt = {1.6, 2.4}}; }
inline drawing::Stroke must_line() { return {.width_pt = 1.1, .dash_pt = {5, 3}}; }

inline drawing::Stroke edge_line() { return {.width_pt = 1}; }
inline drawing::Stroke strong_grid() { return {.width_pt = 0.55, .dash_pt = {}, .grey = 0.2}; }
inline drawing::Stroke fine_grid() { return {.width_pt = 0.3, .dash_pt = {}, .grey = 0.45}; }

// Of pictures that nobody writes in: little grid, and a line that is never lost on it.
inline drawing::Stroke faint_grid() { return {.width_pt = 0.4, .dash_pt = {}, .grey = 0.7}; }
inline drawing::Stroke halo() { return {.width_pt = 4.5, .dash_pt = {}, .grey = 1}; }
inline drawing::Stroke zone_hatch() { return {.width_pt = 0.6, .dash_pt = {}, .grey = 0.35}; }
inline drawing::Stroke decides_line() { return {.width_pt = 2.2}; }
inline constexpr double zone_apart_pt = 4.5;
inline constexpr double night_grey = 0.92;

/// A sign or a piece of line, and what it means.
struct KeyItem {
  std::vector<drawing::Mark> sample{};  ///< in a box of that width by the height of a line
  std::string words;
  double sample_pt = 26;  ///< how wide the box is
};

/// How high a line of a key is.
double key_line_pt(const drawing::Typesetter& typesetter);

/// A piece of a line as it stands in a chart, for a key.
KeyItem line_item(const drawing::Typesetter& typesetter, const drawing::Stroke& stroke,
                  std::string words);

/// How wide all items are side by side.
double key_width(const drawing::Typesetter& typesetter, const std::vector<KeyItem>& items);

/// The items side by side, on as many lines as they need; the words of one wider than a line are
/// broken.
drawing::Block key(const drawing::Typesetter& typesetter, const std::vector<KeyItem>& items,
                   double width_pt);

}  // namespace drystage::report
