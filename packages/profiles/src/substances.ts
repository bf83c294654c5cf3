import type { Concept } from './codes.js';
import { standard } from './base.js';
import type { SubstanceRow } from './substance-row.js';
import type { TableSource } from './source.js';

const codes: TableSource = {
  text: 'Codes: SNOMED CT, eHealth Suisse, allergy value set and active pharmaceutical ingredients, 2023-10-27; ATC index of the WHO Collaborating Centre',
  mark: 'seen',
};
const ingredient: TableSource = {
  text: 'RxNorm: mapping of the Australian e-Health Research Centre',
  mark: 'seen',
};
const itsRxNorm: TableSource = { text: 'Its RxNorm code', mark: 'from-memory' };
const nationalLists: TableSource = {
  text: 'Codes: national lists of allergies and alerts of Sweden and New Zealand',
  mark: 'seen',
};

/** Drugs, antiseptics and materials of a line’s care that a patient may not stand: the one list of them. */
export const substances = {
  heparin: {
    display: 'heparin',
    definition: 'Heparin of any kind, also of low molecular weight.',
    snomed: ['372877000', '412201008', '372637006', '294872001', '294876003'],
    // For heparin-induced thrombocytopenia every heparin counts.
    atc: ['B01AB01', 'B01AB51', 'B01AB04', 'B01AB05', 'B01AB06', 'B01AB07', 'B01AB08', 'B01AB10', 'B01AB12'],
    rxnorm: ['5224', '9877'],
    problems: {
      snomed: ['73397007', '111588002'],
      icd10cm: ['D75.82'],
      icd9cm: ['289.84'],
      hpo: ['HP:0011874'],
      words: ['heparin', 'HIT'],
    },
    words: ['heparin', 'enoxaparin', 'dalteparin', 'tinzaparin', 'nadroparin', 'certoparin', 'HIT'],
    sources: [
      codes,
      ingredient,
      {
        text: 'Heparin-induced thrombocytopenia: ICD-10-CM D75.82x in two public code sets; SNOMED CT in the covariate list of a UK national study',
        mark: 'seen',
      },
      { text: 'No heparin with it, locks among it (US heparin labels)', mark: 'from-memory' },
    ],
  },
  chlorhexidine: {
    display: 'chlorhexidine',
    definition: 'Chlorhexidine: skin antiseptic, wash, bath, dressing, cap.',
    snomed: ['373568007', '294431008'],
    atc: ['D08AC02', 'D08AC52', 'D09AA12', 'B05CA02', 'A01AB03', 'R02AA05', 'S01AX09', 'S02AA09'],
    rxnorm: ['2358'],
    words: ['chlorhexidin', 'CHG'],
    sources: [
      codes,
      itsRxNorm,
      { text: 'Anaphylaxis to it, also fatal: summary of product characteristics, emc 30158', mark: 'seen' },
    ],
  },
  'povidone-iodine': {
    display: 'povidone iodine',
    definition: 'Povidone iodine and other iodine for the skin.',
    snomed: ['386989006', '294913003'],
    atc: ['D08AG02', 'G01AX11', 'R02AA15'],
    rxnorm: ['8611'],
    words: ['povidon', 'iodine', 'iodophor', 'jod'],
    sources: [codes, itsRxNorm],
  },
  alcohol: {
    display: 'alcohol for the skin',
    definition: 'Isopropyl alcohol or ethanol on the skin or a connector.',
    snomed: ['259268001'],
    atc: ['D08AX05'],
    words: ['isopropyl', 'isopropanol'],
    sources: [codes],
  },
  octenidine: {
    display: 'octenidine',
    definition: 'Octenidine for the skin.',
    snomed: ['430477008'],
    atc: ['D08AJ57', 'R02AA21'],
    words: ['octenidin'],
    sources: [codes],
  },
  latex: {
    display: 'latex',
    definition: 'Natural rubber latex.',
    snomed: ['111088007', '1003751008', '1003752001', '1003755004'],
    words: ['latex'],
    sources: [nationalLists],
  },
  adhesive: {
    display: 'adhesive',
    definition: 'Adhesive of dressings, tapes and securement devices.',
    snomed: ['418920007', '830076001', '77560002'],
    atc: ['V07AA'],
    words: ['adhesive', 'plaster', 'sticking', 'pflaster'],
    sources: [codes, nationalLists],
  },
  taurolidine: {
    display: 'taurolidine',
    definition: 'Taurolidine in a lock.',
    snomed: ['281000220103'],
    atc: ['B05CA05'],
    words: ['taurolidin'],
    sources: [codes, nationalLists],
  },
  citrate: {
    display: 'citrate',
    definition: 'Citrate in a lock.',
    snomed: ['412546005'],
    atc: ['B05CB02'],
    words: ['citrate', 'citrat'],
    sources: [codes],
  },
  'benzyl-alcohol': {
    display: 'benzyl alcohol',
    definition: 'Benzyl alcohol, which preserves some heparin locks and some saline.',
    snomed: ['55902002'],
    words: ['benzyl alcohol', 'benzylalkohol'],
    sources: [codes, { text: 'Benzyl alcohol 9 mg/mL in preserved heparin locks: US label', mark: 'seen' }],
  },
  thrombolytic: {
    display: 'a thrombolytic',
    definition: 'Alteplase, urokinase or another drug that dissolves a clot.',
    snomed: ['387152000', '295110005', '59082006', '295109000'],
    atc: ['B01AD'],
    rxnorm: ['8410'],
    words: [
      'alteplas',
      'urokinas',
      'thrombolytic',
      'thrombolytik',
      'tenecteplas',
      'reteplas',
      'streptokinas',
    ],
    sources: [codes, ingredient],
  },
} as const satisfies Readonly<Record<string, SubstanceRow>>;

export type SubstanceCode = keyof typeof substances;

const rows: Readonly<Record<SubstanceCode, SubstanceRow>> = substances;

/** Every substance, in the order of the table. */
export const substanceCodes = Object.keys(substances) as readonly SubstanceCode[];

/** The substances as concepts of their code system. */
export const substanceConcepts: readonly Concept<SubstanceCode>[] = substanceCodes.map((code) => [
  code,
  rows[code].display,
  rows[code].definition,
]);

/**
 * What the table says of a substance.
 * @example
 * ```ts
 * substanceRow('chlorhexidine').display; // 'chlorhexidine'
 * ```
 */
export function substanceRow(substance: SubstanceCode): SubstanceRow {
  return rows[substance];
}

/** Codes that say that there is no such allergy: SNOMED CT, no known latex allergy (national list, seen). */
export const noSuchAllergy: readonly (readonly [system: string, code: string])[] = [
  [standard.snomed, '1003774007'],
];
