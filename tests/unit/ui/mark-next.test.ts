import { proofOwed } from '#lib/job/proof.ts';
import { project } from '#lib/job/project.ts';
import { expect, test } from 'vitest';
import { markHref, photoMarkHref } from '../../../src/routes/(book)/job/[id]/read/mark-next.ts';
import { ALCOVE, drawn, q } from '../../fixtures/drawn.ts';
import { chain, type Said } from '../../fixtures/log.ts';
import { reading, run, shot, surface } from '../../fixtures/shower.ts';

/** A room whose floor is planned in strips that begin at these places. */
function roomOf(room: string, floor: string, positions: readonly string[]): Said[] {
  const pieces = positions.map((_, i) => ({ id: 'ABC'[i], strip: String(i), from: '0', to: '60', cutLength: '64', notched: false }));
  const result = {
    ...{ unit: 'in', direction: '0', positions, totalCut: '128', seamLength: '60', smallestOverlap: '4', upturnMissing: [], pieces },
    ...{ rolls: [], laying: { steps: [] }, proven: { plan: true, packing: true, laying: true } },
  };
  const drawing = `drawing-${room}`;
  return [
    { kind: 'room', data: { room, name: room } },
    surface(floor, 'floor', 'sheet', room),
    { kind: 'drawing', id: drawing, data: { ...drawn(ALCOVE), room } },
    { kind: 'plan', refs: [drawing], data: { room, drawing, input: { roll: { width: '20' } }, result } },
  ];
}
const TWO = ['-2', '14'];
const THREE = ['-2', '8', '20'];
const lap = (on: string): Said => ({ ...reading('pre-cut', 'overlap', on, '4'), id: 'r' });
const MARKED: Said = { kind: 'mark', refs: ['r'], data: { of: 'r', room: 'bath', x: q(0), y: q(0), spot: 'seam-0' } };
const BATH = '/job/j/draw/mark?room=bath&of=r';

test.each<[what: string, said: Said[], spot: string | null, href: string | null]>([
  ['a room that is not drawn', [{ kind: 'room', data: { room: 'bath', name: 'Bath' } }, surface('f', 'floor', 'sheet', 'bath'), run('pre-cut', []), lap('f')], null, null],
  ['the only seam', [...roomOf('bath', 'f', TWO), run('pre-cut', []), lap('f')], null, `${BATH}&spot=seam-0`],
  ['the seam it was asked for', [...roomOf('bath', 'f', THREE), run('pre-cut', []), lap('f')], 'seam-1', `${BATH}&spot=seam-1`],
  ['one of several', [...roomOf('bath', 'f', THREE), run('pre-cut', []), lap('f')], null, BATH],
  ['the floor of the other room', [...roomOf('hall', 'h', TWO), ...roomOf('bath', 'f', TWO), run('pre-cut', []), lap('f')], 'seam-0', `${BATH}&spot=seam-0`],
  ['another measure', [...roomOf('bath', 'f', TWO), run('band-seams', []), { ...reading('band-seams', 'band-lap', 'f', '4'), id: 'r' }], null, null],
  ['marked already', [...roomOf('bath', 'f', THREE), run('pre-cut', []), lap('f'), MARKED], 'seam-1', null],
])('a reading just kept, and where it is marked next: %s', (_, said, spot, href) => {
  const { state } = project(chain('a', said));
  expect(markHref('j', state, proofOwed(state), 'r', spot)).toBe(href);
}); // prettier-ignore

/** The drawn alcove asks for a corner piece at either end of its curb. */
const corners = (room: string, floor: string): Said[] => [...roomOf(room, floor, TWO), run('corners', [floor], { id: room })];
const corner = (inRun: string, surfaces: readonly string[]): Said => shot(inRun, { surfaces, shows: ['corner'] }, 'r');
test.each<[what: string, said: Said[], at: string | null, href: string | null]>([
  ['nothing is drawn', [surface('f', 'floor', 'sheet'), run('corners', []), corner('corners', ['f'])], null, null],
  ['the corner it was taken for', [...corners('bath', 'f'), corner('bath', [])], 'bath@corner-3', `${BATH}&spot=corner-3`],
  ['one of two corners', [...corners('bath', 'f'), corner('bath', ['f'])], null, BATH],
  ['its corner in the room it was taken for', [...corners('hall', 'h'), ...corners('bath', 'f'), corner('bath', [])], 'bath@corner-3', `${BATH}&spot=corner-3`],
  ['of nothing owed there: in its own room', [...corners('bath', 'f'), ...corners('hall', 'h'), shot('bath', { surfaces: ['f'] }, 'r')], null, BATH],
  ['of no surface: in the room drawn last', [...corners('hall', 'h'), ...corners('bath', 'f'), shot(null, {}, 'r')], null, BATH],
])('a photo just kept, and where it is marked next: %s', (_, said, at, href) => {
  const { state } = project(chain('a', said));
  expect(photoMarkHref('j', state, proofOwed(state), 'r', at)).toBe(href);
}); // prettier-ignore
