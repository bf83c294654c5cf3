// What the software asks of people, in numbers: what nobody can look at any more is not looked at. README.md beside this
// says how it is counted; `burden.test.ts` prints it and holds it to the figures from before.
import {
  Calendar,
  calendarFeed,
  dueCare,
  instantMs,
  readRecords,
  renderTable,
  type LineCare,
  type Records,
  type ResourceEntry,
} from '@dwellward/core';
import { demoInstant, demoUnit, demoZone, isMoment, oneLineSixtyDays } from '@dwellward/fixtures';
import { bundledPlan, readPolicy, type BundledPlanName, type Policy } from '@dwellward/policy';
import type { FhirResource } from 'fhir/r4.js';

/** Sums over lines and days, and over how many line-days they are. */
export interface Burden {
  readonly lineDays: number;
  /** Open care, each item by itself, due within the day or earlier. */
  readonly items: number;
  /** Rows that the table shows for it. */
  readonly rows: number;
  /** Of these, the ones past their time. */
  readonly overdue: number;
  /** Alarms of the calendar file within the day. */
  readonly alarms: number;
  /** Of these, the ones from 22:00 to 07:00. */
  readonly nightAlarms: number;
  /** Words that the table needs. */
  readonly words: number;
}

/** The layers of a ward that receives, keeps and removes lines. */
export const wardLayers = [
  'base',
  'common-practice',
  'preparation',
  'post-insertion',
  'neutropenia',
  'blood-sampling',
  'occlusion',
  'repair-care',
  'trouble',
  'removal',
] as const satisfies readonly BundledPlanName[];

const dayHours = 24;

export function wardPolicy(): Policy {
  const reading = readPolicy(wardLayers.map((name) => bundledPlan(name)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

/** The burden of one day that begins at a moment. */
export function burdenOf(
  records: Records,
  cares: readonly LineCare[],
  when: { readonly asOf: string; readonly zone: string },
): Burden {
  const nowMs = instantMs(when.asOf);
  const untilMs = nowMs + dayHours * 3_600_000;
  const items = cares
    .flatMap((care) => care.items)
    .filter((item) => item.state !== 'upcoming' || instantMs(item.opens) <= untilMs);
  const table = renderTable(records, cares, when, {
    colour: false,
    columns: 0,
    upcomingWithinHours: dayHours,
  });
  const shown = table
    .split('\n')
    .filter((row) => /^ {4}(!!|->|\|\||\.\.) \S/.test(row) && !/ that opens? later| that open /.test(row));
  const calendar = new Calendar(when.zone);
  const alarms = cares.flatMap((care) =>
    alarmsOf(
      calendarFeed(care.items, { stamp: when.asOf, sequence: 0, zone: when.zone, lines: records.lines }),
    ).filter((ms) => nowMs <= ms && ms < untilMs),
  );
  const clockOf = (ms: number) => calendar.text(ms).slice(11, 16);
  return {
    lineDays: cares.filter(({ inPlace }) => inPlace).length,
    items: items.length,
    rows: shown.length,
    overdue: shown.filter((row) => row.startsWith('    !!')).length,
    alarms: alarms.length,
    nightAlarms: alarms.filter((ms) => clockOf(ms) < '07:00' || clockOf(ms) > '22:00').length,
    words: table.split(/\s+/).length,
  };
}

function alarmsOf(feed: string): number[] {
  return [...feed.matchAll(/TRIGGER;VALUE=DATE-TIME:(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z/g)].map(
    ([, year, month, day, hour, minute, second]) =>
      instantMs(`${year}-${month}-${day}T${hour}:${minute}:${second}+00:00`),
  );
}

/** The burden of all days together. */
export function sumOf(all: readonly Burden[]): Burden {
  const sum = (of: keyof Burden) => all.reduce((total, one) => total + one[of], 0);
  return {
    lineDays: sum('lineDays'),
    items: sum('items'),
    rows: sum('rows'),
    overdue: sum('overdue'),
    alarms: sum('alarms'),
    nightAlarms: sum('nightAlarms'),
    words: sum('words'),
  };
}

/** One day of the demo unit, 19 lines. */
export function demoBurden(policy: Policy): Burden {
  const when = { asOf: demoInstant, zone: demoZone };
  const records = readRecords((demoUnit().entry ?? []) as ResourceEntry[]);
  return burdenOf(
    records,
    records.lines.map((line) => dueCare(line, policy, when)),
    when,
  );
}

/** Every day of the story of one line, looked at each morning at 07:00 with what is charted by then. */
export function storyBurden(policy: Policy): Burden {
  const { steps, zone } = oneLineSixtyDays();
  const calendar = new Calendar(zone);
  const [first, last] = [steps[0], steps.at(-1)].map((step) => Date.parse(step?.at ?? ''));
  const days: Burden[] = [];
  for (
    let ms = mornings(calendar, first ?? 0);
    ms < (last ?? 0);
    ms = calendar.add(ms, { value: 1, unit: 'd' })
  ) {
    const record = new Map<string, FhirResource>();
    for (const step of steps)
      if (!isMoment(step) && Date.parse(step.at) <= ms)
        record.set(`${step.resource.resourceType}/${step.resource.id ?? ''}`, step.resource);
    const when = { asOf: calendar.text(ms), zone };
    const records = readRecords([...record.values()].map((resource) => ({ resource })));
    const cares = records.lines.map((line) => dueCare(line, policy, when));
    days.push(burdenOf(records, cares, when));
  }
  return sumOf(days);
}

function mornings(calendar: Calendar, firstMs: number): number {
  return calendar.startOfDay(firstMs) + 7 * 3_600_000;
}

/** The first morning of a line of which nothing is on record: an admission with three lumens. */
export function admissionBurden(policy: Policy): Burden {
  const when = { asOf: '2026-11-25T10:00:00+01:00', zone: 'Europe/Berlin' };
  const base = 'https://dwellward.example/fhir';
  const device = (id: string, more: object) => ({
    resource: { resourceType: 'Device', id, ...more } as FhirResource,
  });
  const lineType = (code: string) => ({ coding: [{ system: `${base}/CodeSystem/line-type`, code }] });
  const records = readRecords([
    { resource: { resourceType: 'Patient', id: 'admitted' } as FhirResource },
    device('admitted-line', {
      type: lineType('tunneled-cvc'),
      patient: { reference: 'Patient/admitted' },
      status: 'active',
    }),
    ...['white', 'red', 'brown'].map((colour) =>
      device(`admitted-${colour}`, {
        type: lineType('lumen'),
        parent: { reference: 'Device/admitted-line' },
        patient: { reference: 'Patient/admitted' },
        status: 'active',
        deviceName: [{ name: colour, type: 'user-friendly-name' }],
      }),
    ),
  ]);
  return burdenOf(
    records,
    records.lines.map((line) => dueCare(line, policy, when)),
    when,
  );
}

/** A burden as one printed line, for each line and day. */
export function burdenText(what: string, { lineDays, ...sums }: Burden): string {
  const each = Object.entries(sums).map(
    ([name, sum]) => `${name} ${(sum / Math.max(1, lineDays)).toFixed(2)}`,
  );
  return `${what}: ${lineDays} line-days; a line and day: ${each.join(', ')}`;
}
