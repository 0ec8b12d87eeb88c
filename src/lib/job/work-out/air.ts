import { mortarEvaporation, wetBulb } from '../../trade/evaporation.ts';
import { surfaceSpread } from '../../trade/weather.ts';
import { ok } from '../../result.ts';
import { reckoning, type Found, type Reckoning } from './ask.ts';
import { DEGREES, found, NUMBER, PERCENT } from './asked.ts';

const KELVIN_PER_F = 5 / 9;

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
];
