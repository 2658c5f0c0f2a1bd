#pragma once

// For the sources of this folder alone: what text is measured and drawn with.

#include <pangomm/context.h>
#include <pangomm/layout.h>

#include <string>

#include "drawing/page.h"

namespace drystage::drawing {

/// Fonts as they are measured: nothing is rounded to the dots of a screen, so that what is measured
/// once is the same on paper and in every picture.
Glib::RefPtr<Pango::Context> fonts_of_this_machine();

/// Words broken into lines of that width; unbroken where it is negative.
Glib::RefPtr<Pango::Layout> layout_of(const Glib::RefPtr<Pango::Context>& context,
                                      const std::string& words, const Font& font, double width_pt,
                                      Align align = Align::left);

/// The layout of a mark.
Glib::RefPtr<Pango::Layout> layout_of(const Glib::RefPtr<Pango::Context>& context,
                                      const Text& text);

/// Points to the units of Pango and back.
int to_pango(double length_pt);
double from_pango(int length);

}  // namespace drystage::drawing
