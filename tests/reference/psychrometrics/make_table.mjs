// Writes the tables that tests/reference compares with, from PsychroLib (npm psychrolib, the version pinned in
// package.json): npm ci && npm run tables
import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const psychrolib = createRequire(import.meta.url)('psychrolib');

function table(name, header, rows) {
  const lines = [header, ...rows.map((row) => row.map((v) => Number(v.toPrecision(9))))];
  writeFileSync(new URL(name, import.meta.url), lines.map((line) => line.join(',') + '\n').join(''));
}

const across = (...lists) => lists.reduce((rows, list) => rows.flatMap((row) => list.map((v) => [...row, v])), [[]]);

psychrolib.SetUnitSystem(psychrolib.SI);
table('standard_atmosphere_si.csv', ['metres', 'pascals'],
  [-500, 0, 250, 500, 750, 1000, 1250, 1500, 1750, 2000, 2500, 3000, 4000, 5000, 10000]
    .map((z) => [z, psychrolib.GetStandardAtmPressure(z)]));
table('moist_air_si.csv',
  ['celsius', 'relative_humidity', 'pascals', 'saturation_pascals', 'humidity_ratio', 'kg_per_m3', 'joules_per_kg'],
  across([-10, 0, 5, 12.7778, 13, 15, 20, 24, 32, 40], [0.1, 0.5, 0.9], [101325, 95461, 84556, 70108])
    .map(([t, rh, p]) => {
      const w = psychrolib.GetHumRatioFromRelHum(t, rh, p);
      return [t, rh, p, psychrolib.GetSatVapPres(t), w, psychrolib.GetMoistAirDensity(t, w, p),
        psychrolib.GetMoistAirEnthalpy(t, w)];
    }));

psychrolib.SetUnitSystem(psychrolib.IP);
table('standard_atmosphere_ip.csv', ['feet', 'psia'],
  [-500, 0, 500, 1000, 1600, 2000, 3000, 4000, 5000, 5280, 6000, 7000, 8000, 9000, 10000]
    .map((z) => [z, psychrolib.GetStandardAtmPressure(z)]));
// The factor is Btu/h for a cfm and a °F, of moist air: 60 × dry-air density × (0.240 + 0.444 W).
table('moist_air_ip.csv',
  ['fahrenheit', 'relative_humidity', 'psia', 'humidity_ratio', 'lb_per_ft3', 'btu_per_lb', 'sensible_heat_factor'],
  across([45, 55, 68, 75, 95, 105], [0.1, 0.5, 0.9], [14.696, 13.173, 12.1, 10.108])
    .map(([t, rh, p]) => {
      const w = psychrolib.GetHumRatioFromRelHum(t, rh, p);
      const dry = 1 / psychrolib.GetMoistAirVolume(t, w, p);
      return [t, rh, p, w, psychrolib.GetMoistAirDensity(t, w, p), psychrolib.GetMoistAirEnthalpy(t, w),
        60 * dry * (0.24 + 0.444 * w)];
    }));
