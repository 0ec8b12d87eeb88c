import type { Drawing } from '#lib/record/kinds/drawing.ts';
import { spotOfKey } from '#lib/report/spot-of-key.ts';
import { speaker } from '#lib/report/speaker.ts';
import { expect, test } from 'vitest';
import { NOTHING } from './nothing.ts';
import { ALCOVE, drawn, thing } from '../../fixtures/drawn.ts';

const drawing: Drawing = drawn(ALCOVE, {
  things: [thing('valve', 0, [16, null, 48]), thing('pipe', 0, [16, null, 78]), thing('pipe', 0, [9, null, 70])],
});
const drawings = [
  { room: 'bath', entry: 'd', at: { utc: '2026-03-05T12:00:00.000Z', offsetMin: 0 }, drawing, takeoff: null, marks: [], plan: null },
];

test.each([
  ['corner:bath@corner-1', ['Corner 2'], ['Esquina 2']],
  ['collar:bath@thing-0', ['Valve'], ['Válvula']],
  ['collar:bath@thing-2', ['Pipe in the wall (2)'], ['Tubo en la pared (n.º 2)']],
  ['collar:attic@thing-2', ['Thing (3)'], ['Elemento (n.º 3)']],
  ['flood:bath', [], []],
])('what is owed at %s is named as the screens name it', (key, en, es) => {
  expect(spotOfKey(key, speaker({ ...NOTHING, drawings }, 'en'))).toEqual(en);
  expect(spotOfKey(key, speaker({ ...NOTHING, drawings }, 'es'))).toEqual(es);
});
