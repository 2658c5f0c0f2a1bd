#pragma once

#include <string>
#include <vector>

#include "report/weigh/report.h"

namespace drystage::report {

/// One thing to move: "Move can 3 (22 kg) from tray to cab", "Leave tools (30 kg) at home".
std::string move_words(const plan::Plan& plan, const answers::Move& move, units::System system);

/// Whether all is within its limits, and which is passed first.
std::string weigh_verdict_words(const WeighAnswer& answer, units::System system);

/// Where all is kept, what has least room for its size; whether that is less than a weighbridge
/// tells.
std::string nearest_words(const WeighAnswer& answer, units::System system);

/// What is to be said of a trailer's ball: it is not given, or far from usual. Else empty.
std::string ball_words(const plan::Vehicle& vehicle, units::System system);

/// What is passed besides, and what to move or leave in each vehicle that is over a limit.
std::vector<std::string> moves_sentences(const WeighAnswer& answer, units::System system);
/// The same, one after the other.
std::string moves_words(const WeighAnswer& answer, units::System system);

/// Where a vehicle's centre of gravity lies, full and at its lightest; empty where that is not
/// known.
std::string centre_words(const answers::VehicleWeighing& vehicle, units::System system);

/// What more each bay could take; empty where nothing is limited or something is over.
std::string room_words(const WeighAnswer& answer, std::size_t vehicle, units::System system);

/// A length in the units to show, to a centimetre.
std::string length_words(double length_m, units::System system);

/// What is always to be said of such figures.
inline constexpr std::string_view weigh_cautions =
    "The limits are on the plates and in local law. A weighbridge decides; this calculates.";

}  // namespace drystage::report
