/** A value in use at the bedside for which no published source is known, with what guidelines say beside it. */
export interface PracticeValue {
  readonly value: string;
  readonly unit: string;
  readonly about: string;
  /** Current published guidance on the same point, with its source; or that none is known. */
  readonly guidance: string;
}

export const practiceSource = 'common practice, no source';

const value = (amount: string, unit: string, about: string, guidance: string): PracticeValue => ({
  value: amount,
  unit,
  about,
  guidance,
});

const kit = 'The device’s own repair kit instructions rule; published texts give no number (from memory).';

/** The numbers of a repair, in the units of `practiceValues`. */
export const repairPractice = {
  leastIntactCm: '4',
  neverBelowCm: '2.5',
  cleansingMinutes: '2',
  adhesiveMl: '1',
  wantedExternalCm: '15',
  mostExternalCm: '20',
  noInfusionHours: '2',
  splintHours: '48',
} as const;

export const practiceValues = () => ({
  'adult-tunneled-lock-volume': value(
    '3',
    'mL',
    'heparinised saline at 10 or 100 units/mL to lock an adult tunnelled lumen',
    'Older practice. Internal volume + 20 % (Goossens 2015, seen; INS, from memory); saline rather than heparin in long-term lines (ESPEN, not seen, to be checked).',
  ),
  'clamp-during-last': value(
    '0.5',
    'mL',
    'the clamp is closed while the last of the lock goes in',
    'Device-specific: clamp before or after disconnecting as the connector’s maker says (from memory).',
  ),
  'discard-before-sample': value(
    '6',
    'mL',
    'blood discarded before a sample',
    '2 × dead space or 3 to 6 mL (RNAO, seen), 5 to 10 mL (Royal Marsden Manual, seen).',
  ),
  'saline-after-sample': value(
    '3',
    'mL',
    'saline flush after a sample',
    'Older practice. 10 to 20 mL after a blood draw (INS, from memory).',
  ),
  'cap-needle-longest': value(
    '25.4',
    'mm',
    'longest needle through an injection cap, 1 inch',
    'Older practice: needle-free connectors are accessed without a needle.',
  ),
  'granulocytes-for-daily-dressing': value(
    '200',
    '/uL',
    'below it a dressing change every day, otherwise three times a week',
    'No national guideline with a neutrophil-triggered interval was found; gauze every 2 days, transparent every 7 days, at once when damp, loosened or soiled (CDC 2011).',
  ),
  'skin-scrub-before-insertion': value(
    '5',
    'min',
    'skin scrubbed before an insertion',
    'Older practice. Contact and drying time of the antiseptic’s label; about 30 s for alcoholic chlorhexidine, 2 min for povidone-iodine (INS 2021, from memory).',
  ),
  'repair-least-intact-length': value(
    repairPractice.leastIntactCm,
    'cm',
    'intact catheter outside the skin needed for a repair',
    kit,
  ),
  'repair-cleansing': value(
    repairPractice.cleansingMinutes,
    'min',
    'cleansing of the segment before a repair',
    kit,
  ),
  'repair-adhesive': value(repairPractice.adhesiveMl, 'mL', 'adhesive for a repair', kit),
  'repair-external-length-wanted': value(
    repairPractice.wantedExternalCm,
    'cm',
    'length outside the skin better not exceeded after a repair',
    kit,
  ),
  'repair-external-length-most': value(
    repairPractice.mostExternalCm,
    'cm',
    'longest length outside the skin after a repair',
    kit,
  ),
  'repair-no-infusion': value(repairPractice.noInfusionHours, 'h', 'no infusion after a repair', kit),
  'repair-splint': value(repairPractice.splintHours, 'h', 'splint stays on after a repair', kit),
});

export type PracticeValueName = keyof ReturnType<typeof practiceValues>;
