#include "report/card/advice.h"

#include "plan/commodity.h"
#include "report/card/supply_places.h"
#include "report/size/words.h"
#include "report/text/rounding.h"

namespace drystage::report {

std::string sure_supplies(const AdvisedTrip& trip, plan::Commodity commodity) {
  const std::string places = sure_places(trip.trial, commodity, trip.system);
  const std::string what = plan::words(trip.plan(), commodity);
  return places.empty() ? "No supply of " + what + " on this trip is sure."
                        : "Sure supplies of " + what + ": " + places + ".";
}

std::string advised_volume(const AdvisedTrip& trip, double volume_l) {
  return unbroken(volume_words(volume_l, trip.system, Toward::up));
}

}  // namespace drystage::report
