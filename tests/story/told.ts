import { allIssues, dueCare, readRecords, type LineCare, type Records, type Target } from '@dwellward/core';
import type { Moment, Story } from '@dwellward/fixtures';
import { findingRow } from '@dwellward/profiles';
import { bundledPlan, readPolicy, type BundledPlanName, type Policy, type Rule } from '@dwellward/policy';
import type { FhirResource } from 'fhir/r4.js';

/** What a moment tells, in the words in which the story expects it. */
export interface Told {
  readonly dueList: readonly string[];
  readonly holds: readonly string[];
  readonly warnings: readonly string[];
  /** Items that are still to come, all of them. */
  readonly next: readonly string[];
  /** What the items carry, all of it that is a number. */
  readonly amounts: readonly string[];
}

/** What was worked out of a story's record at a moment. */
export interface Answer {
  readonly records: Records;
  readonly cares: readonly LineCare[];
  readonly told: Told;
}

/** The policy of the story's unit. */
export function policyOf({ layers }: Pick<Story, 'layers'>): Policy {
  const reading = readPolicy(layers.map((name) => bundledPlan(name as BundledPlanName)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

/** The answer of the library over a record, as the story words it. */
export function answerOf(
  story: Pick<Story, 'zone' | 'lumens'>,
  policy: Policy,
  resources: readonly FhirResource[],
  asOf: string,
): Answer {
  const records = readRecords(resources.map((resource) => ({ resource })));
  const cares = records.lines.map((line) => dueCare(line, policy, { asOf, zone: story.zone }));
  const name = (target: Target) => targetName(story, target.scope, target.device);
  const items = cares.flatMap((care) => care.items);
  const listed = (upcoming: boolean) =>
    items
      .filter(({ state }) => (state === 'upcoming') === upcoming)
      .map(({ state, activity, target, dueBy }) => itemLine(state, activity, name(target), dueBy))
      .sort();
  return {
    records,
    cares,
    told: {
      dueList: listed(false),
      next: listed(true),
      amounts: items.flatMap(({ activity, target, work }) =>
        work
          .filter(({ value }) => value !== undefined)
          .map(({ kind, value, unit }) => amountLine(activity, name(target), kind, value, unit)),
      ),
      holds: cares
        .flatMap((care) => care.holds)
        .map(({ activity, target, until, rule }) => {
          return `${activity} | ${name(target)} | ${until ? `until ${short(until)}` : endOf(rule)}`;
        })
        .sort(),
      warnings: [
        ...allIssues(records, cares).map(({ code, resource }) => `${code} | ${resource}`),
        ...cares
          .flatMap((care) => care.lumens)
          .flatMap(({ state, also, device }) =>
            [state, ...also.map((one) => one.state)]
              .filter((one) => warned.has(one))
              .map((one) => `${one} | ${targetName(story, 'lumen', device)}`),
          ),
      ].sort(),
    },
  };
}

/** What ends a hold that has no time: an act, or a finding. */
function endOf({ stop, begins }: Rule): string {
  const by = begins.kind === 'triggered' ? begins.by : [];
  const ends = (stop?.ends ?? []).map((end) => {
    if ('done' in end) return `done: ${end.done}`;
    if ('found' in end) return `found: ${[end.found, ...(end.value ? [end.value] : [])].join(' ')}`;
    const answering = by.flatMap((one) =>
      one.kind === 'finding' ? (findingRow(one.finding).answeredBy ?? []) : [],
    );
    return `done: ${answering.join(' or ')}`;
  });
  return `until it is ${ends.join(' or ').replaceAll(' or found: ', ' or ')}`;
}

/** What is wrong with a lumen so that it stands as a warning until it is put right. */
const warned: ReadonlySet<string> = new Set(['damaged', 'blocked']);

/** One line of a due list. */
export function itemLine(state: string, activity: string, target: string, dueBy: string): string {
  return `${state} | ${activity} | ${target} | by ${short(dueBy)}`;
}

/** One amount of an item. */
export function amountLine(
  activity: string,
  target: string,
  kind: string,
  value: string | number | undefined,
  unit: string | undefined,
): string {
  return `${activity} | ${target} | ${kind} ${value} ${unit}`;
}

/** `line`, `exit-site`, `incision`, or the name of a lumen. */
export function targetName({ lumens }: Pick<Story, 'lumens'>, scope: string, device: string): string {
  return scope === 'lumen' ? (lumens[device] ?? device) : scope;
}

/** A time without its seconds where they are none. */
function short(time: string): string {
  return time.replace(/(T\d\d:\d\d):00(?=[+-])/, '$1');
}

/** What differs, each side said; empty where nothing does. */
export function differences(moment: Moment, told: Told): string[] {
  return [
    ...compared('due list', moment.dueList, told.dueList),
    ...compared('holds', moment.holds, told.holds),
    ...compared('warnings', moment.warnings, told.warnings),
    ...missing('to come', moment.next, told.next),
    ...missing('amounts', moment.amounts, told.amounts),
  ];
}

/** The expected lines that are not there; what else is there does not matter. */
export function missing(
  what: string,
  expected: readonly string[] | undefined,
  found: readonly string[],
): string[] {
  return compared(what, expected ?? [], found).filter((line) => line.includes(': expected and not there: '));
}

/** The lines that only one side has. */
export function compared(what: string, expected: readonly string[], found: readonly string[]): string[] {
  return [
    ...without(expected, found).map((line) => `${what}: expected and not there: ${line}`),
    ...without(found, expected).map((line) => `${what}: there and not expected: ${line}`),
  ];
}

/** What the first list has more of than the second, each as often as it has it more. */
function without(lines: readonly string[], others: readonly string[]): string[] {
  const left = [...others];
  return lines.filter((line) => {
    const at = left.indexOf(line);
    if (at < 0) return true;
    left.splice(at, 1);
    return false;
  });
}
