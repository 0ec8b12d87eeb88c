import { project } from '#lib/job/project.ts';
import { expect, test } from 'vitest';
import { logLines } from '../../../src/routes/(book)/job/[id]/log/log-lines.ts';
import { chain, type Said } from '../../fixtures/log.ts';
import { run } from '../../fixtures/shower.ts';

const stop = (of: string): Said => ({ kind: 'run-stop', run: of, data: { end: 'touched' } });

test.each<[what: string, said: Said[], text: string]>([
  ['its step', [run('scrape'), run('band-seams'), stop('scrape')], 'Scrape and clean, Stopped by touch'],
  ['no step of a run that is not here', [stop('gone')], 'Stopped by touch'],
])('the line of a stop names %s', (_, said, text) => {
  const line = logLines(project(chain('a', said)).state, 'en').at(-1)!;
  expect(line.first.rows.map((row) => row.text).join(', ')).toBe(text);
});
