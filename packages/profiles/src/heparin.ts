import type { TableSource } from './source.js';

/** Heparin itself, whose units add up: not the ones of low molecular weight, whose doses are others. */
export const plainHeparin = {
  atc: ['B01AB01', 'B01AB51'],
  rxnorm: ['5224'],
  snomed: ['372877000'],
  /** How its name begins, in lower case. */
  words: ['heparin'],
  /** Words that say that it is another one. */
  otherWords: ['low molecular', 'low-molecular', 'niedermolekular', 'LMWH', 'NMH'],
  sources: [
    { text: 'ATC index: B01AB01 heparin, B01AB51 heparin in combinations', mark: 'seen' },
    { text: 'SNOMED CT substance and RxNorm ingredient, as in the table of substances', mark: 'seen' },
  ],
} as const satisfies Readonly<Record<string, readonly string[] | readonly TableSource[]>>;
