import type { DetectedIssue, FhirResource, Flag, Task } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { berlin, days, event, every, forbidAfter, policyOf, rule } from '../record.kit.js';
import { without } from './parts.js';
import { held, later, outcome, record, sync, when } from './sync.kit.js';

// What people write on what was written here stays.

const daily = policyOf(rule('gauze', every(days(1))));
const stored = <Kind extends FhirResource>(one: Kind, id: string): Kind => ({
  ...one,
  id,
  meta: { versionId: '1' },
});

describe('a note', () => {
  const notesAfter = (task: Task) => outcome(record, [task], when, daily).t1?.note;

  it('A12: without an author stays when the Task is written anew, and only ours is replaced', () => {
    const note = [...held().note!, { text: 'asleep until ten' }];
    expect(notesAfter(held({ note }))).toEqual([
      expect.objectContaining({ authorString: 'Dwellward', text: expect.stringContaining('every day') }),
      { text: 'asleep until ten' },
    ]);
    expect(notesAfter(held({ note: [...note].reverse() }))).toHaveLength(2);
    // Also where a person has taken ours away.
    expect(notesAfter(held({ note: [{ text: 'asleep until ten' }] }))).toHaveLength(2);
  });

  it('T8: with a time and without an author stays, also of a Task whose own note is not signed', () => {
    const timed = { time: '2026-11-25T07:00:00+01:00', text: 'asleep until ten' };
    expect(notesAfter(held({ note: [...held().note!, timed] }))?.at(-1)).toEqual(timed);
    const old = without(held(), 'extension');
    expect(notesAfter({ ...old, note: [timed] })).toEqual([expect.anything(), timed]);
    const unsigned = { text: held().note![0]!.text };
    expect(notesAfter({ ...old, note: [unsigned, timed] })).toEqual([expect.anything(), timed]);
  });
});

describe('an edit of a Task', () => {
  it('A12: stays while the facts are the same, and gives way when they change', () => {
    const edited = held({ priority: 'urgent', description: 'with the mother' });
    expect(sync(record, [edited])).toBeUndefined();
    expect(outcome(record, [edited], later).t1).toMatchObject({
      priority: 'urgent',
      description: 'with the mother',
    });
    expect(outcome(record, [edited], when, daily).t1).toMatchObject({ priority: 'routine' });
  });
});

describe('a Flag and an issue', () => {
  const holding = policyOf(
    rule('no-bath', forbidAfter('repair', { value: 2, unit: 'h' }), { activity: 'bath', scope: 'line' }),
  );
  const repaired = event('repair', '2026-11-25T11:00:00+01:00');
  const lost = event('flush', '2026-11-25T10:00:00+01:00', { id: 'lost', focalDevice: [] });
  const both = [...record, repaired, lost];
  const written = () =>
    (sync(both, [], when, holding)?.entry ?? []).map(({ resource }, i) =>
      stored(resource as FhirResource, `s${i}`),
    ) as [Flag, DetectedIssue];

  it('A12: closed by a person are not opened again for the same facts', () => {
    const [flag, issue] = written();
    const closed = [
      { ...flag, status: 'inactive' as const },
      { ...issue, status: 'cancelled' as const },
    ];
    expect(sync(both, closed, when, holding)).toBeUndefined();
  });

  it('A12: edited by a person keep the edit for as long as the facts are the same', () => {
    const [flag, issue] = written();
    const edited = [
      { ...flag, code: { ...flag.code, text: 'see the ward sister' } },
      { ...issue, severity: 'low' as const, mitigation: [{ action: { text: 'rang the ward' } }] },
    ];
    expect(sync(both, edited, when, holding)).toBeUndefined();
  });

  it('A12: closed by a person are opened again when the facts are others', () => {
    const [flag, issue] = written();
    const moved = { ...repaired, performedDateTime: '2026-11-25T11:30:00+01:00' };
    const entries = sync(
      [...record, moved, lost],
      [{ ...flag, status: 'inactive' as const }, issue],
      when,
      holding,
    )?.entry;
    expect(entries?.map(({ resource }) => [resource?.resourceType, (resource as Flag).status])).toEqual([
      ['Flag', 'active'],
    ]);
  });

  it('A12: closed here come back when they hold again, with what others added', () => {
    const [flag, issue] = written();
    const extra = { url: 'https://other.example/colour', valueString: 'red' };
    const over = berlin('2026-11-25T14:00:00+01:00');
    const closed = (
      sync(record, [{ ...flag, extension: [...flag.extension!, extra] }, issue], over, holding)?.entry ?? []
    ).map(({ resource }) => resource as FhirResource);
    expect(closed.map((one) => (one as Flag).status)).toEqual(['inactive', 'cancelled']);
    const again = (sync(both, closed, when, holding)?.entry ?? []).map(({ resource }) => resource as Flag);
    expect(again.map(({ status }) => status)).toEqual(['active', 'final']);
    expect(again[0]?.extension).toContainEqual(extra);
  });
});
