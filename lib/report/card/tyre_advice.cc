#include "report/card/advice.h"

namespace drystage::report {

Advice tyre_advice() {
  Advice out{.title = "Tyres"};
  out.say(
      "Stop on firm, level ground. Block the other wheels. Never get under a vehicle that stands "
      "on a jack alone.");
  out.say(
      "A plug or patch mends a hole in the tread. A cut or bulge in the side wall cannot be "
      "repaired: change the wheel.");
  out.say(
      "Check pressure and tread of all tyres each morning, the spares too. Slow down on sharp "
      "stones.");
  out.say("Below must have: the shortest good road to where tyres are mended, no detours.");
  out.say("Flat, and nothing left: raise the alarm and stay with the vehicle.");
  return out;
}

}  // namespace drystage::report
