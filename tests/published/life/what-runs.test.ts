import {
  bloodDraw,
  dueCare,
  handover,
  readRecords,
  renderDraw,
  renderHandover,
  renderTable,
} from '@dwellward/core';
import { drugCodes, drugRow } from '@dwellward/profiles';
import { defaultPolicy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { at, event, finding, lineOf, policyOf, recordOf, zone, type Resources } from './line.js';
import { said, spoken } from '../../said.js';

// What keeps up the circulation, by ATC (WHO Collaborating Centre, seen), RxNorm and SNOMED CT (national lists, seen), is
// never told to be just stopped: call, and move it to another line first (common practice, no source).

const policy = defaultPolicy();
const when = { asOf: at('12:00:00'), zone };
const moveFirst = 'call the responsible clinician now and move it to another line first';

const systems = {
  atc: 'http://www.whocc.no/atc',
  rxnorm: 'http://www.nlm.nih.gov/research/umls/rxnorm',
  snomed: 'http://snomed.info/sct',
};
/** Runs through red since this morning. */
const runs = (medication: object, more: object = {}) => ({
  resourceType: 'MedicationAdministration',
  id: 'drip',
  status: 'in-progress',
  subject: { reference: 'Patient/maple' },
  effectivePeriod: { start: at('07:00:00') },
  device: [{ reference: 'Device/red' }],
  ...medication,
  ...more,
});
const coded = (system: keyof typeof systems, code: string, text?: string) => ({
  medicationCodeableConcept: {
    coding: [{ system: systems[system], code }],
    ...(text === undefined ? {} : { text }),
  },
});
const norepinephrine = runs(coded('atc', 'C01CA03'));
const saline = runs(coded('atc', 'B05BB01', 'sodium chloride 0.9 %'));
const electrolytes = runs({ medicationCodeableConcept: { text: 'electrolytes' } });

const careOf = (...resources: Resources) => dueCare(recordOf([...lineOf(), ...resources]), policy, when);
const warningsOf = (...resources: Resources) => said(careOf(...resources).warnings);
const stepsOf = (activity: string, ...resources: Resources) =>
  said(
    careOf(...resources)
      .items.filter((item) => item.activity === activity)
      .flatMap(({ work }) => work.filter(({ kind }) => kind === 'step').map(({ text }) => text)),
  );
const noReturn = finding('return', 'blood-return', at('11:00:00'), 'none', 'red');

describe('something that runs against a hold', () => {
  it('C1: a vasopressor through a lumen without blood return is never told to be just stopped', () => {
    expect(warningsOf(norepinephrine, noReturn)).toEqual([
      `WARNING, red: an infusion runs against a hold. Norepinephrine through red keeps up the circulation and must never just be stopped: ${moveFirst}.`,
    ]);
  });
  it('C1: what is not coded is found out first', () => {
    const [warning] = warningsOf(electrolytes, noReturn);
    expect(warning).toContain('Find out what runs: “electrolytes” through red.');
    expect(warning).toContain(`never just stop it: ${moveFirst}`);
    expect(warning).toContain('Anything else: stop it and clamp, or say why.');
  });
  it('C1: a text alone never lets anything be stopped, and says what it may mean', () => {
    const [warning] = warningsOf(
      runs({ medicationCodeableConcept: { text: 'Noradrenalin 5 mg/50 mL' } }),
      noReturn,
    );
    expect(warning).toContain('“Noradrenalin 5 mg/50 mL” through red (which may be norepinephrine)');
    expect(warning).toContain(moveFirst);
  });
  it('C1: what is coded as a drug that may stop is stopped', () => {
    expect(warningsOf(saline, noReturn)).toEqual([
      'WARNING, red: an infusion runs against a hold. “sodium chloride 0.9 %” through red: stop it and clamp, or say why.',
    ]);
  });
  it.each([
    ['RxNorm', coded('rxnorm', '7512')],
    ['SNOMED CT', coded('snomed', '45555007')],
    ['a group of ATC that the table has no row for', coded('atc', 'C01CA09')],
  ])('C1: %s names a drug that keeps up the circulation', (_, medication) => {
    expect(warningsOf(runs(medication), noReturn)[0]).toContain('must never just be stopped');
  });
  it('C1: midodrine is of the group and no infusion that keeps up the circulation', () => {
    expect(warningsOf(runs(coded('atc', 'C01CA17')), noReturn)[0]).not.toContain('must never');
  });
  it('C1: a Medication, contained or of its own, and its ingredients are read', () => {
    const code = { coding: [{ system: systems.atc, code: 'C01CA24' }] };
    const contained = runs(
      { medicationReference: { reference: '#bag' } },
      { contained: [{ resourceType: 'Medication', id: 'bag', ingredient: [{ itemCodeableConcept: code }] }] },
    );
    const other = { resourceType: 'Medication', id: 'bag', code };
    const referenced = runs({ medicationReference: { reference: 'Medication/bag' } });
    for (const resources of [[contained], [referenced, other]])
      expect(warningsOf(...resources, noReturn)[0]).toContain(
        'Epinephrine through red keeps up the circulation',
      );
  });
  it('C1: the table and the hand-over say it on top of the line', () => {
    const resources = [...lineOf(), norepinephrine, noReturn];
    const records = readRecords(resources.map((resource) => ({ resource })));
    const cares = records.lines.map((line) => dueCare(line, policy, when));
    const table = renderTable(records, cares, when, { colour: false, columns: 0 });
    const shift = { from: when.asOf, to: at('20:00:00'), zone };
    const text = renderHandover(handover(records, cares, policy, shift), { colour: false, columns: 2000 });
    for (const page of [table, text]) {
      expect(page).toContain(moveFirst);
      expect(page).not.toMatch(/Norepinephrine[^.]*stop it and clamp/);
    }
  });
});

describe('the first steps', () => {
  it.each([
    ['migration', 'migration-response'],
    ['arm-neck-swelling', 'swelling-response'],
    ['extravasation', 'extravasation-response'],
    ['damage', 'breakage-response'],
  ])('C1: of %s move a vasopressor to another line first', (code, activity) => {
    const found = finding('found', code, at('11:00:00'), code === 'damage' ? 'leak' : undefined, 'line');
    const steps = stepsOf(activity, norepinephrine, found).join('\n');
    expect(steps).toContain(
      `Norepinephrine through red keeps up the circulation and must never just be stopped: ${moveFirst}`,
    );
    expect(steps).not.toMatch(/Stop (what runs|the infusion|every infusion)/);
    expect(stepsOf(activity, saline, found).join('\n')).toContain(
      '“sodium chloride 0.9 %” through red: stop it now and clamp.',
    );
  });
});

describe('a blood draw', () => {
  it('C1: says the same of what runs, and to draw from a vein', () => {
    const line = recordOf([...lineOf(), norepinephrine]);
    const draw = bloodDraw(
      line,
      { tests: [{ test: 'chemistry' }], lumen: 'Device/white' },
      policyOf('blood-sampling'),
      when,
    );
    expect(said(draw.steps).join('\n')).toContain(
      `must never just be stopped: ${moveFirst}, or draw from a vein.`,
    );
    expect(renderDraw(draw, line.name, zone)).not.toContain('stop it for the draw');
  });
});

describe('the table of drugs', () => {
  it('C1: names of every row where it comes from, how sure', () => {
    expect(drugCodes.filter((code) => drugRow(code).sources.length === 0)).toEqual([]);
  });
});

describe('anything that was done against a hold in force', () => {
  it('C2: a flush, a lock and a draw on a lumen that must not be used are told with the hold', () => {
    const done = ['flush', 'lock', 'blood-sampling'].map((activity) =>
      event(activity, activity, at('11:30:00'), 'red'),
    );
    const told = spoken(careOf(noReturn, ...done).issues.filter(({ code }) => code === 'against-a-hold'));
    expect(told.map(({ resource }) => resource).sort()).toEqual([
      'Procedure/blood-sampling',
      'Procedure/flush',
      'Procedure/lock',
    ]);
    expect(told.find(({ resource }) => resource === 'Procedure/flush')).toMatchObject({
      severity: 'high',
      related: ['Observation/return'],
      sentence: expect.stringMatching(
        /^Flush on red was charted for .* against the hold “.*”.*tell the responsible clinician\.$/,
      ) as string,
    });
  });
  it('C2: what was charted for the moment that brought the hold about is not against it', () => {
    const flush = event('flush', 'flush', at('11:00:00'), 'red');
    expect(careOf(noReturn, flush).issues.filter(({ code }) => code === 'against-a-hold')).toEqual([]);
  });
  it('C2: after a leak what may stop is stopped now, without an “or”', () => {
    const leak = finding('leak', 'damage', at('11:00:00'), 'leak', 'red');
    expect(warningsOf(saline, leak)[0]).toContain(
      '“sodium chloride 0.9 %” through red: stop it now and clamp.',
    );
    expect(warningsOf(norepinephrine, leak)[0]).toContain(moveFirst);
  });
});

describe('a drug that harms tissue, through a midline', () => {
  const midline = (...resources: Resources) =>
    dueCare(recordOf([...lineOf({ type: 'midline' }), ...resources]), policy, when);
  it('C15: is warned of on top, with its source', () => {
    const care = midline(runs(coded('atc', 'L01CA02')));
    expect(said(care.warnings)[0]).toMatch(
      /^WARNING: vincristine through red harms the tissue that it leaks into, and the tip of this line lies in a small vein\..*World J Clin Oncol 2016/,
    );
    expect(care.issues.map(({ code }) => code)).toContain('drug-not-for-line');
  });
  it('C15: is not, of a line whose tip lies in a large vein, nor of another drug', () => {
    expect(warningsOf(runs(coded('atc', 'L01CA02')))).toEqual([]);
    expect(said(midline(saline).warnings)).toEqual([]);
  });
});

describe('a tip that was never confirmed', () => {
  it('C15: is warned of while something runs', () => {
    const fresh = lineOf().flatMap((one) =>
      one['id'] === 'confirmed'
        ? []
        : one['id'] === 'inserted'
          ? [event('inserted', 'insertion', '2026-11-24T10:00:00+01:00')]
          : [one],
    );
    // Nobody has chosen to hold infusions until then: the warning stands by itself.
    const { policy: withoutBan } = {
      policy: {
        ...policy,
        rules: policy.rules.filter(({ id }) => id !== 'infusion-start-before-tip-confirmation'),
      },
    };
    const care = dueCare(recordOf([...fresh, saline]), withoutBan, when);
    expect(said(care.warnings)[0]).toMatch(
      /^WARNING: “sodium chloride 0\.9 %” through red runs, and where the tip lies was never confirmed/,
    );
    expect(care.issues.map(({ code }) => code)).toContain('tip-not-confirmed');
  });
});

describe('a patient who has died', () => {
  const died = (more: object) =>
    lineOf().map((one) => (one['resourceType'] === 'Patient' ? { ...one, ...more } : one));
  it.each([
    ['at a time', { deceasedDateTime: at('10:00:00') }],
    ['at a time that is not said', { deceasedBoolean: true }],
  ])('C15: %s: no care is asked for, and it is said', (_, more) => {
    const resources = died(more);
    const care = dueCare(recordOf(resources), policy, when);
    expect(care).toMatchObject({ inPlace: false, closed: 'patient-deceased', items: [] });
    const records = readRecords(resources.map((resource) => ({ resource })));
    expect(renderTable(records, [care], when, { colour: false, columns: 0 })).toContain(
      'the patient has died: no care of the line is asked for',
    );
  });
  it('C15: one who dies later is cared for', () => {
    expect(dueCare(recordOf(died({ deceasedDateTime: at('13:00:00') })), policy, when).items).not.toEqual([]);
  });
});
