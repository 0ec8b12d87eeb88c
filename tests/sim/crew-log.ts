import { PROOF_RULES, type ProofRule } from '#lib/job/proof-rules.ts';
import { stepsOn, type System } from '#lib/job/systems.ts';
import type { Entry } from '#lib/record/entry.ts';
import { SYSTEMS, type Step, type Surface } from '#lib/record/kinds/setup.ts';
import type { Said } from '../fixtures/log.ts';
import * as say from '../fixtures/shower.ts';
import { random } from './random.ts';

const ROOM = ['wall', 'floor', 'curb', 'niche'] as const;
const OWN_SYSTEM = {
  system: 'ours',
  name: 'Ours',
  steps: ['scrape', 'corners', 'bond-sheets', 'band-seams', 'liquid-coat', 'flood-test', 'check'] as Step[],
};

/** One phone of the crew: its chain, how far its clock is off, and how much of the other's chain it has heard. */
interface Phone {
  readonly device: string;
  readonly by: string;
  readonly chain: Entry[];
  skewMin: number;
  heard: number;
}

/**
 * A day of two people on two phones, from a seed: runs that overlap, stops forgotten or guessed at, photos taken and sorted later or never,
 * values outside, steps left out, entries amended and withdrawn by people who had not heard of each other, clocks that are off and jump.
 */
export function crewLog(seed: number): Entry[] {
  return new CrewDay(random(seed)).entries();
}

class CrewDay {
  readonly #draw: () => number;
  readonly #phones: readonly [Phone, Phone];
  readonly #surfaces: Surface[] = [];
  #minute = 480;

  constructor(draw: () => number) {
    this.#draw = draw;
    this.#phones = [this.#phone('phone-a', 'ana'), this.#phone('phone-b', 'luis')];
    this.#setUp();
    if (draw() < 0.6) this.#work();
    for (let turns = Math.floor(draw() * 28); turns > 0; turns--) this.#turn();
  }

  entries(): Entry[] {
    return this.#phones.flatMap(({ chain }) => chain);
  }

  #phone(device: string, by: string): Phone {
    return { device, by, chain: [], skewMin: Math.floor(this.#draw() * 180) - 90, heard: 0 };
  }

  #pick<T>(list: readonly T[]): T | undefined {
    return list[Math.floor(this.#draw() * list.length)];
  }

  #some<T>(list: readonly T[], odds: number): T[] {
    return list.filter(() => this.#draw() < odds);
  }

  #say(phone: Phone, { kind, data, run, refs = [], id }: Said): string {
    this.#minute += this.#draw() * 4;
    if (this.#draw() < 0.02) phone.skewMin = Math.floor(this.#draw() * 300) - 150;
    const seq = phone.chain.length;
    const body = {
      v: 1,
      kind: kind!,
      id: id ?? `${phone.device}-${seq}`,
      job: 'hall-bath',
      device: phone.device,
      seq,
      prev: null,
      by: phone.by,
      ...(run !== undefined && { run }),
      refs: [...refs],
      times: {
        utc: new Date(Date.UTC(2026, 2, 2, 0, Math.floor(this.#minute + phone.skewMin))).toISOString(),
        offsetMin: -360,
        zone: 'America/Chicago',
        monoMs: 0,
        session: 's',
      },
      data: data as Record<string, unknown>,
    };
    // Neither hashed nor signed: what a log means is asked here, not whether it is whole.
    phone.chain.push({ raw: JSON.stringify(body), body, hash: `${phone.device}-${seq}`, sig: { alg: 'none' } });
    return body.id;
  }

  /** What a phone holds: its own chain and what it has heard of the other's. */
  #known(phone: Phone, ...kinds: string[]): Entry[] {
    const other = this.#phones.find((one) => one !== phone)!;
    return [...phone.chain, ...other.chain.slice(0, phone.heard)].filter(({ body }) => kinds.includes(body.kind));
  }

  /** An entry of one of these kinds, each kind as likely as another. */
  #one(phone: Phone, kinds: readonly string[]): Entry | undefined {
    return this.#pick(this.#pick(kinds.map((kind) => this.#known(phone, kind)).filter((known) => known.length > 0)) ?? []);
  }

  #setUp(): void {
    const [phone] = this.#phones;
    const system: System = this.#pick(SYSTEMS)!;
    this.#say(phone, say.job(this.#pick(['core', 'core', 'core', 'warranty', 'full'])));
    const rooms = this.#draw() < 0.25 ? ['up', 'down'] : [undefined];
    for (const room of rooms) {
      if (room !== undefined) this.#say(phone, { kind: 'room', data: { room, name: room } });
      for (const place of this.#some(ROOM, 0.5)) {
        const of = this.#draw() < 0.1 ? 'own:ours' : system;
        this.#surfaces.push({ surface: `${place}-${room ?? 'r'}`, name: place, place, system: of, ...(room !== undefined && { room }) });
      }
    }
    for (const one of this.#surfaces) this.#say(phone, { kind: 'surface', data: one });
    if (this.#draw() < 0.8) this.#say(phone, { kind: 'own-system', data: OWN_SYSTEM });
    this.#say(phone, say.limit('band-lap', '2', null, 'in'));
    this.#say(phone, say.limit('wet-film', '20', null, 'mil'));
    if (this.#draw() < 0.4) this.#say(phone, say.limit('coats', '2', null, 'count'));
    if (this.#draw() < 0.2)
      this.#say(phone, {
        kind: 'own-rule',
        data: { rule: 'sill', step: 'band-seams', want: 'shot', places: ['niche', 'wall'], name: 'Sill', reason: 'it leaked once' },
      });
    this.#phones[1].heard = phone.chain.length;
  }

  /** A crew that does what it owes, layer by layer, up to some layer, now and then forgetting an item. */
  #work(): void {
    const depth = this.#draw() * PROOF_RULES.length;
    const miss = this.#draw() < 0.5 ? 0 : 0.06;
    PROOF_RULES.slice(0, depth).forEach((rule) => {
      for (const one of this.#surfaces.filter((surface) => owes(rule, surface))) {
        const phone = this.#pick(this.#phones)!;
        if (this.#draw() >= miss) for (const coat of [1, 2]) this.#answer(phone, rule, one, coat);
      }
    });
  }

  #answer(phone: Phone, rule: ProofRule, { surface }: Surface, coat: number): void {
    const { want, step, eachCoat, fullTimes = 1 } = rule;
    if (coat > 1 && eachCoat !== true) return;
    const run = eachCoat === true ? this.#begin(phone, step, [surface], { coat }) : null;
    if ('shot' in want) this.#say(phone, say.shot(run, { surfaces: [surface], shows: [rule.id] }));
    else if ('reading' in want) {
      for (let n = 0; n < fullTimes; n++)
        this.#say(phone, say.reading(run, want.reading, surface, '30', want.reading === 'wet-film' ? 'mil' : 'in'));
    } else if (want.entry === 'flood-end') this.#say(phone, say.floodEnd(this.#fill(phone, [surface]), 'passed'));
    else this.#state(phone, want.entry, [surface], true);
  }

  #begin(phone: Phone, step: Step, on: string[], more: { coat?: number }): string {
    return this.#say(phone, say.run(step, on, { ...more, id: `${phone.device}-${phone.chain.length}` }));
  }

  #fill(phone: Phone, under: string[]): string {
    return this.#say(phone, say.fill(`${phone.device}-${phone.chain.length}`, under));
  }

  #turn(): void {
    const phone = this.#pick(this.#phones)!;
    const turns: [weight: number, act: () => void][] = [
      [3, () => this.#start(phone)],
      [2, () => this.#stop(phone)],
      [5, () => this.#shoot(phone)],
      [3, () => this.#tag(phone)],
      [3, () => this.#read(phone)],
      [2, () => this.#leaveOut(phone)],
      [1, () => this.#state(phone, this.#pick(['survey', 'tile-check', 'protect', 'conditions', 'moisture-map'])!, this.#on())],
      [1, () => void this.#fill(phone, this.#on())],
      [1, () => this.#endTest(phone)],
      [1, () => this.#ownUp(phone)],
      [1, () => this.#mend(phone)],
      [6, () => this.#amend(phone)],
      [2, () => this.#decide(phone)],
      [3, () => this.#withdraw(phone)],
      [4, () => void (phone.heard = this.#phones.find((one) => one !== phone)!.chain.length)],
    ];
    let at = this.#draw() * turns.reduce((sum, [weight]) => sum + weight, 0);
    turns.find(([weight]) => (at -= weight) < 0)?.[1]();
  }

  #on(): string[] {
    return this.#draw() < 0.3 ? [] : this.#some(this.#surfaces, 0.5).map(({ surface }) => surface);
  }

  #start(phone: Phone): void {
    const one = this.#pick(this.#surfaces);
    const step = one && this.#pick(stepsOn(one, { ownSystems: [OWN_SYSTEM] }));
    if (step === undefined) return;
    const coat = step === 'liquid-coat' && this.#draw() < 0.7 ? { coat: 1 + Math.floor(this.#draw() * 2) } : {};
    this.#begin(phone, step, this.#on(), coat);
  }

  #stop(phone: Phone): void {
    const run = this.#pick(this.#known(phone, 'run-start'));
    if (run !== undefined) this.#say(phone, { kind: 'run-stop', run: run.body.id, data: { end: this.#pick(['touched', 'about'])! } });
  }

  #shows(): string[] {
    return this.#draw() < 0.5 ? [] : this.#some(PROOF_RULES, 0.04).map(({ id }) => id);
  }

  #shoot(phone: Phone): void {
    const run = this.#draw() < 0.75 ? this.#pick(this.#known(phone, 'run-start')) : undefined;
    const where = this.#draw() < 0.5 ? { surfaces: this.#on() } : {};
    const more = { ...(this.#draw() < 0.1 && { from: 'watch' }), ...(this.#draw() < 0.05 && { material: 'm-1' }) };
    this.#say(phone, say.shot(run?.body.id ?? null, { ...where, ...more, shows: this.#shows() }));
  }

  #tag(phone: Phone): void {
    const shots = this.#some(this.#known(phone, 'shot'), 0.3).map(({ body }) => body.id);
    if (shots.length === 0) return;
    const run = this.#draw() < 0.5 ? (this.#pick(this.#known(phone, 'run-start'))?.body.id ?? null) : null;
    const step = run === null ? (this.#pick(PROOF_RULES)?.step ?? null) : null;
    const refs = this.#draw() < 0.9 ? shots : [];
    this.#say(phone, { kind: 'tag', refs, data: { shots, run, step, surfaces: this.#on(), shows: this.#shows() } });
  }

  #read(phone: Phone): void {
    const run = this.#draw() < 0.7 ? this.#pick(this.#known(phone, 'run-start')) : undefined;
    const what = this.#pick(PROOF_RULES.flatMap(({ want }) => ('reading' in want ? [want.reading] : [])))!;
    const value = this.#draw() < 0.2 ? '1' : '30';
    const on = this.#pick([null, ...this.#surfaces.map(({ surface }) => surface)])!;
    this.#say(
      phone,
      say.reading(
        run?.body.id ?? null,
        what,
        on,
        value,
        what === 'wet-film' ? 'mil' : 'in',
        this.#draw() < 0.1 ? { water: 'control' } : {},
      ),
    );
  }

  #leaveOut(phone: Phone): void {
    const rule = this.#pick(PROOF_RULES)!;
    const [one] = this.#some(this.#surfaces, 0.6);
    const key = `${rule.id}:${rule.core === 'surface' ? (one?.surface ?? 'gone') : (one?.room ?? 'no-room')}`;
    const items = this.#draw() < 0.5 ? [rule.eachCoat === true ? `${key}:1` : key] : [];
    this.#say(phone, say.notDone(rule.step, this.#on(), { items, covered: this.#draw() < 0.3 }));
  }

  #state(phone: Phone, kind: string, surfaces: string[], good = this.#draw() < 0.85): void {
    const data: Readonly<Record<string, object>> = {
      survey: { surfaces, result: good ? 'accepted' : 'refused', drop: 'stays', found: '', told: '' },
      'tile-check': { surfaces, whole: good, dry: true, undamaged: true, words: '' },
      protect: { surfaces, how: 'boards' },
    };
    this.#say(phone, { kind, data: data[kind] ?? {} });
  }

  #endTest(phone: Phone): void {
    const fill = this.#pick(this.#known(phone, 'flood-fill'));
    if (fill !== undefined) this.#say(phone, say.floodEnd(fill.body.id, this.#pick(['passed', 'passed', 'failed', 'void'] as const)!));
  }

  #ownUp(phone: Phone): void {
    const against = this.#pick(this.#known(phone, 'reading'))?.body.id ?? null;
    this.#say(phone, {
      kind: 'deviation',
      refs: against === null ? [] : [against],
      data: { surfaces: [], what: 'short', why: '', against, accepted: '' },
    });
  }

  #mend(phone: Phone): void {
    const of = this.#some(this.#known(phone, 'reading'), 0.5).map(({ body }) => body.id);
    this.#say(phone, { kind: 'repair', refs: of, data: { surfaces: [], what: 'patched', of } });
  }

  #amend(phone: Phone): void {
    const kinds = [
      'run-start',
      'shot',
      'tag',
      'reading',
      'not-done',
      'survey',
      'tile-check',
      'flood-fill',
      'flood-end',
      'deviation',
      'repair',
      'surface',
      'limit',
    ];
    const target = this.#one(phone, kinds);
    if (target === undefined) return;
    this.#sayAnew(phone, target);
    // The other person saw the same slip, and has not heard that it was amended.
    if (this.#draw() < 0.5)
      this.#sayAnew(
        this.#phones.find((one) => one !== phone)!,
        target,
      );
  }

  #sayAnew(phone: Phone, { body: { id, kind, data } }: Entry): void {
    const known = this.#known(phone, kind);
    const like = this.#pick(known)?.body.data ?? {};
    const fields = this.#draw() < 0.95 ? { ...data, ...Object.fromEntries(this.#some(Object.entries(like), 0.5)) } : { kind };
    // A surface or a limit said anew keeps its id: another would be another.
    const kept = {
      ...fields,
      ...(kind === 'surface' && { surface: data['surface'] }),
      ...(kind === 'limit' && { limit: data['limit'], what: data['what'], unit: data['unit'] }),
    };
    const before = this.#known(phone, 'amendment').filter(({ body }) => body.data['of'] === id);
    const over = this.#draw() < 0.6 ? before.map(({ body }) => body.id) : [];
    const amendment = say.amend(id, kept, over);
    this.#say(phone, this.#draw() < 0.9 ? amendment : { ...amendment, refs: [] });
  }

  /** Somebody looks at what was said anew, and says which counts. */
  #decide(phone: Phone): void {
    const amended = this.#pick(this.#known(phone, 'amendment'));
    if (amended === undefined) return;
    const all = this.#known(phone, 'amendment').filter(({ body }) => body.data['of'] === amended.body.data['of']);
    this.#say(
      phone,
      say.amend(
        String(amended.body.data['of']),
        amended.body.data['data'] as object,
        all.map(({ body }) => body.id),
      ),
    );
  }

  #withdraw(phone: Phone): void {
    const kinds = [
      'run-start',
      'run-stop',
      'shot',
      'tag',
      'reading',
      'not-done',
      'survey',
      'tile-check',
      'flood-fill',
      'flood-end',
      'deviation',
      'repair',
      'amendment',
      'withdrawal',
      'limit',
    ];
    const target = this.#one(phone, this.#draw() < 0.1 ? ['surface', 'own-system', 'room', 'job'] : kinds);
    if (target === undefined) return;
    const one = say.withdraw(target.body.id);
    this.#say(phone, this.#draw() < 0.9 ? one : { ...one, refs: [] });
  }
}

function owes(rule: ProofRule, surface: Surface): boolean {
  const steps = stepsOn(surface, { ownSystems: [OWN_SYSTEM] });
  return rule.places.includes(surface.place) && (steps.includes(rule.step) || rule.step === 'survey' || rule.step === 'behind');
}
