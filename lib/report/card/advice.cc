#include "report/card/advice.h"

#include "report/card/supply_places.h"
#include "report/text/amounts.h"

namespace drystage::report {

std::string advised_volume(const AdvisedTrip& trip, double volume_l) {
  return unbroken(volume_words(volume_l, trip.system, Toward::up));
}

}  // namespace drystage::report
