#pragma once

#include <optional>

#include "models/battery.h"

namespace drystage::models {

/// What a bank holds, as a share of its rated capacity.
struct RestingCharge {
  double share = 0.0;           ///< 0 to 1
  double standard_error = 0.0;  ///< of the share
};

/// How long a bank is to have neither given nor taken current before its voltage says anything: 6
/// h, better a day. Sooner after charging it reads too much, after a load too little. Source:
/// battery care pages of Epic's cart manual (6 h, preferably 24); makers of lorry batteries say 4 h
/// at least.
inline constexpr double least_rest_h = 6.0;

/// The charge of a lead-acid bank of a nominal voltage (12, 24, 48 V: six cells for each 12 V) from
/// its voltage at rest. Straight lines between, for 12 V:
///     charge      100 %   75 %    50 %    25 %     0
///     flooded     12.70   12.43   12.18   11.97   11.60 V
///     AGM         12.80   12.60   12.30   12.00   11.80 V
/// Flooded: the mean of three published tables (ours): of the Battery Council International, as
/// Discover Battery prints it (12.65, 12.45, 12.24, 12.06, 11.89 at 27 °C); of Ver-Mac's manual of
/// 2018 (12.70, 12.41, 12.20, 11.95, drawn on to 11.56); and of deep-cycle batteries of 6 V, as
/// owners pass it on (12.74, 12.44, 12.10, 11.89, drawn on to 11.34). The rule of the handbooks, a
/// cell has its specific gravity + 0.84 V, is within 0.07 V of that with the Council's gravities,
/// down to 25 %. AGM: Polaris, owner's manual (12.8, 12.6, 12.3, 12.0); 11.80 (memory). Gel is
/// nearer to AGM.
///
/// The standard error is 7 % of the capacity from half full up, and grows below in a straight line
/// to 15 % at empty: so far apart are the published tables (ours).
///
/// Above full it is full, up to 2.2 V a cell (13.2 V): beyond that it is being charged. Below empty
/// it is empty, down to 1.75 V a cell (10.5 V). Beyond both there is none: not at rest, a cell that
/// has failed, or another nominal voltage. None either for a nominal voltage that is not above 0,
/// or for LFP: from 20 to 90 % its voltage at rest changes by some 0.2 V of 13 (common practice),
/// and a usual meter is 0.1 V off.
///
/// Left out: temperature. Sources do not agree on the sign; by thermodynamics it is some 0.2 mV/K a
/// cell (memory), 3 % of the capacity for 25 K, which the error holds. Ageing too: a worn bank at
/// rest reads full and holds less than it is rated for.
[[nodiscard]] std::optional<RestingCharge> resting_charge(BatteryKind kind, double nominal_v,
                                                          double resting_v);

}  // namespace drystage::models
