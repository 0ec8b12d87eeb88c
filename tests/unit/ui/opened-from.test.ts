import { expect, test } from 'vitest';
import { OpenedFrom } from '../../../src/routes/(book)/job/[id]/opened-from.ts';

const at = (path: string) => new URL(`https://book.test${path}`);
const [LOG, WRITE, PHOTO] = ['/job/j/log?entry=s', '/job/j/write?kind=repair', '/job/j/measure?shot=s'];
const isOwn = ({ pathname }: URL) => pathname === '/job/j/measure' || pathname === '/job/j/write';

test.each<[what: string, ways: (readonly [page: string, left: string | null])[], from: string | null]>([
  ['by its address', [['s', null]], null],
  ['from the log', [['s', LOG]], LOG],
  ['from the log, for another thing to measure', [['s', LOG], ['s', PHOTO]], LOG],
  ['from the log, then a repair, and back', [['s', LOG], ['s', WRITE]], LOG],
  ['another photo, back from its repair', [['s', LOG], ['t', WRITE]], null],
  ['each photo its own way', [['s', LOG], ['t', '/job/j/shoot'], ['s', WRITE]], LOG],
  ['the last way counts', [['s', LOG], ['s', '/job/j'], ['s', WRITE]], '/job/j'],
  ['from outside the job nothing is remembered', [['s', LOG], ['s', '/find'], ['s', WRITE]], null],
  ['another job is outside', [['s', '/job/jj/log']], null],
])('a photo opened %s', (_, ways, from) => {
  const opened = new OpenedFrom();
  const urls = ways.map(([page, left]) => opened.arrive(page, left === null ? null : at(left), 'j', isOwn));
  expect(urls.at(-1)?.href ?? null).toBe(from === null ? null : at(from).href);
}); // prettier-ignore
