import type { LineType } from './codes.js';

/** What a code of SNOMED CT says of a Device. */
export interface DeviceCode {
  /** Absent where it says that it is a line, and not which. */
  readonly type?: LineType;
  /** How many lumens it has, where the code says so. */
  readonly lumens?: number;
}

/**
 * Devices by their codes in SNOMED CT. Those without a mark were seen in published implementation guides; BE is the value
 * set of catheter types of the Belgian guide for patient monitoring (2026-11), UK the access types of the UK renal registry.
 * R4 is its value set of devices, which the US Core profile of implantable devices takes (package hl7.fhir.r4.expansions).
 * A code that is not here is left to the hospital’s own mapping, and told of.
 *
 * A dialysis line is 445085009 or 449859004 in a registry, too: the code of the Device does not say “dialysis”, so that of
 * its insertion is asked (`insertionCodes`).
 */
export const deviceCodes: ReadonlyMap<string, DeviceCode> = new Map<string, DeviceCode>([
  // “Central venous catheter”: a line, of a type that is not said.
  ['52124006', {}],
  ['445085009', { type: 'tunneled-cvc' }],
  ['398176008', { type: 'picc' }],
  ['1344705000', { type: 'midline' }],
  ['398013009', { type: 'implanted-port' }],
  ['1396546006', { type: 'tunneled-cvc', lumens: 1 }], // BE
  ['1396570005', { type: 'tunneled-cvc', lumens: 2 }], // BE
  ['1396538005', { type: 'tunneled-cvc', lumens: 3 }], // BE
  ['1396531004', { type: 'midline', lumens: 1 }], // BE
  ['1396527005', { type: 'midline', lumens: 2 }], // BE
  ['1396526001', { type: 'picc', lumens: 1 }], // BE
  ['1396489007', { type: 'picc', lumens: 2 }], // BE
  ['449859004', { type: 'nontunneled-cvc' }], // UK
  ['79834000', { type: 'tunneled-cvc' }], // R4
  ['102318003', {}], // R4, “implantable venous catheter”: a port, or a line with a cuff
]);

/**
 * Devices that are plainly no central venous line, by their codes in SNOMED CT: the catheter for peritoneal dialysis of the
 * UK renal registry, tubes of the value set of devices of R4, and what the International Patient Summary says for “none”.
 */
export const otherDeviceCodes: ReadonlySet<string> = new Set([
  '360133002', // catheter for peritoneal dialysis, UK
  '31030004', // peritoneal catheter
  '82449006', // peripheral intravenous catheter
  '20568009', // urinary catheter
  '23973005', // indwelling urinary catheter
  '34759008', // urethral catheter
  '47528002', // ureteric catheter
  '30610008', // epidural catheter
  '35870000', // cerebrospinal catheter
  '9017009', // ventricular intracranial catheter
  '7733008', // hydrocephalic shunt catheter
  '9129003', // feeding catheter
  '52809000', // nasopharyngeal catheter
  '58253008', // suction catheter
  '56896002', // pacemaker catheter
  '2491002', // intra-aortic balloon catheter
  '787483001', // no known device use, IPS
]);

/**
 * Veins that lines enter, by their codes in SNOMED CT. R4 is its value set of body sites; RT a table that maps the structures
 * of radiotherapy; DE the examples of the German core data set.
 */
export const bodySites: ReadonlyMap<string, string> = new Map([
  ['9454009', 'subclavian vein'], // R4, RT
  ['8887007', 'brachiocephalic vein'], // R4, RT
  ['63190004', 'jugular vein'], // RT
  ['12123001', 'internal jugular vein'], // RT
  ['71585003', 'external jugular vein'], // RT
  ['83419000', 'femoral vein'], // DE
  ['19715009', 'basilic vein'], // DE
]);

/** Sides of the body, by their codes in SNOMED CT: qualifiers (RT), and R4’s value set of the laterality of body sites. */
export const sidesOfBody: ReadonlyMap<string, 'left' | 'right'> = new Map([
  ['7771000', 'left'],
  ['24028007', 'right'],
  ['419161000', 'left'],
  ['419465000', 'right'],
]);

/**
 * What the code of an insertion says of the line that was put in. MAP is the hand-made mapping of intensive-care charts to
 * SNOMED CT by an Australian research centre for health data (2026), REG a code list of end-stage kidney disease.
 */
export const insertionCodes: ReadonlyMap<string, LineType | 'dialysis' | undefined> = new Map<
  string,
  LineType | 'dialysis' | undefined
>([
  ['233527006', undefined], // central venous cannula insertion; MAP
  ['449860009', 'nontunneled-cvc'], // MAP, UK
  ['442309004', 'tunneled-cvc'], // MAP, UK
  ['425196008', 'picc'], // MAP
  ['80402001', 'implanted-port'], // MAP
  ['736922008', 'tunneled-dialysis-catheter'], // REG
  ['736919006', 'dialysis'], // insertion of haemodialysis catheter; MAP, REG
  ['61740001', 'dialysis'], // insertion of cannula for haemodialysis, vein to vein; MAP
]);
