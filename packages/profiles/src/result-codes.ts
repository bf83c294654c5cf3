import { standard } from './base.js';

// LOINC. Names and numbers as in the published code lists; those marked (m) are from memory.
export const resultCodes = {
  neutrophils: ['751-8', '753-4', '26499-4'],
  leucocytes: ['6690-2', '26464-8', '804-5' /* m */],
  /** Usually include the bands: bands are never added to these. */
  neutrophilsPercent: ['770-8', '26511-6'],
  segmentedPercent: ['769-0' /* m */],
  bandsPercent: ['764-1', '26508-2'],
  segmented: ['768-2', '30451-9'],
  bands: ['26507-4', '763-3' /* m */],
  platelets: ['777-3', '26515-7'],
  weight: ['29463-7', '3141-9'],
  inr: ['6301-6' /* m */, '34714-6' /* m */],
} as const satisfies Readonly<Record<string, readonly string[]>>;

/** Body temperature, LOINC: 8310-5 seen; oral, axillary, rectal and tympanic from memory. */
export const temperatureCodes: ReadonlySet<string> = new Set([
  '8310-5',
  '8331-1',
  '8328-7',
  '8332-9',
  '8333-7',
]);

/** HL7 v2 table 0487, specimen type. */
export const specimenTypeSystem = 'http://terminology.hl7.org/CodeSystem/v2-0487';

/**
 * Specimens of blood, from memory. SNOMED CT: blood, venous blood, serum and plasma specimen; HL7 table 0487: whole,
 * capillary, venous and arterial blood, cord blood, serum, plasma.
 */
export const bloodTypes: Readonly<Record<string, readonly string[]>> = {
  [standard.snomed]: ['119297000', '122555007', '119364003', '119361006'],
  [specimenTypeSystem]: ['BLD', 'BLDC', 'BLDV', 'BLDA', 'BLDCO', 'SER', 'PLAS'],
};
