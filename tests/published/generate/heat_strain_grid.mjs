// Records predicted heat strain (ISO 7933:2004) over a wide grid from an independent
// implementation, jsthermalcomfort 0.0.2.
//
//   npm install && node heat_strain_grid.mjs > ../data/heat_strain_grid.csv
//
// Vapour pressure is recorded as that implementation sees it, so that the two do not differ by
// their saturation formulas. Results are unrounded there and rounded here.

import jsthermalcomfort from "jsthermalcomfort";

const { phs, p_sat } = jsthermalcomfort;

const airs = [15, 20, 25, 30, 35, 40, 45, 50];
const excesses = [0, 10, 25, 45];
const humidities = [10, 30, 55, 85];
const metabolics = [65, 100, 165, 230, 290];
const speeds = [0.1, 0.3, 0.5, 1, 2, 3];
const clothings = [0.1, 0.5, 0.6, 1, 0.3];
const postures = [1, 2, 3];
const walkings = [0, 0, 0.8, 0, 1.4, 0, 0];
const bodies = [
  [75, 1.8],
  [52, 1.58],
  [98, 1.9],
  [30, 1.35],
];
const durations = [480, 480, 480, 60, 240];
const mostVapour = 4.5;

const columns = [
  "air_c", "radiant_c", "vapour_kpa", "air_m_s", "metabolic_w_m2", "clo", "posture", "acclimatised",
  "mass_kg", "height_m", "walking_m_s", "duration_min", "water_loss_g", "rectal_c", "core_c",
  "skin_c", "sweat_w_m2", "limit_rectal_min", "limit_loss_mean_min", "limit_loss_safe_min",
];
console.log(columns.join(","));

let n = 0;
for (const air of airs) {
  for (const excess of excesses) {
    for (const humidity of humidities) {
      const vapour = ((p_sat(air) / 1000) * humidity) / 100;
      if (vapour > mostVapour) continue;
      for (const metabolic of metabolics) {
        const pick = (list, every) => list[Math.floor(n / every) % list.length];
        const speed = pick(speeds, 1);
        const clo = pick(clothings, 2);
        const posture = pick(postures, 3);
        const acclimatised = n % 4 === 3 ? 0 : 100;
        const [mass, height] = pick(bodies, 5);
        const walking = pick(walkings, 1);
        const duration = pick(durations, 1);
        n += 1;
        const r = phs(
          air, air + excess, humidity, speed, metabolic, clo, posture, 0, 0.38, 0.54, 1, mass,
          height, walking, 0, acclimatised, duration, 0.97, 34.1, 36.8, 999, 999, 0.3, 0, false,
        );
        console.log(
          [
            air, air + excess, vapour.toFixed(6), speed, metabolic, clo, posture,
            acclimatised === 100 ? 1 : 0, mass, height, walking, duration, r.sw_tot_g.toFixed(2),
            r.t_re.toFixed(4), r.t_cr.toFixed(4), r.t_sk.toFixed(4), r.sweat_rate.toFixed(3),
            r.d_lim_t_re, r.d_lim_loss_50, r.d_lim_loss_95,
          ].join(","),
        );
      }
    }
  }
}
