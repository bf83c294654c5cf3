import { findingRow, type LineFinding } from '@dwellward/profiles';
import {
  factSubject,
  type FactName,
  type FactSubject,
  type QuantityRange,
  type TimeRange,
} from '@dwellward/policy';
import { never, type FactDefinition } from './definition.js';
import { nothing, type Known, type Moment } from './moment.js';
import { eventsOn, findingsOn, shows } from '../timeline/timeline.js';
import { CoreError } from '../model/error.js';
import type { Ref } from '../model/record.js';

/**
 * The facts that every activity and every finding has by itself: when it was last done or found on the target, and the
 * latest charted value; and those of the trigger: when it occurred, and when it was answered.
 */
export function dynamicFact(name: FactName): FactDefinition<TimeRange | boolean | QuantityRange> {
  const known = made.get(name);
  if (known) return known;
  const definition = definitionOf(name);
  made.set(name, definition);
  return definition;
}

// The names are few, and asked for again and again.
const made = new Map<FactName, FactDefinition<TimeRange | boolean | QuantityRange>>();

function definitionOf(name: FactName): FactDefinition<TimeRange | boolean | QuantityRange> {
  if (name === 'began') return { read: ({ began }) => range(began), changes: never };
  if (name === 'answered') return { read: answered, changes: never };
  const fact = factSubject(name);
  if (!fact) throw new CoreError('no-such-fact', `${name} is not a fact.`, { given: name });
  switch (fact.group) {
    case 'last':
      return {
        read: (at) => range(lastOf(at, eventsOn(at.timeline, fact.activity, at.target))),
        changes: ({ events, impliedStops, impliedSets, hangings, toldLooks }, note) => {
          for (const { ms } of [...events, ...impliedStops, ...impliedSets, ...hangings, ...toldLooks])
            note(ms);
        },
      };
    case 'found':
      return {
        read: (at) => range(lastOf(at, found(at, fact))),
        changes: atThatFinding(fact.finding),
      };
    case 'latest':
      return { read: (at) => latestOf(at, fact.finding), changes: atThatFinding(fact.finding) };
  }
}

function atThatFinding(finding: LineFinding): FactDefinition<unknown>['changes'] {
  return ({ findings }, note) => {
    for (const { fact, ms } of findings) if (fact.finding === finding) note(ms);
  };
}

function found({ timeline, target }: Moment, fact: Extract<FactSubject, { group: 'found' }>) {
  const values = fact.value === undefined ? [] : [fact.value];
  return findingsOn(timeline, fact.finding, target).filter((one) => shows(one.fact, values));
}

function lastOf<One extends { readonly ms: number }>({ ms }: Moment, all: readonly One[]): One | undefined {
  return all.filter((one) => one.ms <= ms).at(-1);
}

function range(
  one: { readonly ms: number; readonly latestMs: number; readonly fact: { readonly ref: Ref } } | undefined,
): Known<TimeRange> {
  if (!one) return nothing;
  return { value: { lowMs: one.ms, highMs: one.latestMs }, refs: [one.fact.ref], sinceMs: one.ms };
}

function latestOf({ timeline, ms }: Moment, finding: LineFinding): Known<boolean | QuantityRange> {
  if (findingRow(finding).kind === 'coded') return lengthBeside({ timeline, ms }, finding);
  const last = timeline.findings
    .filter(
      ({ fact, ms: when }) =>
        when <= ms && fact.finding === finding && (fact.flag !== undefined || fact.quantity !== undefined),
    )
    .at(-1);
  const value = last?.fact.flag ?? last?.fact.quantity;
  return last === undefined || value === undefined
    ? nothing
    : { value, refs: [last.fact.ref], sinceMs: last.ms };
}

/**
 * The length that came with the latest of a coded finding: unknown where that gave none, whatever an earlier one gave. Of
 * several at one moment the shortest, and unknown where one of them gave none.
 */
function lengthBeside(
  { timeline, ms }: Pick<Moment, 'timeline' | 'ms'>,
  finding: LineFinding,
): Known<QuantityRange> {
  const seen = timeline.findings.filter(
    ({ fact, ms: when }) => when <= ms && fact.finding === finding && shows(fact, []),
  );
  const last = seen.at(-1);
  const then = seen.filter((one) => one.ms === last?.ms);
  const lowest = ({ fact: { quantity } }: (typeof seen)[number]) => Number(quantity?.low ?? 0);
  const [first] = [...then].sort((a, b) => lowest(a) - lowest(b));
  const value = then.every(({ fact }) => fact.quantity !== undefined) ? first?.fact.quantity : undefined;
  return first === undefined || value === undefined
    ? nothing
    : { value, refs: [first.fact.ref], sinceMs: first.ms };
}

function answered({ began, ms }: Moment): Known<TimeRange> {
  const answeredMs = began?.answeredMs;
  if (began === undefined || answeredMs === undefined || answeredMs > ms) return nothing;
  return { value: { lowMs: answeredMs, highMs: answeredMs }, refs: [began.fact.ref], sinceMs: answeredMs };
}
