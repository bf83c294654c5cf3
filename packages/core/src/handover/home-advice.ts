import type { LineType } from '@dwellward/profiles';

/** One sentence or two of advice in plain words, with where it comes from. The source is kept, not printed. */
export interface Advice {
  readonly text: string;
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
  { text: 'Your chest hurts.', source: 'patient sheet on central lines of a hospital (UTSW)' },
  { text: 'It is hard to breathe.', source: 'patient sheet on central lines of a hospital (UTSW)' },
  {
    text: 'The line falls out. Press hard on the spot with a clean pad, and keep on.',
    source: 'patient sheet on central lines of a hospital (UTSW): the line falls out, press',
  },
];

/** Clamp, cover, call. */
export const broken: readonly Advice[] = [
  {
    text: 'The line breaks or leaks. Clamp it at once, between the break and your body. Put clean gauze on the break. Then call.',
    source:
      'home sheet on central lines of a hospital (KU Med): clamp between damage and body, cover, call now',
  },
];

/** Call the unit, day or night. */
export const signs: readonly Advice[] = [
  {
    text: 'You have a fever of 38 °C (100.4 °F) or more.',
    source: `${homeSheets}: 100.5 °F, one of them also 38.0 °C; the lower is taken`,
  },
  { text: 'You shake or feel cold after a flush.', source: homeSheets },
  { text: 'The skin at the line is red, or fluid comes out.', source: homeSheets },
  { text: 'You get a rash.', source: homeSheets },
  { text: 'Your arm or your neck swells.', source: homeSheets },
  {
    text: 'The part outside is longer or shorter than before, or you can see the cuff.',
    source: 'patient sheets on central lines of two hospitals (UTSW, KU Med)',
  },
  { text: 'The line is hard to flush. Stop, and do not force it.', source: homeSheets },
  { text: 'The dressing is wet.', source: homeSheets },
];

export const always: readonly Advice[] = [
  { text: 'Wash your hands before you touch the line.', source: handling },
  { text: 'Scrub the end of the line for 15 seconds each time. Let it dry.', source: handling },
  { text: 'Keep the line and the dressing dry.', source: handling },
  { text: 'Tape the line to your skin in a loop, so that it cannot pull.', source: handling },
];

export const never: readonly Advice[] = [
  { text: 'Never force a flush.', source: homeSheets },
  { text: 'Never put the line under water. No swims and no full baths.', source: handling },
  {
    text: 'Never let a cuff for blood pressure go on the arm with the line.',
    source: handling,
    types: inTheArm,
  },
  { text: 'Never use scissors near the line.', source: 'teaching module of a university (Queen’s)' },
  {
    text: 'Never push the line back in.',
    source: 'INS 2016 and 2021, Infusion Therapy Standards of Practice; from memory',
  },
];

export const bring: readonly Advice[] = [
  { text: 'This sheet.', source: common },
  { text: 'The card of your line, if you have one.', source: common },
  { text: 'A list of the drugs you take.', source: common },
  { text: 'The clamp you were given. Keep it near you at all times.', source: common },
  {
    text: 'One question: do I still need the line?',
    source:
      'CDC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections: remove promptly what is no longer essential (category IA)',
  },
];
