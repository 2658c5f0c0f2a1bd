// Writes sun_positions.csv and sun_times.csv: places and moments spread over 1950..2100 with what
// an independent implementation of the NREL Solar Position Algorithm says of them.
//
//   npm install && node sun_grid.mjs DIRECTORY
//
// Reads nothing and draws from a fixed sequence, so it writes the same bytes every time.

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { getSpa, SPA_ZA, SPA_ZA_RTS } from 'nrel-spa';

const directory = process.argv[2];
if (!directory) {
  console.error('usage: node sun_grid.mjs DIRECTORY');
  process.exit(2);
}

// Fractional parts of n times a few irrational numbers: they fill the box evenly.
const spread = (n, k) => {
  const step = [0.8191725134, 0.6710436067, 0.5497004779, 0.4503089173, 0.3688798263, 0.3021780215];
  return (n * step[k] + 0.37 * (k + 1)) % 1;
};
const between = (low, high, part) => low + (high - low) * part;
const msPerHour = 3600e3;
const firstDay = Date.UTC(1950, 0, 2);
const lastDay = Date.UTC(2100, 11, 30);
const wholeSecond = (ms) => 1000 * Math.round(ms / 1000);

// --- positions: two thirds without refraction, one third with the air of a place ------------------

const positions = [
  '# sun positions; nrel-spa 2.0.2; terrestrial less universal time 67 s; sea level',
  '# pressure 0 means: no refraction',
  'year,month,day,ut_hour,latitude_deg,longitude_deg,pressure_mbar,air_c,zenith_deg,azimuth_deg',
];
for (let n = 1; n <= 1500; ++n) {
  const moment = new Date(wholeSecond(between(firstDay, lastDay, spread(n, 0))));
  const latitude = Number(between(-65, 65, spread(n, 1)).toFixed(3));
  const longitude = Number(between(-180, 180, spread(n, 2)).toFixed(3));
  const refracted = n % 3 === 0;
  const pressure = refracted ? Math.round(between(600, 1030, spread(n, 3))) : 0;
  const temperature = refracted ? Math.round(between(-20, 45, spread(n, 4))) : 10;
  const sun = getSpa(moment, latitude, longitude, 0,
                     { pressure, temperature, delta_t: 67, function: SPA_ZA });
  const hour = moment.getUTCHours() + moment.getUTCMinutes() / 60 + moment.getUTCSeconds() / 3600;
  positions.push([moment.getUTCFullYear(), moment.getUTCMonth() + 1, moment.getUTCDate(),
                  hour.toFixed(8), latitude, longitude, pressure, temperature,
                  sun.zenith.toFixed(5), sun.azimuth.toFixed(5)].join(','));
}

// --- sunrise and sunset ---------------------------------------------------------------------------

// The algorithm answers for a date of universal time and folds the hours into it. So the answers
// for five dates are set on one time line, and the noon of the civil day is found on it, with the
// sunrise before and the sunset after. Answers close to a fold are left out: their date is in doubt.
const eventsAround = (utMidnight, latitude, longitude) => {
  const events = { sunrise: [], solarNoon: [], sunset: [] };
  for (let day = -2; day <= 2; ++day) {
    const midnight = utMidnight + day * 24 * msPerHour;
    const sun = getSpa(new Date(midnight), latitude, longitude, 0,
                       { delta_t: 67, function: SPA_ZA_RTS });
    for (const name of Object.keys(events)) {
      const hour = sun[name];
      if (Number.isFinite(hour) && hour > 0.2 && hour < 23.8) {
        events[name].push(midnight + hour * msPerHour);
      }
    }
  }
  return events;
};

const offsets = [0, 0, 0, 1, -1, 0.5, -0.5, 2.25, -3, 5.75, -8.5];  // from the zone of the place
const times = [
  '# sunrise, solar noon and sunset; nrel-spa 2.0.2; terrestrial less universal time 67 s',
  '# clock hours of the civil day that holds the noon: below 0 the day before, above 24 the day after',
  'year,month,day,latitude_deg,longitude_deg,utc_offset_h,rise_h,noon_h,set_h',
];
for (let n = 1; n <= 700; ++n) {
  const date = new Date(between(firstDay, lastDay, spread(n, 5)));
  const utMidnight = Date.UTC(date.getUTCFullYear(), date.getUTCMonth(), date.getUTCDate());
  const latitude = Number(between(-65, 65, spread(n, 1)).toFixed(3));
  const longitude = Number(between(-180, 180, spread(n, 2)).toFixed(3));
  const offset = Math.max(-12, Math.min(14, Math.round(longitude / 15) + offsets[n % offsets.length]));
  const localMidnight = utMidnight - offset * msPerHour;
  const events = eventsAround(utMidnight, latitude, longitude);
  const clock = (ms) => (ms - localMidnight) / msPerHour;
  const noon = events.solarNoon.map(clock).find((hour) => hour > 0.5 && hour < 23.5);
  if (noon === undefined) continue;
  const rise = events.sunrise.map(clock).find((hour) => hour < noon && hour > noon - 12);
  const set = events.sunset.map(clock).find((hour) => hour > noon && hour < noon + 12);
  if (rise === undefined || set === undefined) continue;
  times.push([date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate(), latitude, longitude,
              offset, rise.toFixed(5), noon.toFixed(5), set.toFixed(5)].join(','));
}

writeFileSync(join(directory, 'sun_positions.csv'), positions.join('\n') + '\n');
writeFileSync(join(directory, 'sun_times.csv'), times.join('\n') + '\n');
