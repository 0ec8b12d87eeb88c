/**
 * Published places the book cites, by key. A limit of a data sheet is data in the book; only what everyone can look up is here.
 * `opened` says what was read: the paid standards were read as stored extracts, not whole.
 */
export const SOURCES = {
  'ipc-312.9': { title: 'International Plumbing Code, section 312.9, shower liner test', opened: 'quoted in full on a public page' },
  'irc-p2709.1': { title: 'International Residential Code 2009, section P2709.1, shower receptors', opened: 'quoted on a public page' },
  'upc-408.7': {
    title: 'Uniform Plumbing Code, section 408.7, lining for showers and receptors',
    opened: 'the section as a public page prints it',
  },
  'ncc-10.2.2': {
    title: 'National Construction Code of Australia, Housing Provisions 10.2.2, shower area',
    opened: 'a public copy of 10.2.1 to 10.2.4',
  },
  'ncc-10.2.12': {
    title: 'National Construction Code of Australia 2022, Housing Provisions 10.2.12, falls',
    opened: 'public notes that give its values',
  },
  'din-18534-3': {
    title: 'DIN 18534-3, liquid membranes bonded under tile indoors',
    opened: 'the values as a trade association prints them',
  },
  'astm-d4414': { title: 'ASTM D4414-95(2020), wet film thickness by notch gauges', opened: 'abstract and extracts' },
  'common-practice': { title: 'common practice, no source', opened: '' },
} as const;

export type SourceKey = keyof typeof SOURCES;

/**
 * The model code's shower liner test: water at least 2 in (51 mm, as the code prints it) deep measured at the threshold, held at
 * least 15 min, no evidence of leakage. Offered, never preset: the code family and edition are the person's choice.
 */
export const LINER_TEST = { depthIn: '2', depthMm: '51', holdMin: 15, cite: 'IPC 312.9', source: 'ipc-312.9' } as const satisfies {
  depthIn: string;
  depthMm: string;
  holdMin: number;
  cite: string;
  source: SourceKey;
};
