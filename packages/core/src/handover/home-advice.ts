import type { LineType } from '@dwellward/profiles';
import type { AdviceCode } from '../model/sentences/home.js';

/** Advice in plain words, with where it comes from. The source is kept, not printed. */
export interface Advice {
  readonly advice: AdviceCode;
  /** Published source; `common practice, no source` or `from memory` where that is so. */
  readonly source: string;
  /** Only for lines of these types; for every line where absent. */
  readonly types?: readonly LineType[];
}

const homeSheets = 'home sheets on central lines of two hospitals (KU Med, Maine Med)';
const handling = 'patient sheets on central lines of two hospitals (umcvc.org, Maine Med)';
const inTheArm: readonly LineType[] = ['picc', 'midline'];
const common = 'common practice, no source';

/** Call for an ambulance. */
export const emergencies: readonly Advice[] = [
  { advice: 'chest-hurts', source: 'patient sheet on central lines of a hospital (UTSW)' },
  { advice: 'hard-to-breathe', source: 'patient sheet on central lines of a hospital (UTSW)' },
  {
    advice: 'line-falls-out',
    source: 'patient sheet on central lines of a hospital (UTSW): the line falls out, press',
  },
];

/** Clamp, cover, call. */
export const broken: readonly Advice[] = [
  {
    advice: 'line-breaks',
    source:
      'home sheet on central lines of a hospital (KU Med): clamp between damage and body, cover, call now',
  },
];

/** Call the unit, day or night. */
export const signs: readonly Advice[] = [
  {
    advice: 'fever',
    source: `${homeSheets}: 100.5 °F, one of them also 38.0 °C; the lower is taken`,
  },
  { advice: 'cold-after-flush', source: homeSheets },
  { advice: 'red-or-fluid', source: homeSheets },
  { advice: 'rash', source: homeSheets },
  { advice: 'arm-or-neck-swells', source: homeSheets },
  {
    advice: 'longer-or-shorter',
    source: 'patient sheets on central lines of two hospitals (UTSW, KU Med)',
  },
  { advice: 'hard-to-flush', source: homeSheets },
  { advice: 'dressing-wet', source: homeSheets },
];

export const always: readonly Advice[] = [
  { advice: 'wash-hands', source: handling },
  { advice: 'scrub-the-end', source: handling },
  { advice: 'keep-dry', source: handling },
  { advice: 'tape-in-a-loop', source: handling },
];

export const never: readonly Advice[] = [
  { advice: 'no-forced-flush', source: homeSheets },
  { advice: 'not-under-water', source: handling },
  { advice: 'no-cuff-on-the-arm', source: handling, types: inTheArm },
  { advice: 'no-scissors', source: 'teaching module of a university (Queen’s)' },
  {
    advice: 'never-push-in',
    source: 'INS 2016 and 2021, Infusion Therapy Standards of Practice; from memory',
  },
];

export const bring: readonly Advice[] = [
  { advice: 'this-sheet', source: common },
  { advice: 'card-of-the-line', source: common },
  { advice: 'list-of-drugs', source: common },
  { advice: 'the-clamp', source: common },
  {
    advice: 'still-needed',
    source:
      'CDC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections: remove promptly what is no longer essential (category IA)',
  },
];
