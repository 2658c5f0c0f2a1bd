#pragma once

#include <string>

#include "report/card/pieces.h"

namespace drystage::report {

// The two sides of the sheet, what stands on them, and the parts that go with it.

/// The front of the sheet: what trip it is, whether it holds, how to use the boxes, and a row for
/// each evening; last the cautions.
void write_front(const Sheet& sheet);

/// The evenings of a trip. Above each stands what is met on its day, in the order of time: what is
/// taken on, where the way back ends or opens, with how much a place must be left, and what happens
/// by the plan. Then its row: facts of the day, boxes of the reserves that life depends on, and a
/// figure of each other. In columns under a head that is repeated where they have room, else each
/// in a block of its own. What stands last above a row stays with it; the other lines name their
/// day and may be on the page before. Boxes are higher where all has room on this page, with
/// `below_pt` left.
void write_day_rows(const Sheet& sheet, double below_pt);

/// Its back: what to do if a reading is below must have, the way out of each camp, what to do first
/// of each reserve, signs of illness, blanks, what is sure where, and what a dipstick says.
void write_back(const Sheet& sheet);

/// "The way out": for each camp, and side by side for each reserve that life depends on, what it
/// takes to go on at once and to turn back, rounded up, and where these lead. The nights at one
/// camp share a row where the figures are much the same: the highest counts. Below it stand, once,
/// the supplies that the figures count on. Of more reserves than have room each camp has lines of
/// its own. Nothing where nothing is driven.
void write_way_out(const Sheet& sheet);

/// What to load, vehicle by vehicle, with a box to tick before each thing: containers, tanks and
/// cans, food, ice, batteries and cabinets, each with what is in it and its mass, as it is when
/// setting out; and what each vehicle then weighs, beside its limit. Masses are rounded up. Things
/// whose mass is in the vehicle's are not listed, but for tanks and ice boxes.
void write_packing_list(const Sheet& sheet);

/// For every tank and container that has a shape or marks of its own: what a depth on the dipstick
/// comes to. Where units are not metric, a table to convert by as well. Nothing where there is
/// neither.
void write_dip_tables(const Sheet& sheet);

/// A page of lines to write on, 8 mm apart, as long as the paper is. Nothing on endless paper.
void write_notes(const Sheet& sheet);

/// The page to leave with somebody who raises the alarm: blanks to fill in (when overdue, whom to
/// call, the emergency number of the region, of which none is ever printed), people and vehicles,
/// what must not be without electricity, the route day by day with how long water and food last all
/// of them from each night on, where the places are, until when turning back is possible, where
/// they mean to stock up, and the cautions. Names stand whole.
void write_home(const Sheet& sheet);

/// How long a reserve lasts, in days, rounded down: "5.1", "12"; "-" where nothing is used.
std::string lasting_words(double days);

}  // namespace drystage::report
