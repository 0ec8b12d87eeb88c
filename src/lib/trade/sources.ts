/**
 * Published places the book cites, by key. A limit of a data sheet is data in the book; only what everyone can look up is here.
 * `opened` says what was read: the paid standards were read as stored extracts, not whole.
 */
export const SOURCES = {
  'ipc-312.9': { title: 'International Plumbing Code, section 312.9, shower liner test', opened: 'quoted in full on a public page' },
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
