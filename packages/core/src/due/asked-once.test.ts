import { bundledPlan, readPolicy, type BundledPlanName } from '@dwellward/policy';
import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import type { AsOf } from '../model/care.js';
import { dueCare } from './due-care.js';
import { nextChange } from './next-change.js';
import {
  berlin,
  event,
  finding,
  line,
  lumen,
  neutrophils,
  patient,
  read,
  type Resource,
} from '../record.kit.js';

function layers(...names: BundledPlanName[]) {
  const reading = readPolicy(['base', ...names].map((name) => bundledPlan(name as BundledPlanName)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

const ward = layers('post-insertion', 'trouble', 'occlusion');
const inserted = event('insertion', '2026-11-24T11:00:00+01:00');

/** What is asked of an activity, line by line. */
function asked(resources: readonly Resource[], when: AsOf, activity: string, policy = ward): string[] {
  return read(...resources).lines.flatMap((one) =>
    dueCare(one, policy, when)
      .items.filter((item) => item.activity === activity)
      .map(({ state, dueBy, target, rule }) => `${state} ${dueBy.slice(0, 16)} ${target.scope} ${rule.id}`),
  );
}

const temperature = (cel: number, at: string): Resource => ({
  resourceType: 'Observation',
  id: `temperature-${at.replace(/[^0-9A-Za-z]/g, '')}`,
  status: 'final',
  code: { coding: [{ system: 'http://loinc.org', code: '8310-5' }] },
  subject: { reference: 'Patient/p' },
  effectiveDateTime: at,
  valueQuantity: { value: cel, unit: 'Cel', system: 'http://unitsofmeasure.org', code: 'Cel' },
});

describe('the looks of the first hours', () => {
  const base = [patient(), line(), inserted];
  const exitSite = (resources: readonly Resource[], time: string) =>
    asked(resources, berlin(time), 'site-assessment').filter((one) => one.includes('exit-site'));

  it('C16: of those that were missed the latest alone is asked', () => {
    expect(exitSite(base, '2026-11-24T11:50:00+01:00')).toEqual([
      'overdue 2026-11-24T11:45 exit-site site-assessment-first-hour-exit-site',
    ]);
    expect(exitSite(base, '2026-11-24T13:55:00+01:00')).toEqual([
      'overdue 2026-11-24T13:00 exit-site site-assessment-first-day-exit-site',
    ]);
  });

  it('C16: lapse when the next look of their kind may be done: none is 20 hours overdue', () => {
    expect(exitSite(base, '2026-11-24T20:00:00+01:00')).toEqual([
      'overdue 2026-11-24T16:00 exit-site site-assessment-first-day-exit-site',
    ]);
    expect(exitSite(base, '2026-11-25T08:00:00+01:00')).toEqual([
      'due 2026-11-25T11:00 exit-site site-assessment',
    ]);
  });

  it('C16: whoever keeps Tasks in step looks again when one takes the place of another', () => {
    const [record] = read(...base).lines;
    const when = berlin('2026-11-24T13:55:00+01:00');
    expect(nextChange(record!, dueCare(record!, ward, when), ward, when)).toBe('2026-11-24T14:00:00+01:00');
    const late = berlin('2026-11-25T04:30:00+01:00');
    expect(nextChange(record!, dueCare(record!, ward, late), ward, late)).toBe('2026-11-25T05:00:00+01:00');
  });

  it('are all asked for where they are done', () => {
    const done = ['11:15', '11:30', '11:45'].map((time) =>
      event('site-assessment', `2026-11-24T${time}:00+01:00`),
    );
    expect(exitSite([...base, ...done], '2026-11-24T11:57:00+01:00')).toEqual([
      'due 2026-11-24T12:00 exit-site site-assessment-first-hour-exit-site',
    ]);
  });
});

describe('an episode of fever', () => {
  const twoLines = [
    patient(),
    line(),
    event('insertion', '2026-11-01T10:00:00+01:00'),
    line('picc', { id: 'picc' }),
    event('insertion', '2026-11-02T10:00:00+01:00', {
      id: 'insertion-picc',
      focalDevice: [{ manipulated: { reference: 'Device/picc' } }],
    }),
    neutrophils(2, '2026-11-24T06:00:00+01:00'),
  ];
  const hot = temperature(38.6, '2026-11-25T02:00:00+01:00');
  const workUp = event('fever-response', '2026-11-25T02:40:00+01:00');
  const fever = (resources: readonly Resource[], time: string) =>
    asked([...twoLines, ...resources], berlin(time), 'fever-response');

  it('C16: is one work-up of the patient: done on one line it is done for the other', () => {
    expect(fever([hot], '2026-11-25T02:30:00+01:00')).toHaveLength(2);
    expect(fever([hot, workUp], '2026-11-25T03:00:00+01:00')).toEqual([]);
  });

  it('C16: begins no new work-up with each temperature of the next 24 hours', () => {
    const again = ['06:00', '10:00', '18:00'].map((time) => temperature(38.4, `2026-11-25T${time}:00+01:00`));
    expect(fever([hot, workUp, ...again], '2026-11-25T19:00:00+01:00')).toEqual([]);
    const nextDay = temperature(38.4, '2026-11-26T06:00:00+01:00');
    expect(fever([hot, workUp, ...again, nextDay], '2026-11-26T07:00:00+01:00')).toHaveLength(2);
  });

  it('begins anew with shivers that are charted as fever', () => {
    const shivers = finding('fever', 'present', '2026-11-25T09:00:00+01:00');
    expect(fever([hot, workUp, shivers], '2026-11-25T10:00:00+01:00')).toHaveLength(1);
  });
});

describe('a look that only its finding tells of', () => {
  const base = [patient(), line('picc'), lumen('red'), lumen('white'), inserted];
  const quantity = (code: string, value: number, at: string): Resource =>
    finding(code, '', at, {
      valueCodeableConcept: undefined,
      valueQuantity: { value, unit: 'cm', code: 'cm' },
    });

  it('C16: a charted blood return meets the test of its lumen', () => {
    const tests = (resources: readonly Resource[]) =>
      asked([...base, ...resources], berlin('2026-11-24T12:30:00+01:00'), 'patency-assessment');
    expect(tests([])).toHaveLength(2);
    const brisk = finding('blood-return', 'brisk', '2026-11-24T11:40:00+01:00', {
      focus: [{ reference: 'Device/red' }],
    });
    expect(tests([brisk])).toHaveLength(1);
    const resistance = finding('flush-resistance', 'none', '2026-11-24T11:40:00+01:00', {
      focus: [{ reference: 'Device/red' }],
    });
    expect(tests([resistance])).toHaveLength(2);
  });

  it('C16: a charted length meets its measurement, a charted site the look at it', () => {
    const when = berlin('2026-11-30T12:00:00+01:00');
    const measured = quantity('external-length', 12, '2026-11-29T08:00:00+01:00');
    expect(asked([...base, measured], when, 'external-length-measurement')).toEqual([
      'upcoming 2026-12-06T08:00 line external-length-measurement',
    ]);
    const seen = finding('exit-site', '', '2026-11-30T09:00:00+01:00', {
      valueCodeableConcept: undefined,
      component: [
        { code: { coding: [{ system: codeSystem.lineFinding, code: 'redness' }] }, valueBoolean: false },
      ],
    });
    expect(asked([...base, seen], when, 'site-assessment')).toEqual([
      'upcoming 2026-12-01T09:00 exit-site site-assessment',
    ]);
  });

  it('is the same as the one that was charted by itself', () => {
    const measured = quantity('external-length', 12, '2026-11-29T08:05:00+01:00');
    const [record] = read(
      ...base,
      measured,
      event('external-length-measurement', '2026-11-29T08:00:00+01:00'),
    ).lines;
    const { met } = dueCare(record!, ward, berlin('2026-11-30T12:00:00+01:00'));
    expect(met.filter(({ activity }) => activity === 'external-length-measurement')).toHaveLength(1);
  });
});

describe('the vein incision', () => {
  const old = [patient(), line('implanted-port'), event('insertion', '2026-05-11T10:00:00+02:00')];
  const incision = (resources: readonly Resource[]) =>
    asked(resources, berlin('2026-11-25T12:00:00+01:00'), 'dressing-change').filter((one) =>
      one.includes('incision'),
    );

  it('C16: of an old port is not to be dressed since half a year', () => {
    expect(incision(old)).toEqual([]);
    const month = event('insertion', '2026-11-10T10:00:00+01:00');
    expect(incision([patient(), line('implanted-port'), month])).toHaveLength(1);
  });

  it('is dressed on for as long as the record says that it has not healed', () => {
    const open = finding('incision-healed', '', '2026-11-24T12:00:00+01:00', {
      valueCodeableConcept: undefined,
      valueBoolean: false,
    });
    expect(incision([...old, open])).toHaveLength(1);
  });
});
