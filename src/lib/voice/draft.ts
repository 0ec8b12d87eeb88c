import type { Command, SpokenMeasure, SpokenStep, SpokenUnit } from './vocabulary.ts';

/** What a phrase means, before anybody has confirmed it. A number is a decimal string in the unit that was said. */
export type SpokenDraft =
  | {
      readonly is: 'reading';
      /** From 1; null where none was said. */
      readonly coat: number | null;
      /** Id of the place named; null where none was. */
      readonly place: string | null;
      readonly what: SpokenMeasure | null;
      readonly value: string;
      /** The dry edge of a comb reading. */
      readonly to: string | null;
      readonly unit: SpokenUnit;
    }
  | { readonly is: 'step'; readonly act: 'begin' | 'end'; readonly step: SpokenStep }
  | { readonly is: 'command'; readonly command: Command };

export type SpokenReading = SpokenDraft & { readonly is: 'reading' };

/** Why words are no draft. `no-unit` and `other-unit` hold a number; `two-ways` could mean two different things. */
export type NotUnderstood = 'nothing' | 'no-unit' | 'other-unit' | 'two-ways' | 'other-words';

/** What can be said now: the places by the names people gave them, and the units the open field takes. */
export interface Listening {
  readonly places: readonly { readonly id: string; readonly name: string }[];
  readonly units: readonly SpokenUnit[];
}
