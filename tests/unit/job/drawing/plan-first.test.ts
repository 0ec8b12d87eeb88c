import { firstPlan } from '#lib/job/drawing/plan-first.ts';
import { EMPTY_PLAN } from '#lib/job/drawing/plan-input.ts';
import { project } from '#lib/job/project.ts';
import type { PlanForm } from '#lib/record/drawing-drafts.ts';
import { readLength } from '#lib/measure/length-text.ts';
import { expect, test } from 'vitest';
import { chain, type Said } from '../../../fixtures/log.ts';
import { surface } from '../../../fixtures/shower.ts';

let limits = 0;
const limit = (what: 'overlap' | 'upturn', min: string | null, unit: 'in' | 'mm', max: string | null = null): Said => ({
  kind: 'limit',
  data: { limit: `l-${(limits += 1)}`, what, min, max, unit, source: { kind: 'data-sheet', text: 'p. 2' } },
});
const KEPT: Said = {
  kind: 'plan', id: 'p-1', refs: ['d-1'],
  data: {
    room: 'bath', drawing: 'd-1', input: { unit: 'in', roll: { width: '39.37', lengths: ['70'], newLength: null }, minOverlap: '3' },
    result: {
      unit: 'in', direction: '0', positions: ['0'], totalCut: '60', seamLength: '0', smallestOverlap: null, upturnMissing: [],
      pieces: [{ id: 'A', strip: '0', from: '0', to: '60', cutLength: '60', notched: false }],
      rolls: [], laying: { steps: [] }, proven: { plan: true, packing: true, laying: true },
    },
  },
}; // prettier-ignore
const typed = (form: Partial<PlanForm>): PlanForm => ({ ...EMPTY_PLAN, ...form });
const NONE = {};

test.each<[what: string, of: 'floor' | 'walls', said: Said[], floor: PlanForm | null, first: Partial<PlanForm>]>([
  ['no limit, nothing', 'floor', [], null, NONE],
  ['the least overlap and upturn', 'floor', [limit('overlap', '2', 'in'), limit('upturn', '75', 'mm')], null, { overlap: '2 in', upturn: '75 mm' }],
  ['no upturn where the band turns up the wall', 'floor', [surface('f', 'floor', 'sheet-floor-liquid-walls', 'bath'), limit('upturn', '75', 'mm')], null, NONE],
  ['that is so in this room alone', 'floor', [surface('f', 'floor', 'sheet', 'bath'), surface('g', 'floor', 'sheet-floor-liquid-walls', 'hall'), limit('upturn', '75', 'mm')], null, { upturn: '75 mm' }],
  ['of two sheets the stricter, in its unit', 'floor', [limit('overlap', '2', 'in'), limit('overlap', '60', 'mm'), limit('overlap', '1.5', 'in')], null, { overlap: '60 mm' }],
  ['a most is no least', 'floor', [limit('overlap', null, 'in', '4')], null, NONE],
  ['the floor takes nothing from its own kept plan', 'floor', [KEPT], null, NONE],
  ['walls: the limit where nothing is known of the floor; how high they go is no upturn', 'walls', [limit('overlap', '2', 'in'), limit('upturn', '3', 'in')], null, { overlap: '2 in' }],
  ['walls: the roll of the floor as typed, not the rolls it uses up', 'walls', [limit('overlap', '2', 'in')], typed({ width: '1 m', newLength: '10 m', atHand: '4 m', overlap: '3 in', clear: '2 in' }), { width: '1 m', newLength: '10 m', overlap: '3 in' }],
  ['walls: typed before kept, kept where nothing is typed', 'walls', [KEPT], typed({ width: '1 m' }), { width: '1 m', overlap: '3 in' }],
  ['walls: as kept by another phone', 'walls', [limit('overlap', '2', 'in'), KEPT], null, { width: '39.37 in', overlap: '3 in' }],
])('%s', (_, of, said, floor, first) => {
  const form = firstPlan(of, project(chain('a', [{ kind: 'room', data: { room: 'bath', name: 'Bath' } }, ...said])).state, 'bath', floor);
  expect(form).toEqual({ ...EMPTY_PLAN, ...first });
  for (const text of [form.width, form.newLength, form.overlap, form.upturn]) expect(text === '' || readLength(text).ok).toBe(true);
}); // prettier-ignore
