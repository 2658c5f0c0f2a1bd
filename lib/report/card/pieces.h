#pragma once

#include <string>
#include <vector>

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/answer.h"
#include "report/text/type.h"
#include "units/format.h"

namespace drystage::report {

// What pages of the card are put together from, each `width_pt` wide.

/// The name of a part, with space above it and a line below; never the last on a page.
drawing::Block part_title(const drawing::Typesetter& typesetter, const std::string& words,
                          double width_pt);

/// The name of a part of the sheet, low: every line counts there.
drawing::Block sheet_title(const drawing::Typesetter& typesetter, const std::string& words,
                           double width_pt);

/// The name of something within a part; never the last on a page.
drawing::Block small_title(const drawing::Typesetter& typesetter, const std::string& words,
                           double width_pt);

/// A sentence or more in body type, a block for each line, with some space below.
std::vector<drawing::Block> sentences(const drawing::Typesetter& typesetter,
                                      const std::string& words, double width_pt);

/// Words with a mark before them ("1.", "-"), set in, a block for each line.
std::vector<drawing::Block> item(const drawing::Typesetter& typesetter, const std::string& mark,
                                 const std::string& words, double width_pt,
                                 const drawing::Font& font = body_font);

/// The same blocks, none of which is the last on a page.
std::vector<drawing::Block> with_next(std::vector<drawing::Block> blocks);

/// Rows of a table: all on one page where they are few, and else no fewer than two at the end of a
/// page or the beginning of another.
std::vector<drawing::Block> kept_together(std::vector<drawing::Block> rows);

/// Blocks one below the other as one, that stays together.
drawing::Block stacked(const std::vector<drawing::Block>& blocks);

/// A block within another's room, to the right and below.
void put(drawing::Block& onto, const drawing::Block& block, double right_pt, double down_pt);

/// A block moved to the right, with an empty box to tick before it. The box is `tick_room_pt` of
/// the width.
inline constexpr double tick_room_pt = 15;
drawing::Block ticked(const drawing::Block& block);

/// What is written, where to, and how it is shown: every part of the card takes this. It refers to
/// what it is made of, which must last as long.
struct Sheet {
  drawing::Flow& flow;
  const drawing::Typesetter& typesetter;
  const CardAnswer& answer;
  units::System system = units::System::metric;
  double small_pt = 7.5;  ///< size of all that is no figure to compare a reading with

  [[nodiscard]] const answers::PlanRun& planned() const { return answer.needs.planned; }
  [[nodiscard]] const plan::Plan& plan() const { return planned().plan; }
  [[nodiscard]] double width_pt() const { return flow.paper().column_pt(); }

  [[nodiscard]] drawing::Font small() const { return {.size_pt = small_pt}; }
  [[nodiscard]] drawing::Font small_strong() const { return {.size_pt = small_pt, .bold = true}; }

  /// A sentence or more, that may go over to the next page line by line.
  void say(const std::string& words, const drawing::Font& font) const {
    flow.add(drawing::paragraph(typesetter, words, font, width_pt()));
  }
  void say(const std::string& words) const { say(words, small()); }
  /// The name of one of its parts.
  void title(const std::string& words) const {
    flow.add(sheet_title(typesetter, words, width_pt()));
  }
};

/// Room to write in by hand: no less than 8 mm high.
inline constexpr double writing_height_pt = 8.5 * drawing::points_per_mm;

/// Words with a line to write on below each, two side by side; a block for each row.
std::vector<drawing::Block> blank_blocks(const drawing::Typesetter& typesetter,
                                         const std::vector<std::string>& blanks, double width_pt);

/// A name with blanks beside it, each with its words small at its beginning.
drawing::Block named_blanks(const drawing::Typesetter& typesetter, const std::string& name,
                            const std::vector<std::string>& words, double width_pt);

}  // namespace drystage::report
