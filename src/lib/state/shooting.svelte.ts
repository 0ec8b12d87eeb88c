import { digestHex } from '#lib/device/capture/digest.ts';
import { readExif } from '#lib/device/capture/exif.ts';
import { randomId } from '#lib/device/random-id.ts';
import type { SaveFault } from '#lib/record/book.ts';
import type { Draft } from '#lib/record/kinds.ts';
import type { Shot } from '#lib/record/kinds/work.ts';
import { isPicture, isTooLargeToShow, sniff, type Media } from '#lib/record/media.ts';
import type { OpenJob } from './job.svelte.ts';

/** What can be said of one picture. `saved` may carry a remark: kept all the same, but something about it is worth knowing. */
export type ShotNews =
  | {
      code: 'saved';
      shot: string;
      utc: string;
      offsetMin: number;
      remark: 'truncated-image' | 'too-many-pixels' | 'heic-not-shown' | 'clock-moved' | null;
    }
  | { code: 'refused'; why: 'not-an-image' | 'empty-file' }
  | { code: 'not-saved'; fault: SaveFault };

/** Where a picture belongs and what it shows, as far as it is known when it is taken. */
export interface ShotPlace {
  readonly run: string | null;
  readonly surfaces: readonly string[];
  readonly shows: readonly string[];
  readonly distance: Shot['distance'] | null;
  readonly pair: string | null;
  readonly material: string | null;
}

/** A picture of which nobody has said anything: it goes into the tray. */
export const NOWHERE: ShotPlace = { run: null, surfaces: [], shows: [], distance: null, pair: null, material: null };

/** The entry kept together with a picture, once the picture's own id is known: a reading that it shows. */
export type Besides = (shot: string) => Draft;

interface Held {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly from: Shot['from'];
  readonly place: ShotPlace;
  readonly besides: Besides | null;
}

/** From bytes in hand to "saved". Bytes that the store refused stay in memory until they are kept or handed out as a file. */
export class Shooting {
  readonly #job: OpenJob;
  #waiting = $state(0);
  #news: ShotNews | null = $state.raw(null);
  #held: readonly Held[] = $state.raw([]);

  constructor(job: OpenJob) {
    this.#job = job;
  }

  /** Pictures between shutter and "saved". */
  get waiting() {
    return this.#waiting;
  }
  get news() {
    return this.#news;
  }
  /** Pictures the store refused, still in this page's memory. */
  get held() {
    return this.#held;
  }

  async keep(bytes: Uint8Array<ArrayBuffer>, from: Shot['from'], place: ShotPlace, besides: Besides | null = null): Promise<ShotNews> {
    this.#waiting += 1;
    try {
      const news = await this.#bind({ bytes, from, place, besides });
      this.#news = news;
      return news;
    } finally {
      this.#waiting -= 1;
    }
  }

  /** Tries again with everything still held. */
  async retry(): Promise<void> {
    const held = this.#held;
    this.#held = [];
    for (const one of held) await this.keep(one.bytes, one.from, one.place, one.besides);
  }

  /** The held pictures as files, so that they can leave the page by another way. */
  heldFiles(): File[] {
    return this.#held.map((one, i) => new File([one.bytes], `not-saved-${i + 1}.jpg`, { type: sniff(one.bytes)?.type ?? '' }));
  }

  async #bind(held: Held): Promise<ShotNews> {
    const { bytes, from, place, besides } = held;
    if (bytes.length === 0) return { code: 'refused', why: 'empty-file' };
    const media = sniff(bytes);
    if (media === null || !isPicture(media)) return { code: 'refused', why: 'not-an-image' };
    // A Blob of our own from bytes in memory: the picker's file may be gone, or change, before the store has read it. Made
    // first, since the browser carries its bytes to the store's process while they are hashed.
    const body = new Blob([bytes], { type: media.type });
    const sha256 = await digestHex(bytes);
    const cameraSays = from === 'file' ? await readExif(bytes) : null;
    const id = randomId();
    const draft: Draft = {
      id,
      kind: 'shot',
      ...(place.run === null ? {} : { run: place.run }),
      ...(place.pair === null ? {} : { refs: [place.pair] }),
      data: {
        picture: { sha256, bytes: bytes.length, type: media.type },
        from,
        ...placed(place),
        ...(cameraSays === null ? {} : { cameraSays }),
      },
    };
    const done = await this.#job.add([draft, ...(besides === null ? [] : [besides(id)])], [{ sha256, body }]);
    if (!done.ok) {
      this.#held = [...this.#held, held];
      return { code: 'not-saved', fault: done.fault };
    }
    const { utc, offsetMin } = done.value.at(-1)!.body.times;
    const clockMoved = done.value.some((entry) => entry.body.kind === 'clock-jump');
    return { code: 'saved', shot: id, utc, offsetMin, remark: remark(media) ?? (clockMoved ? 'clock-moved' : null) };
  }
}

/** The first surface stands alone too, where the first version looks for it. What nobody said is left out. */
function placed({ surfaces, shows, distance, pair, material }: ShotPlace): Pick<Shot, 'surface'> & Partial<Shot> {
  return {
    surface: surfaces[0] ?? null,
    ...(surfaces.length < 2 ? {} : { surfaces: [...surfaces] }),
    ...(shows.length === 0 ? {} : { shows: [...shows] }),
    ...(distance == null ? {} : { distance }),
    ...(pair === null ? {} : { pair }),
    ...(material === null ? {} : { material }),
  };
}

function remark(media: Media) {
  if (!media.whole) return 'truncated-image';
  if (isTooLargeToShow(media)) return 'too-many-pixels';
  // Whether HEIC can be shown is the browser's affair; the picture tries, and this says why it may stay blank.
  return media.type === 'image/heic' ? 'heic-not-shown' : null;
}
