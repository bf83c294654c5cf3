import { dueCare, readRecords, type LineCare } from '@dwellward/core';
import { readPolicy, type Policy } from '@dwellward/policy';
import { codeSystem, coding, policyExtension } from '@dwellward/profiles';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { instantText, runs, zones, type Resource } from './generators.js';

const minute = 60_000;
const hour = 60 * minute;

interface Timing {
  readonly offsetHours: number;
  readonly timesOfDay?: readonly string[];
}

function policyOf({ offsetHours, timesOfDay }: Timing): Policy {
  const code = (activity: 'insertion' | 'bath') => [{ coding: [coding('lineCareActivity', activity)] }];
  const reading = readPolicy([
    {
      resourceType: 'PlanDefinition',
      url: 'https://ward.example/PlanDefinition/before',
      version: '1',
      status: 'active',
      title: 'Before',
      action: [
        {
          id: 'in',
          code: code('insertion'),
          trigger: [
            {
              type: 'data-added',
              data: [
                {
                  type: 'ServiceRequest',
                  codeFilter: [{ path: 'code', code: [coding('lineCareActivity', 'insertion')] }],
                },
              ],
            },
          ],
        },
        {
          id: 'wash',
          code: code('bath'),
          extension: [{ url: policyExtension.ruleLead, valueDuration: { value: 4, code: 'h' } }],
          relatedAction: [
            {
              actionId: 'in',
              relationship: 'before-start',
              offsetDuration: { value: offsetHours, code: 'h' },
            },
          ],
          ...(timesOfDay ? { timingTiming: { repeat: { timeOfDay: timesOfDay } } } : {}),
        },
      ],
    },
  ]);
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

const subject = { reference: 'Patient/p' };
const request = (plannedMs: number): Resource => ({
  resourceType: 'ServiceRequest',
  id: 'plan',
  status: 'active',
  intent: 'order',
  code: { coding: [{ system: codeSystem.lineCareActivity, code: 'insertion' }] },
  subject,
  occurrenceDateTime: instantText(plannedMs),
});
const wash = (ms: number): Resource => ({
  resourceType: 'Procedure',
  id: 'wash',
  status: 'completed',
  code: { coding: [{ system: codeSystem.lineCareActivity, code: 'bath' }] },
  subject,
  basedOn: [{ reference: 'ServiceRequest/plan' }],
  performedDateTime: instantText(ms),
});

const careAt = (asOfMs: number, zone: string, policy: Policy, ...resources: Resource[]): LineCare =>
  readRecords(resources.map((resource) => ({ resource }))).lines.map((line) =>
    dueCare(line, policy, { asOf: instantText(asOfMs), zone }),
  )[0]!;
const dueMs = (care: LineCare) => Temporal.Instant.from(care.items[0]!.dueBy).epochMilliseconds;

// Around the clock changes of autumn and spring in the zones, and on plain days.
const planned = fc
  .tuple(
    fc.constantFrom('2026-03-29', '2026-04-05', '2026-10-25', '2026-11-01', '2026-10-04', '2026-11-25'),
    fc.integer({ min: -36 * 60, max: 60 * 60 }),
  )
  .map(([day, minutes]) => Date.parse(`${day}T00:00:00Z`) + minutes * minute);
const offsets = fc.integer({ min: 1, max: 72 });
const clocks = fc.uniqueArray(
  fc.tuple(fc.nat(23), fc.constantFrom('00', '30')).map(([h, m]) => `${String(h).padStart(2, '0')}:${m}:00`),
  { minLength: 1, maxLength: 3 },
);

describe('care before a planned insertion', () => {
  it('is due exactly its offset before', () => {
    fc.assert(
      fc.property(planned, fc.constantFrom(...zones), offsets, (at, zone, offsetHours) => {
        const care = careAt(at - 100 * hour, zone, policyOf({ offsetHours }), request(at));
        expect(dueMs(care)).toBe(at - offsetHours * hour);
      }),
      runs(),
    );
  });

  it('with times of day is due at the last of them that is so early', () => {
    fc.assert(
      fc.property(
        planned,
        fc.constantFrom(...zones),
        offsets,
        clocks,
        (at, zone, offsetHours, timesOfDay) => {
          const care = careAt(at - 200 * hour, zone, policyOf({ offsetHours, timesOfDay }), request(at));
          const due = dueMs(care);
          const latest = at - offsetHours * hour;
          expect(due).toBeLessThanOrEqual(latest);
          // A day has up to 25 hours, and none of the times lies between the answer and the latest moment.
          expect(latest - due).toBeLessThan(25 * hour + 1);
          const day = Temporal.Instant.fromEpochMilliseconds(due).toZonedDateTimeISO(zone).toPlainDate();
          const slots = [0, 1, 2].flatMap((days) =>
            timesOfDay.map(
              (plainTime) =>
                day.add({ days }).toZonedDateTime({ timeZone: zone, plainTime }).epochMilliseconds,
            ),
          );
          expect(slots).toContain(due);
          expect(slots.filter((slot) => slot > due && slot <= latest)).toEqual([]);
        },
      ),
      runs(),
    );
  });

  it('never becomes due earlier when the insertion is put off', () => {
    fc.assert(
      fc.property(
        planned,
        fc.integer({ min: 0, max: 96 * 60 }),
        fc.constantFrom(...zones),
        offsets,
        fc.option(clocks, { nil: undefined }),
        (at, later, zone, offsetHours, timesOfDay) => {
          const policy = policyOf({ offsetHours, ...(timesOfDay ? { timesOfDay } : {}) });
          const asOf = at - 200 * hour;
          const before = dueMs(careAt(asOf, zone, policy, request(at)));
          expect(dueMs(careAt(asOf, zone, policy, request(at + later * minute)))).toBeGreaterThanOrEqual(
            before,
          );
        },
      ),
      runs(),
    );
  });

  it('is met by what was done from the moment its window opens, and by nothing before', () => {
    fc.assert(
      fc.property(
        planned,
        fc.integer({ min: -12 * 60, max: 4 * 60 }),
        fc.constantFrom(...zones),
        (at, minutes, zone) => {
          const policy = policyOf({ offsetHours: 6 });
          const opens = at - 10 * hour;
          const doneMs = opens + minutes * minute;
          const care = careAt(at - minute, zone, policy, request(at), wash(doneMs));
          expect(care.items.length).toBe(minutes < 0 ? 1 : 0);
        },
      ),
      runs(),
    );
  });
});
