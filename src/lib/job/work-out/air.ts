import { equivalentAge, temperatureTime } from '../../trade/cure.ts';
import { dryingIndex } from '../../trade/drying.ts';
import { mortarEvaporation, wetBulb } from '../../trade/evaporation.ts';
import { surfaceSpread } from '../../trade/weather.ts';
import { fail, ok } from '../../result.ts';
import { reckoning, type Found, type Reckoning } from './ask.ts';
import { DEGREES, found, HOURS, NUMBER, PERCENT, several } from './asked.ts';

const KELVIN_PER_F = 5 / 9;
const HOUR_MS = 3_600_000;

export const AIR_RECKONINGS: readonly Reckoning[] = [
  reckoning('dew-point', 'weather', null, { airC: DEGREES, humidityPct: PERCENT, surfaceC: DEGREES }, (asked) => {
    const spread = surfaceSpread(asked);
    if (!spread.ok) return spread;
    const { dewPointC, spreadK, wet, rules } = spread.value;
    return ok([
      found('dew-point', DEGREES, dewPointC),
      { what: 'spread-k', kind: 'number', value: spreadK },
      { what: 'spread-f', kind: 'number', value: spreadK / KELVIN_PER_F },
      ...(wet ? [{ what: 'surface', kind: 'word', code: 'wet' } as const] : []),
      ...rules.map((rule): Found => ({ what: `rule-${rule.key}`, kind: 'word', code: rule.met ? 'met' : 'not-met' })),
    ]);
  }),
  reckoning(
    'drying-air',
    'weather',
    'ACI 308R, ASHRAE Fundamentals 2017',
    { airC: DEGREES, humidityPct: PERCENT, surfaceC: DEGREES, windKmh: NUMBER },
    (asked) => {
      const bulb = wetBulb(asked);
      if (!bulb.ok) return bulb;
      const lost = mortarEvaporation(asked);
      if (!lost.ok) return lost;
      return ok([
        found('wet-bulb', DEGREES, bulb.value.wetBulbC),
        found('deficit', { in: 'kPa', mm: 'kPa', si: 'kPa' }, bulb.value.deficitPa / 1000),
        { what: 'evaporation', kind: 'number', value: lost.value.kgM2H },
        { what: 'evaporation-rule', kind: 'word', code: lost.value.act ? 'act' : 'no-need' },
      ]);
    },
  ),
  reckoning(
    'drying-pace',
    'weather',
    null,
    { airC: DEGREES, humidityPct: PERCENT, surfaceC: DEGREES, sheetAirC: DEGREES, sheetHumidityPct: PERCENT },
    ({ airC, humidityPct, surfaceC, sheetAirC, sheetHumidityPct }) => {
      const pace = dryingIndex({ air: { airC, humidityPct }, surfaceC, reference: { airC: sheetAirC, humidityPct: sheetHumidityPct } });
      return pace.ok ? ok([found('pace', PERCENT, pace.value.index * 100)]) : pace;
    },
  ),
  reckoning(
    'mortar-age',
    'weather',
    'ASTM C1074-19',
    { hours: several(HOURS), temps: several(DEGREES), referenceC: DEGREES, activationK: NUMBER, datumC: DEGREES },
    ({ hours, temps, referenceC, activationK, datumC }) => {
      if (hours.length !== temps.length) return fail({ code: 'empty', field: 'temps', bound: hours.length });
      const stays = hours.map((h, at) => ({ durationMs: h * HOUR_MS, tempC: temps[at]! }));
      const age = equivalentAge({ stays, referenceC, activationK });
      if (!age.ok) return age;
      const heat = temperatureTime({ stays, datumC });
      if (!heat.ok) return heat;
      return ok([
        found('age-there', HOURS, age.value.equivalentH),
        found('age-past', HOURS, age.value.elapsedH),
        { what: 'degree-hours', kind: 'number', value: heat.value.degreeHours },
      ]);
    },
  ),
];
