#pragma once

#include <functional>
#include <string>
#include <vector>

#include "drawing/flow.h"
#include "drawing/page.h"
#include "drawing/typesetter.h"
#include "report/card/card.h"
#include "report/card/pieces.h"
#include "units/format.h"

namespace drystage::support {

/// The papers that a card is made for, and what they are called.
struct NamedPaper {
  std::string name;
  drawing::Paper paper;
};
std::vector<NamedPaper> papers();

/// Writes a part of the card: report::write_front, report::write_home.
using Part = std::function<void(const report::Sheet&)>;

/// A part of a card by itself, as pages; and so the front.
std::vector<drawing::Page> part_pages(const Part& part, const report::CardAnswer& answer,
                                      const drawing::Paper& paper = drawing::a4,
                                      units::System system = units::System::metric);
std::vector<drawing::Page> front_pages(const report::CardAnswer& answer,
                                       const drawing::Paper& paper = drawing::a4,
                                       units::System system = units::System::metric);

/// The words of all texts of all pages, a line for each text, in the order in which they are drawn.
std::vector<std::string> words_on(const std::vector<drawing::Page>& pages);

/// The same in one piece, with this after each text.
std::string all_words(const std::vector<drawing::Page>& pages, char after = ' ');

/// A text with blanks for its no-break spaces.
std::string with_plain_blanks(std::string text);

/// What is wrong with pages of a card on that paper: cut, met, or too small to read.
std::vector<std::string> card_faults(const std::vector<drawing::Page>& pages,
                                     const drawing::Paper& paper);

/// Expects that nothing of a part is cut or meets, on every paper, in metric and imperial units.
void expect_faultless(const Part& part, const report::CardAnswer& answer);

}  // namespace drystage::support
