import { CATALOGUE } from './catalogue.ts';
import { PARTS, type Part, type Row } from './row.ts';

const TITLE: Readonly<Record<Part, string>> = {
  units: 'Units and limits',
  film: 'Film',
  substrate: 'Substrate',
  mortar: 'Mortar and contact',
  weather: 'Weather',
  waits: 'Waits',
  flood: 'Flood test',
  'time-and-material': 'Time and material',
};

const HEAD = `# What Layerbook computes

Every number the book shows, with the formula's source and where it holds. This page is written from the same table as
\`npm run -s layerbook -- compute --list\`, by \`node src/cli/compute/write.ts > docs/trade.md\`; a test holds the two equal.

    npm run -s layerbook -- compute --list
    npm run -s layerbook -- compute NAME FILE

FILE is one JSON object with the fields below. Numbers are numbers in the field's unit; where null is allowed it must be written. On stdout
stands the result, one JSON object; exit 0 for any verdict. Bad input ends with exit 2 and
\`{"error":{"field":"levels[2].atMs","code":"too-small","message":"..."}}\`. The codes: \`missing\`, \`not-a-number\` (NaN and infinities too, which
may stand in FILE as such), \`too-small\`, \`too-large\`, \`empty\`, \`too-many\`, \`out-of-order\`, \`twice\`, \`unknown-choice\`, \`unknown-field\`;
of typed text \`not-a-quantity\`, \`other-dimension\`, \`in-doubt\` (with \`offers\`: what could be meant), \`out-of-range\`; of the call
\`unknown-function\`, \`no-such-file\`, \`not-json\`, \`not-an-object\`.

Nothing here is a limit. Limits are typed in by the crew with their source; the data sheet, the local code and licensed trades govern.
`;

/** docs/trade.md. */
export function tradePage(): string {
  const parts = PARTS.map(
    (part) =>
      `## ${TITLE[part]}\n\n${CATALOGUE.filter((one) => one.part === part)
        .map(section)
        .join('\n')}`,
  );
  return `${HEAD}\n${parts.join('\n')}`;
}

function section({ name, what, inputs, result, source, limits, example }: Row): string {
  const table = (head: string, fields: Readonly<Record<string, string>>) =>
    [
      `| ${head} | |`,
      '| --- | --- |',
      ...Object.entries(fields).map(([field, text]) => `| \`${field}\` | ${text.replaceAll('|', '\\|')} |`),
    ].join('\n');
  return `### ${name}

${what}

${table('input', inputs)}

${table('result', result)}

Source: ${source}. Limits: ${limits}

    ${JSON.stringify(example)}
`;
}
