import { barrierCautions } from '../job/cautions.ts';
import { RULES_VERSION } from '../job/judged.ts';
import { askedPairs } from '../job/pairs.ts';
import { price, proofOwed, roomsOf } from '../job/proof.ts';
import type { JobState } from '../job/state.ts';
import { waits } from '../job/waits.ts';
import type { Times } from '../record/entry.ts';
import { merkleRoot } from '../record/merkle.ts';
import { recordAttempts } from './attempts.ts';
import { recordCallbacks } from './callback-nodes.ts';
import { inOrder, recordChains, recordHeads } from './chains.ts';
import { recordInPhotos } from './in-photo-nodes.ts';
import { recordLayer } from './layers.ts';
import { recordLines } from './line.ts';
import { recordDrawings } from './drawing-nodes.ts';
import { keptCards, recordMixing, type TypedCards } from './mixing-nodes.ts';
import { openPoints } from './open.ts';
import type { RecordDocument, RecordLine } from './record-document.ts';
import { recordLimit, recordMaterial, recordPair, recordRoom, recordSurface } from './setup-nodes.ts';
import { recordReading, recordRun, recordShot, recordWait, stopMoments } from './work-nodes.ts';

export interface DocumentInput {
  readonly job: JobState;
  /** Rows of the store that no longer parse. */
  readonly unreadable: number;
  /** When the record is built, and by whom (a person's id). */
  readonly built: Times;
  readonly by: string;
  /** Hash of each picture to be printed, by the hash of the photo it was made from. */
  readonly printed: ReadonlyMap<string, string>;
  /** Personal data that is kept back from the paper. */
  readonly left?: readonly 'address'[];
  /** Mixing cards as typed, by room, where they are what is printed; else those that were printed last. */
  readonly cards?: TypedCards;
}

/** The document tree of a job. Pure: the same log, time and pictures give the same tree. */
export function buildDocument({ job, unreadable, built, by, printed, left = [], cards }: DocumentInput): RecordDocument {
  const entries = job.lines.map((line) => line.entry);
  const proof = proofOwed(job);
  const stops = stopMoments(entries);
  const readings = job.readings.map((reading) => recordReading(reading, job.limits));
  const nodes = {
    chains: recordChains(entries),
    materials: job.materials.map((material) => recordMaterial(material, job)),
    layers: proof.map((layer) => recordLayer(layer, job, readings)),
    runs: job.runs.map((run) => recordRun(run, stops.get(run.id))),
    shots: job.shots.map((shot) => recordShot(shot, printed)),
    readings,
    attempts: recordAttempts(job),
    unreadable,
    log: recordLines(job.lines).map((line) => (left.includes('address') ? withoutAddress(line) : line)),
  };
  const answered = recordCallbacks(job);
  const { name, address, permit, proof: level, units, lang, example } = job;
  return {
    v: 3,
    rules: RULES_VERSION,
    built: { utc: built.utc, offsetMin: built.offsetMin, by },
    job: { id: job.id ?? '', name, address: left.includes('address') ? '' : address, permit, proof: level, units, lang, example },
    price: price(proof),
    heads: recordHeads(entries),
    fingerprint: merkleRoot(inOrder(entries).map(({ hash }) => hash)),
    open: openPoints(job, nodes),
    people: Object.entries(job.people).map(([person, called]) => ({ person, name: called })),
    rooms: roomsOf(job).map((room) => recordRoom(room, job)),
    surfaces: job.surfaces.map((surface) => recordSurface(surface, job)),
    drawings: recordDrawings(job),
    mixing: recordMixing(cards ?? keptCards(entries), job),
    pairs: askedPairs(job).map(recordPair),
    limits: job.limits.map(recordLimit),
    systems: job.ownSystems.map(({ system, name: called, steps }) => ({ system, name: called, steps: [...steps] })),
    ownRules: job.ownRules.map(({ rule, name: called, reason }) => ({ rule, name: called, reason })),
    cautions: barrierCautions(job).map(({ code, surface: { surface } }) => ({ code, surface })),
    inPhotos: recordInPhotos(job),
    left: [...left],
    waits: waits(job, Date.parse(built.utc)).map((wait) => recordWait(wait, job)),
    ...(answered.length > 0 && { callbacks: answered }),
    signatures: signatures(job, printed),
    ...nodes,
  };
}

/** What people wrote about in their own words stays: nobody can tell what is an address in it. */
function withoutAddress(line: RecordLine): RecordLine {
  const kept = (fields: RecordLine['said']) => fields.filter(({ field }) => field !== 'address');
  const { first, instead } = line;
  return { ...line, said: kept(line.said), ...(first && { first: kept(first) }), ...(instead && { instead: kept(instead) }) };
}

function signatures(job: JobState, printed: DocumentInput['printed']): RecordDocument['signatures'] {
  const signed = [...job.facts['hand-over'], ...job.facts.attestation];
  return signed.flatMap(({ id, data: { signature } }) =>
    signature === undefined ? [] : [{ entry: id, sha256: signature.sha256, printed: printed.get(signature.sha256) ?? null }],
  );
}
