import { judgeSaid } from '#lib/job/judged.ts';
import type { Reading } from '#lib/record/kinds/reading.ts';
import type { Ears, HeardTwice, Listening } from '#lib/state/ears.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import type { Recording } from '#lib/state/recording.svelte.ts';
import type { SoundNews, Sounds } from '#lib/state/sounds.svelte.ts';
import { otherReading, isSameValue } from '#lib/voice/doubt.ts';
import type { NotUnderstood, SpokenDraft, SpokenReading } from '#lib/voice/draft.ts';
import type { Question } from '#lib/voice/hearing.ts';
import { parse } from '#lib/voice/parse.ts';
import type { ReadAddress } from './address.ts';
import type { PadState } from './on-pad.svelte.ts';
import { isTenfold, lastOf } from './slips.ts';
import { commandsFor, questionOf, spokenSaid, unitsOf, type NoValue } from './spoken-value.ts';

/** What of this phone a value is spoken into. */
export interface SpokenPhone {
  readonly ears: Pick<Ears, 'begin' | 'hears'>;
  readonly recording: Pick<Recording, 'phase' | 'fault' | 'start' | 'stop'>;
  readonly sounds: Pick<Sounds, 'news'>;
  readonly lang: () => Question['language'];
}

/** A value that was heard and not yet confirmed. */
export interface Pending {
  readonly said: Reading['said'];
  /** The likeliest other reading. */
  readonly other: Reading['said'] | null;
  readonly coat: number | undefined;
  readonly surface: string | null;
  readonly heard: HeardTwice['heard'];
  readonly clip: SoundNews;
  /** Why one touch does not do, for the value and for the other reading. */
  readonly asks: Asks;
  readonly otherAsks: Asks;
}
type Asks = 'limit' | 'tenfold' | 'disagree' | null;

type NoMicrophone = `microphone-${NonNullable<Recording['fault']>}`;
export type Unheard = NotUnderstood | NoValue | 'engine' | 'no-language' | 'not-kept' | NoMicrophone;

/** A phrase that came to nothing. */
export interface Missed {
  readonly why: Unheard;
  readonly words: string;
}

/** What stands in the place of the pad while a value is spoken. */
export type Spoke =
  /** `kept`: with the value before it in the log. */
  | { readonly is: 'idle'; readonly kept: boolean }
  | { readonly is: 'recording' }
  | { readonly is: 'hearing' }
  /** With what was said of it since and not understood: it is not lost over that. */
  | { readonly is: 'pending'; readonly pending: Pending; readonly missed: Missed | null }
  | { readonly is: 'unheard'; readonly missed: Missed }
  | { readonly is: 'way-on'; readonly draft: SpokenDraft }
  | { readonly is: 'undone'; readonly said: Reading['said'] | null };

/** A value spoken on the pad of one measure: from the key held down to its entry in the log. */
export class SpokenState {
  readonly #job: OpenJob;
  readonly #address: ReadAddress;
  readonly #pad: PadState;
  readonly #places: Question['places'];
  readonly #phone: SpokenPhone;
  #now: Spoke = $state.raw({ is: 'idle', kept: false });
  /** The question has been put once, and the same value touched again. */
  #asked = $state(false);
  #listening: Listening | null = null;
  #question: Question | null = null;
  /** Spoken readings kept from this page, the last one last: what `undo` takes back. */
  #kept: readonly { id: string; said: Reading['said'] }[] = [];

  constructor(
    job: OpenJob,
    address: ReadAddress,
    pad: PadState,
    surfaces: readonly { surface: string; name: string }[],
    phone: SpokenPhone,
  ) {
    this.#job = job;
    this.#address = address;
    this.#pad = pad;
    this.#phone = phone;
    this.#places = surfaces.map(({ surface, name }) => ({ id: surface, name }));
  }

  get now() {
    return this.#now;
  }
  get asked() {
    return this.#asked;
  }
  /** Whether this measure can be spoken at all; a moisture only once the meter's scale is chosen. */
  get canSpeak() {
    return this.#ask() !== null && (this.#address.what !== 'moisture' || this.#pad.pad.scale !== undefined);
  }
  /** The question a phrase is heard for, as the page shows its units. */
  get question() {
    return this.#ask();
  }

  #ask(): Question | null {
    const { run } = this.#address;
    return questionOf(this.#address.what, this.#job.state.units, this.#places, {
      language: this.#phone.lang(),
      coats: this.#pad.pad.coat !== undefined,
      commands: commandsFor(this.#now.is === 'pending'),
      steps: run === null ? [] : [{ is: 'step', act: 'end', step: run.step }],
    });
  }

  /** To be called from a touch. */
  async press(): Promise<void> {
    const question = this.#ask();
    const { ears, recording } = this.#phone;
    if (question === null || recording.phase !== 'idle') return;
    this.#question = question;
    this.#before = this.#now.is === 'pending' ? this.#now.pending : null;
    this.#listening = ears.begin(question);
    this.#now = { is: 'recording' };
    const { run } = this.#address;
    const { surface } = this.#pad.pad;
    await recording.start(this.#job, { run: run?.id ?? null, surfaces: surface === null ? [] : [surface] });
    if (!this.#stoppedEarly()) return;
    await this.#giveUp();
    if (recording.fault !== null) this.#unheard(`microphone-${recording.fault}`, '');
  }

  /** Asked anew: while it was waited for, phase and state have changed. */
  #stoppedEarly(): boolean {
    return this.#phone.recording.phase === 'idle' && this.#now.is === 'recording';
  }
  /** What stood to be confirmed when the key was pressed: `that is right` means it. */
  #before: Pending | null = null;

  async release(): Promise<void> {
    const listening = this.#listening;
    if (listening === null || this.#now.is !== 'recording') return;
    const { recording, sounds } = this.#phone;
    const opened = recording.phase !== 'opening';
    await recording.stop();
    if (!opened) return this.#giveUp();
    this.#now = { is: 'hearing' };
    this.#listening = null;
    // The clip is an entry before anything is made of it.
    const clip = sounds.news;
    const sound = clip === null ? null : await this.#job.blob(clip.sha256);
    const heard = await listening.end(sound).catch(() => null);
    if (clip === null || sound === null) {
      this.#unheard('not-kept', '');
      return;
    }
    if (heard === null) {
      this.#unheard((await this.#phone.ears.hears(this.#question!.language)) ? 'engine' : 'no-language', '');
      return;
    }
    await this.#understand(heard, clip);
  }

  async #giveUp(): Promise<void> {
    this.#now = this.#before === null ? { is: 'idle', kept: false } : { is: 'pending', pending: this.#before, missed: null };
    await this.#listening?.end(null);
    this.#listening = null;
  }

  #unheard(why: Unheard, words: string): void {
    const missed = { why, words };
    this.#now = this.#before === null ? { is: 'unheard', missed } : { is: 'pending', pending: this.#before, missed };
  }

  async #understand(twice: HeardTwice, clip: SoundNews): Promise<void> {
    const question = this.#question!;
    const { words } = twice.heard;
    const read = parse(words, { places: question.places, units: unitsOf(question) }, question.language);
    if (!read.ok) {
      this.#unheard(read.fault, words);
      return;
    }
    const draft = read.value;
    if (draft.is === 'reading') {
      this.#weigh(draft, twice, clip);
      return;
    }
    if (draft.is === 'command' && this.#before !== null) {
      this.#now = { is: 'pending', pending: this.#before, missed: null };
      // The last one is then the one that stands there, and nothing of the log.
      if (draft.command === 'wrong' || draft.command === 'undo') this.drop();
      // What asks to be looked at is not waved through by voice.
      if (draft.command === 'right' && this.#before.asks === null) await this.confirm('voice');
      return;
    }
    if (draft.is === 'command' && draft.command === 'undo') return this.undo();
    this.#now = { is: 'way-on', draft };
  }

  #weigh(draft: SpokenReading, { heard, second }: HeardTwice, clip: SoundNews): void {
    const question = this.#question!;
    const { what } = this.#address;
    const { units, limits, readings } = this.#job.state;
    const said = spokenSaid(what, units, draft, heard.words);
    if (!said.ok) {
      this.#unheard(said.fault, heard.words);
      return;
    }
    const secondRead = second
      .map((words) => parse(words, { places: question.places, units: unitsOf(question) }, question.language))
      .flatMap((one) => (one.ok && one.value.is === 'reading' ? [one.value] : []));
    // Another recogniser is another opinion only where it heard a value at all.
    const disagrees = secondRead.length > 0 && !secondRead.some((one) => isSameValue(one, draft));
    const other = disagrees ? secondRead[0]! : otherReading(draft, heard.alternatives, question);
    const otherSaid = other === null ? null : spokenSaid(what, units, other, heard.words);
    const { scale } = this.#pad.pad;
    const last = lastOf(readings, what, scale);
    const asksOf = (one: Reading['said']): Asks => {
      if (last !== null && isTenfold(one, last.said)) return 'tenfold';
      return judgeSaid(what, one, limits, scale ?? null).verdict === 'outside' ? 'limit' : null;
    };
    const pending: Pending = {
      said: said.value,
      other: otherSaid?.ok === true ? otherSaid.value : null,
      otherAsks: otherSaid?.ok === true ? asksOf(otherSaid.value) : null,
      coat: this.#pad.pad.coat === undefined ? undefined : (draft.coat ?? this.#pad.pad.coat),
      surface: draft.place ?? this.#pad.pad.surface,
      heard,
      clip,
      asks: disagrees ? 'disagree' : asksOf(said.value),
    };
    this.#asked = false;
    this.#now = { is: 'pending', pending, missed: null };
  }

  /** Keeps the value, or the other reading. One that asks is kept at the second touch. */
  async confirm(how: 'touch' | 'other' | 'voice'): Promise<void> {
    if (this.#now.is !== 'pending') return;
    const { pending } = this.#now;
    if (how === 'touch' && pending.asks !== null && !this.#asked) {
      this.#asked = true;
      return;
    }
    const said = how === 'other' ? pending.other : pending.said;
    if (said === null) return;
    if (how === 'other' && pending.otherAsks !== null) {
      // It takes the place of the first, with its question.
      const turned = { ...pending, said, other: pending.said, asks: pending.otherAsks, otherAsks: pending.asks };
      this.#now = { is: 'pending', pending: turned, missed: null };
      this.#asked = true;
      return;
    }
    const shown = how === 'other' ? pending.said : pending.other;
    const id = await this.#pad.keepSpoken(
      said,
      { coat: pending.coat, surface: pending.surface },
      {
        heard: pending.heard.words.slice(0, 200),
        ...(shown === null ? {} : { otherHeard: `${shown.value} ${shown.unit}` }),
        engine: `${pending.heard.engine} ${pending.heard.version}`.slice(0, 200),
        confirmedHow: how,
        clip: pending.clip.id,
        clipHash: pending.clip.sha256,
      },
    );
    if (id === null) return;
    this.#kept = [...this.#kept, { id, said }];
    this.#now = { is: 'idle', kept: true };
  }

  /** The value that stands to be confirmed was read on another surface. */
  moveTo(surface: string | null): void {
    if (this.#now.is === 'pending') this.#now = { ...this.#now, pending: { ...this.#now.pending, surface } };
  }

  /** Neither reading is right, or what is shown has been read. The clip stays. */
  drop(): void {
    this.#now = { is: 'idle', kept: false };
  }

  /** Takes the last spoken reading of this page back; it stays in the log, withdrawn. */
  async undo(): Promise<void> {
    const last = this.#kept.at(-1);
    if (last !== undefined && !(await this.#pad.takeBack(last.id))) return;
    this.#kept = this.#kept.slice(0, -1);
    this.#now = { is: 'undone', said: last?.said ?? null };
  }
}
