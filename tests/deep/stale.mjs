// Whether the committed results of `npm run deep` still speak of the code as it is. Plain Node: `npm test` shows it.
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { hashOf, ROOT } from '../../src/cli/ready.mjs';

export const RESULTS = path.join(ROOT, 'docs/deep.json');

/** One line for each deep test whose inputs (files and folders it names) are no longer those it was run on. */
export function staleDeepLines() {
  if (!existsSync(RESULTS)) return [];
  return Object.entries(JSON.parse(readFileSync(RESULTS, 'utf8'))).flatMap(([name, { inputs, inputHash, commit }]) =>
    hashOf(inputs) === inputHash ? [] : [`deep: ${name} is stale, its inputs changed since ${commit}; "npm run deep" runs it again`],
  );
}
