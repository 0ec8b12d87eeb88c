import { membraneContact, TILE_PLACES, tileContact } from '../../trade/contact.ts';
import { slopeOfHeights, slopeOfLevel, SLOPE_UNITS, type Slope, type SlopeUnit } from '../../trade/slope.ts';
import { flatness, FLATNESS_LARGE_TILE, heightOver, moisture } from '../../trade/substrate.ts';
import { ok } from '../../result.ts';
import { reckoning, type Found, type Reckoning } from './ask.ts';
import { choice, found, LENGTH, LONG, NUMBER, optional, PERCENT, several } from './asked.ts';

const SLOPE = { in: 'in/ft', mm: 'mm/m', si: 'mm/m' } as const;
const RULE = { min: optional(NUMBER), max: optional(NUMBER), unit: choice(SLOPE_UNITS) };
const SCALES = ['wood', 'relative', 'carbide', 'rh-in-hole'] as const;

const ruleOf = ({ min, max, unit }: { min: number | null; max: number | null; unit: SlopeUnit }) =>
  min === null && max === null ? null : { min, max, unit };

function fall({ mmPerM, lowMmPerM, highMmPerM, percent, degrees, falls, verdict }: Slope): Found[] {
  return [
    { what: 'slope', kind: 'verdict', verdict },
    found('slope', SLOPE, mmPerM),
    found('slope-between', SLOPE, lowMmPerM, highMmPerM),
    found('slope', { in: '%', mm: '%', si: '%' }, percent),
    { what: 'degrees', kind: 'number', value: degrees },
    { what: 'falls', kind: 'word', code: falls },
  ];
}

export const SUBSTRATE_RECKONINGS: readonly Reckoning[] = [
  reckoning(
    'slope-of-heights',
    'substrate',
    null,
    { highMm: LENGTH, lowMm: LENGTH, runMm: LONG, stepMm: LENGTH, ...RULE },
    ({ highMm, lowMm, runMm, stepMm, ...rule }) => {
      const slope = slopeOfHeights({ highMm, lowMm, runMm, stepMm, rule: ruleOf(rule) });
      return slope.ok ? ok(fall(slope.value)) : slope;
    },
  ),
  reckoning('slope-of-level', 'substrate', null, { reading: NUMBER, shownIn: choice(SLOPE_UNITS), step: NUMBER, ...RULE }, (asked) => {
    const { reading, shownIn, step, ...rule } = asked;
    const slope = slopeOfLevel({ reading, unit: shownIn, step, rule: ruleOf(rule) });
    return slope.ok ? ok(fall(slope.value)) : slope;
  }),
  reckoning('flatness', 'substrate', 'ANSI A108.02', { gapMm: LENGTH, stepMm: LENGTH, edgeMm: LONG }, (asked) => {
    const flat = flatness({ ...asked, allowed: FLATNESS_LARGE_TILE });
    if (!flat.ok) return flat;
    const { verdict, allowedMm } = flat.value;
    return ok([{ what: 'gap', kind: 'verdict', verdict }, ...(allowedMm === null ? [] : [found('gap-allowed', LENGTH, allowedMm)])]);
  }),
  reckoning(
    'height-over',
    'substrate',
    null,
    { topMm: LENGTH, baseMm: LENGTH, buildUpMm: LENGTH, stepMm: LENGTH, minMm: optional(LENGTH), maxMm: optional(LENGTH) },
    (asked) => {
      const height = heightOver(asked);
      if (!height.ok) return height;
      const { lowMm, highMm, verdict } = height.value;
      return ok([{ what: 'height', kind: 'verdict', verdict }, found('height', LENGTH, lowMm, highMm)]);
    },
  ),
  reckoning('moisture-through-tile', 'substrate', null, { scale: choice(SCALES), reading: NUMBER, dryReference: NUMBER }, (asked) => {
    const read = moisture({ ...asked, step: 0, throughTile: true, limit: null });
    if (!read.ok) return read;
    const { aboveReference } = read.value;
    return ok(aboveReference === null ? [] : [{ what: 'above-dry', kind: 'number', value: aboveReference }]);
  }),
  reckoning('membrane-contact', 'substrate', null, { coveredPct: several(PERCENT), stepPct: PERCENT, blisters: NUMBER }, (asked) => {
    const contact = membraneContact(asked);
    if (!contact.ok) return contact;
    return ok([
      { what: 'contact', kind: 'verdict', verdict: contact.value.verdict },
      found('least-covered', PERCENT, contact.value.leastPct),
    ]);
  }),
  reckoning('tile-contact', 'substrate', 'ANSI A108.5', { coveredPct: several(PERCENT), place: choice(TILE_PLACES) }, (asked) => {
    const contact = tileContact(asked);
    if (!contact.ok) return contact;
    const { verdict, meanPct, neededPct } = contact.value;
    return ok([{ what: 'contact', kind: 'verdict', verdict }, found('mean', PERCENT, meanPct), found('needed', PERCENT, neededPct)]);
  }),
];
