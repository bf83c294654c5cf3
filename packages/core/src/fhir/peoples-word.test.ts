import type { DetectedIssue, FhirResource, Task } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { berlin, days, dressing, event, every, onFinding, finding, policyOf, rule } from '../record.kit.js';
import { changed, done, held, later, outcome, record, sync, when } from './sync.kit.js';

// What is asked for after a person has closed a Task and nothing was charted.

const endOf = (task: Task | undefined) => task?.restriction?.period?.end;
/** The Task as a person closed it, at a time of its own. */
const closedBy = (status: Task['status'], at: string, more: Partial<Task> = {}): Task =>
  held({ status, lastModified: at, ...more });
const stored = (task: Task | undefined, id: string): Task => ({ ...task!, id, meta: { versionId: '1' } });
const issuesOf = (...given: Parameters<typeof sync>) =>
  (sync(...given)?.entry ?? []).flatMap(({ resource }) =>
    resource?.resourceType === 'DetectedIssue' ? [resource as DetectedIssue] : [],
  );
const codesOf = (issues: readonly DetectedIssue[]) => issues.map(({ code }) => code?.coding?.[0]?.code);

describe('a Task that a person marked as done, with nothing charted', () => {
  const marked = closedBy('completed', '2026-11-25T10:00:00+01:00');

  it('A2: the care is asked for again at its next interval, counted from when the Task was closed', () => {
    const { t1, others } = outcome(record, [marked]);
    expect(t1).toBeUndefined();
    expect(others.map(({ status }) => status)).toEqual(['requested']);
    expect(endOf(others[0])).toBe('2026-11-27T10:00:00+01:00');
    expect(others[0]?.identifier).not.toEqual(marked.identifier);
    expect(others[0]?.note?.[0]?.text).toContain('was marked as done on');
    // And a second run writes nothing.
    const next = stored(others[0], 't2');
    expect(outcome(record, [marked, next]).written).toEqual([]);
  });

  it('A2: an issue says that nothing was charted, until something is', () => {
    const [issue, ...more] = issuesOf(record, [marked]);
    expect(codesOf([issue!])).toEqual(['done-not-charted']);
    expect(more).toEqual([]);
    expect(issue).toMatchObject({ implicated: [{ reference: 'Task/t1' }, { reference: 'Device/line' }] });
    expect(issue?.detail).toContain('nothing was charted');
    const there = { ...issue!, id: 'i', meta: { versionId: '1' } } as FhirResource;
    const [closed] = issuesOf([...record, done], [marked, there]);
    expect(closed?.status).toBe('cancelled');
  });

  it('A2: never later than had it been charted: its own end counts before the time of the last change', () => {
    const early = { ...marked, executionPeriod: { end: '2026-11-25T08:30:00+01:00' } };
    expect(endOf(outcome(record, [early]).others[0])).toBe('2026-11-27T08:30:00+01:00');
    const future = { ...marked, executionPeriod: { end: '2026-12-24T08:30:00+01:00' } };
    expect(endOf(outcome(record, [future]).others[0])).toBe('2026-11-27T12:00:00+01:00');
    const edited = closedBy('completed', '2026-11-25T11:00:00+01:00', {
      meta: { versionId: '5', lastUpdated: '2026-11-25T10:15:00+01:00' },
    });
    expect(endOf(outcome(record, [edited]).others[0])).toBe('2026-11-27T10:15:00+01:00');
  });

  it('A2: what was put on is not known of it and takes the protective reading', () => {
    const by = policyOf(
      rule('weekly', every(days(7))),
      rule('gauze', every(days(2)), { when: "%line.dressing = 'gauze-dressing'" }),
    );
    const transparent = [...record.slice(0, 3), { ...changed, ...dressing('transparent-dressing') }];
    const open = outcome(transparent, [], when, by).others[0];
    expect(endOf(open)).toBe('2026-12-01T08:00:00+01:00');
    const at = '2026-11-25T10:00:00+01:00';
    const ended = (status: Task['status']) => ({ ...stored(open, 't1'), status, lastModified: at });
    const next = (status: Task['status']) => endOf(outcome(transparent, [ended(status)], when, by).others[0]);
    expect(next('completed')).toBe('2026-11-27T10:00:00+01:00');
    // One that was turned down leaves in place what was there.
    expect(next('rejected')).toBe('2026-12-02T10:00:00+01:00');
  });

  it('A2: the event that is charted late meets the first, and the one after it goes on as the next', () => {
    const next = stored(outcome(record, [marked]).others[0], 't2');
    const { t1, others } = outcome([...record, done], [marked, next]);
    expect(t1).toBeUndefined();
    expect(others).toMatchObject([
      { id: 't2', status: 'requested', restriction: { period: { end: '2026-11-27T09:00:00+01:00' } } },
    ]);
    expect(outcome([...record, done], [marked, stored(others[0], 't2')]).written).toEqual([]);
  });

  it('A2: what is done in the window of the next one meets that', () => {
    const next = stored(outcome(record, [marked]).others[0], 't2');
    const third = event('dressing-change', '2026-11-27T09:00:00+01:00', { id: 'third' });
    const at = berlin('2026-11-27T09:30:00+01:00');
    const { others } = outcome([...record, third], [marked, next], at);
    expect(others.map(({ id, status }) => [id, status])).toEqual([
      [undefined, 'requested'],
      ['t2', 'completed'],
    ]);
  });

  it('A2: again and again: each is asked for after the one before, and the issue counts them', () => {
    const second = {
      ...stored(outcome(record, [marked]).others[0], 't2'),
      status: 'completed' as const,
      lastModified: '2026-11-27T10:00:00+01:00',
    };
    const at = berlin('2026-11-27T12:00:00+01:00');
    const { others } = outcome(record, [marked, second], at);
    expect(others.map(endOf)).toEqual(['2026-11-29T10:00:00+01:00']);
    const issues = issuesOf(record, [marked, second], at);
    expect(codesOf(issues)).toEqual(['done-not-charted']);
    expect(issues[0]?.detail).toContain('nor for 1 before it');
    expect(outcome(record, [marked, second, stored(others[0], 't3')], at).written).toEqual([]);
  });
});

describe('a Task that a person turned down', () => {
  it.each(['rejected', 'cancelled', 'failed', 'entered-in-error'] as const)(
    'A2: %s: it comes back at its next window and never ends the care',
    (status) => {
      const turned = closedBy(status, '2026-11-25T10:00:00+01:00');
      const { t1, others } = outcome(record, [turned]);
      expect(t1).toBeUndefined();
      expect(others).toMatchObject([
        { status: 'requested', restriction: { period: { end: '2026-11-27T10:00:00+01:00' } } },
      ]);
      expect(others[0]?.note?.[0]?.text).toContain('was turned down on');
      expect(issuesOf(record, [turned])).toEqual([]);
      expect(outcome(record, [turned, stored(others[0], 't2')], later).written).toEqual([]);
    },
  );

  it('A2: one that the policy has no next time for is back the next day', () => {
    const by = policyOf(rule('damp', onFinding('dressing-condition', ['damp'])));
    const seen = finding('dressing-condition', 'damp', '2026-11-25T08:30:00+01:00', { id: 'seen' });
    const open = outcome([...record, seen], [], when, by).others[0];
    const turned = {
      ...stored(open, 't1'),
      status: 'rejected' as const,
      lastModified: '2026-11-25T10:00:00+01:00',
    };
    const { others } = outcome([...record, seen], [turned], when, by);
    expect(others.map(endOf)).toEqual(['2026-11-26T10:00:00+01:00']);
    // A new finding does not wait for it.
    const again = finding('dressing-condition', 'damp', '2026-11-25T11:00:00+01:00', { id: 'again' });
    expect(outcome([...record, seen, again], [turned], when, by).others.map(endOf)).toEqual([
      '2026-11-25T11:00:00+01:00',
    ]);
  });

  it('A2: one whose words say something else now is known by its identity', () => {
    const turned = closedBy('rejected', '2026-11-25T10:00:00+01:00', { code: { text: 'not today' } });
    const { others } = outcome(record, [turned]);
    expect(others.map(endOf)).toEqual(['2026-11-27T10:00:00+01:00']);
    expect(others[0]?.identifier).not.toEqual(turned.identifier);
  });

  it('A2: of one that was closed before the care was last done nothing follows', () => {
    const next = { ...stored(outcome([...record, done], [held()]).others[0], 't2') };
    const turned = { ...next, status: 'rejected' as const, lastModified: '2026-11-25T08:00:00+01:00' };
    const { others } = outcome([...record, done], [turned]);
    expect(others.map(endOf)).toEqual(['2026-11-27T09:00:00+01:00']);
    expect(others[0]?.identifier).not.toEqual(turned.identifier);
  });
});
