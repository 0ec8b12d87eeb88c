import { touched, type Mark, type Place } from '#lib/ui/photo/stage.ts';
import { expect, test } from 'vitest';

const mark = (id: string, at: Place | null, fine: boolean, look: Mark['look'] = 'cross'): Mark => ({
  ...{ id, at, fine, look },
  name: id,
  sharp: look === 'cross' || look === 'corner',
});
/** Two pixels of the photo to one of the screen: what lies within 44 of them is near. */
const BY = 2;

test.each<[string, marks: Mark[], at: Place, held: string | null, does: string | null]>([
  ['the first touch', [mark('a', null, false), mark('b', null, false)], [100, 100], null, 'set a'],
  ['one far from the first end', [mark('a', [100, 100], true), mark('b', null, false)], [100, 200], 'a', 'set b'],
  ['the other side of a gap', [mark('a', [100, 100], true), mark('b', null, false)], [100, 120], 'a', 'set b'],
  ['a double touch, before it was moved', [mark('a', [100, 100], false), mark('b', null, false)], [101, 100], 'a', 'take a'],
  ['an end that is not under the loupe', [mark('a', [100, 100], true), mark('b', null, false)], [100, 120], null, 'take a'],
  ['the nearer of two ends', [mark('a', [100, 100], true), mark('b', [100, 130], true)], [100, 121], 'a', 'take b'],
  ['a double touch on a corner', [mark('a', [100, 100], true, 'corner'), mark('b', null, false, 'corner')], [101, 100], 'a', 'take a'],
  ['film beside the last corner', [mark('a', [100, 100], true, 'corner'), mark('next', null, false, 'disc')], [120, 120], 'a', 'set next'],
  ['film is not taken up again', [mark('film', [100, 100], true, 'disc'), mark('next', null, false, 'disc')], [101, 100], null, 'set next'],
  ['nothing is left to set', [mark('a', [100, 100], true), mark('b', [100, 300], true)], [500, 500], 'b', null],
])('%s', (_, marks, at, held, does) => {
  const answer = touched(marks, at, BY, held);
  expect(answer && ('take' in answer ? `take ${answer.take.id}` : `set ${answer.set.id}`)).toBe(does);
});
