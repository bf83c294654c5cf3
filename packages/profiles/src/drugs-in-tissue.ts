import type { DrugRow } from './drug-row.js';
import { codes, esmoEons, wjco, ofItsClass, insList, insIntermediate } from './drug-sources.js';
import type { TableSource } from './source.js';

/** Drugs that harm the tissue that they leak into, and what the rules on administration sets go by. */
export const drugsInTissue = {
  // --- Cytotoxic vesicants and irritants.
  doxorubicin: cytotoxic('doxorubicin', ['L01DB01'], ['372817009'], 'doxorubicin', esmoEons, wjco),
  daunorubicin: cytotoxic('daunorubicin', ['L01DB02'], ['372715008'], 'daunorubicin', esmoEons, wjco),
  epirubicin: cytotoxic('epirubicin', ['L01DB03'], ['417916005'], 'epirubicin', esmoEons, wjco),
  idarubicin: cytotoxic('idarubicin', ['L01DB06'], ['372539000'], 'idarubicin', esmoEons, wjco),
  dactinomycin: cytotoxic('dactinomycin', ['L01DA01'], ['387353003'], 'dactinomycin', esmoEons, wjco),
  mitoxantrone: cytotoxic('mitoxantrone', ['L01DB07'], ['386913001'], 'mitoxantron', ofItsClass),
  mitomycin: cytotoxic('mitomycin', ['L01DC03'], ['387331000'], 'mitomycin', ofItsClass, wjco),
  chlormethine: cytotoxic('chlormethine', ['L01AA05'], [], 'chlormethin', esmoEons),
  bendamustine: cytotoxic('bendamustine', ['L01AA09'], ['428012008'], 'bendamustin', esmoEons, {
    text: 'World J Clin Oncol 2016;7:87 calls it an irritant: the protective of the two is taken',
    mark: 'seen',
  }),
  vincristine: cytotoxic('vincristine', ['L01CA02'], ['387126006'], 'vincristin', wjco),
  vinblastine: cytotoxic('vinblastine', ['L01CA01'], ['387051009'], 'vinblastin', wjco),
  vindesine: cytotoxic('vindesine', ['L01CA03'], ['409198005'], 'vindesin', wjco),
  vinorelbine: cytotoxic('vinorelbine', ['L01CA04'], ['372541004'], 'vinorelbin', wjco),
  vinflunine: cytotoxic('vinflunine', ['L01CA05'], [], 'vinflunin', wjco),
  trabectedin: cytotoxic('trabectedin', ['L01CX01'], ['433127001'], 'trabectedin', ofItsClass),
  taxane: cytotoxic('a taxane', ['L01CD01', 'L01CD02', 'L01CD04'], ['387374002'], 'paclitaxel', wjco),
  'cytotoxic-irritant': {
    display: 'an irritant cytotoxic drug',
    // Cisplatin, oxaliplatin (exfoliant), bleomycin, carboplatin, etoposide, teniposide, topotecan; carmustine,
    // ifosfamide, streptozocin, dacarbazine, melphalan.
    atc: [
      'L01XA01',
      'L01XA03',
      'L01DC01',
      'L01XA02',
      'L01CB01',
      'L01CB02',
      'L01CE01',
      'L01AD01',
      'L01AA06',
      'L01AD04',
      'L01AX04',
      'L01AA03',
    ],
    snomed: ['395814003', '387318005', '387281007', '387297002'],
    inTissue: 'irritant',
    sources: [codes, wjco, esmoEons],
  },
  // --- Others that harm tissue.
  'calcium-chloride': {
    display: 'calcium chloride',
    atc: ['B05XA07', 'A12AA07'],
    snomed: ['387377009'],
    words: ['calcium chlorid', 'calciumchlorid'],
    inTissue: 'vesicant',
    sources: [codes, insList],
  },
  'calcium-gluconate': {
    display: 'calcium gluconate',
    atc: ['B05XA19', 'A12AA03'],
    rxnorm: ['1908'],
    snomed: ['387292008'],
    words: ['calcium gluconat', 'calciumgluconat'],
    inTissue: 'vesicant',
    sources: [codes, insList],
  },
  'contrast-medium': {
    display: 'a contrast medium',
    atc: ['V08A'],
    inTissue: 'vesicant',
    sources: [codes, insList],
  },
  phenytoin: {
    display: 'phenytoin',
    atc: ['N03AB02'],
    snomed: ['387220006'],
    words: ['phenytoin'],
    inTissue: 'vesicant',
    sources: [codes, insList],
  },
  promethazine: {
    display: 'promethazine',
    atc: ['R06AD02', 'D04AA10'],
    snomed: ['372871004'],
    words: ['promethazin'],
    inTissue: 'vesicant',
    sources: [codes, insList],
  },
  'sodium-bicarbonate': {
    display: 'sodium bicarbonate',
    atc: ['B05XA02'],
    rxnorm: ['36676'],
    snomed: ['387319002'],
    words: ['sodium bicarbonat', 'natriumbicarbonat', 'natriumhydrogencarbonat'],
    inTissue: 'vesicant',
    sources: [codes, insList],
  },
  aciclovir: {
    display: 'aciclovir',
    atc: ['J05AB01'],
    rxnorm: ['281'],
    snomed: ['372729009'],
    inTissue: 'irritant',
    sources: [codes, insIntermediate],
  },
  vancomycin: {
    display: 'vancomycin',
    atc: ['J01XA01'],
    rxnorm: ['11124'],
    snomed: ['372735009'],
    inTissue: 'irritant',
    sources: [codes, insIntermediate],
  },
  mannitol: {
    display: 'mannitol',
    atc: ['B05BC01'],
    snomed: ['387168006'],
    inTissue: 'irritant',
    sources: [codes, insIntermediate],
  },
  trometamol: {
    display: 'trometamol',
    atc: ['B05BB03', 'B05XX02'],
    inTissue: 'irritant',
    sources: [codes, insIntermediate],
  },
  'potassium-chloride': {
    display: 'potassium chloride',
    atc: ['B05XA01'],
    rxnorm: ['8591'],
    snomed: ['8631001'],
    inTissue: 'irritant',
    sources: [codes, insIntermediate],
  },
  // --- What the rules on administration sets go by. B05A: from memory, blood and related products.
  'blood-product': {
    display: 'a blood product',
    atc: ['B05A'],
    snomed: ['431069006', '346447007', '420599006'],
    infusate: 'blood',
    sources: [codes, { text: 'B05A, blood and related products, as a whole', mark: 'from-memory' }],
  },
  'fat-emulsion': {
    display: 'a fat emulsion',
    atc: ['B05BA02'],
    rxnorm: ['200317'],
    infusate: 'fat-emulsion',
    sources: [codes],
  },
  'nutrition-mixture': {
    display: 'parenteral nutrition in one bag (a vesicant above 900 mOsm/L)',
    // It may hold fat: the protective reading.
    atc: ['B05BA10'],
    snomed: ['789708003'],
    inTissue: 'vesicant',
    infusate: 'nutrition-with-fat',
    sources: [codes, insList],
  },
  'parenteral-nutrition': {
    display: 'parenteral nutrition',
    atc: ['B05BA01', 'B05BA04'],
    infusate: 'parenteral-nutrition',
    sources: [codes, { text: 'B05BA01 amino acids, B05BA04 protein hydrolysates', mark: 'from-memory' }],
  },
} as const satisfies Readonly<Record<string, DrugRow>>;

function cytotoxic(
  display: string,
  atc: readonly string[],
  snomed: readonly string[],
  word: string,
  ...sources: readonly TableSource[]
) {
  return {
    display,
    atc,
    snomed,
    words: [word],
    inTissue: 'vesicant',
    sources: [codes, ...sources],
  } as const satisfies DrugRow;
}
