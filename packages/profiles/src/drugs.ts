import type { LineType } from './codes.js';
import type { DrugRow } from './drug-row.js';
import type { TableSource } from './source.js';

// Codes: ATC index of the WHO Collaborating Centre for Drug Statistics Methodology (seen, edition of 2026). SNOMED CT
// substances: eHealth Suisse, active pharmaceutical ingredients, 2023-10-27 (seen). RxNorm ingredients: CSIRO
// Australian e-Health Research Centre, mapping of intensive-care drugs to RxNorm (seen).
const codes: TableSource = {
  text: 'Codes: ATC index of the WHO Collaborating Centre; SNOMED CT, eHealth Suisse 2023; RxNorm, mapping of the Australian e-Health Research Centre',
  mark: 'seen',
};
const keepsUp: readonly TableSource[] = [
  codes,
  {
    text: 'ATC groups C01CA (adrenergic and dopaminergic agents), C01CE and C01CX (other cardiac stimulants), H01BA (vasopressin and analogues)',
    mark: 'seen',
  },
];
const suddenStop: readonly TableSource[] = [
  codes,
  { text: 'That stopping it suddenly harms: to be set by local policy', mark: 'from-memory' },
];
const esmoEons: TableSource = {
  text: 'ESMO–EONS 2012, doi 10.1093/annonc/mds294, table 1',
  mark: 'seen',
};
const wjco: TableSource = { text: 'World J Clin Oncol 2016;7:87, table 1', mark: 'seen' };
const ofItsClass: TableSource = { text: 'ESMO–EONS 2012, by its class', mark: 'from-memory' };
const insList: TableSource = {
  text: 'INS Vesicant Task Force 2017, J Infus Nurs 40:26: that there is a list of high-risk vesicants was seen, its members are',
  mark: 'from-memory',
};
const insIntermediate: TableSource = {
  text: 'INS Vesicant Task Force 2017: intermediate risk',
  mark: 'from-memory',
};

/** Drugs of which a line’s care must know more than that they run: the one list of them. */
export const drugs = {
  // --- They keep up the circulation. The group first: a row with a longer code comes before it.
  'adrenergic-stimulant': {
    display: 'a drug that keeps up the circulation (ATC C01CA)',
    atc: ['C01CA'],
    words: ['vasopressor', 'pressor', 'inotrop', 'catecholamin', 'katecholamin', 'metaraminol', 'etilefrin'],
    ifStopped: 'circulation',
    sources: keepsUp,
  },
  norepinephrine: {
    display: 'norepinephrine',
    atc: ['C01CA03'],
    rxnorm: ['7512'],
    snomed: ['45555007'],
    words: ['norepinephrin', 'noradrenalin'],
    ifStopped: 'circulation',
    inTissue: 'vesicant',
    sources: [...keepsUp, insList],
  },
  epinephrine: {
    display: 'epinephrine',
    atc: ['C01CA24'],
    rxnorm: ['3992'],
    snomed: ['387362001'],
    words: ['epinephrin', 'adrenalin'],
    ifStopped: 'circulation',
    inTissue: 'vesicant',
    sources: [...keepsUp, insList],
  },
  dopamine: {
    display: 'dopamine',
    atc: ['C01CA04'],
    rxnorm: ['3628'],
    snomed: ['412383006'],
    words: ['dopamin'],
    ifStopped: 'circulation',
    inTissue: 'vesicant',
    sources: [...keepsUp, insList],
  },
  dobutamine: {
    display: 'dobutamine',
    atc: ['C01CA07'],
    rxnorm: ['3616'],
    snomed: ['387145002'],
    words: ['dobutamin'],
    ifStopped: 'circulation',
    inTissue: 'vesicant',
    sources: [...keepsUp, insList],
  },
  phenylephrine: {
    display: 'phenylephrine',
    atc: ['C01CA06'],
    rxnorm: ['8163'],
    snomed: ['372771005'],
    words: ['phenylephrin'],
    ifStopped: 'circulation',
    inTissue: 'vesicant',
    sources: [...keepsUp, insList],
  },
  ephedrine: {
    display: 'ephedrine',
    atc: ['C01CA26'],
    rxnorm: ['3966'],
    snomed: ['387358007'],
    words: ['ephedrin'],
    ifStopped: 'circulation',
    sources: keepsUp,
  },
  isoprenaline: {
    display: 'isoprenaline',
    atc: ['C01CA02'],
    rxnorm: ['6054'],
    snomed: ['372781009'],
    words: ['isoprenalin', 'isoproterenol'],
    ifStopped: 'circulation',
    sources: [...keepsUp, { text: 'Its RxNorm code', mark: 'from-memory' }],
  },
  'phosphodiesterase-inhibitor': {
    display: 'a drug that keeps up the circulation (ATC C01CE)',
    atc: ['C01CE'],
    words: ['amrinon', 'enoximon'],
    ifStopped: 'circulation',
    sources: keepsUp,
  },
  milrinone: {
    display: 'milrinone',
    atc: ['C01CE02'],
    rxnorm: ['52769'],
    snomed: ['373441005'],
    words: ['milrinon'],
    ifStopped: 'circulation',
    sources: keepsUp,
  },
  levosimendan: {
    display: 'levosimendan',
    atc: ['C01CX08'],
    snomed: ['442795003'],
    words: ['levosimendan'],
    ifStopped: 'circulation',
    sources: keepsUp,
  },
  angiotensin: {
    display: 'angiotensin',
    atc: ['C01CX06', 'C01CX09'],
    words: ['angiotensin'],
    ifStopped: 'circulation',
    sources: keepsUp,
  },
  vasopressin: {
    display: 'vasopressin',
    atc: ['H01BA01'],
    rxnorm: ['11149'],
    snomed: ['421078009', '77671006'],
    words: ['vasopressin', 'argipressin'],
    ifStopped: 'circulation',
    inTissue: 'vesicant',
    sources: [
      ...keepsUp,
      insList,
      { text: 'SNOMED CT 77671006, in a research list', mark: 'seen-secondary' },
    ],
  },
  terlipressin: {
    display: 'terlipressin',
    atc: ['H01BA04', 'H01BA05'],
    snomed: ['395899009'],
    words: ['terlipressin', 'ornipressin'],
    ifStopped: 'circulation',
    sources: keepsUp,
  },
  // --- Of the same groups, and none of them: given by mouth, or for a test.
  'not-a-pressor': {
    display: 'another cardiac stimulant, given by mouth or for a test',
    atc: ['C01CA15', 'C01CA16', 'C01CA17', 'C01CA22', 'C01CA25', 'C01CA27'],
    sources: [codes],
  },
  fenoldopam: {
    display: 'fenoldopam',
    atc: ['C01CA19'],
    words: ['fenoldopam'],
    ifStopped: 'harm',
    sources: suddenStop,
  },
  // --- Stopped suddenly they harm in another way.
  alprostadil: {
    display: 'alprostadil',
    atc: ['C01EA01'],
    snomed: ['48988008'],
    words: ['alprostadil', 'prostaglandin e'],
    ifStopped: 'harm',
    sources: suddenStop,
  },
  epoprostenol: {
    display: 'epoprostenol',
    atc: ['B01AC09'],
    snomed: ['372513003'],
    words: ['epoprostenol', 'prostacyclin'],
    ifStopped: 'harm',
    sources: suddenStop,
  },
  treprostinil: {
    display: 'treprostinil',
    atc: ['B01AC21'],
    snomed: ['443570007'],
    words: ['treprostinil'],
    ifStopped: 'harm',
    sources: suddenStop,
  },
  iloprost: {
    display: 'iloprost',
    atc: ['B01AC11'],
    snomed: ['395740002'],
    words: ['iloprost'],
    ifStopped: 'harm',
    sources: suddenStop,
  },
  insulin: {
    display: 'insulin',
    atc: ['A10AB01'],
    words: ['insulin'],
    ifStopped: 'harm',
    sources: suddenStop,
  },
  nitroprusside: {
    display: 'nitroprusside',
    atc: ['C02DD01'],
    rxnorm: ['7476'],
    snomed: ['387139005'],
    words: ['nitroprussid'],
    ifStopped: 'harm',
    sources: suddenStop,
  },
  esmolol: {
    display: 'esmolol',
    atc: ['C07AB09'],
    rxnorm: ['49737'],
    snomed: ['372847006'],
    words: ['esmolol'],
    ifStopped: 'harm',
    sources: suddenStop,
  },
  amiodarone: {
    display: 'amiodarone',
    atc: ['C01BD01'],
    rxnorm: ['703'],
    snomed: ['372821002'],
    words: ['amiodaron'],
    ifStopped: 'harm',
    inTissue: 'irritant',
    sources: [...suddenStop, insIntermediate],
  },
  propofol: {
    display: 'propofol',
    atc: ['N01AX10'],
    rxnorm: ['8782'],
    snomed: ['387423006'],
    words: ['propofol'],
    ifStopped: 'harm',
    infusate: 'propofol',
    sources: suddenStop,
  },
  dexmedetomidine: {
    display: 'dexmedetomidine',
    atc: ['N05CM18'],
    words: ['dexmedetomidin'],
    ifStopped: 'harm',
    sources: suddenStop,
  },
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
    infusate: 'fat-emulsion',
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

export type DrugCode = keyof typeof drugs;

const rows: Readonly<Record<DrugCode, DrugRow>> = drugs;

/** Every drug of the table. */
export const drugCodes = Object.keys(drugs) as readonly DrugCode[];

/** What the table says of a drug. */
export function drugRow(drug: DrugCode): DrugRow {
  return rows[drug];
}

/** Lines whose tip lies in a small vein: what harms tissue must not run through them (vascularaccess.com.au 2017, seen). */
export const tipInSmallVein: ReadonlySet<LineType> = new Set(['midline']);
