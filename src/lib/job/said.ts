import { knownData, type DataOf, type Kind, type Known, type SCHEMAS } from '../record/kinds.ts';
import type { Coverage, Miss, PhotoArea, PhotoLength, Transfer } from '../record/kinds/photo.ts';
import type { Quantity, Span, Unit } from '../record/kinds/reading.ts';
import type { Limit, Picture } from '../record/kinds/setup.ts';
import { plain, quantity, type CodeFamily, type Codes, type IdFamily, type SaidField, type SaidValue } from './said-field.ts';
import { misses, photoArea, photoLength, pointText } from './said-photo.ts';
import { cutsSaid } from './said-plan.ts';

/** What each way of saying a field takes, so that the compiler refuses a way that does not fit its schema. */
interface Takes {
  words: string;
  tag: string;
  reading: Span | Quantity;
  quantity: Quantity;
  /** Decimal strings: in the unit of the entry, counted in pieces, in minutes. */
  bound: string;
  pieces: string;
  minutes: string;
  percent: string;
  millimetres: string;
  number: number;
  duration: number;
  yes: boolean;
  surface: string;
  surfaces: string[];
  room: string;
  materials: string | string[];
  limit: string;
  entry: string;
  entries: string[];
  rules: string[];
  items: string[];
  instant: string;
  day: string;
  file: { sha256: string; bytes: number; type?: string };
  files: Picture[];
  source: Limit['source'];
  key: DataOf<'device'>['key'];
  camera: NonNullable<DataOf<'shot'>['cameraSays']>;
  heads: DataOf<'record'>['heads'];
  person: string;
  photoLength: PhotoLength;
  photoArea: PhotoArea;
  point: Transfer['mortar'];
  points: Coverage['film'];
  photoCorners: NonNullable<DataOf<'mark'>['inPhoto']>;
  misses: Miss[];
  worst: NonNullable<Transfer['worst']>;
  /** Which of a list, counted from 0 in the entry and from 1 in words. */
  nth: number;
  degrees: string;
  money: NonNullable<DataOf<'callback'>['cost']>;
  spot: string;
  cuts: DataOf<'plan'>['result'];
}
type CodeWay = { [C in CodeFamily]: `code ${C}` }[CodeFamily];

/** A field that is not said, and why. */
interface Unsaid {
  readonly unsaid: string;
}

type Shape<K extends Kind> = (typeof SCHEMAS)[K]['shape'];
/** The ways that fit a value; a list of codes is said as its codes are. */
type WayFor<V> =
  | { [W in keyof Takes]: V extends Takes[W] ? W : never }[keyof Takes]
  | { [C in CodeFamily]: V extends Codes[C] | readonly Codes[C][] ? `code ${C}` : never }[CodeFamily];
type Named<T> = { [F in keyof T as string extends F ? never : F]: T[F] };
/** A list of things, and how each field of one is said. */
type EachFor<V> = V extends readonly (infer One extends object)[]
  ? { readonly each: { readonly [F in keyof Named<Required<One>>]: WayFor<NonNullable<One[F & keyof One]>> | Unsaid } }
  : never;
type Fields<K extends Kind> = {
  readonly [F in keyof Shape<K>]:
    WayFor<NonNullable<DataOf<K>[F & keyof DataOf<K>]>> | EachFor<NonNullable<DataOf<K>[F & keyof DataOf<K>]>> | Unsaid;
};
type Way = keyof Takes | CodeWay;

const NAMES_IT: Unsaid = { unsaid: 'an id by which other entries point at it; people read its name' };

/** Every field of every kind, in the order in which it is said. A field added to a schema does not compile until it stands here. */
export const FIELDS: { readonly [K in Kind]: Fields<K> } = {
  device: { key: 'key' },
  person: { name: 'words', person: NAMES_IT },
  job: {
    name: 'words',
    address: 'words',
    permit: 'words',
    proof: 'code level',
    units: 'code choice',
    lang: 'tag',
    example: 'yes',
  },
  room: { name: 'words', drain: 'code choice', steam: 'yes', room: NAMES_IT },
  surface: {
    name: 'words',
    place: 'code place',
    room: 'room',
    system: 'code system',
    width: 'quantity',
    height: 'quantity',
    substrate: 'code substrate',
    outside: 'code choice',
    retarder: 'code choice',
    surface: NAMES_IT,
  },
  limit: {
    what: 'code measure',
    min: 'bound',
    max: 'bound',
    scale: 'code scale',
    source: 'source',
    unit: { unsaid: 'said with each bound' },
    limit: NAMES_IT,
  },
  material: { what: 'code material', name: 'words', lot: 'words', useBy: 'day', opened: 'pieces', left: 'pieces', material: NAMES_IT },
  'data-sheet': { title: 'words', edition: 'words', materials: 'materials', files: 'files', sheet: NAMES_IT },
  pair: { material: 'materials', with: 'materials', named: 'code choice', where: 'words' },
  'own-system': { name: 'words', steps: 'code step', system: NAMES_IT },
  'own-rule': { name: 'words', step: 'code step', want: 'code want', places: 'code place', reason: 'words', rule: NAMES_IT },
  drawing: {
    room: 'room',
    height: 'quantity',
    walls: { each: { length: 'quantity', turn: 'degrees', as: 'code choice', height: 'quantity', depth: 'quantity' } },
    closing: 'code choice',
    givenTo: 'nth',
    doorways: { each: { wall: 'nth', along: 'quantity', width: 'quantity', height: 'quantity' } },
    things: {
      each: {
        thing: 'code choice',
        wall: 'nth',
        along: 'quantity',
        out: 'quantity',
        up: 'quantity',
        width: 'quantity',
        height: 'quantity',
        depth: 'quantity',
      },
    },
    unit: { unsaid: 'each length is said in its own' },
  },
  plan: {
    room: 'room',
    wall: 'nth',
    drawing: 'entry',
    result: 'cuts',
    input: { unsaid: 'it stands in the entry for whoever works the plan out again' },
  },
  mark: { of: 'entry', room: 'room', wall: 'nth', x: 'quantity', y: 'quantity', spot: 'spot', corners: 'points', inPhoto: 'photoCorners' },
  'run-start': { step: 'code step', surfaces: 'surfaces', coat: 'number', materials: 'materials' },
  'run-stop': { end: 'code choice' },
  shot: {
    surface: 'surface',
    surfaces: 'surfaces',
    shows: 'rules',
    distance: 'code distance',
    pair: 'entry',
    material: 'materials',
    from: 'code from',
    cameraSays: 'camera',
    picture: 'file',
  },
  tag: { shots: 'entries', run: 'entry', step: 'code step', surfaces: 'surfaces', shows: 'rules', distance: 'code distance' },
  reading: {
    what: 'code measure',
    said: 'reading',
    surface: 'surface',
    spot: 'words',
    coat: 'number',
    scale: 'code scale',
    how: 'code how',
    shot: 'entry',
    attempt: 'entry',
    water: 'code choice',
    heard: 'words',
    otherHeard: 'words',
    engine: 'tag',
    confirmedHow: 'code choice',
    clip: 'entry',
    clipHash: 'tag',
    photo: 'photoLength',
    lap: 'code choice',
    confirmed: 'person',
  },
  coverage: {
    covered: 'percent',
    low: 'percent',
    high: 'percent',
    unknown: 'percent',
    misses: 'misses',
    smallest: 'millimetres',
    surface: 'surface',
    coat: 'number',
    before: 'entry',
    shot: 'entry',
    confirmed: 'person',
    photo: 'photoArea',
    film: 'points',
    bare: 'points',
  },
  transfer: {
    share: 'percent',
    low: 'percent',
    high: 'percent',
    worst: 'worst',
    surface: 'surface',
    shot: 'entry',
    confirmed: 'person',
    photo: 'photoArea',
    mortar: 'point',
    sheet: 'point',
  },
  mix: { material: 'materials', powder: 'quantity', water: 'quantity', same: 'entry', surfaces: 'surfaces' },
  conditions: { air: 'quantity', surface: 'quantity', humidity: 'quantity', lowest: 'quantity', highest: 'quantity', from: 'entry' },
  wait: { what: 'code wait', surfaces: 'surfaces', fromUtc: 'instant', readyUtc: 'instant', latestUtc: 'instant', limit: 'limit' },
  early: { wait: 'entry', reason: 'code choice', check: 'code choice', held: 'yes', words: 'words' },
  'not-done': { step: 'code step', surfaces: 'surfaces', items: 'items', covered: 'yes', reason: 'code choice', words: 'words' },
  note: { words: 'words', surfaces: 'surfaces' },
  voice: { ms: 'duration', cut: 'yes', surfaces: 'surfaces', sound: 'file' },
  survey: { result: 'code choice', surfaces: 'surfaces', drop: 'code choice', found: 'words', told: 'words' },
  deviation: { what: 'words', why: 'words', surfaces: 'surfaces', against: 'entry', accepted: 'words' },
  repair: { what: 'words', of: 'entries', surfaces: 'surfaces' },
  'by-others': { who: 'words', what: 'words', surfaces: 'surfaces' },
  protect: { how: 'words', surfaces: 'surfaces' },
  'tile-check': { whole: 'yes', dry: 'yes', undamaged: 'yes', words: 'words', surfaces: 'surfaces' },
  'later-hole': { what: 'words', who: 'words', sealed: 'words', surfaces: 'surfaces' },
  'hand-over': { who: 'words', role: 'code choice', words: 'words', surfaces: 'surfaces', signature: 'file' },
  attestation: { words: 'words', surfaces: 'surfaces', signature: 'file' },
  inspection: { permit: 'words', what: 'code choice', result: 'code choice', day: 'day', who: 'words', words: 'words' },
  callback: {
    complaint: 'words',
    shows: 'code choice',
    looked: 'words',
    found: 'words',
    cause: 'code choice',
    warranty: 'code choice',
    took: 'quantity',
    cost: 'money',
    answer: 'words',
    stand: 'code choice',
    surfaces: 'surfaces',
  },
  isolation: {
    test: 'code choice',
    height: 'quantity',
    below: 'code choice',
    moisture: 'quantity',
    scale: 'code scale',
    words: 'words',
    callback: 'entry',
  },
  'isolation-look': { below: 'code choice', moisture: 'quantity', scale: 'code scale', words: 'words', isolation: 'entry' },
  opening: { told: 'code choice', who: 'words', sample: 'words', surfaces: 'surfaces', callback: 'entry' },
  'flood-fill': {
    profile: 'code choice',
    depth: 'quantity',
    holdMin: 'minutes',
    ruler: 'quantity',
    maxLoss: 'quantity',
    under: 'surfaces',
    above: 'words',
    plug: 'code choice',
    line: 'yes',
    ceiling: 'code choice',
    dam: 'yes',
    soaked: 'yes',
    sign: 'yes',
    pan: 'yes',
  },
  'flood-look': { attempt: 'entry', seen: 'code choice', ceiling: 'code choice', words: 'words' },
  'flood-end': { attempt: 'entry', result: 'code choice', words: 'words' },
  amendment: { of: 'entry', why: 'words', data: { unsaid: 'said by `amendedFields`, which is told the kind of the entry it amends' } },
  withdrawal: { of: 'entry', why: 'words' },
  'clock-jump': { wallDeltaMs: 'duration', monoDeltaMs: 'duration' },
  record: {
    pdf: 'file',
    lang: 'tag',
    paperSize: { unsaid: 'the PDF shows it' },
    rules: 'tag',
    heads: 'heads',
    derived: { unsaid: 'how the pictures were made, of no concern to who reads what they show' },
    pictures: { unsaid: 'named one by one in the document, each beside the photo it was made from' },
    document: { unsaid: 'it is what the PDF says' },
  },
};

/** What an entry says, field by field in a fixed order. A field left out, empty or null says nothing. An unknown kind has no fields. */
export function saidFields(view: Known): SaidField[] {
  if (view.kind === 'unknown') return [];
  const data: Readonly<Record<string, unknown>> = view.data;
  return saidBy(view.kind, FIELDS[view.kind], data);
}

type Ways = Readonly<Record<string, Way | { readonly each: Ways } | Unsaid>>;

function saidBy(kind: Kind, ways: object, data: Readonly<Record<string, unknown>>): SaidField[] {
  return Object.entries(ways as Ways).flatMap(([field, way]): SaidField[] => {
    const value = data[field];
    if (value === undefined || value === null) return [];
    if (typeof way === 'string') return saidValue(way, value, data).map((one) => ({ field: nameOf(kind, field, data), ...one }));
    if (!('each' in way)) return [];
    const items = (value as Readonly<Record<string, unknown>>[]).map((one) => saidBy(kind, way.each, one));
    return items.length === 0 ? [] : [{ field, is: 'list', of: kind, items }];
  });
}

/** What a field is said as: the second value of a mark goes up a wall, and into the room on the floor. */
function nameOf(kind: Kind, field: string, data: Readonly<Record<string, unknown>>): string {
  return kind === 'mark' && field === 'y' && data['wall'] === undefined ? 'into' : field;
}

/**
 * What an amendment of an entry of `kind` puts in its place. Data that does not fit the kind nobody can read: it is shown as it was
 * written, so that it is not lost.
 */
export function amendedFields(kind: string, data: DataOf<'amendment'>['data']): SaidField[] {
  const view = knownData(kind, data);
  return view.kind === 'unknown' ? [{ field: 'data', is: 'tag', text: JSON.stringify(data) }] : saidFields(view);
}

/** The schema has checked that the value is what its way takes; the table, that the way is right for the schema. */
function saidValue(way: Way, value: unknown, data: Readonly<Record<string, unknown>>): SaidValue[] {
  const as = <W extends keyof Takes>() => value as Takes[W];
  switch (way) {
    case 'words':
    case 'tag':
      return as<'words'>() === '' ? [] : [{ is: way, text: as<'words'>() }];
    case 'reading':
    case 'quantity':
      return [{ is: 'quantity', ...quantity(as<'reading'>()) }];
    case 'bound':
      return [{ is: 'quantity', ...plain(as<'bound'>(), data['unit'] as Unit) }];
    case 'pieces':
      return [{ is: 'quantity', ...plain(as<'pieces'>(), 'count') }];
    case 'minutes':
      return [{ is: 'quantity', ...plain(as<'minutes'>(), 'min') }];
    case 'percent':
      return [{ is: 'quantity', ...plain(as<'percent'>(), '%') }];
    case 'millimetres':
      return [{ is: 'quantity', ...plain(as<'millimetres'>(), 'mm') }];
    case 'number':
      return [{ is: 'number', n: as<'number'>() }];
    case 'duration':
      return [{ is: 'duration', ms: as<'duration'>() }];
    case 'yes':
      return [{ is: 'yes', yes: as<'yes'>() }];
    case 'surface':
    case 'surfaces':
      return ids('surface', as<'surface' | 'surfaces'>());
    case 'materials':
      return ids('material', as<'materials'>());
    case 'room':
    case 'limit':
    case 'entry':
      return ids(way, as<'entry'>());
    case 'entries':
      return ids('entry', as<'entries'>());
    case 'rules':
      return ids('rule', as<'rules'>());
    case 'items':
      return ids('item', as<'items'>());
    case 'instant':
      return [{ is: 'instant', utc: as<'instant'>() }];
    case 'day':
      return [{ is: 'day', day: as<'day'>() }];
    case 'file':
      return [{ is: 'files', files: [file(as<'file'>())] }];
    case 'files':
      return [{ is: 'files', files: as<'files'>().map(file) }];
    case 'source':
      return [{ is: 'source', kind: as<'source'>().kind, text: as<'source'>().text }];
    case 'key': {
      const key = as<'key'>();
      return [key.alg === 'ed25519' ? { is: 'key', public: key.public, why: null } : { is: 'key', public: null, why: key.why }];
    }
    case 'camera': {
      const { taken } = as<'camera'>();
      return taken === undefined ? [] : [{ is: 'tag', text: taken }];
    }
    case 'heads':
      return [{ is: 'heads', heads: as<'heads'>().map(({ device, seq, hash }) => ({ device, seq, hash })) }];
    case 'person':
      return ids('person', as<'person'>());
    case 'photoLength':
      return photoLength(as<'photoLength'>(), (data['said'] as Quantity).unit);
    case 'photoArea':
      return photoArea(as<'photoArea'>());
    case 'point':
      return [{ is: 'tag', text: pointText(as<'point'>()) }];
    case 'points':
      return as<'points'>().length === 0 ? [] : [{ is: 'tag', text: as<'points'>().map(pointText).join(' ') }];
    case 'photoCorners':
      return [{ is: 'tag', text: as<'photoCorners'>().corners.map(pointText).join(' ') }];
    case 'misses':
      return misses(as<'misses'>());
    case 'worst': {
      const { share, x, y } = as<'worst'>();
      return [
        { is: 'quantity', ...plain(share, '%') },
        { is: 'tag', text: `${x} ${y} mm` },
      ];
    }
    case 'nth':
      return [{ is: 'number', n: as<'nth'>() + 1 }];
    case 'degrees':
      return [{ is: 'tag', text: `${as<'degrees'>()}°` }];
    case 'spot':
      return [{ is: 'spot', spot: as<'spot'>(), room: String(data['room']) }];
    case 'money':
      return [{ is: 'money', minor: as<'money'>().minor, currency: as<'money'>().currency }];
    case 'cuts':
      return cutsSaid(as<'cuts'>());
    default: {
      const codes = Array.isArray(value) ? (value as string[]) : [value as string];
      return codes.length === 0 ? [] : [{ is: 'code', of: way.slice('code '.length) as CodeFamily, codes }];
    }
  }
}

function ids(of: IdFamily, said: string | readonly string[]): SaidValue[] {
  const list = typeof said === 'string' ? [said] : [...said];
  return list.length === 0 ? [] : [{ is: 'ids', of, ids: list }];
}

/** A PDF of ours is named without its type. */
function file({ sha256, bytes, type = 'application/pdf' }: Takes['file']): { sha256: string; bytes: number; type: string } {
  return { sha256, bytes, type };
}
