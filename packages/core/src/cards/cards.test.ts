import { codeSystem, identifierSystem, standard } from '@dwellward/profiles';
import type { FhirResource } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { dueCare } from '../due/due-care.js';
import { dueCareOfEach } from '../due/due-care-of-each.js';
import {
  afterEvent,
  berlin,
  days,
  event,
  every,
  finding,
  forbidAfter,
  hours,
  line,
  lumen,
  on,
  onFinding,
  patient,
  policyOf,
  read,
  rule,
  type Resource,
} from '../record.kit.js';
import { outsideBrackets, pseudo } from '../words/pseudo.kit.js';
import { careCards, notReadCard } from './care-cards.js';
import { draftOrders } from './draft-orders.js';
import { fitted, longestSummary } from './fitted.js';
import { orderCards } from './order-cards.js';

const when = berlin('2026-11-25T12:00:00+01:00');
const cited = {
  citations: [{ text: 'Invented leaflet', url: 'https://leaflet.example/a', certainty: 'cited' }],
} as const;
const policy = policyOf(
  rule('Dressing', every(days(7)), { citations: [...cited.citations] as never }),
  rule('Flush', every(days(1)), { activity: 'flush', scope: 'lumen' }),
  rule('Fever: first steps', onFinding('fever'), {
    activity: 'fever-response',
    scope: 'line',
    priority: 'stat',
    work: { computed: [], steps: [['Call the clinician.']], supplies: [], cautions: [] },
  }),
  rule('Rest after repair', forbidAfter('repair', hours(24)), {
    activity: 'infusion-start',
    scope: 'lumen',
    citations: [...cited.citations] as never,
  }),
  rule('No flush after repair', forbidAfter('repair', hours(24)), { activity: 'flush', scope: 'lumen' }),
  rule('No draw after repair', forbidAfter('repair', hours(24)), {
    activity: 'blood-sampling',
    scope: 'line',
  }),
  rule('Damp dressing', onFinding('dressing-condition', ['damp']), { priority: 'urgent' }),
  rule('Take it out', onFinding('migration'), { activity: 'removal', scope: 'line', priority: 'urgent' }),
  rule('Look after removal', afterEvent('removal', hours(1)), { activity: 'site-assessment' }),
  rule('Look at the incision', afterEvent('insertion', days(1)), {
    activity: 'site-assessment',
    scope: 'incision',
  }),
);
const small: readonly Resource[] = [
  patient({ name: [{ family: 'Alder', given: ['Ann'] }] }),
  line('picc', { deviceName: [{ name: 'Right arm' }] }),
  lumen('red', { deviceName: [{ name: 'red' }] }),
  lumen('white', { deviceName: [{ name: 'white' }] }),
  event('insertion', '2026-11-10T09:00:00+01:00'),
  event('dressing-change', '2026-11-14T10:00:00+01:00'),
  event('flush', '2026-11-24T10:00:00+01:00', { id: 'f1', ...on('red') }),
  event('flush', '2026-11-24T10:00:00+01:00', { id: 'f2', ...on('white') }),
];
const repaired = event('repair', '2026-11-25T08:00:00+01:00', on('red'));

function of(resources: readonly Resource[], by = policy) {
  const records = read(...resources);
  const cares = records.lines.map((one) => dueCare(one, by, when));
  return { records, cares };
}
function cardsOf(resources: readonly Resource[], options = {}) {
  const { records, cares } = of(resources);
  return careCards(records, cares, policy, when, options);
}

describe('cards of a patient', () => {
  it('one a line with what is overdue and due, and the source of the most pressing', () => {
    const cards = cardsOf(small);
    expect(cards.map(({ kind, urgency }) => [kind, urgency])).toEqual([['care', 'warning']]);
    const [card] = cards;
    expect(card?.summary).toBe('Right arm: 2 overdue. First: Dressing change: exit site');
    expect(card?.source).toEqual({ label: 'Invented leaflet', url: 'https://leaflet.example/a' });
    expect(card?.parts.map(({ text }) => text).join('\n')).toMatch(/Flush: red, white · .* ago/);
  });

  it('an emergency is critical and stands before another line’s overdue care', () => {
    const other = line('picc', { id: 'a-line', deviceName: [{ name: 'A line' }] });
    const fever = finding('fever', 'present', '2026-11-25T11:00:00+01:00');
    const cards = cardsOf([
      ...small,
      other,
      event('insertion', '2026-11-01T09:00:00+01:00', {
        id: 'i2',
        focalDevice: [{ manipulated: { reference: 'Device/a-line' } }],
      }),
      { ...fever, focus: [{ reference: 'Device/line' }] },
    ]);
    const care = cards.filter(({ kind }) => kind === 'care');
    expect(care.map(({ urgency }) => urgency)).toEqual(['critical', 'warning']);
    expect(care[0]?.summary).toMatch(/^Right arm: 1 EMERGENCY, .*First: Fever/);
    expect(care[0]?.parts.flatMap(({ more }) => more)).toContain('Call the clinician.');
  });

  it('says nothing where nothing is due', () => {
    const done = [
      event('dressing-change', '2026-11-25T10:00:00+01:00', { id: 'd' }),
      event('flush', '2026-11-25T10:00:00+01:00', { id: 'f3', ...on('red') }),
      event('flush', '2026-11-25T10:00:00+01:00', { id: 'f4', ...on('white') }),
      event('site-assessment', '2026-11-25T10:00:00+01:00', {
        bodySite: [{ coding: [{ system: codeSystem.lineSite, code: 'incision' }] }],
      }),
    ];
    expect(cardsOf([...small, ...done])).toEqual([]);
  });

  it('what must not be done, with its citation as source, for as long as it is in force', () => {
    const holds = cardsOf([...small, repaired]).filter(({ kind }) => kind === 'hold');
    expect(holds.map(({ summary }) => summary)).toEqual([
      expect.stringMatching(/^Right arm: Hold: no infusion start on red until Thu 26 Nov 08:00/),
      expect.stringMatching(/^Right arm: Hold: no blood sampling on the line until/),
      expect.stringMatching(/^Right arm: Hold: no flush on red until/),
    ]);
    expect(holds[0]?.source.label).toBe('Invented leaflet');
    const { records, cares } = of([...small, repaired]);
    const later = berlin('2026-11-26T08:00:00+01:00');
    expect(careCards(records, cares, policy, later).filter(({ kind }) => kind === 'hold')).toEqual([]);
  });

  it('what was not understood and what may be missing stands on top of all care', () => {
    const strange = event('flush', '2026-11-25T09:00:00+01:00', {
      id: 'strange',
      code: { text: 'Spülung nach Schema' },
    });
    const cards = cardsOf([...small, strange], { doubts: ['Two pages are missing.'] });
    expect(cards.map(({ kind }) => kind).slice(0, 3)).toEqual(['not-whole', 'not-understood', 'care']);
    expect(JSON.stringify(cards[1]?.parts)).toMatch(/Spülung nach Schema/);
    expect(JSON.stringify(cards[0]?.parts)).toMatch(/Two pages are missing/);
  });

  it('what is to be put right in the record is told last, and none of it is dropped', () => {
    const cards = cardsOf([...small, event('flush', undefined, { id: 'no-time', ...on('red') })]);
    const last = cards.at(-1);
    expect(last?.kind).toBe('issues');
    expect(JSON.stringify(last?.parts)).toMatch(/Procedure\/no-time/);
  });

  it('a record that could not be read says so', () => {
    expect(notReadCard('no-answer', when)).toMatchObject({ kind: 'not-read', urgency: 'warning' });
    expect(notReadCard('no-answer', when).summary).toMatch(/could not be read/);
  });

  it('a summary is below 140 characters, and what was cut stands whole in the card', () => {
    const name = 'An uncommonly long name for a catheter '.repeat(6).trim();
    const cards = cardsOf([
      ...small.map((one) => (one.id === 'line' ? { ...one, deviceName: [{ name }] } : one)),
      repaired,
      finding('bleeding', 'present', '2026-11-25T11:00:00+01:00'),
    ]);
    expect(cards.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['unanswered', 'care', 'hold']));
    for (const card of cards) {
      expect(card.summary.length).toBeLessThanOrEqual(longestSummary);
      expect(card.parts.some(({ text }) => text.includes(name))).toBe(true);
    }
    expect(cards[0]?.summary.endsWith('…')).toBe(true);
    expect(fitted('\ud83d\ude00'.repeat(90))).toBe(`${'\ud83d\ude00'.repeat(69)}…`);
  });

  it('says nothing outside of its language', () => {
    const cards = cardsOf([...small, repaired], { language: pseudo });
    const texts = cards.flatMap((card) => [
      ...(card.summary.endsWith('…') ? [] : [card.summary]),
      ...card.parts.flatMap(({ text, more }) => [text, ...more]),
      ...card.acts.flatMap(({ label, procedures }) => [label, ...procedures.map(({ text }) => text)]),
    ]);
    const outside = texts.map((text) =>
      outsideBrackets(text).replace(/Right arm|[·:,;<>.\s]|https:\/\/leaflet\.example\/a/g, ''),
    );
    expect(outside.filter((text) => text !== '')).toEqual([]);
  });
});

describe('what may be recorded with one click', () => {
  it('is the care of a row on each of its targets, and meets it once however often it is recorded', () => {
    const [card] = cardsOf(small);
    expect(card?.acts.map(({ label }) => label)).toEqual([
      'Record as done now: Dressing change: exit site',
      'Record as done now: Flush: red, white',
    ]);
    const flushes = card?.acts[1]?.procedures.map(({ resource }) => resource) ?? [];
    expect(flushes.map(({ focalDevice }) => focalDevice?.[0]?.manipulated.reference)).toEqual([
      'Device/red',
      'Device/white',
    ]);
    expect(flushes[0]?.identifier?.[0]).toMatchObject({
      system: identifierSystem.charted,
      value: expect.stringMatching(/^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-a[0-9a-f]{3}-[0-9a-f]{12}$/),
    });
    const once = card?.acts.flatMap(({ procedures }) => procedures.map(({ resource }) => resource)) ?? [];
    const later = once.map((one) => ({ ...one, performedDateTime: '2026-11-25T11:30:00+01:00' }));
    const charted = [...once, ...later];
    const after = (done: typeof once) =>
      of([...small, ...done.map((one, at): Resource => ({ ...one, id: `charted-${at}` }))]).cares;
    const cares = after(charted);
    expect(cares[0]?.met).toHaveLength(after(once)[0]?.met.length ?? 0);
    const open = cares[0]?.items.filter(({ state }) => state === 'due' || state === 'overdue') ?? [];
    // The look at the incision has no click: it is left.
    expect(open.map(({ target }) => target.scope)).toEqual(['incision']);
  });

  it.each<[string, readonly Resource[], object]>([
    ['of what is held', [...small, repaired], {}],
    ['of a line that no Device stands for', small, { recordable: () => false }],
    [
      'of one of several lumens that have no Device',
      small
        .filter(({ id }) => !['red', 'white', 'f1', 'f2'].includes(id))
        .map((one) =>
          one.id === 'line'
            ? {
                ...one,
                property: [
                  {
                    type: { coding: [{ system: codeSystem.lineProperty, code: 'lumen-count' }] },
                    valueQuantity: [{ value: 2 }],
                  },
                ],
              }
            : one,
        ),
      {},
    ],
  ])('not %s', (_, resources, options) => {
    const cards = cardsOf(resources, options);
    // The care itself is shown, or held.
    expect(JSON.stringify(cards.map(({ parts }) => parts))).toMatch(/flush/i);
    const labels = cards.flatMap(({ acts }) => acts.map(({ label }) => label));
    expect(labels.filter((label) => /Flush.*(red|lumen)/.test(label))).toEqual([]);
  });

  it('not the end of a line, and nothing on a line that is out', () => {
    const ends = finding('migration', 'present', '2026-11-25T11:00:00+01:00');
    const out = event('removal', '2026-11-25T08:00:00+01:00');
    for (const [found, named] of [
      [ends, /Removal/],
      [out, /Site assessment: exit site/],
    ] as const) {
      const [card] = cardsOf([...small, found]).filter(({ kind }) => kind === 'care');
      expect(JSON.stringify(card?.parts)).toMatch(named);
      expect((card?.acts ?? []).filter(({ label }) => named.test(label))).toEqual([]);
    }
  });

  it('not what would be asked about: the same act was recorded a minute ago', () => {
    const changed = event('dressing-change', '2026-11-25T11:59:00+01:00', { id: 'now' });
    const damp = finding('dressing-condition', 'damp', '2026-11-25T11:59:30+01:00');
    const [card] = cardsOf([...small, changed, damp]).filter(({ kind }) => kind === 'care');
    expect(JSON.stringify(card?.parts)).toMatch(/Dressing change/);
    expect((card?.acts ?? []).filter(({ label }) => /Dressing/.test(label))).toEqual([]);
  });

  it('not what needs an answer first: an allergy that speaks against it', () => {
    const allergy: Resource = {
      resourceType: 'AllergyIntolerance',
      id: 'a',
      patient: { reference: 'Patient/p' },
      code: { text: 'chlorhexidine' },
    };
    const labels = cardsOf([...small, allergy]).flatMap(({ acts }) => acts.map(({ label }) => label));
    expect(labels.filter((label) => /Dressing/.test(label))).toEqual([]);
    expect(labels.filter((label) => /Flush/.test(label))).toHaveLength(1);
  });
});

const serviceRequest = (activity: string, more: object = {}): FhirResource => ({
  resourceType: 'ServiceRequest',
  id: 'draft',
  status: 'draft',
  intent: 'order',
  subject: { reference: 'Patient/p' },
  code: { coding: [{ system: codeSystem.lineCareActivity, code: activity }] },
  ...more,
});
const drug = (route?: string): FhirResource => ({
  resourceType: 'MedicationRequest',
  id: 'drug',
  status: 'draft',
  intent: 'order',
  subject: { reference: 'Patient/p' },
  medicationCodeableConcept: { text: 'Invented infusion' },
  ...(route === undefined
    ? {}
    : { dosageInstruction: [{ route: { coding: [{ system: standard.snomed, code: route }] } }] }),
});
const device = (id: string) => ({ supportingInfo: [{ reference: `Device/${id}` }] });

function ordered(
  drafts: readonly FhirResource[],
  resources: readonly Resource[] = [...small, repaired],
  by = policy,
) {
  const { records, cares } = of(resources, by);
  const reading = draftOrders(
    resources.map((resource) => ({ resource })),
    drafts,
    when.asOf,
  );
  return orderCards({ ...reading, lines: records.lines, cares, when });
}

describe('an order', () => {
  it('that names a held lumen gets the hold with its source', () => {
    const [card, ...others] = ordered([serviceRequest('flush', device('red'))]);
    expect(others).toEqual([]);
    expect(card).toMatchObject({ kind: 'order', urgency: 'warning', line: 'Device/line' });
    expect(card?.summary).toMatch(/^Right arm: Hold: no flush on red until Thu 26 Nov 08:00/);
    expect(JSON.stringify(card?.parts)).toMatch(/ServiceRequest\/draft/);
  });

  it('of a patient with a line whose care could not be worked out gets a card that says so', () => {
    const records = read(...small);
    const broken = Object.defineProperty({ ...policy }, 'rules', {
      get: () => {
        throw new Error('broken');
      },
    });
    const cares = dueCareOfEach(records.lines, broken, when);
    const orders = [{ ref: 'ServiceRequest/draft', activity: 'flush' as const, target: 'Device/red' }];
    const told = orderCards({ orders, notUnderstood: [], lines: records.lines, cares, when });
    expect(told).toMatchObject([{ kind: 'warning', urgency: 'warning', line: 'Device/line' }]);
    expect(told[0]?.summary).toMatch(/^Right arm: .*could not be/);
    expect(orderCards({ orders: [], notUnderstood: [], lines: records.lines, cares, when })).toEqual([]);
  });

  it('against several holds gets a card a source', () => {
    const both = policyOf(
      ...policy.rules,
      rule('Longer rest', forbidAfter('repair', hours(48)), { activity: 'flush', scope: 'lumen' }),
      rule('Cited rest', forbidAfter('repair', hours(24)), {
        activity: 'flush',
        scope: 'lumen',
        citations: [...cited.citations] as never,
      }),
    );
    const cards = ordered([serviceRequest('flush', device('red'))], undefined, both);
    expect(
      cards.map(({ source, parts }) => [source.label, JSON.stringify(parts).match(/Longer|Cited|No flush/g)]),
    ).toEqual([
      ['invented for a test', ['No flush']],
      ['invented for a test', ['Longer']],
      ['Invented leaflet', ['Cited']],
    ]);
  });

  it.each<[string, readonly FhirResource[], (readonly Resource[])?]>([
    ['that names another lumen', [serviceRequest('flush', device('white'))]],
    ['of another activity', [serviceRequest('dressing-change', device('line'))]],
    ['that is over', [serviceRequest('flush', { ...device('red'), status: 'revoked' })]],
    ['where nothing is held', [serviceRequest('flush', device('red')), drug('47625008')], small],
    ['of a drug by mouth', [drug('26643006')]],
    ['of other business', [{ resourceType: 'NutritionOrder', id: 'n', status: 'draft' } as FhirResource]],
  ])('%s gets none', (_, drafts, resources) => {
    expect(ordered(drafts, resources)).toEqual([]);
  });

  it('of a drug by vein, or by a route that is not said, may go through the line: information while another lumen is free', () => {
    for (const one of [drug('47625008'), drug()])
      expect(ordered([one])).toMatchObject([
        {
          urgency: 'info',
          summary: expect.stringMatching(/^If it is to go through Right arm: Hold: no infusion start on red/),
        },
      ]);
    const both = [
      ...small,
      repaired,
      event('repair', '2026-11-25T08:00:00+01:00', { id: 'r2', ...on('white') }),
    ];
    expect(ordered([drug()], both).map(({ urgency }) => urgency)).toContain('warning');
    expect(ordered([drug()], both).map(({ urgency }) => urgency)).not.toContain('info');
  });

  it('that names one line meets no hold of another', () => {
    const second = line('picc', { id: 'second', deviceName: [{ name: 'Second' }] });
    const all = [...small, repaired, second];
    expect(ordered([serviceRequest('flush', device('second'))], all)).toEqual([]);
    expect(ordered([serviceRequest('blood-sampling', device('second'))], all)).toEqual([]);
    expect(ordered([serviceRequest('blood-sampling', device('red'))], all)).toHaveLength(1);
    expect(ordered([serviceRequest('flush')], all)).toHaveLength(1);
  });

  it('that is given anew is read as it is now, not as the record has it', () => {
    const before = serviceRequest('flush', { ...device('white'), status: 'active' }) as unknown as Resource;
    expect(ordered([serviceRequest('flush', device('red'))], [...small, repaired, before])).toHaveLength(1);
  });

  it('without a time, or with one that is long ago, is held against the holds of now', () => {
    const odd = { occurrenceTiming: { repeat: { when: ['HS'] } }, ...device('red') };
    expect(ordered([serviceRequest('flush', odd)])).toHaveLength(1);
  });

  it('that names a line and is not understood says so', () => {
    const [card] = ordered([serviceRequest('flush', { code: { text: 'Spülung' }, ...device('line') })]);
    expect(card).toMatchObject({ kind: 'not-understood', urgency: 'warning' });
    expect(JSON.stringify(card?.parts)).toMatch(/Spülung/);
  });
});
