#pragma once

#include <string>
#include <vector>

#include "drawing/flow.h"
#include "drawing/page.h"
#include "drawing/typesetter.h"

namespace drystage::support {

/// Pairs of texts whose ink meets (by more than a hundredth of a point), each told in a line.
std::vector<std::string> overlaps(const drawing::Typesetter& typesetter,
                                  const std::vector<drawing::Mark>& marks);

/// Texts whose ink, and shapes whose points, lie outside a rectangle by more than half a point,
/// each told in a line.
std::vector<std::string> strays(const drawing::Typesetter& typesetter,
                                const std::vector<drawing::Mark>& marks,
                                const drawing::Rect& within);

/// The least that type measures but on the sheet to carry.
inline constexpr double usual_least_pt = 9;

/// Texts smaller than that, each told in a line.
std::vector<std::string> small_print(const std::vector<drawing::Mark>& marks, double least_pt);

/// All of these: of a page within its edges less a margin, of a block within its width and height.
/// Empty where nothing is wrong.
std::vector<std::string> faults(const drawing::Typesetter& typesetter, const drawing::Page& page,
                                double margin_pt = 0, double least_pt = usual_least_pt);
std::vector<std::string> faults(const drawing::Typesetter& typesetter, const drawing::Block& block,
                                double width_pt);

/// The same of all pages.
std::vector<std::string> faults(const std::vector<drawing::Page>& pages, double margin_pt,
                                double least_pt = usual_least_pt);

/// The words of all texts, in the order in which they are drawn, a line end after each.
std::string words_of(const std::vector<drawing::Mark>& marks);

}  // namespace drystage::support
