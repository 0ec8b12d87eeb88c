import { LAYERS, LAYER_OF_STEP, MEASURE_OF_STEP, PROOF_RULES, SYSTEM_LAYERS } from '#lib/job/systems.ts';
import { STEPS, SYSTEMS } from '#lib/record/kinds.ts';
import { expect, test } from 'vitest';

test.each(PROOF_RULES)('$id is owed by the layer its step works on, and its step can take it', ({ layer, step, want }) => {
  expect(LAYER_OF_STEP[step]).toBe(layer);
  if ('reading' in want) expect(MEASURE_OF_STEP[step]).toBe(want.reading);
});

test('each rule has an id of its own, and rules stand in the order of work', () => {
  expect(new Set(PROOF_RULES.map(({ id }) => id)).size).toBe(PROOF_RULES.length);
  const places = PROOF_RULES.map(({ step }) => STEPS.indexOf(step));
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});

test('what a step measures is owed', () => {
  const owed = PROOF_RULES.flatMap(({ step, want }) => ('reading' in want ? [[step, want.reading]] : []));
  expect(Object.entries(MEASURE_OF_STEP).filter(([, what]) => what !== null)).toEqual(owed);
});

test.each(SYSTEMS)('%s is built from the substrate inwards to the flood test', (system) => {
  const layers = SYSTEM_LAYERS[system];
  expect(layers).toEqual(LAYERS.filter((layer) => layers.includes(layer)));
  expect([layers[0], layers.at(-1)]).toEqual(['substrate', 'flood']);
});
