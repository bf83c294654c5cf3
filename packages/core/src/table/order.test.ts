import { expect, it } from 'vitest';
import { handover } from '../handover/index.js';
import {
  berlin,
  care,
  days,
  event,
  every,
  finding,
  line,
  onFinding,
  patient,
  policyOf,
  readLine,
  rule,
} from '../record.kit.js';
import { renderTable } from './render-table.js';

// What is more pressing stands first, whatever the time: a routine item of last week above a fever helps nobody.
const at = (time: string) => `2026-11-25T${time}:00+01:00`;
const resources = [
  patient(),
  line(),
  event('insertion', '2026-11-01T10:00:00+01:00'),
  finding('fever', 'present', at('11:00')),
  finding('migration', 'present', at('10:00')),
  finding('bleeding', 'present', at('11:30')),
];
const policy = policyOf(
  rule('weekly', every(days(7)), { activity: 'necessity-review', scope: 'line' }),
  rule('soon', onFinding('fever'), { activity: 'fever-response', scope: 'line', priority: 'asap' }),
  rule('next', onFinding('migration'), { activity: 'migration-response', scope: 'line', priority: 'urgent' }),
  rule('first', onFinding('bleeding'), { activity: 'bleeding-response', scope: 'line', priority: 'stat' }),
  rule('later', every(days(60)), { activity: 'securement-change', scope: 'line', priority: 'urgent' }),
);
const when = berlin(at('12:00'));
const records = {
  lines: [readLine(...resources)],
  issues: [],
  notUnderstood: [],
  otherBusiness: [],
  unitStays: [],
};
const cares = [care(resources, policy, when)];
const order = ['Bleeding response', 'Fever response', 'Migration response', 'Necessity review'];

it('in the table emergencies, then what is pressing, then the rest; what is still to come last', () => {
  const table = renderTable(records, cares, when, { colour: false, columns: 0 });
  const places = [...order, 'Securement change'].map((text) => table.indexOf(text));
  expect(places).not.toContain(-1);
  expect(places).toEqual([...places].sort((a, b) => a - b));
});

it('in the hand-over likewise', () => {
  const { patients } = handover(records, cares, policy, {
    from: at('12:00'),
    to: at('20:00'),
    zone: 'Europe/Berlin',
  });
  const [own] = patients.flatMap(({ lines }) => lines);
  expect(own?.overdue.map(({ activity }) => activity)).toEqual([
    'bleeding-response',
    'fever-response',
    'migration-response',
    'necessity-review',
  ]);
});
