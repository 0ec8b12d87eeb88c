/** Drawn by hand on a 24 grid with a 1.75 pen and square ends. `fill` is painted solid under the lines. */
export const ICON_PATHS = {
  photo: { line: 'M5 12a7 7 0 1 0 14 0a7 7 0 1 0-14 0M12 1v6M12 17v6M1 12h6M17 12h6' },
  ruler: { line: 'M2 8h20v8H2zM6 8v3M10 8v5M14 8v3M18 8v5' },
  comb: { line: 'M2 4h20v16h-3V9M2 4v16h3V9M8.5 10v8M12 10v6M15.5 10v4' },
  level: { line: 'M4 4h16l-8 9zM2 15h20M6 19h12M9.5 22.5h5' },
  voice: { line: 'M4 10v4M8 6v12M12 2.5v19M16 6v12M20 10v4' },
  stop: { line: 'M6 6h12v12H6z', fill: 'M6 6h12v12H6z' },
  start: { line: 'M4 3v18M8 5l12 7-12 7z' },
  back: { line: 'M21 12H4M10 5l-7 7 7 7' },
  add: { line: 'M12 3v18M3 12h18' },
  archive: { line: 'M3 3h18v5H3zM5 8v13h14V8M9 12h6' },
  close: { line: 'M5 5l14 14M19 5L5 19' },
  check: { line: 'M3 3h18v12l-6 6H3zM8 11l3 3 6-6' },
  section: { line: 'M3 2v19h19M8 2v14h14M13 2v9h9' },
  note: { line: 'M4 3h16v13l-5 5H4zM8 8h8M8 12h8' },
  tray: { line: 'M3 15v6h18v-6M6 11v4M18 11v4M6 11h12M9 7v4M15 7v4M9 7h6' },
  share: { line: 'M9 5H4v15h15v-5M12 12L21 3M14 3h7v7' },
  torch: { line: 'M8 2h8v5l-2 3v12h-4V10L8 7zM8 7h8M12 13v3' },
  sun: { line: 'M8 12a4 4 0 1 0 8 0a4 4 0 1 0-8 0M12 1v4M12 19v4M1 12h4M19 12h4' },
  find: { line: 'M3 10a7 7 0 1 0 14 0a7 7 0 1 0-14 0M15.5 15.5L22 22M10 7v6M7 10h6' },
  clock: { line: 'M2 7h20v10H2zM12 3v18', fill: 'M2 7h10v10H2z' },
  drawing: { line: 'M4 2v20M20 2v20M4 12h5M15 12h5M9 9l-5 3 5 3M15 9l5 3-5 3' },
} as const satisfies Record<string, { readonly line: string; readonly fill?: string }>;

export type IconName = keyof typeof ICON_PATHS;
