#pragma once

// For the sources of this folder alone: a page drawn on whatever Cairo can draw on, and what text
// is measured and drawn with.

#include <cairomm/context.h>
#include <pangomm/context.h>
#include <pangomm/layout.h>

#include <string>

#include "drawing/page.h"

namespace drystage::drawing {

/// Draws all marks of a page, its top left corner at the origin. The same calls for every form, and
/// text laid out by the same fonts: all forms look alike.
void draw(const Cairo::RefPtr<Cairo::Context>& target, const Glib::RefPtr<Pango::Context>& fonts,
          const Page& page);

/// How pages stand one below the other in one picture: white, with a thin line round each where
/// there are several.
struct Stack {
  double width_pt = 0;
  double height_pt = 0;
};
Stack stack_of(const Drawing& drawing);

/// How far a page of a stack stands from its left and upper edge.
Point place_in_stack(const Drawing& drawing, std::size_t page);

/// Draws the stack.
void draw_stack(const Cairo::RefPtr<Cairo::Context>& target,
                const Glib::RefPtr<Pango::Context>& fonts, const Drawing& drawing);

/// Fonts as they are measured: nothing is rounded to the dots of a screen, so that what is measured
/// once is the same on paper and in every picture. Throws NoFonts where letters and digits would
/// come out as empty boxes.
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
