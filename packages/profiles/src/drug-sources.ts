import type { TableSource } from './source.js';

// Codes: ATC index of the WHO Collaborating Centre for Drug Statistics Methodology (seen, edition of 2026). SNOMED CT
// substances: eHealth Suisse, active pharmaceutical ingredients, 2023-10-27 (seen). RxNorm ingredients: CSIRO
// Australian e-Health Research Centre, mapping of intensive-care drugs to RxNorm (seen).
export const codes: TableSource = {
  text: 'Codes: ATC index of the WHO Collaborating Centre; SNOMED CT, eHealth Suisse 2023; RxNorm, mapping of the Australian e-Health Research Centre',
  mark: 'seen',
};
export const keepsUp: readonly TableSource[] = [
  codes,
  {
    text: 'ATC groups C01CA (adrenergic and dopaminergic agents), C01CE and C01CX (other cardiac stimulants), H01BA (vasopressin and analogues)',
    mark: 'seen',
  },
];
export const suddenStop: readonly TableSource[] = [
  codes,
  { text: 'That stopping it suddenly harms: to be set by local policy', mark: 'from-memory' },
];
export const esmoEons: TableSource = {
  text: 'ESMO–EONS 2012, doi 10.1093/annonc/mds294, table 1',
  mark: 'seen',
};
export const wjco: TableSource = { text: 'World J Clin Oncol 2016;7:87, table 1', mark: 'seen' };
export const ofItsClass: TableSource = { text: 'ESMO–EONS 2012, by its class', mark: 'from-memory' };
export const insList: TableSource = {
  text: 'INS Vesicant Task Force 2017, J Infus Nurs 40:26: that there is a list of high-risk vesicants was seen, its members are',
  mark: 'from-memory',
};
export const insIntermediate: TableSource = {
  text: 'INS Vesicant Task Force 2017: intermediate risk',
  mark: 'from-memory',
};
