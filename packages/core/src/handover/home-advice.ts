import type { LineType } from '@dwellward/profiles';
import type { HomeKind } from './home-kinds.js';
import type { AdviceCode } from '../model/sentences/home.js';

/** Advice in plain words, with where it comes from. The source is kept, not printed. */
export interface Advice {
  readonly advice: AdviceCode;
  /** Published source; `common practice, no source` or `from memory` where that is so. */
  readonly source: string;
  /** Only for lines of these types; for every line where absent. */
  readonly types?: readonly LineType[];
  /** Only where one of the patient’s lines is of these kinds; for all where absent. */
  readonly kinds?: readonly HomeKind[];
}

const outside: readonly HomeKind[] = ['tube', 'staff-tube', 'dialysis', 'port-with-needle'];
const tubes: readonly HomeKind[] = ['tube', 'staff-tube', 'dialysis'];
const ports: readonly HomeKind[] = ['port', 'port-with-needle'];

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
    kinds: tubes,
  },
];

/** Clamp, cover, call. */
export const broken: readonly Advice[] = [
  {
    advice: 'line-breaks',
    source:
      'home sheet on central lines of a hospital (KU Med): clamp between damage and body, cover, call now',
    kinds: outside,
  },
  {
    advice: 'cap-off',
    source:
      'air can get in through a line that is open: close the clamp, lie down, call (common practice, no source)',
  },
];

/** Call the unit, day or night. */
export const signs: readonly Advice[] = [
  {
    advice: 'fever',
    source: `${homeSheets}: 100.5 °F, one of them also 38.0 °C; the lower is taken`,
  },
  { advice: 'cold-after-flush', source: homeSheets },
  { advice: 'red-or-fluid', source: homeSheets, kinds: outside },
  { advice: 'port-red', source: homeSheets, kinds: ports },
  { advice: 'needle-out', source: common, kinds: ['port-with-needle'] },
  { advice: 'rash', source: homeSheets },
  { advice: 'arm-or-neck-swells', source: homeSheets },
  {
    advice: 'longer-or-shorter',
    source: 'patient sheets on central lines of two hospitals (UTSW, KU Med)',
    kinds: tubes,
  },
  { advice: 'hard-to-flush', source: homeSheets, kinds: ['tube'] },
  { advice: 'dressing-wet', source: homeSheets, kinds: outside },
];

export const always: readonly Advice[] = [
  { advice: 'wash-hands', source: handling },
  { advice: 'scrub-the-end', source: handling, kinds: ['tube'] },
  { advice: 'keep-dry', source: handling, kinds: outside },
  { advice: 'tape-in-a-loop', source: handling, kinds: tubes },
  { advice: 'port-needle-is-for-staff', source: common, kinds: ports },
];

export const never: readonly Advice[] = [
  { advice: 'no-forced-flush', source: homeSheets, kinds: ['tube'] },
  {
    advice: 'dialysis-unit-only',
    source: 'a dialysis catheter leaflet: only staff who are trained for it open one',
    kinds: ['dialysis'],
  },
  { advice: 'not-under-water', source: handling, kinds: outside },
  { advice: 'no-cuff-on-the-arm', source: handling, types: inTheArm },
  { advice: 'no-scissors', source: 'teaching module of a university (Queen’s)', kinds: outside },
  {
    advice: 'never-push-in',
    source: 'INS 2016 and 2021, Infusion Therapy Standards of Practice; from memory',
    kinds: tubes,
  },
];

export const bring: readonly Advice[] = [
  { advice: 'this-sheet', source: common },
  { advice: 'card-of-the-line', source: common },
  { advice: 'list-of-drugs', source: common },
  { advice: 'the-clamp', source: common, kinds: tubes },
  {
    advice: 'still-needed',
    source:
      'CDC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections: remove promptly what is no longer essential (category IA)',
  },
];
