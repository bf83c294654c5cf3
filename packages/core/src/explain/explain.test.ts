import { describe, expect, it } from 'vitest';
import { scheduleText, type Policy } from '@dwellward/policy';
import {
  said,
  afterEvent,
  berlin,
  care,
  days,
  event,
  every,
  finding,
  forbidAfter,
  hours,
  itemOf,
  line,
  neutrophils,
  onFinding,
  patient,
  policyOf,
  type Resource,
  rule,
} from '../record.kit.js';
import { explain, planOf, ruleUri } from './explain.js';

const when = berlin('2026-11-25T12:00:00+01:00');
const inserted = event('insertion', '2026-11-20T09:00:00+01:00', { id: 'in' });
const changed = event('dressing-change', '2026-11-24T10:00:00+01:00', { id: 'change' });
const base = [patient(), line(), inserted];
const gauze = rule('Gauze', every(days(2)), {
  citations: [{ text: 'A guideline, 2021.', certainty: 'seen' }],
});

const explained = (resources: readonly Resource[], policy: Policy) =>
  explain(itemOf(resources, policy, when), policy);
const sentence = (resources: readonly Resource[], policy: Policy) =>
  said([explained(resources, policy).sentence]).join();

describe('the sentence', () => {
  it('names the rule, its interval, what it counts from, the time and the source', () => {
    expect(sentence([...base, changed], policyOf(gauze))).toBe(
      'Gauze (every 2 days), counted from the last time on Tue 24 Nov 2026 10:00 (Procedure/change): due by Thu 26 Nov 2026 10:00. Source: A guideline, 2021.',
    );
  });

  it.each([
    ['the insertion', base, 'counted from the insertion on Fri 20 Nov 2026 09:00 (Procedure/in)'],
    [
      'the earliest event',
      [patient(), line(), event('flush', '2026-11-21T09:00:00+01:00', { id: 'flush' })],
      'counted from the earliest event on record on Sat 21 Nov 2026 09:00 (Procedure/flush)',
    ],
    ['nothing', [patient(), line()], 'with nothing on record to count from: due now.'],
    [
      'a day',
      [...base, event('dressing-change', '2026-11-24', { id: 'change' })],
      'counted from the last time on 24 Nov 2026, no exact time (Procedure/change): due by Thu 26 Nov 2026 00:00. Counted from the start of 24 Nov 2026: the record gives no exact time.',
    ],
  ] as const)('says that it counts from %s', (_, resources, text) => {
    expect(sentence(resources, policyOf(gauze))).toContain(text);
  });

  it('says since which finding, and after which event of a chain', () => {
    const damp = policyOf(gauze, rule('Damp', onFinding('dressing-condition', ['damp'])));
    const seen = finding('dressing-condition', 'damp', '2026-11-25T08:00:00+01:00', { id: 'seen' });
    expect(sentence([...base, changed, seen], damp)).toContain(
      'since the finding on Wed 25 Nov 2026 08:00 (Observation/seen): due by Wed 25 Nov 2026 08:00.',
    );
    const splint = policyOf(
      rule('Splint', afterEvent('repair', hours(48)), { activity: 'splint-removal', scope: 'line' }),
    );
    expect(
      sentence([...base, event('repair', '2026-11-24T10:00:00+01:00', { id: 'repair' })], splint),
    ).toContain(
      'counted from the event before it on Tue 24 Nov 2026 10:00 (Procedure/repair): due by Thu 26 Nov 2026 10:00.',
    );
  });

  it('names the result that moved it', () => {
    const daily = rule('Daily', every(days(1)), { when: "%labs.anc < 0.2 '10*9/L'" });
    const low = neutrophils(0.1, '2026-11-25T11:00:00+01:00', { id: 'low' });
    const normal = neutrophils(2, '2026-11-23T06:00:00+01:00');
    const text = sentence([...base, changed, normal, low], policyOf(gauze, daily));
    expect(text).toContain(', moved by Observation/low: due by Wed 25 Nov 2026 11:00.');
    expect(text).toContain('The rule has applied since Wed 25 Nov 2026 11:00.');
  });
});

describe('the explanation', () => {
  const daily = rule('Daily', every(days(1)), { when: "%labs.anc < 0.2 '10*9/L'" });
  const low = neutrophils(0.1, '2026-11-24T06:00:00+01:00', { id: 'low' });

  it('has the rule with its condition, layer and plan, the facts with their resources, and the other rules', () => {
    const one = explained([...base, changed, low], policyOf(gauze, daily));
    expect({ ...one.rule, schedule: said([one.rule.schedule]).join() }).toEqual({
      id: 'Daily',
      title: 'Daily',
      schedule: 'every day',
      condition: { code: 'condition', meaning: "%labs.anc < 0.2 '10*9/L'" },
      expression: "%labs.anc < 0.2 '10*9/L'",
      layer: 'Test',
      plan: 'https://test.example/PlanDefinition/test|1',
    });
    expect(one.facts).toMatchObject([{ fact: 'labs.anc', value: '0.1 10*9/L', refs: ['Observation/low'] }]);
    expect(one.others).toEqual([{ id: 'Gauze', title: 'Gauze', dueBy: '2026-11-26T10:00:00+01:00' }]);
    expect(one.sources).toEqual([{ text: 'invented for a test', certainty: 'common-practice' }]);
  });

  it('says what would change it: the care, the end of the condition, and the rules that would come in', () => {
    const { wouldChange } = explained(
      [...base, changed, low],
      policyOf(
        gauze,
        daily,
        rule('Healed', every(days(7)), { when: '%latest.incisionHealed', whenUnknown: 'default' }),
      ),
    );
    expect(said(wouldChange)).toEqual([
      'Dressing change charted as completed on the exit site: this item is met and the next one counts from there.',
      'Without “Daily”, which applies while the neutrophil count is below 0.2 10^9/L: “Gauze” would have it due by Thu 26 Nov 2026 10:00.',
      '“Healed” would come in if the latest answer to “incision healed” is yes: every 7 days.',
    ]);
  });

  it('says that no other rule would ask, where none would', () => {
    const { wouldChange } = explained([...base, changed, low], policyOf(daily));
    expect(said(wouldChange)[1]).toBe(
      'Without “Daily”, which applies while the neutrophil count is below 0.2 10^9/L: no other rule would ask for it now.',
    );
  });

  it('of an item that is held says when it may be done', () => {
    const hold = rule('Rest', forbidAfter('repair', hours(50)));
    const one = explained(
      [...base, changed, event('repair', '2026-11-25T11:00:00+01:00')],
      policyOf(gauze, hold),
    );
    expect(said(one.wouldChange)).toContain('When the hold “Rest” ends, it may be done.');
    expect(said(one.remarks).join(' ')).toContain(
      'Held until Fri 27 Nov 2026 13:00 (Rest). It was due by Thu 26 Nov 2026 10:00.',
    );
  });

  it('says which reading was taken of what is not known', () => {
    const one = explained([...base, changed], policyOf(daily));
    expect(said(one.remarks)).toContain('Not known: the neutrophil count. The protective reading is taken.');
    expect(one.facts).toMatchObject([{ fact: 'labs.anc', value: 'unknown', refs: [] }]);
  });

  it('gives a schedule in the words of the policy', () => {
    expect(said([explained([...base, changed], policyOf(gauze)).rule.schedule]).join()).toBe(
      scheduleText(gauze),
    );
  });
});

describe('the canonical of a rule', () => {
  it('is its plan with the version, and the action', () => {
    expect(planOf(gauze)).toBe('https://test.example/PlanDefinition/test|1');
    expect(ruleUri(gauze)).toBe('https://test.example/PlanDefinition/test|1#Gauze');
    expect(planOf({ ...gauze, origin: { ...gauze.origin, version: '' } })).toBe(
      'https://test.example/PlanDefinition/test',
    );
    expect(ruleUri({ ...gauze, origin: { ...gauze.origin, order: 'ServiceRequest/1' } })).toBe(
      'ServiceRequest/1',
    );
  });
});

describe('the lumen that an item is about', () => {
  const flush = policyOf(rule('flush', every(days(7)), { activity: 'flush', scope: 'lumen' }));
  const blocked = finding('blood-return', 'none', '2026-11-25T09:00:00+01:00', { id: 'none' });

  it('is told with its state and what tells of it', () => {
    const { items, lumens } = care([...base, blocked], flush, when);
    expect(explain(items[0]!, flush, lumens).lumen).toMatchObject({
      state: 'blocked',
      since: '2026-11-25T09:00:00+01:00',
      because: ['Observation/none'],
    });
  });

  it('is left out where the item is not about one, or no states are given', () => {
    const site = policyOf(gauze);
    const { items, lumens } = care([...base, blocked], site, when);
    expect(explain(items[0]!, site, lumens)).not.toHaveProperty('lumen');
    expect(explained([...base, blocked], flush)).not.toHaveProperty('lumen');
  });
});
