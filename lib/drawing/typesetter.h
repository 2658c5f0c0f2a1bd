#pragma once

#include <memory>
#include <string>
#include <vector>

#include "drawing/page.h"

namespace drystage::drawing {

struct Size {
  double width_pt = 0;
  double height_pt = 0;
};

/// Measures text as it will be drawn, with the fonts of this machine: every script, what is written
/// from right to left so, within lines that run from left to right. Lines break between words, not
/// between a number and its unit, and within a word only where that is longer than the line.
class Typesetter {
 public:
  Typesetter();
  ~Typesetter();
  Typesetter(const Typesetter&) = delete;
  Typesetter& operator=(const Typesetter&) = delete;

  /// Of words on lines of at most that width (above 0): the longest line, and all lines together.
  [[nodiscard]] Size size(const std::string& words, const Font& font, double width_pt) const;

  /// Of words on one line.
  [[nodiscard]] double width(const std::string& words, const Font& font) const;

  /// The widest piece that stands between two places where a line may break.
  [[nodiscard]] double longest_word(const std::string& words, const Font& font) const;

  /// The lines that words are broken into, for text that may go over more than one page.
  [[nodiscard]] std::vector<std::string> lines(const std::string& words, const Font& font,
                                               double width_pt) const;

  /// Words on one line, ending in "…" where there are more than fit.
  [[nodiscard]] std::string shortened(const std::string& words, const Font& font,
                                      double width_pt) const;

  /// Words as a mark with its top left corner there; the box is as high as the lines.
  [[nodiscard]] Text text(const std::string& words, const Font& font, Point at, double width_pt,
                          Align align = Align::left) const;

 private:
  friend Rect ink_box(const Typesetter& typesetter, const Text& text);

  struct Fonts;
  std::unique_ptr<Fonts> fonts_;
};

/// The texts of a drawing that have characters for which this machine has no font: those are drawn
/// as boxes. Each once, in the order in which they stand.
std::vector<std::string> without_font(const Drawing& drawing);

/// Where the lines of a text really are, within its box: as wide as the longest.
Rect ink_box(const Typesetter& typesetter, const Text& text);

}  // namespace drystage::drawing
