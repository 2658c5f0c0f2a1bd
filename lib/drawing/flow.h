#pragma once

#include <string>
#include <vector>

#include "drawing/page.h"
#include "drawing/typesetter.h"

namespace drystage::drawing {

/// Something that stays together on one page, as wide as the paper's column. Its marks are placed
/// from its own top left corner.
struct Block {
  double height_pt = 0;
  std::vector<Mark> marks{};
  bool with_next = false;  ///< never the last on a page: a heading
};

/// Empty space.
Block space(double height_pt);

/// Words broken to a width, one block for each line, so that they may go over more than one page.
std::vector<Block> paragraph(const Typesetter& typesetter, const std::string& words,
                             const Font& font, double width_pt, double indent_pt = 0);

/// Blocks one below the other, on as many pages as they need.
class Flow {
 public:
  explicit Flow(const Paper& paper) : paper_(paper) {}

  /// Puts a block below the last one, or on a further page where it does not fit any more. One
  /// that is higher than a page stands on a page of its own.
  void add(Block block);
  void add(std::vector<Block> blocks);

  /// Stands at once, and again at the top of every further page until the next call.
  void repeat(std::vector<Block> heading);
  void repeat_nothing();

  /// Goes on at the top of a further page, unless this one is empty.
  void new_page();

  /// The pages, each with a line at its foot: these words, shortened where they are longer, and
  /// "page 2 of 5". On endless paper there is no foot.
  [[nodiscard]] std::vector<Page> pages(const Typesetter& typesetter,
                                        const std::string& foot) const;

  /// How much room is left on this page; endless on endless paper.
  [[nodiscard]] double room_pt() const;

  [[nodiscard]] const Paper& paper() const { return paper_; }

 private:
  [[nodiscard]] double bottom() const;
  [[nodiscard]] bool fits(double height_pt) const;
  void place_held();
  void place(const Block& block);
  void place_heading();
  void start_page();

  Paper paper_;
  std::vector<Page> pages_{};
  std::vector<Block> heading_{};
  std::vector<Block> held_{};  ///< placed together with what comes next
  double y_ = 0;               ///< where the next block goes
  bool heading_due_ = false;   ///< to be placed before anything else
  bool fresh_ = false;         ///< nothing stands on the page but the heading
};

}  // namespace drystage::drawing
