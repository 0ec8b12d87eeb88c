import type { Entry } from '#lib/record/entry.ts';
import type { Draft } from '#lib/record/kinds.ts';
import type { Quantity, Reading } from '#lib/record/kinds/reading.ts';
import type { Shot } from '#lib/record/kinds/work.ts';
import { logOf, phone, photoHash, UNSIGNED } from './job-fixture.ts';
import { doorway, drawn, thing } from '../../fixtures/drawn.ts';

const said = (value: string, unit: Quantity['unit'], text = value, resolution?: string): Quantity => ({
  text,
  value,
  unit,
  ...(resolution !== undefined && { resolution }),
});
const at = (run: string, drafts: readonly Draft[]): Draft[] => drafts.map((draft) => ({ ...draft, run }));
const shot = (id: string, n: number, more: Partial<Shot>): Draft => ({
  kind: 'shot',
  id,
  data: { picture: { sha256: photoHash(n), bytes: 700_000 + n, type: 'image/jpeg' }, from: 'viewfinder', surface: null, ...more },
});
const reading = (id: string, data: Omit<Reading, 'how'> & { how?: Reading['how'] }): Draft => ({
  kind: 'reading',
  id,
  data: { how: 'tape', ...data } as Reading,
});
const source = { sha256: photoHash(1), width: 4032, height: 3024, method: '2026-11-26.1', mmPerPx: '0.152' };
const inPhoto: Extract<Draft, { kind: 'coverage' }>['data']['photo'] = {
  ...source,
  corners: [
    ['310', '220'],
    ['1710', '236'],
    ['1698', '1301'],
    ['322', '1290'],
  ],
  widthMm: '400',
  heightMm: '300',
};
const stop = (run: string, end: 'touched' | 'about' = 'touched'): Draft => ({ kind: 'run-stop', run, data: { end } });
const level = (id: string, value: string, water: 'test' | 'control', attempt: string, text = `${value} at the line`): Draft =>
  reading(id, {
    what: 'flood-level',
    surface: 's-floor',
    said: said(value, 'in', text, '0.0625'),
    how: 'photo',
    spot: 'by the drain',
    attempt,
    water,
  });
const fill = (id: string, more: Partial<Extract<Draft, { kind: 'flood-fill' }>['data']> = {}): Draft => ({
  kind: 'flood-fill',
  id,
  data: {
    profile: 'contract',
    holdMin: '1440',
    depth: said('2', 'in', 'two inches'),
    under: ['s-floor', 's-curb'],
    above: 'Walls over the line, outside of the curb',
    plug: 'below-weep-holes',
    line: true,
    ceiling: 'stained',
    dam: true,
    soaked: true,
    sign: false,
    pan: true,
    ruler: said('0.0625', 'in', '1/16'),
    maxLoss: said('0.25', 'in', 'a quarter'),
    ...more,
  },
});

/** The set-up of a job with two rooms: a shower of sheets with a coat over them, and a tub wall of the crew's own system. */
function setUp(): Draft[] {
  // prettier-ignore
  return [
    { kind: 'job', id: 'job-said', data: { name: 'Two baths', address: '9 Quarry Steps', units: 'in', lang: 'en', permit: 'PW-2025-0417', proof: 'core' } },
    { kind: 'person', data: { person: 'p-ines', name: 'Inés Robledo' } },
    { kind: 'person', data: { person: 'p-tobin', name: 'Tobin Lark' } },
    { kind: 'room', data: { room: 'r-shower', name: 'Upper shower', steam: true, drain: 'bonded-flange' } },
    { kind: 'room', data: { room: 'r-tub', name: 'Lower tub', steam: false, drain: 'none' } },
    { kind: 'own-system', data: { system: 'o-paint', name: 'Brush on only', steps: ['scrape', 'liquid-coat', 'check'] } },
    { kind: 'own-rule', data: { rule: 'o-screws', step: 'scrape', want: 'shot', places: ['wall'], name: 'Screw heads flush', reason: 'They cut the sheet' } },
    {
      kind: 'surface',
      data: {
        surface: 's-north', name: 'North wall', place: 'wall', system: 'sheet-and-liquid', room: 'r-shower', width: said('63.5', 'in', `5' 3-1/2"`), height: said('96', 'in', `8'`),
        substrate: 'cement-board', outside: 'yes', retarder: 'unknown',
      },
    },
    { kind: 'surface', data: { surface: 's-floor', name: 'Shower floor', place: 'floor', system: 'sheet-and-liquid', room: 'r-shower', width: said('36', 'in'), height: said('60', 'in'), substrate: 'mortar-bed' } },
    { kind: 'surface', data: { surface: 's-curb', name: 'Curb', place: 'curb', system: 'sheet-and-liquid', room: 'r-shower', substrate: 'foam-board', outside: 'no', retarder: 'no' } },
    { kind: 'surface', data: { surface: 's-tub', name: 'Tub wall', place: 'wall', system: 'own:o-paint', room: 'r-tub', substrate: 'gypsum-board' } },
    { kind: 'material', data: { material: 'm-sheet', what: 'membrane-sheet', name: 'Grey fleece sheet', lot: 'FS-2291', useBy: null, opened: '2', left: '0.5' } },
    { kind: 'material', data: { material: 'm-mortar', what: 'mortar', name: 'Unmodified mortar', lot: 'UM-4471', useBy: '2025-10-01', opened: '3', left: '1' } },
    { kind: 'material', data: { material: 'm-liquid', what: 'liquid', name: 'Blue brush coat', lot: 'BC-118', useBy: '2026-08-31' } },
    {
      kind: 'data-sheet',
      data: {
        sheet: 'd-sheet', title: 'Fleece sheet, technical sheet', edition: 'March 2025', materials: ['m-sheet', 'm-mortar'],
        files: [{ sha256: photoHash(901), bytes: 188_004, type: 'application/pdf' }, { sha256: photoHash(902), bytes: 911_222, type: 'image/jpeg' }],
      },
    },
    { kind: 'pair', data: { material: 'm-sheet', with: 'm-mortar', named: 'in-sheet', where: 'page 4, second table' } },
    { kind: 'pair', id: 'pair-liquid', data: { material: 'm-liquid', with: 'gypsum-board', named: 'not-named', where: 'asked by phone' } },
    { kind: 'limit', data: { limit: 'l-lap', what: 'overlap', min: '2', max: null, unit: 'in', source: { kind: 'data-sheet', text: 'p. 2, March 2025' } } },
    { kind: 'limit', data: { limit: 'l-film', what: 'wet-film', min: '25', max: '40', unit: 'mil', source: { kind: 'data-sheet', text: 'p. 3' } } },
    { kind: 'limit', data: { limit: 'l-slope', what: 'slope', min: '0.25', max: '0.5', unit: 'in/ft', source: { kind: 'code', text: 'IRC P2709.1' } } },
    { kind: 'limit', data: { limit: 'l-walk', what: 'walk-on', min: '24', max: null, unit: 'h', source: { kind: 'data-sheet', text: 'p. 5, walk-on' } } },
    { kind: 'limit', data: { limit: 'l-recoat', what: 'recoat', min: '4', max: '24', unit: 'h', source: { kind: 'data-sheet', text: 'p. 6, recoat window' } } },
    { kind: 'limit', data: { limit: 'l-slake', what: 'slake', min: '10', max: null, unit: 'min', source: { kind: 'data-sheet', text: 'p. 5, slake' } } },
    { kind: 'limit', data: { limit: 'l-moist', what: 'moisture', min: null, max: '4', unit: '%', scale: 'carbide', source: { kind: 'standard', text: 'Trade standard, table 1' } } },
    { kind: 'limit', data: { limit: 'l-air', what: 'air-temperature', min: '50', max: '90', unit: 'F', source: { kind: 'crew', text: 'own rule' } } },
    { kind: 'limit', data: { limit: 'l-volume', what: 'volume-used', min: '0.5', max: null, unit: 'gal', source: { kind: 'crew', text: 'own count' } } },
  ];
}

/** A day of it: every kind that people write, each with words that stand nowhere else. */
function days(): Draft[] {
  // prettier-ignore
  return [
    { kind: 'conditions', id: 'air-1', data: { air: said('48', 'F'), surface: said('46', 'F'), humidity: said('71', '%'), lowest: said('39', 'F'), highest: said('55', 'F') } },
    { kind: 'conditions', data: { air: said('52', 'F'), from: 'air-1' } },
    { kind: 'run-start', id: 'r-survey', data: { step: 'survey', surfaces: [] } },
    ...at('r-survey', [
      shot('photo-front', 1, { shows: ['front'], surfaces: ['s-north'] }),
      shot('photo-crack', 2, { surfaces: ['s-north'], distance: 'wide' }),
      shot('photo-crack-near', 3, { surfaces: ['s-north'], distance: 'close', pair: 'photo-crack' }),
      shot('photo-label', 4, { shows: ['label'], surfaces: ['s-north'], material: 'm-mortar', cameraSays: { taken: '2025:10:14 08:44:10', orientation: 6 } }),
      reading('read-slope', { what: 'slope', surface: 's-floor', said: said('0.25', 'in/ft', 'a quarter to the foot'), how: 'level' }),
      reading('read-moist', { what: 'moisture', surface: 's-floor', said: said('3.2', '%'), how: 'meter', scale: 'carbide' }),
    ]),
    { kind: 'survey', id: 'survey-1', data: { surfaces: ['s-floor', 's-curb'], result: 'accepted', drop: 'soaks-in', found: 'Sound and clean', told: '' } },
    { kind: 'survey', id: 'survey-2', data: { surfaces: ['s-north'], result: 'with-reservation', drop: 'slowly', found: 'Hairline crack above the valve, 14 in long', told: 'Wanda Pell, builder' } },
    { kind: 'survey', id: 'survey-3', data: { surfaces: ['s-tub'], result: 'refused', drop: 'stays', found: 'Paint chalks off under the hand', told: 'Wanda Pell by phone' } },
    stop('r-survey'),
    { kind: 'by-others', data: { surfaces: ['s-north'], who: 'Orrin Plumbing', what: 'Valve set and tested at 60 psi' } },
    { kind: 'run-start', id: 'r-cut', data: { step: 'pre-cut', surfaces: ['s-floor'], materials: ['m-sheet'] } },
    ...at('r-cut', [
      shot('photo-lap', 5, { surfaces: ['s-floor'], distance: 'mid' }),
      reading('read-lap', { what: 'overlap', surface: 's-floor', said: said('1.875', 'in', 'one and seven eighths', '0.0625'), spot: 'north east corner', shot: 'photo-lap', how: 'photo' }),
    ]),
    stop('r-cut', 'about'),
    { kind: 'deviation', id: 'dev-lap', data: { surfaces: ['s-floor'], what: 'Lap an eighth short at the corner', why: 'Sheet came short', against: 'read-lap', accepted: 'Wanda Pell' } },
    { kind: 'mix', id: 'mix-1', data: { material: 'm-mortar', powder: said('25', 'lb', 'half a bag'), water: said('3.1', 'qt'), surfaces: ['s-floor'] } },
    { kind: 'mix', data: { material: 'm-mortar', same: 'mix-1', surfaces: ['s-curb'] } },
    { kind: 'wait', id: 'wait-slake', data: { what: 'slake', surfaces: ['s-floor'], fromUtc: '2025-10-14T15:00:00.000Z', readyUtc: '2025-10-14T15:10:00.000Z', latestUtc: null, limit: 'l-slake' } },
    { kind: 'run-start', id: 'r-bond', data: { step: 'bond-sheets', surfaces: ['s-floor', 's-curb'], materials: ['m-sheet', 'm-mortar'] } },
    ...at('r-bond', [shot('photo-bond', 6, { surfaces: ['s-floor'] }), shot('photo-flange', 7, { surfaces: ['s-floor'], shows: ['flange', 'transfer'] })]),
    stop('r-bond'),
    { kind: 'wait', id: 'wait-walk', data: { what: 'walk-on', surfaces: ['s-floor'], fromUtc: '2025-10-14T16:00:00.000Z', readyUtc: '2025-10-15T16:00:00.000Z', latestUtc: null, limit: 'l-walk' } },
    { kind: 'early', id: 'early-1', data: { wait: 'wait-walk', reason: 'next-trade', check: 'mortar-firm', held: true, words: 'Knelt on a board' } },
    { kind: 'run-start', id: 'r-band', data: { step: 'band-seams', surfaces: ['s-floor'] } },
    ...at('r-band', [shot('photo-band', 8, { surfaces: ['s-floor'] })]),
    stop('r-band'),
    { kind: 'not-done', id: 'left-collar', data: { step: 'band-seams', surfaces: ['s-north'], items: ['collar:r-shower'], covered: false, reason: 'not-needed', words: 'No pipe comes through' } },
    { kind: 'run-start', id: 'r-coat', data: { step: 'liquid-coat', surfaces: ['s-floor', 's-north'], coat: 1, materials: ['m-liquid'] } },
    ...at('r-coat', [
      shot('photo-coat', 9, { surfaces: ['s-floor', 's-north'] }),
      reading('read-film', { what: 'wet-film', surface: 's-floor', said: { text: 'wet at 24, dry at 26', value: '24', to: '26', unit: 'mil' }, how: 'comb', coat: 1, spot: 'at the drain' }),
      reading('read-volume', { what: 'volume-used', surface: null, said: said('0.75', 'gal', 'three quarters'), how: 'typed' }),
    ]),
    stop('r-coat'),
    { kind: 'wait', id: 'wait-recoat', data: { what: 'recoat', surfaces: ['s-floor'], fromUtc: '2025-10-14T19:00:00.000Z', readyUtc: '2025-10-14T23:00:00.000Z', latestUtc: '2025-10-15T19:00:00.000Z', limit: 'l-recoat' } },
    { kind: 'not-done', data: { step: 'liquid-coat', surfaces: ['s-curb'], items: [], covered: true, reason: 'no-time', words: 'Rain coming in' } },
    shot('photo-loose', 10, {}),
    shot('photo-watch', 11, { from: 'watch' }),
    shot('photo-tagged', 12, { from: 'file' }),
    { kind: 'tag', data: { shots: ['photo-tagged'], run: 'r-band', step: null, surfaces: ['s-curb'], shows: ['corner'], distance: 'close' } },
    { kind: 'voice', data: { sound: { sha256: photoHash(903), bytes: 1_353_644, type: 'audio/wav' }, ms: 42_300, cut: true, surfaces: ['s-curb'] } },
    { kind: 'note', id: 'note-1', data: { words: 'Pail stood in the sun', surfaces: ['s-north'] } },
    { kind: 'run-start', id: 'r-flood', data: { step: 'flood-test', surfaces: ['s-floor', 's-curb'] } },
    ...at('r-flood', [
      fill('flood-1', { pan: false }),
      reading('read-depth', { what: 'flood-depth', surface: 's-floor', said: said('2.25', 'in', 'two and a quarter'), attempt: 'flood-1' }),
      level('level-1', '2.25', 'test', 'flood-1'),
      level('level-2', '1.5', 'test', 'flood-1'),
      { kind: 'flood-look', data: { attempt: 'flood-1', seen: 'leak', ceiling: 'wet', words: 'Drips at the joist' } },
      { kind: 'flood-end', data: { attempt: 'flood-1', result: 'failed', words: 'Drained at once' } },
    ]),
    {
      kind: 'coverage',
      id: 'cover-1',
      data: {
        surface: 's-floor',
        coat: 1,
        shot: 'shot-1',
        photo: inPhoto,
        film: [['700', '500']],
        bare: [['250', '700']],
        covered: '99.2',
        low: '98.8',
        high: '99.6',
        unknown: '0.1',
        smallest: '1.6',
        misses: [
          { x: '120.5', y: '40', diameter: '6.2', kind: 'bare' },
          { x: '12', y: '33.5', diameter: '2.4', kind: 'thin', struck: true },
        ],
        confirmed: 'ana',
      },
    },
    {
      kind: 'transfer',
      data: {
        surface: 's-floor',
        shot: 'shot-1',
        photo: inPhoto,
        mortar: ['700', '500'],
        sheet: ['250', '700'],
        share: '91',
        low: '87',
        high: '94',
        worst: { share: '78', x: '200', y: '100' },
        confirmed: 'ana',
      },
    },
    reading('lap-in-photo', {
      what: 'overlap',
      surface: 's-floor',
      said: said('2.06', 'in', '2.06', '0.01'),
      how: 'photo',
      shot: 'shot-1',
      photo: {
        ...source,
        reference: { kind: 'card', barMm: '99.5', found: inPhoto.corners },
        from: ['812.5', '1033'],
        to: ['1103', '1040.5'],
        low: '2.03',
        high: '2.09',
        plane: 'edges',
      },
      lap: 'both-edges',
      confirmed: 'ana',
    }),
    { kind: 'run-start', id: 'r-repair', data: { step: 'repair', surfaces: ['s-floor'] } },
    { kind: 'repair', run: 'r-repair', data: { surfaces: ['s-floor'], what: 'Collar of the drain bonded anew', of: ['flood-1', 'dev-lap', 'cover-1'] } },
    stop('r-repair'),
    ...at('r-flood', [
      fill('flood-2'),
      level('level-3', '2.25', 'test', 'flood-2'),
      level('level-4', '2.25', 'control', 'flood-2'),
      level('level-5', '2.1875', 'test', 'flood-2', 'two and three sixteenths'),
      level('level-6', '2.1875', 'control', 'flood-2', 'a sixteenth lower'),
      { kind: 'flood-look', data: { attempt: 'flood-2', seen: 'no-leak', ceiling: 'stained', words: 'Old stain, no change' } },
      { kind: 'flood-end', data: { attempt: 'flood-2', result: 'passed', words: 'Held all of it' } },
    ]),
    stop('r-flood'),
    { kind: 'inspection', data: { permit: 'PW-2025-0417', what: 'flood-test', result: 'passed', day: '2025-10-16', who: 'City inspector 12', words: 'Card signed' } },
    { kind: 'protect', data: { surfaces: ['s-floor'], how: 'Felt and hardboard, taped' } },
    { kind: 'tile-check', data: { surfaces: ['s-floor', 's-north'], whole: true, dry: true, undamaged: false, words: 'Scuff by the niche' } },
    { kind: 'later-hole', data: { surfaces: ['s-north'], what: 'Grab bar, two screws', who: 'Handyman Jo', sealed: 'Sealant in both holes' } },
    { kind: 'hand-over', id: 'handed', data: { surfaces: ['s-floor'], who: 'Pavel Tile', role: 'tile-setter', words: 'Taken over as it lies', signature: { sha256: photoHash(904), bytes: 5_120, type: 'image/png' } } },
    { kind: 'attestation', data: { surfaces: [], words: 'My work and nobody else’s', signature: { sha256: photoHash(905), bytes: 4_096, type: 'image/png' } } },
    { kind: 'callback', id: 'complained', data: { surfaces: ['s-north'], complaint: 'Damp skirting in the hall', shows: 'outside-curb', looked: 'Supply shut, meter watched', found: 'Supply line, not the shower', cause: 'supply', warranty: 'no', took: said('2.5', 'h'), cost: { minor: '18450', currency: 'USD' }, answer: 'Letter of 3 March', stand: 'closed' } },
    { kind: 'isolation', id: 'sprayed', refs: ['complained'], data: { callback: 'complained', test: 'walls', height: said('31', 'in'), below: 'stained', moisture: said('17.5', '%'), scale: 'wood', words: 'Hose from the floor up' } },
    { kind: 'isolation-look', refs: ['sprayed'], data: { isolation: 'sprayed', below: 'no-access', moisture: said('18.25', '%'), scale: 'wood', words: 'Ladder was gone' } },
    { kind: 'opening', refs: ['complained'], data: { callback: 'complained', surfaces: ['s-north'], told: 'told', who: 'Builder and owner', sample: 'Bag K-7' } },
    { kind: 'amendment', id: 'amend-note', refs: ['note-1'], data: { of: 'note-1', data: { words: 'Pail stood in the shade', surfaces: ['s-north'] }, why: 'Looked again' } },
    { kind: 'note', id: 'note-2', data: { words: 'Wrong job, ignore', surfaces: [] } },
    { kind: 'withdrawal', refs: ['note-2'], data: { of: 'note-2', why: 'Meant for another house' } },
    { kind: 'amendment', id: 'amend-volume', refs: ['read-volume'], data: { of: 'read-volume', data: { what: 'volume-used', surface: null, said: said('0.7', 'gal', 'seven tenths'), how: 'typed' }, why: 'Read off the pail' } },
    { kind: 'drawing', id: 'drawn', data: drawn('60; 32@-90.5; 30 low 36; 61; 88; 90.1', { room: 'r-tub', closing: 'one-wall', givenTo: 4, doorways: [doorway(5, 4, 31.5, 79)], things: [thing('toilet-flange', 0, [15.25, 12.75, null, 7])] }) },
    { kind: 'plan', refs: ['drawn'], data: { room: 'r-tub', drawing: 'drawn', wall: 1, input: { unit: 'in' }, result: { unit: 'in', pieces: [{ id: 'QQ', cutLength: '66.125' }] } } },
    { kind: 'mark', refs: ['photo-loose'], data: { of: 'photo-loose', room: 'r-tub', x: said('17.5', 'in'), y: said('41.25', 'in'), spot: 'corner-2' } },
    { kind: 'clock-jump', data: { wallDeltaMs: 7_200_000, monoDeltaMs: 240_000 } },
    {
      kind: 'record',
      data: {
        rules: '2025-10-01.1', lang: 'es', heads: [{ device: 'phone-a', seq: 40, hash: photoHash(906) }],
        // As version 0.1.0 wrote them: it stays in the log as it is.
        document: { v: 1, shots: [{ id: 'photo-lap', surface: 's-floor' }] }, pictures: [photoHash(907)], pdf: { sha256: photoHash(908), bytes: 90_210 },
      },
    },
    { kind: 'run-start', id: 'r-open', data: { step: 'check', surfaces: ['s-north'] } },
  ];
}

/** Every kind of entry at least once, on two phones that amended the same reading without hearing of each other. */
export async function wholeLog(): Promise<Entry[]> {
  const first = await logOf([...setUp(), ...days()]);
  const other = await logOf(
    [
      {
        kind: 'amendment',
        id: 'cross',
        refs: ['read-volume'],
        data: {
          of: 'read-volume',
          data: { what: 'volume-used', surface: null, said: said('0.9', 'gal', 'nine tenths'), how: 'typed' },
          why: 'Weighed what was left',
        },
      },
    ],
    phone('phone-b', 'p-tobin', UNSIGNED, Date.parse('2025-10-20T12:00:00.000Z')),
  );
  return [...first, ...other];
}

export const WHOLE_SHOTS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];
export const SIGNATURES = [904, 905];
