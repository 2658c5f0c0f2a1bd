#pragma once

#include <string>

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/answer.h"
#include "report/card/pieces.h"
#include "report/text/type.h"
#include "units/format.h"

namespace drystage::report {

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

  /// Too narrow for tables: a telephone.
  [[nodiscard]] bool narrow() const {
    constexpr double least_table_pt = 400;
    return width_pt() < least_table_pt;
  }
  /// A screen has room to scroll: nothing is small there.
  [[nodiscard]] drawing::Font small() const {
    return narrow() ? body_font : drawing::Font{.size_pt = small_pt};
  }
  [[nodiscard]] drawing::Font small_strong() const {
    return {.size_pt = small().size_pt, .bold = true};
  }

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

}  // namespace drystage::report
