#include "plan/way_back.h"

#include <algorithm>

namespace drystage::plan {

Drive reversed(const Drive& drive, int from) {
  Drive back = drive;
  back.to = from;
  std::ranges::reverse(back.surfaces);
  back.climb_m = drive.descent_m;
  back.descent_m = drive.climb_m;
  // The wind that blew against them now helps; nothing is counted on it.
  back.kind.headwind_m_s = 0;
  back.back.reset();
  back.leaves = {};
  return back;
}

Drive way_back(const Drive& drive, int from) {
  Drive back = reversed(drive, from);
  if (!drive.back) return back;
  back.distance_km = drive.back->distance_km;
  back.surfaces = drive.back->surfaces;
  back.climb_m = drive.back->climb_m;
  back.descent_m = drive.back->descent_m;
  back.kind = drive.back->kind;
  return back;
}

}  // namespace drystage::plan
