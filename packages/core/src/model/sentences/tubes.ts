import type { LumenStateCode } from '@dwellward/profiles';
import type { Name, Of } from './common.js';

/** What a sample is for; each has its tube. */
export type DrawTest =
  | 'culture'
  | 'coagulation'
  | 'chemistry'
  | 'drug-level'
  | 'plasma-chemistry'
  | 'blood-count'
  | 'crossmatch'
  | 'glucose';

/** The tubes, by what is in them. */
export type TubeCode = 'blood-culture' | 'citrate' | 'serum' | 'heparin' | 'edta' | 'fluoride';

export interface TubeSentences {
  readonly tube: { readonly tube: TubeCode };
}

/** What the steps of a draw say of the tubes and of the line's lumens: parts of a sentence. */
export interface DrawPartSentences {
  readonly 'tubes-drawn': {
    readonly tubes: readonly {
      readonly tube: Of<TubeSentences>;
      readonly tests: readonly DrawTest[];
      readonly volumeMl?: string;
    }[];
  };
  readonly 'lumens-to-irrigate': {
    readonly lumens: readonly Name[];
    /** The others keep a lock that must not be pushed into the patient. */
    readonly keepsLock: boolean;
    readonly leave: readonly { readonly name: Name; readonly state: LumenStateCode }[];
  };
}
