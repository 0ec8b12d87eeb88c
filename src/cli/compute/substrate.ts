import { membraneContact, tileContact, TILE_PLACES } from '#lib/trade/contact.ts';
import { layableBatch, batchState, combedState } from '#lib/trade/mortar-clock.ts';
import { BED_SHARE, bagsNeeded, expectedCoverage, meanBed, NOTCHES, partBagWater } from '#lib/trade/mortar.ts';
import { slopeOfHeights, slopeOfLevel, SLOPE_UNITS } from '#lib/trade/slope.ts';
import { flatness, FLATNESS_LARGE_TILE, heightOver, moisture } from '#lib/trade/substrate.ts';
import { row, type Row } from './row.ts';

const VERDICT = 'within, outside, not-proven or no-limit';
const RULE = `{ min, max, unit } or null: numbers or null in unit, one of ${SLOPE_UNITS.join(', ')}; in 1:n the least fall is the largest n`;
const SLOPE = {
  mmPerM: 'mm/m', percent: '%', inPerFt: 'in/ft', degrees: 'degrees', runPerRise: 'n of 1:n, null on the level',
  lowMmPerM: 'mm/m', highMmPerM: 'mm/m', falls: 'yes, no or not-proven: towards the low place', verdict: VERDICT,
}; // prettier-ignore
const MS = 'ms since 1970';

export const SUBSTRATE_ROWS: readonly Row[] = [
  row(flatness, {
    part: 'substrate',
    what: 'A gap under a straightedge against what a standard allows under one of that length.',
    inputs: { gapMm: 'mm, 0 to 200', stepMm: 'mm: step of the scale', edgeMm: 'mm, 50 to 10,000: straightedge', allowed: 'list of { gapMm, overMm }: gaps allowed, each under a straightedge of overMm' },
    result: { verdict: VERDICT, allowedMm: 'mm, or null where nothing is stated for that length' },
    source: 'ANSI A108.02 for the example: 1/8 in in 10 ft and 1/16 in in 2 ft, tile edges of 15 in or more',
    limits: 'Never scaled to other lengths; 3 m counts as 10 ft.',
    example: { gapMm: 3, stepMm: 0, edgeMm: 3000, allowed: FLATNESS_LARGE_TILE },
  }),
  row(slopeOfHeights, {
    part: 'substrate',
    what: 'Fall from a high place to a low one by two heights: a floor to its drain, a curb top, bench or sill inward.',
    inputs: { highMm: 'mm over any line', lowMm: 'mm over the same line', runMm: 'mm level distance, 10 to 50,000', stepMm: 'mm: step of the scale, each height off by half of it', rule: RULE },
    result: SLOPE,
    source: 'geometry; IRC P2709.1, UPC 408.7, NCC 10.2.12 for rules',
    limits: 'Compared in the rule’s own unit: 2 % and 1/4 in a foot are not the same.',
    example: { highMm: 19.05, lowMm: 0, runMm: 914.4, stepMm: 1, rule: { min: 0.25, max: 0.5, unit: 'in/ft' } },
  }),
  row(slopeOfLevel, {
    part: 'substrate',
    what: 'A fall as a level shows it.',
    inputs: { reading: 'number in unit', unit: `one of ${SLOPE_UNITS.join(', ')}`, step: 'last digit of the display, in unit, 0 to 10', rule: RULE },
    result: SLOPE,
    source: 'geometry',
    limits: 'Up to 45 degrees.',
    example: { reading: 1.2, unit: 'deg', step: 0.1, rule: { min: 2, max: null, unit: '%' } },
  }),
  row(heightOver, {
    part: 'substrate',
    what: 'A height over a base: an upturn over the floor to come, a curb over the drain.',
    inputs: { topMm: 'mm over any line', baseMm: 'mm over the same line', buildUpMm: 'mm, 0 to 500: still to be built on the base', stepMm: 'mm: step of the scale', minMm: 'mm or null', maxMm: 'mm or null' },
    result: { heightMm: 'mm', lowMm: 'mm', highMm: 'mm', verdict: VERDICT },
    source: 'geometry; IRC P2709.1 (curb 2 to 9 in over the drain), UPC 408.7, NCC 10.2.2 for bounds',
    limits: 'Each height may be off by half a step.',
    example: { topMm: 120, baseMm: 20, buildUpMm: 15, stepMm: 1, minMm: 50.8, maxMm: 228.6 },
  }),
  row(moisture, {
    part: 'substrate',
    what: 'A moisture reading against a limit in the same meter’s scale.',
    inputs: { scale: 'wood, relative, carbide or rh-in-hole', reading: 'number in the scale', step: 'last digit of the display', throughTile: 'true or false', dryReference: 'number in the scale, from a dry place of the same tile and meter; or null', limit: '{ scale, max } or null' },
    result: { verdict: VERDICT, aboveReference: 'number in the scale or null', unjudged: 'no-limit, other-scale, through-tile, no-reference, or null' },
    source: 'common practice, no source',
    limits: 'Scales cannot be turned into each other. Through tile only a difference to a dry place is told.',
    example: { scale: 'wood', reading: 14, step: 0.1, throughTile: false, dryReference: null, limit: { scale: 'wood', max: 16 } },
  }),
]; // prettier-ignore

export const MORTAR_ROWS: readonly Row[] = [
  row(partBagWater, {
    part: 'mortar',
    what: 'Water for part of a bag.',
    inputs: { bagKg: 'kg, 0.01 to 1000', waterMinL: 'L for a whole bag', waterMaxL: 'L for a whole bag', powderKg: 'kg, weighed, at most a bag' },
    result: { minL: 'L', maxL: 'L' },
    source: 'proportion',
    limits: 'A bag divided by eye is no mass.',
    example: { bagKg: 22.68, waterMinL: 5.2, waterMaxL: 5.7, powderKg: 11.34 },
  }),
  row(meanBed, {
    part: 'mortar',
    what: 'Mean bed of a notched trowel once the ridges are pressed flat.',
    inputs: { trowel: `{ notch, widthMm, depthMm, toothMm }: notch one of ${NOTCHES.join(', ')}; mm, 0.1 to 100`, angleDeg: 'degrees between blade and floor, 5 to 90' },
    result: { bedMm: 'mm, which is L/m2' },
    source: 'geometry: notch area over pitch, times the sine of the angle',
    limits: 'Full notches and an even bed; beds in use hold less.',
    example: { trowel: { notch: 'square', widthMm: 6.35, depthMm: 6.35, toothMm: 6.35 }, angleDeg: 90 },
  }),
  row(expectedCoverage, {
    part: 'mortar',
    what: 'What a bag is expected to cover.',
    inputs: { uprightBedMm: 'mm, bed by an upright trowel', bagYieldL: 'L of wet mortar from a bag', share: '{ low, high }: shares of the upright bed that beds in use hold, 0.1 to 1' },
    result: { leastM2PerBag: 'm2', mostM2PerBag: 'm2' },
    source: 'volume over thickness; the share of the example is our own reckoning from published coverages',
    limits: 'An expectation, never a limit; the crew’s own bags know better.',
    example: { uprightBedMm: 3.175, bagYieldL: 15.57, share: BED_SHARE },
  }),
  row(bagsNeeded, {
    part: 'mortar',
    what: 'Whole bags for an area, the loss on top.',
    inputs: { areaM2: 'm2', lossPct: '% of the area, 0 to 100', leastM2PerBag: 'm2', mostM2PerBag: 'm2' },
    result: { fewestBags: 'bags', mostBags: 'bags' },
    source: 'proportion',
    limits: 'One layer of one mortar.',
    example: { areaM2: 11.15, lossPct: 10, leastM2PerBag: 7, mostM2PerBag: 9 },
  }),
  row(batchState, {
    part: 'mortar',
    what: 'Where a mixed batch stands between slake and pot life.',
    inputs: { mixedAtMs: MS, slakeMs: 'ms', potLifeMs: 'ms from mixing', nowMs: MS },
    result: { state: 'slaking, usable, warn (three quarters gone) or dead', usableAtMs: MS, deadAtMs: MS, leftMs: 'ms to the next change' },
    source: 'the bag’s sheet; the warning is our own choice',
    limits: 'Heat shortens a pot life: the sheet says how.',
    example: { mixedAtMs: 1_772_528_400_000, slakeMs: 600_000, potLifeMs: 5_400_000, nowMs: 1_772_530_200_000 },
  }),
  row(combedState, {
    part: 'mortar',
    what: 'Where combed mortar stands against its open time.',
    inputs: { combedAtMs: MS, openTimeMs: 'ms', nowMs: MS },
    result: { state: 'usable, warn or dead', deadAtMs: MS, leftMs: 'ms' },
    source: 'the bag’s sheet; the warning is our own choice',
    limits: 'Past it, scrape it off.',
    example: { combedAtMs: 1_772_528_400_000, openTimeMs: 1_200_000, nowMs: 1_772_529_000_000 },
  }),
  row(layableBatch, {
    part: 'mortar',
    what: 'The largest batch this crew lays before it is dead, and batches for the rest.',
    inputs: { leftM2: 'm2', rateM2PerH: 'm2/h, this crew so far', spreadKgM2: 'kg powder on a m2', slakeMs: 'ms', potLifeMs: 'ms', batchKg: 'kg powder of the batch meant' },
    result: { mostM2: 'm2', mostKg: 'kg powder', batches: 'batches of the size meant, or of what of it lives', batchLaidInMs: 'ms', batchDiesFirst: 'true or false' },
    source: 'pace times usable time',
    limits: 'The pace so far is taken to go on.',
    example: { leftM2: 6, rateM2PerH: 3, spreadKgM2: 4, slakeMs: 600_000, potLifeMs: 4_200_000, batchKg: 12 },
  }),
  row(membraneContact, {
    part: 'mortar',
    what: 'Contact of a peeled membrane sheet: full, no blister.',
    inputs: { coveredPct: 'list of % of each sample', stepPct: '%, how finely the share is told', blisters: 'number seen' },
    result: { verdict: VERDICT, leastPct: '%' },
    source: 'common practice, no source',
    limits: 'The 80 and 95 % of tile standards are not for membranes.',
    example: { coveredPct: [100], stepPct: 0, blisters: 0 },
  }),
  row(tileContact, {
    part: 'mortar',
    what: 'Mortar behind lifted tiles.',
    inputs: { coveredPct: 'list of % of each tile, at least three', place: `${TILE_PLACES.join(' or ')}: dry interior, or wet and exterior` },
    result: { verdict: VERDICT, meanPct: '%', neededPct: '%' },
    source: 'ANSI A108.5: 80 % dry, 95 % wet, average of at least three',
    limits: 'For tile; says nothing of a membrane.',
    example: { coveredPct: [96, 94, 97], place: 'wet' },
  }),
]; // prettier-ignore
