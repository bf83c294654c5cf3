import {
  bloodDraw,
  dueBundle,
  dueCare,
  handover,
  homeSheet,
  readRecords,
  renderDraw,
  renderExplanation,
  renderHandover,
  renderHomeText,
  renderRepair,
  renderTable,
  repairJudgement,
  type DueItem,
} from '@dwellward/core';
import { bundledPlan, readPolicy } from '@dwellward/policy';
import { activitiesWhere, substanceCodes, substanceRow } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { at, event, finding, lineOf, recordOf, tasksOf, zone, type Resources } from './line.js';
import { said } from '../../said.js';

// Codes of allergies and problems: national value sets (seen). Anaphylaxis to chlorhexidine, also fatal: summary of
// product characteristics, emc 30158 (seen). No heparin, locks among it, in heparin-induced thrombocytopenia: US heparin
// labels (from memory). What to use instead is the clinician’s to say.

const reading = readPolicy([
  bundledPlan('base'),
  bundledPlan('trouble'),
  bundledPlan('occlusion'),
  bundledPlan('repair-care'),
  bundledPlan('blood-sampling'),
]);
if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
const { policy } = reading;
const when = { asOf: at('12:00:00'), zone };
const snomed = (code: string) => ({ coding: [{ system: 'http://snomed.info/sct', code }] });
const patient = { reference: 'Patient/maple' };
const allergyTo = (code: object, more: object = {}) => ({
  resourceType: 'AllergyIntolerance',
  id: 'allergy',
  clinicalStatus: { coding: [{ code: 'active' }] },
  patient,
  recordedDate: '2024-03-01',
  code,
  ...more,
});
const chlorhexidine = allergyTo({ ...snomed('294431008'), text: 'Allergy to chlorhexidine' });
const hit = {
  resourceType: 'Condition',
  id: 'hit',
  clinicalStatus: { coding: [{ code: 'active' }] },
  subject: patient,
  onsetDateTime: '2025-06-01',
  code: { coding: [{ system: 'http://hl7.org/fhir/sid/icd-10-cm', code: 'D75.822' }] },
};
const blocked = finding('blocked', 'flush-resistance', at('11:00:00'), 'blocked', 'red');
const ran = {
  resourceType: 'MedicationAdministration',
  id: 'ran',
  status: 'completed',
  subject: patient,
  medicationCodeableConcept: { text: 'antibiotic' },
  effectivePeriod: { start: at('08:00:00'), end: at('09:00:00') },
  device: [{ reference: 'Device/white' }],
};

const resourcesWith = (...more: Resources) => [...lineOf({ weightKg: 60 }), ran, ...more];
const careWith = (...more: Resources) => dueCare(recordOf(resourcesWith(...more)), policy, when);
const itemsOf = (activity: string, ...more: Resources) =>
  careWith(...more).items.filter((item) => item.activity === activity);
const itemOf = (activity: string, ...more: Resources): DueItem => {
  const [item] = itemsOf(activity, ...more);
  if (!item) throw new Error(`No ${activity} is due.`);
  return item;
};
const kindsOf = (item: DueItem) => item.work.map(({ kind }) => kind);
const workTexts = (item: DueItem) => said(item.work.map(({ text }) => text));

describe('an allergy to chlorhexidine', () => {
  const question =
    'ASK FIRST: an allergy on record “Allergy to chlorhexidine” of 2024-03-01 (AllergyIntolerance/allergy) speaks against chlorhexidine, and this care uses it or may use it: ask the responsible clinician what to use instead. What belongs to it is left out here until that is answered.';
  it('C8: turns the dressing change into a question, which stays due without its antiseptic', () => {
    const item = itemOf('dressing-change', chlorhexidine);
    expect(said(item.questions)).toEqual([question]);
    expect(workTexts(item)).not.toContain('skin antiseptic as local policy names it');
    expect(workTexts(itemOf('dressing-change'))).toContain('skin antiseptic as local policy names it');
    expect(itemOf('dressing-change').questions).toEqual([]);
  });
  it('C8: is said by the table, the hand-over, the explanation, the Task and the sheet for home', () => {
    const records = readRecords(resourcesWith(chlorhexidine).map((resource) => ({ resource })));
    const cares = records.lines.map((line) => dueCare(line, policy, when));
    const shift = { from: when.asOf, to: '2026-11-27T12:00:00+01:00', zone };
    const [line] = records.lines;
    const [care] = cares;
    if (!line || !care) throw new Error('no line');
    const pages = [
      renderTable(records, cares, when, { colour: false, columns: 0 }),
      renderHandover(handover(records, cares, policy, shift), { colour: false, columns: 2000 }),
      renderExplanation({ care, line, policy, when }),
    ];
    for (const page of pages) {
      expect(page).toContain(question);
      // In full once: the items only name it.
      expect(page.split(question).length - 1).toBe(
        page === pages[2] ? page.split('ASK FIRST: an allergy').length - 1 : 1,
      );
      expect(page).toContain('Not read, and so behind nothing here: prescriptions');
    }
    const tasks = tasksOf(dueBundle(records, cares, policy, when));
    const task = tasks.find(({ code }) => code?.coding?.some((one) => one.code === 'dressing-change'));
    expect(task?.input?.[1]).toMatchObject({
      type: { coding: [{ code: 'question' }] },
      valueString: question,
    });
    expect(task?.note?.[0]?.text).toBe(question);
    const home = renderHomeText(homeSheet(records, cares, policy, when, 'Patient/maple')).replace(
      /\s+/g,
      ' ',
    );
    expect(home).toContain(
      'Ask your nurse before you do this: Change the dressing. Your record speaks against chlorhexidine.',
    );
  });
});

describe('heparin', () => {
  it('C8: an induced thrombocytopenia keeps the volume of a lock back, and the lock due', () => {
    const item = itemOf('lock', hit);
    expect(kindsOf(item)).not.toContain('lock-volume');
    expect(said(item.questions)[0]).toContain(
      'a problem on record of 2025-06-01 (Condition/hit) speaks against heparin',
    );
    expect(workTexts(item).join('\n')).not.toMatch(
      /lock it with [\d.]+ mL|Lock with [\d.]+ mL|lock solution/,
    );
    expect(workTexts(itemOf('lock')).join('\n')).toMatch(/[Ll]ock (it )?with [\d.]+ mL/);
    // Saline goes on.
    expect(kindsOf(itemOf('flush', hit))).toContain('flush-volume');
  });
  it('C8: a problem that is over still asks, and says that it is over', () => {
    const over = { ...hit, clinicalStatus: { coding: [{ code: 'resolved' }] } };
    expect(said(itemOf('lock', over).questions)[0]).toContain('charted as over');
  });
  it('C8: the draw asks too, and prints no lock volume', () => {
    const line = recordOf(resourcesWith(hit));
    const draw = bloodDraw(line, { tests: [{ test: 'chemistry' }], lumen: 'Device/white' }, policy, when);
    const page = renderDraw(draw, line.name, zone);
    expect(page).toContain('ASK FIRST: a problem on record');
    expect(page).not.toMatch(/Lock the lumen with [\d.]+ mL/);
  });
  it('C8: so does a repair', () => {
    const leak = { ...finding('leak', 'damage', at('11:00:00'), 'leak', 'red'), valueQuantity: undefined };
    const line = recordOf(resourcesWith(hit, leak));
    const judged = repairJudgement(line, { intactExternalLengthCm: '8', trimCm: '1' }, policy, when);
    expect(said(judged.questions)[0]).toContain('speaks against heparin');
    expect(said(judged.steps).join('\n')).not.toMatch(/lock with [\d.]+ mL/);
    const page = renderRepair(judged, line, when);
    expect(page).toContain('ASK FIRST');
  });
});

describe('a thrombolytic', () => {
  it('C8: of a patient who is allergic to it no dose is printed anywhere', () => {
    const alteplase = allergyTo(snomed('295110005'));
    const rule = policy.rules.find(
      ({ activity, work }) => activity === 'occlusion-treatment' && work.substances,
    );
    expect(rule?.work.substances).toEqual([
      { substance: 'chlorhexidine', computed: [], supplies: ['antiseptic pad for the connector'] },
      { substance: 'latex', computed: [], supplies: [] },
      { substance: 'thrombolytic', computed: ['thrombolytic-dose'], supplies: ['alteplase as ordered'] },
    ]);
    const answered = event('answered', 'blockage-response', at('11:10:00'), 'red');
    const items = itemsOf('occlusion-treatment', blocked, answered, alteplase);
    expect(items).not.toEqual([]);
    for (const item of items) {
      expect(said(item.questions).join()).toContain('speaks against a thrombolytic');
      expect(kindsOf(item)).not.toContain('thrombolytic-dose');
      expect(workTexts(item).join('\n')).not.toMatch(/\d mg|alteplase as ordered|2\.2 mL/);
    }
    expect(
      itemsOf('occlusion-treatment', blocked, answered).some((item) =>
        kindsOf(item).includes('thrombolytic-dose'),
      ),
    ).toBe(true);
  });
});

describe('what is read of allergies, problems and flags', () => {
  const questionsWith = (...more: Resources) => said(itemOf('dressing-change', ...more).questions);
  it('C8: a text asks, and says that it may mean it', () => {
    expect(questionsWith(allergyTo({ text: 'Reacted to Chlorhexidin wipes' }))[0]).toContain(
      '“Reacted to Chlorhexidin wipes” of 2024-03-01 (AllergyIntolerance/allergy) may speak against chlorhexidine',
    );
  });
  it('C8: a flag of the hospital asks too', () => {
    const flag = {
      resourceType: 'Flag',
      id: 'flag',
      status: 'active',
      subject: patient,
      code: snomed('373568007'),
    };
    expect(questionsWith(flag)[0]).toContain('a flag on record (Flag/flag) speaks against chlorhexidine');
  });
  it.each([
    ['refuted', allergyTo(snomed('294431008'), { verificationStatus: { coding: [{ code: 'refuted' }] } })],
    [
      'entered in error',
      allergyTo(snomed('294431008'), { verificationStatus: { coding: [{ code: 'entered-in-error' }] } }),
    ],
    ['resolved', allergyTo(snomed('294431008'), { clinicalStatus: { coding: [{ code: 'resolved' }] } })],
    ['another’s', allergyTo(snomed('294431008'), { patient: { reference: 'Patient/another' } })],
    ['noted later', allergyTo(snomed('294431008'), { recordedDate: '2026-11-26' })],
    ['that there is none', allergyTo({ ...snomed('1003774007'), text: 'No known latex allergy' })],
  ])('C8: %s: no question', (_, entry) => {
    expect(questionsWith(entry)).toEqual([]);
  });
  it.each([
    ['latex', snomed('111088007')],
    ['adhesive', snomed('418920007')],
    ['povidone iodine', snomed('386989006')],
    ['octenidine', { coding: [{ system: 'http://www.whocc.no/atc', code: 'D08AJ57' }] }],
  ])('C8: %s is asked about', (name, code) => {
    expect(questionsWith(allergyTo(code))[0]).toContain(`speaks against ${name}`);
  });
  it.each([
    ['taurolidine', snomed('281000220103')],
    ['citrate', snomed('412546005')],
    ['benzyl alcohol', snomed('55902002')],
  ])('C8: %s is asked about before a lock', (name, code) => {
    expect(said(itemOf('lock', allergyTo(code)).questions)[0]).toContain(`speaks against ${name}`);
  });
});

describe('work that names no substance', () => {
  it('C8: goes by what its activity may use', () => {
    const rules = policy.rules.map((rule) =>
      rule.activity === 'lock'
        ? { ...rule, work: { computed: rule.work.computed, supplies: [], cautions: [] } }
        : rule,
    );
    const care = dueCare(recordOf(resourcesWith(hit)), { ...policy, rules }, when);
    const item = care.items.find(({ activity }) => activity === 'lock');
    expect(said(item?.questions ?? [])[0]).toContain('speaks against heparin');
    expect(item?.work.map(({ kind }) => kind)).not.toContain('lock-volume');
    expect(activitiesWhere(({ mayUse }) => mayUse)).toContain('bath');
  });
  it('C8: every substance says where its codes come from', () => {
    expect(substanceCodes.filter((code) => substanceRow(code).sources.length === 0)).toEqual([]);
  });
});
