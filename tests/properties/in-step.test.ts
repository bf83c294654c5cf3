import { dueCare, readRecords } from '@dwellward/core';
import { codeSystem } from '@dwellward/profiles';
import type { Task } from 'fhir/r4.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  charted,
  entriesOf,
  instantText,
  runs,
  units,
  whenOf,
  type Resource,
  type Unit,
} from './generators.js';
import { widePolicy } from './policies.js';
import { askOf, identityOf, isOpen, surplus, sync, TinyServer } from './server.js';

const policy = widePolicy();

/** What happens next in a unit: time goes on, and something is charted, corrected or resulted. */
const steps = fc.array(
  fc.record({
    minutes: fc.integer({ min: 0, max: 3 * 1440 }),
    activity: fc.constantFrom(...charted, 'removal'),
    ago: fc.integer({ min: 0, max: 600 }),
    on: fc.nat(20),
    spoil: fc.option(fc.nat(40), { nil: undefined, freq: 2 }),
    count: fc.option(fc.double({ min: 0, max: 3, noNaN: true }), { nil: undefined }),
  }),
  { minLength: 1, maxLength: 3 },
);
type Step = Parameters<Parameters<typeof steps.map>[0]>[0][number];

function after(unit: Unit, step: Step, i: number): Unit {
  const asOfMs = unit.asOfMs + step.minutes * 60_000;
  const at = instantText(asOfMs - step.ago * 60_000, 60);
  const devices = unit.resources.filter(({ resourceType }) => resourceType === 'Device');
  const device = devices[step.on % devices.length];
  const added: Resource[] = [
    {
      resourceType: 'Procedure',
      id: `step${i}`,
      status: 'completed',
      code: { coding: [{ system: codeSystem.lineCareActivity, code: step.activity }] },
      subject: { reference: 'Patient/p0' },
      performedDateTime: at,
      focalDevice: [{ manipulated: { reference: `Device/${device?.id ?? ''}` } }],
    },
    ...(step.count === undefined
      ? []
      : [
          {
            resourceType: 'Observation',
            id: `count${i}`,
            status: 'final',
            code: { coding: [{ system: 'http://loinc.org', code: '751-8' }] },
            subject: { reference: 'Patient/p0' },
            effectiveDateTime: at,
            valueQuantity: { value: step.count, unit: '10*9/L' },
          },
        ]),
  ];
  const kept = unit.resources.map((one, j) =>
    j === step.spoil && one.resourceType === 'Procedure' ? { ...one, status: 'entered-in-error' } : one,
  );
  return { ...unit, asOfMs, resources: [...kept, ...added] };
}

/** Every moment of a unit, from the first on. */
function history(unit: Unit, all: readonly Step[]): Unit[] {
  return all.reduce<Unit[]>((units, step, i) => [...units, after(units.at(-1)!, step, i)], [unit]);
}

/** Why a Task that a person has taken may be cancelled all the same. */
const gone = ['line-removed', 'line-inserted', 'plan-withdrawn', 'line-not-on-record'];

/** What a person did to a Task meanwhile. */
const touches = fc.array(
  fc.record({
    nth: fc.nat(60),
    status: fc.constantFrom<Task['status']>(
      'accepted',
      'in-progress',
      'completed',
      'rejected',
      'cancelled',
      'failed',
      'on-hold',
    ),
    note: fc.boolean(),
  }),
  { maxLength: 4 },
);

describe('the Tasks on a server', { timeout: 240_000 }, () => {
  it('are in step after one run: a second one writes nothing, at every moment of a record', () => {
    fc.assert(
      fc.property(units, steps, (unit, all) => {
        const server = new TinyServer();
        for (const now of history(unit, all)) {
          sync(server, now.resources, policy, whenOf(now));
          const written = server.written;
          expect(sync(server, now.resources, policy, whenOf(now))).toBeUndefined();
          expect(server.written).toBe(written);
        }
      }),
      runs(0.5),
    );
  });

  it('are one for every open item, and no two are open for one activity and target', () => {
    fc.assert(
      fc.property(units, steps, (unit, all) => {
        const server = new TinyServer();
        for (const now of history(unit, all)) {
          sync(server, now.resources, policy, whenOf(now));
          const { tasks } = server;
          expect(surplus(tasks)).toEqual([]);
          const identities = tasks.map(identityOf);
          expect(new Set(identities).size).toBe(identities.length);
          const wanted = readRecords(entriesOf(now.resources))
            .lines.flatMap((line) => dueCare(line, policy, whenOf(now)).items)
            .map((item) => `${item.id} ${Date.parse(item.opens)} ${Date.parse(item.dueBy)}`)
            .sort();
          const open = tasks
            .filter(({ status }) => status === 'requested')
            .map(
              (task) =>
                `${identityOf(task) ?? ''} ${Date.parse(task.restriction?.period?.start ?? '')} ${Date.parse(task.restriction?.period?.end ?? '')}`,
            )
            .sort();
          // With nothing on record to count from the first answer stands, and its time is not today’s.
          if (!JSON.stringify(tasks).includes('nothing on record')) expect(open).toEqual(wanted);
        }
      }),
      runs(0.5),
    );
  });

  it('keep what people wrote: status, owner and notes of a Task that a person dealt with stay', () => {
    fc.assert(
      fc.property(units, steps, touches, (unit, all, byPeople) => {
        const server = new TinyServer();
        const [first, ...later] = history(unit, all);
        sync(server, first!.resources, policy, whenOf(first!));
        const touched = new Map<string, Task>();
        for (const { nth, status, note } of byPeople) {
          const open = server.tasks.filter((task) => task.status === 'requested');
          const task = open[nth % Math.max(1, open.length)];
          if (!task) continue;
          const mine: Task = {
            ...task,
            status,
            owner: { display: 'a nurse' },
            ...(note ? { note: [...(task.note ?? []), { authorString: 'a nurse', text: 'kept' }] } : {}),
          };
          server.put(mine);
          touched.set(task.id!, mine);
        }
        for (const now of [first!, ...later]) {
          sync(server, now.resources, policy, whenOf(now));
          expect(sync(server, now.resources, policy, whenOf(now))).toBeUndefined();
          expect(surplus(server.tasks)).toEqual([]);
          for (const [id, mine] of touched) {
            const task = server.tasks.find((one) => one.id === id)!;
            expect(task.owner).toEqual({ display: 'a nurse' });
            if (mine.note?.some(({ text }) => text === 'kept'))
              expect(JSON.stringify(task.note)).toContain('kept');
            // What they closed stays as they closed it. What they took is completed by charting the care, and cancelled
            // where there is nothing left to do it to or another stands for it.
            const open = ['accepted', 'in-progress', 'on-hold'].includes(mine.status);
            if (!open || isOpen(task)) expect(task.status).toBe(mine.status);
            else if (task.status === 'completed') expect(task.output).toBeDefined();
            else expect([...gone, 'duplicate']).toContain(task.statusReason?.coding?.[0]?.code);
          }
        }
      }),
      runs(0.25),
    );
  });

  it('A3: ask for every item once, whatever people do to them and whatever is charted, in any order', () => {
    fc.assert(
      fc.property(units, steps, fc.array(touches, { minLength: 4, maxLength: 4 }), (unit, all, byPeople) => {
        const server = new TinyServer();
        for (const [i, now] of history(unit, all).entries()) {
          const when = whenOf(now);
          sync(server, now.resources, policy, when);
          for (const { nth, status, note } of byPeople[i]!) {
            const { tasks } = server;
            const task = tasks[nth % Math.max(1, tasks.length)];
            if (!task) continue;
            const notes = note ? [...(task.note ?? []), { text: `said at ${i}` }] : task.note;
            server.put({ ...task, status, lastModified: when.asOf, ...(notes ? { note: notes } : {}) });
          }
          sync(server, now.resources, policy, when);
          expect(sync(server, now.resources, policy, when)).toBeUndefined();
          const asked = server.tasks.filter(isOpen).map(askOf);
          const wanted = readRecords(entriesOf(now.resources))
            .lines.flatMap((line) => dueCare(line, policy, when).items)
            .map(({ activity, target }) => `${activity} ${target.device}`);
          for (const one of new Set(wanted)) {
            // A line and its only lumen share a Device: as many as there are items, and never more.
            const items = wanted.filter((other) => other === one).length;
            expect(asked.filter((ask) => `${ask} `.startsWith(`${one} `)).length).toBeGreaterThanOrEqual(
              items,
            );
          }
          expect(surplus(server.tasks)).toEqual([]);
        }
      }),
      runs(0.15),
    );
  });

  it('come back in step from any subset of them, and from duplicates', () => {
    fc.assert(
      fc.property(
        units,
        fc.array(fc.nat(60), { maxLength: 6 }),
        fc.array(fc.nat(60), { maxLength: 3 }),
        (unit, kept, doubled) => {
          const full = new TinyServer();
          sync(full, unit.resources, policy, whenOf(unit));
          const tasks = full.tasks;
          fc.pre(tasks.length > 0);
          const server = new TinyServer();
          for (const nth of kept)
            server.put({ ...tasks[nth % tasks.length]!, id: `kept${nth % tasks.length}` });
          for (const nth of doubled) server.put({ ...tasks[nth % tasks.length]!, id: `twin${nth}` });
          sync(server, unit.resources, policy, whenOf(unit));
          expect(surplus(server.tasks)).toEqual([]);
          const open = server.tasks.filter(({ status }) => status === 'requested');
          expect(open.map(identityOf).sort()).toEqual(
            tasks
              .filter(({ status }) => status === 'requested')
              .map(identityOf)
              .sort(),
          );
          expect(sync(server, unit.resources, policy, whenOf(unit))).toBeUndefined();
        },
      ),
      runs(0.5),
    );
  });
});
