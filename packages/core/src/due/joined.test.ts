import { bundledPlan, defaultPolicy, readPolicy, type BundledPlanName } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { priorityOf } from '../rules/priority.js';
import { renderTable } from '../table/render-table.js';
import { dueCare } from './due-care.js';
import {
  berlin,
  care,
  event,
  every,
  finding,
  hours,
  itemOf,
  line,
  onFinding,
  patient,
  policyOf,
  read,
  rule,
  said,
  type Resource,
} from '../record.kit.js';

const inserted = event('insertion', '2026-10-01T10:00:00+01:00');
const when = berlin('2026-11-25T12:00:00+01:00');
const at = '2026-11-25T11:00:00+01:00';

function layers(...names: BundledPlanName[]) {
  const reading = readPolicy(names.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

const work = (
  steps: readonly string[],
  cautions: readonly string[] = [],
  supplies: readonly string[] = [],
) => ({
  computed: [],
  steps: steps.map((step) => [step]),
  supplies,
  cautions,
});

const site = (part: string, time: string): Resource =>
  finding('exit-site', '', time, {
    id: `exit-site-${part}`,
    valueCodeableConcept: undefined,
    component: [{ code: { coding: [{ code: part }] }, valueBoolean: true }],
  });

describe('rules that ask for one thing at one time', () => {
  it('C13: of these the more pressing wins, whatever their ids and intervals', () => {
    const pressing = rule('z-pressing', onFinding('exit-site'), { priority: 'asap' });
    const plain = rule('a-plain', onFinding('exit-site'), { priority: 'urgent' });
    const item = itemOf([patient(), line(), inserted, site('pus', at)], policyOf(plain, pressing), when);
    expect(item.rule.id).toBe('z-pressing');
    const daily = rule('daily', every(hours(1)), { priority: 'routine' });
    const sameTime = rule('weekly', every(hours(2)), { priority: 'urgent' });
    const both = [
      patient(),
      line(),
      event('insertion', '2026-11-25T10:00:00+01:00'),
      event('dressing-change', '2026-11-25T11:00:00+01:00'),
    ];
    expect(itemOf(both, policyOf(daily, sameTime), when).rule.id).toBe('daily');
    expect(priorityOf(itemOf(both, policyOf(daily, sameTime), when))).toBe('urgent');
  });

  it.each(['the same minute', 'a later minute'])(
    'C13: signs along the tunnel are not hidden behind those of the exit site of %s',
    (which) => {
      const tunnel = finding(
        'tunnel-signs',
        'present',
        which === 'the same minute' ? at : '2026-11-25T11:20:00+01:00',
      );
      const resources = [patient(), line(), inserted, site('redness', at), tunnel];
      const { items } = care(resources, defaultPolicy(), when);
      const found = items.filter(
        ({ activity, target }) => activity === 'infection-sign-response' && target.scope === 'exit-site',
      );
      expect(found).toHaveLength(1);
      const [item] = found;
      expect(priorityOf(item!)).toBe('asap');
      const titles = [item!.rule.title, ...said(item!.remarks)].join(' ');
      expect(titles).toContain('Signs of infection along the tunnel');
      expect(titles).toContain('Signs of infection at the exit site');
      const records = read(...resources);
      const cares = records.lines.map((one) => dueCare(one, defaultPolicy(), when));
      const table = renderTable(records, cares, when, { colour: false, columns: 0 });
      expect(table).toContain('Signs of infection along the tunnel');
    },
  );

  it('C13: their steps, supplies and cautions are joined, the winner’s first, none twice, each with its rule', () => {
    const policy = policyOf(
      rule('first', onFinding('exit-site'), {
        priority: 'asap',
        work: work(['Look.', 'Call.'], ['Mind this.'], ['gloves']),
      }),
      rule('second', onFinding('exit-site'), {
        priority: 'urgent',
        work: work(['Call.', 'Measure.'], ['Mind this.', 'And that.'], ['ruler', 'gloves']),
      }),
    );
    const item = itemOf([patient(), line(), inserted, site('pus', at)], policy, when);
    const texts = item.work.map(({ kind, text, of }) => [kind, ...said([text]), of?.id]);
    expect(texts).toEqual([
      ['step', 'Look.', undefined],
      ['step', 'Call.', undefined],
      ['step', 'Measure.', 'second'],
      ['supply', 'gloves', undefined],
      ['supply', 'ruler', 'second'],
      ['caution', 'Mind this.', undefined],
      ['caution', 'And that.', 'second'],
    ]);
  });

  it('C13: what a rule says for later is no step of now, and its cautions are minded all the same', () => {
    const policy = policyOf(
      rule('soon', every(hours(2)), { work: work(['Look.']) }),
      rule('later', every(hours(48)), { work: work(['After two days, cut.'], ['Not more than 2 mL.']) }),
    );
    const item = itemOf([patient(), line(), event('insertion', '2026-11-25T11:00:00+01:00')], policy, when);
    expect(item.rule.id).toBe('soon');
    expect(item.work.map(({ kind, text }) => [kind, ...said([text])])).toEqual([
      ['step', 'Look.'],
      ['caution', 'Not more than 2 mL.'],
    ]);
  });

  it('C13: an infant’s limits stand on the lock that the rule of adults has due', () => {
    const newborn = [
      patient({ birthDate: '2026-11-10' }),
      line('nontunneled-cvc'),
      event('insertion', '2026-11-20T10:00:00+01:00'),
      event('lock', '2026-11-24T13:00:00+01:00'),
    ];
    const { rules } = layers('base', 'infant');
    const ofAdults = rule('lock-of-adults', every(hours(24)), { activity: 'lock', scope: 'lumen' });
    const { items } = care(newborn, policyOf(...rules, ofAdults), when);
    const lock = items.find(({ activity }) => activity === 'lock');
    expect(lock!.rule.id).toBe('lock-of-adults');
    const neonate = [lock!.rule, ...lock!.others.map((one) => one.rule)].find(
      ({ id }) => id === 'lock-neonate',
    );
    expect(neonate!.work.cautions.length).toBeGreaterThan(1);
    const cautions = lock!.work.flatMap(({ kind, text }) => (kind === 'caution' ? said([text]) : []));
    for (const caution of neonate!.work.cautions) expect(cautions).toContain(caution);
  });
});

describe('what is to be done as soon as possible', () => {
  it('C14: a line put in without asepsis is due for replacement at once, by 48 hours at the latest, and shown', () => {
    const resources = [
      patient(),
      line(),
      event('insertion', '2026-11-25T10:00:00+01:00'),
      finding('aseptic-insertion', '', '2026-11-25T10:30:00+01:00', {
        valueCodeableConcept: undefined,
        valueBoolean: false,
      }),
    ];
    const { items } = care(resources, defaultPolicy(), when);
    const removal = items.find(({ activity }) => activity === 'removal');
    expect(removal).toMatchObject({
      state: 'due',
      dueBy: '2026-11-27T10:00:00+01:00',
      rule: { priority: 'asap' },
    });
    const records = read(...resources);
    const cares = records.lines.map((one) => dueCare(one, defaultPolicy(), when));
    const table = renderTable(records, cares, when, { colour: false, columns: 0, upcomingWithinHours: 12 });
    expect(table).toMatch(/-> due +Fri 27 Nov 10:00 .*Removal/);
  });
});
