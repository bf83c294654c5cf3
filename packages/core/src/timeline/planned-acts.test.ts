import { bundledPlan, readPolicy } from '@dwellward/policy';
import { codeSystem } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { event, lab, line, patient, type Resource } from '../record.kit.js';
import { readRecords } from '../record/read-records.js';
import { dueCare } from '../due/due-care.js';

const reading = readPolicy([bundledPlan('base'), bundledPlan('preparation')]);
if (!reading.ok) throw new Error('The bundled layers can be read.');
const { policy } = reading;
const zone = 'Europe/Berlin';

const insertionCode = { coding: [{ system: codeSystem.lineCareActivity, code: 'insertion' }] };
const request = (more: object = {}): Resource => ({
  resourceType: 'ServiceRequest',
  id: 'plan',
  status: 'active',
  intent: 'order',
  code: insertionCode,
  orderDetail: [{ coding: [{ system: codeSystem.lineType, code: 'tunneled-cvc' }] }],
  subject: { reference: 'Patient/p' },
  authoredOn: '2026-11-20T10:00:00+01:00',
  occurrenceDateTime: '2026-11-26T15:00:00+01:00',
  ...more,
});
const appointment = (more: object = {}): Resource => ({
  resourceType: 'Appointment',
  id: 'booked',
  status: 'booked',
  basedOn: [{ reference: 'ServiceRequest/plan' }],
  created: '2026-11-21T10:00:00+01:00',
  start: '2026-11-27T08:00:00+01:00',
  participant: [{ actor: { reference: 'Patient/p' }, status: 'accepted' }],
  ...more,
});
/** What was done for the plan, before there is a Device. */
const done = (activity: string, at: string, more: object = {}): Resource =>
  event(activity, at, { focalDevice: [], basedOn: [{ reference: 'ServiceRequest/plan' }], ...more });

function caresAt(asOf: string, ...resources: Resource[]) {
  const records = readRecords([patient(), ...resources].map((resource) => ({ resource })));
  return {
    issues: records.issues.map(({ code, resource, path }) => `${code} ${resource} ${path}`),
    cares: records.lines.map((one) => dueCare(one, policy, { asOf, zone })),
  };
}
function careAt(asOf: string, ...resources: Resource[]) {
  const { cares } = caresAt(asOf, ...resources);
  expect(cares).toHaveLength(1);
  return cares[0]!;
}
const listed = (care: ReturnType<typeof careAt>) =>
  care.items.map(({ activity, state, dueBy }) => `${activity} ${state} ${dueBy.slice(0, 16)}`);

const good = [
  lab('777-3', 180, '10*9/L', '2026-11-22T08:00:00+01:00'),
  lab('6301-6', 1.1, '{INR}', '2026-11-22T08:00:00+01:00'),
];

describe('an appointment with two patients', () => {
  const second = { ...patient(), id: 'q' };
  const both = ['Patient/q', 'Patient/p'].map((reference) => ({
    actor: { reference },
    status: 'accepted' as const,
  }));
  const ofInsertion = { basedOn: undefined, reasonCode: [insertionCode], participant: both };
  const planned = (...resources: Resource[]) =>
    readRecords(resources.map((resource) => ({ resource })))
      .lines.map(({ ref, patient: { ref: whose }, planned: plan }) => [
        ref,
        whose,
        plan?.at?.text.slice(0, 16),
      ])
      .sort();

  it('A7: plans a line for each of them', () => {
    expect(planned(patient(), second, appointment(ofInsertion))).toEqual([
      ['Appointment/booked#Patient/p', 'Patient/p', '2026-11-27T08:00'],
      ['Appointment/booked#Patient/q', 'Patient/q', '2026-11-27T08:00'],
    ]);
  });

  it('A7: plans for the one whose record it is, by the same name', () => {
    expect(planned(second, appointment(ofInsertion))).toEqual([
      ['Appointment/booked#Patient/q', 'Patient/q', '2026-11-27T08:00'],
    ]);
  });

  it('A7: books the request of each of them, and plans nothing for whoever has none', () => {
    const theirs = request({ id: 'theirs', subject: { reference: 'Patient/q' } });
    const basedOn = [{ reference: 'ServiceRequest/plan' }, { reference: 'ServiceRequest/theirs' }];
    const booked = appointment({ basedOn, participant: both });
    expect(planned(patient(), second, request(), theirs, booked)).toEqual([
      ['ServiceRequest/plan', 'Patient/p', '2026-11-27T08:00'],
      ['ServiceRequest/theirs', 'Patient/q', '2026-11-27T08:00'],
    ]);
    expect(planned(patient(), second, request(), appointment({ participant: both }))).toEqual([
      ['ServiceRequest/plan', 'Patient/p', '2026-11-27T08:00'],
    ]);
  });
});

describe('a planned insertion', () => {
  it('gives a preparation list counted back from its time', () => {
    const care = careAt('2026-11-25T15:00:00+01:00', request(), ...good);
    expect(care).toMatchObject({
      line: 'ServiceRequest/plan',
      inPlace: false,
      closed: 'not-inserted-yet',
      plannedFor: '2026-11-26T15:00:00+01:00',
      holds: [],
      issues: [],
    });
    // 24 hours, the last 20:00 six hours or more before, an hour, and the moment itself.
    expect(listed(care)).toEqual([
      'bath upcoming 2026-11-25T20:00',
      'insertion-preparation upcoming 2026-11-26T14:00',
      'laboratory-review due 2026-11-25T15:00',
      'skin-preparation upcoming 2026-11-26T15:00',
      'teaching due 2026-11-25T15:00',
    ]);
    expect(care.items[0]).toMatchObject({
      countedFrom: { basis: 'plan', ref: 'ServiceRequest/plan' },
      target: { device: 'ServiceRequest/plan' },
    });
  });

  it('in the morning is washed for the evening before, not in the night', () => {
    const care = careAt('2026-11-25T12:00:00+01:00', request(), appointment());
    expect(care.items.find(({ activity }) => activity === 'bath')?.dueBy).toBe('2026-11-26T20:00:00+01:00');
  });

  it('is counted back from the time that is booked, where there is one', () => {
    expect(careAt('2026-11-25T12:00:00+01:00', request(), appointment()).plannedFor).toBe(
      '2026-11-27T08:00:00+01:00',
    );
    expect(
      careAt('2026-11-25T12:00:00+01:00', request(), appointment({ status: 'cancelled' })).plannedFor,
    ).toBe('2026-11-26T15:00:00+01:00');
  });

  it('for a day without an hour is washed for the evening before that day', () => {
    const care = careAt('2026-11-24T12:00:00+01:00', request({ occurrenceDateTime: '2026-11-26' }));
    const bath = care.items.find(({ activity }) => activity === 'bath');
    expect(bath).toMatchObject({ dueBy: '2026-11-25T20:00:00+01:00', countedFrom: { imprecise: {} } });
  });

  it('whose appointment was cancelled is kept by the order’s time, and that is said', () => {
    const { issues } = caresAt('2026-11-25T12:00:00+01:00', request(), appointment({ status: 'cancelled' }));
    expect(issues).toEqual(['appointment-cancelled ServiceRequest/plan ServiceRequest.status']);
    const anew = appointment({ id: 'anew', start: '2026-11-28T08:00:00+01:00' });
    const second = caresAt(
      '2026-11-25T12:00:00+01:00',
      request(),
      appointment({ status: 'cancelled' }),
      anew,
    );
    expect(second.issues).toEqual([]);
    expect(second.cares[0]?.plannedFor).toBe('2026-11-28T08:00:00+01:00');
  });

  it('that is booked twice is counted back from the earlier, whatever its name and its offset', () => {
    const earlier = appointment({ id: 'z', start: '2026-11-27T04:00:00Z' });
    const care = careAt('2026-11-25T12:00:00+01:00', request(), appointment(), earlier);
    expect(care.plannedFor).toBe('2026-11-27T05:00:00+01:00');
  });

  it('may be an Appointment alone, or a Procedure in preparation with its Device', () => {
    const alone = appointment({ basedOn: undefined, reasonCode: [insertionCode] });
    expect(careAt('2026-11-25T12:00:00+01:00', alone)).toMatchObject({
      line: 'Appointment/booked',
      closed: 'not-inserted-yet',
    });
    const care = careAt(
      '2026-11-25T12:00:00+01:00',
      line(),
      event('insertion', '2026-11-26T09:00:00+01:00', { status: 'preparation' }),
    );
    expect(care).toMatchObject({ line: 'Device/line', plannedFor: '2026-11-26T09:00:00+01:00' });
    expect(care.items.map(({ activity }) => activity)).toContain('teaching');
  });

  it('of another act is none', () => {
    expect(caresAt('2026-11-25T12:00:00+01:00', request({ code: { text: 'X-ray' } })).cares).toEqual([]);
  });

  it('that is not known yet asks for nothing', () => {
    expect(careAt('2026-11-19T12:00:00+01:00', request()).items).toEqual([]);
  });

  it('that was asked for late is due from when it was written', () => {
    const late = request({ authoredOn: '2026-11-26T12:00:00+01:00' });
    const teaching = careAt('2026-11-26T12:30:00+01:00', late).items.find(
      ({ activity }) => activity === 'teaching',
    );
    expect(teaching).toMatchObject({ dueBy: '2026-11-26T12:00:00+01:00', state: 'overdue' });
  });

  it('without a time has its preparation due now, and says so', () => {
    const { cares, issues } = caresAt(
      '2026-11-25T12:00:00+01:00',
      request({ occurrenceDateTime: undefined }),
    );
    expect(issues).toEqual(['missing-time ServiceRequest/plan ServiceRequest.occurrence']);
    expect(cares[0]?.plannedFor).toBeUndefined();
    // The rest takes less than a day: it waits for the time.
    expect(
      cares[0]?.items.map(({ activity, state, countedFrom: { basis } }) => `${activity} ${state} ${basis}`),
    ).toEqual(['laboratory-review due nothing', 'teaching due nothing']);
  });

  it('beside another that may be of the same line is reported, and both are prepared', () => {
    const other = request({ id: 'other', occurrenceDateTime: '2026-11-28T09:00:00+01:00' });
    const of = (...resources: Resource[]) => caresAt('2026-11-25T12:00:00+01:00', request(), ...resources);
    expect(of(other).issues).toEqual(['several-plans ServiceRequest/other ServiceRequest.status']);
    expect(of(other).cares.map(({ items }) => items.length)).toEqual([5, 5]);
    expect(of({ ...other, status: 'revoked' }).issues).toEqual([]);
    const midline = { orderDetail: [{ coding: [{ system: codeSystem.lineType, code: 'midline' }] }] };
    expect(of({ ...other, ...midline }).issues).toEqual([]);
    expect(of({ ...other, subject: { reference: 'Patient/q' } }).issues.join()).not.toContain(
      'several-plans',
    );
  });

  it('that names no patient is reported', () => {
    expect(caresAt('2026-11-25T12:00:00+01:00', request({ subject: undefined })).issues).toEqual([
      'unresolved-reference ServiceRequest/plan ServiceRequest.subject',
    ]);
  });
});

describe('what was done to prepare', () => {
  it('meets its item, named by the plan or for the only plan of a patient without a line', () => {
    const asOf = '2026-11-25T16:00:00+01:00';
    const teaching = done('teaching', '2026-11-24T10:00:00+01:00');
    for (const one of [teaching, { ...teaching, basedOn: undefined }]) {
      const care = careAt(asOf, request(), ...good, one);
      expect(care.items.map(({ activity }) => activity)).not.toContain('teaching');
      expect(care.met).toMatchObject([
        { activity: 'teaching', by: teaching.resourceType + '/' + teaching.id },
      ]);
    }
  });

  it('before its window opened does not meet it', () => {
    const early = done('bath', '2026-11-24T20:00:00+01:00');
    const care = careAt('2026-11-25T19:00:00+01:00', request(), early);
    expect(care.items.find(({ activity }) => activity === 'bath')).toMatchObject({
      dueBy: '2026-11-25T20:00:00+01:00',
      state: 'due',
    });
    const there = done('bath', '2026-11-25T18:30:00+01:00');
    expect(
      careAt('2026-11-25T19:00:00+01:00', request(), there).items.map(({ activity }) => activity),
    ).not.toContain('bath');
  });

  it('is not placed where the patient has a line already and the plan is not named', () => {
    const { issues } = caresAt(
      '2026-11-25T12:00:00+01:00',
      line(),
      request(),
      done('teaching', '2026-11-24T10:00:00+01:00', { basedOn: undefined }),
    );
    expect(issues).toContain(
      'unresolved-reference Procedure/teaching-20261124T1000000100 Procedure.focalDevice',
    );
  });
});

// Limits: SIR 2019, procedures of low bleeding risk.
describe('baseline results', () => {
  const asOf = '2026-11-25T09:00:00+01:00';
  const reviewOf = (...results: Resource[]) =>
    careAt(asOf, request(), ...results).items.find(({ activity }) => activity === 'laboratory-review');
  const at = '2026-11-22T08:00:00+01:00';

  it('within the limits are looked at a day before', () => {
    expect(reviewOf(...good)).toMatchObject({
      rule: { id: 'laboratory-review-before-insertion' },
      dueBy: '2026-11-25T15:00:00+01:00',
    });
  });

  it.each<[string, Resource[]]>([
    ['low platelets', [lab('777-3', 19, '10*9/L', at), lab('6301-6', 1.1, '{INR}', at)]],
    ['a high INR', [lab('777-3', 180, '10*9/L', at), lab('34714-6', 2.1, undefined, at)]],
  ])('%s bring it forward, from when they were known', (_, results) => {
    expect(reviewOf(...results)).toMatchObject({
      rule: { id: 'laboratory-review-limits', priority: 'urgent' },
      dueBy: '2026-11-24T15:00:00+01:00',
      state: 'overdue',
    });
    expect(reviewOf(...results)?.byUnknown).toBeUndefined();
  });

  it.each<[string, Resource[], string[]]>([
    ['a missing INR', [lab('777-3', 180, '10*9/L', at)], ['labs.inr']],
    ['nothing at all', [], ['labs.platelets', 'labs.inr']],
    ['an INR in seconds', [lab('777-3', 180, '10*9/L', at), lab('6301-6', 12, 's', at)], ['labs.inr']],
    [
      'old results',
      [
        lab('777-3', 180, '10*9/L', '2026-11-10T08:00:00+01:00'),
        lab('6301-6', 1.1, '{INR}', '2026-11-10T08:00:00+01:00'),
      ],
      ['labs.platelets', 'labs.inr'],
    ],
  ])('%s count as beyond the limit, and the item says so', (_, results, unknown) => {
    const review = reviewOf(...results);
    expect(review?.rule.id).toBe('laboratory-review-limits');
    expect([...(review?.byUnknown ?? [])].sort()).toEqual([...unknown].sort());
  });

  it('at the limits are not beyond them', () => {
    const review = reviewOf(lab('777-3', 20, '10*9/L', at), lab('6301-6', 2, '1', at));
    expect(review?.rule.id).toBe('laboratory-review-before-insertion');
  });

  it('that came after the review are looked at again', () => {
    const review = done('laboratory-review', '2026-11-23T10:00:00+01:00');
    expect(reviewOf(...good, review)).toBeUndefined();
    const fallen = lab('777-3', 12, '10*9/L', '2026-11-24T18:00:00+01:00');
    expect(reviewOf(...good, review, fallen)).toMatchObject({
      rule: { id: 'laboratory-review-limits' },
      dueBy: '2026-11-24T18:00:00+01:00',
    });
  });
});

describe('a plan is over', () => {
  const asOf = '2026-11-26T18:00:00+01:00';
  const inserted = event('insertion', '2026-11-26T15:20:00+01:00');
  const careOfRequest = (...resources: Resource[]) =>
    caresAt(
      asOf,
      ...(resources.some(({ resourceType }) => resourceType === 'ServiceRequest') ? [] : [request()]),
      ...resources,
    ).cares.find((care) => care.line === 'ServiceRequest/plan');

  it.each<[string, Resource[]]>([
    ['a line of that type went in on the day', [line(), inserted]],
    [
      'an insertion names it, whenever that was',
      [
        line(),
        event('insertion', '2026-11-25T09:00:00+01:00', {
          basedOn: [{ reference: 'ServiceRequest/plan' }],
        }),
      ],
    ],
    ['the request is completed', [request({ status: 'completed' })]],
    ['the appointment was kept', [appointment({ status: 'fulfilled' })]],
  ])('where %s', (_, resources) => {
    expect(careOfRequest(...resources)).toMatchObject({ closed: 'inserted', items: [] });
  });

  it.each<[string, Resource[]]>([
    ['a line of another type went in', [line('midline'), inserted]],
    ['a line went in the day before', [line(), event('insertion', '2026-11-25T15:00:00+01:00')]],
    ['the insertion was entered in error', [line(), { ...inserted, status: 'entered-in-error' }]],
  ])('not where %s', (_, resources) => {
    expect(careOfRequest(...resources)?.closed).toBe('not-inserted-yet');
  });

  it('where it was revoked, and what was done for it is no contradiction', () => {
    const { cares, issues } = caresAt(
      asOf,
      request({ status: 'revoked' }),
      done('teaching', '2026-11-24T10:00:00+01:00'),
    );
    expect(cares[0]).toMatchObject({ closed: 'plan-withdrawn', items: [], issues: [] });
    expect(issues).toEqual([]);
  });

  it('and what was done for it is met still', () => {
    const teaching = done('teaching', '2026-11-24T10:00:00+01:00');
    expect(careOfRequest(line(), inserted, teaching)?.met).toHaveLength(1);
  });

  it('not by its time alone: four hours after it, or after its day, it is reported and stays due', () => {
    const ofDay = request({ occurrenceDateTime: '2026-11-26' });
    expect(careAt('2026-11-26T23:59:00+01:00', ofDay).issues).toEqual([]);
    expect(careAt('2026-11-27T00:00:00+01:00', ofDay).issues).toHaveLength(1);
    expect(careAt('2026-11-26T18:59:00+01:00', request()).issues).toEqual([]);
    const care = careAt('2026-11-26T19:00:00+01:00', request());
    expect(care.issues).toMatchObject([{ code: 'planned-time-passed', resource: 'ServiceRequest/plan' }]);
    expect(care.items.map(({ state }) => state)).toEqual(Array(5).fill('overdue'));
  });
});

describe('an order for once', () => {
  const order = (more: object = {}) =>
    request({
      code: { coding: [{ system: codeSystem.lineCareActivity, code: 'removal' }] },
      orderDetail: undefined,
      ...more,
    });
  const inPlace = [line(), event('insertion', '2026-11-01T10:00:00+01:00')];
  const removalAt = (asOf: string, ...resources: Resource[]) =>
    careAt(asOf, ...inPlace, ...resources).items.find(({ activity }) => activity === 'removal');

  it('is due at its time, and may be begun an hour before', () => {
    expect(removalAt('2026-11-26T14:00:00+01:00', order())).toMatchObject({
      opens: '2026-11-26T14:00:00+01:00',
      dueBy: '2026-11-26T15:00:00+01:00',
      state: 'due',
      basedOn: 'ServiceRequest/plan',
      countedFrom: { basis: 'plan', ref: 'ServiceRequest/plan' },
    });
  });

  it('for a day opens with it and is due by its end; for a period likewise', () => {
    expect(removalAt('2026-11-25T14:00:00+01:00', order({ occurrenceDateTime: '2026-11-26' }))).toMatchObject(
      {
        opens: '2026-11-26T00:00:00+01:00',
        dueBy: '2026-11-27T00:00:00+01:00',
        state: 'upcoming',
      },
    );
    const period = { start: '2026-11-26T08:00:00+01:00', end: '2026-11-26T12:00:00+01:00' };
    expect(
      removalAt(
        '2026-11-25T14:00:00+01:00',
        order({ occurrenceDateTime: undefined, occurrencePeriod: period }),
      ),
    ).toMatchObject({ opens: period.start, dueBy: period.end });
  });

  it('is due when it is booked for, where an appointment is based on it', () => {
    const at = '2026-11-25T14:00:00+01:00';
    expect(removalAt(at, order(), appointment())?.dueBy).toBe('2026-11-27T08:00:00+01:00');
    const earlier = appointment({ id: 'z', start: '2026-11-27T04:00:00Z' });
    expect(removalAt(at, order(), appointment(), earlier)?.dueBy).toBe('2026-11-27T05:00:00+01:00');
    const cancelled = appointment({ status: 'cancelled' });
    expect(removalAt(at, order(), cancelled)?.dueBy).toBe('2026-11-26T15:00:00+01:00');
    expect(caresAt(at, ...inPlace, order(), cancelled).issues).toContain(
      'appointment-cancelled ServiceRequest/plan ServiceRequest.status',
    );
  });

  it('is met by what was done on its day or later', () => {
    const flushed = (at: string) => event('dressing-change', at);
    const change = order({
      code: { coding: [{ system: codeSystem.lineCareActivity, code: 'dressing-change' }] },
    });
    const ordered = (at: string) =>
      careAt('2026-11-26T13:00:00+01:00', ...inPlace, change, flushed(at))
        .items.filter(({ activity }) => activity === 'dressing-change')
        .flatMap(({ rule, others }) => [rule, ...others.map((one) => one.rule)])
        .some(({ origin }) => origin.order !== undefined);
    expect(ordered('2026-11-25T23:00:00+01:00')).toBe(true);
    expect(ordered('2026-11-26T07:00:00+01:00')).toBe(false);
  });

  it('that is revoked, or whose time can’t be read, asks for nothing', () => {
    expect(removalAt('2026-11-26T14:00:00+01:00', order({ status: 'revoked' }))).toBeUndefined();
    expect(removalAt('2026-11-26T14:00:00+01:00', order({ occurrenceDateTime: 'soon' }))).toBeUndefined();
  });
});
