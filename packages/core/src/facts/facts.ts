import type { FactName, Facts, Span, StaticFactName, StaticFacts } from '@dwellward/policy';
import type { Change, FactDefinition } from './definition.js';
import { labFacts } from './labs.js';
import { lineFacts } from './line.js';
import { lumenFacts } from './lumen.js';
import type { Known, Moment } from './moment.js';
import { patientFacts } from './patient.js';
import { dynamicFact } from './times.js';
import type { Target } from '../model/care.js';
import type { Timeline } from '../timeline/timeline.js';

export type { Change } from './definition.js';
export type { Known, Moment, Occurrence } from './moment.js';

type Value<Name extends StaticFactName> = NonNullable<StaticFacts[Name]>;

/** Every fact that has a name of its own. What a policy can ask for and stands nowhere here does not compile. */
const definitions: { readonly [Name in StaticFactName]: FactDefinition<Value<Name>> } = {
  ...lineFacts,
  ...lumenFacts,
  ...patientFacts,
  ...labFacts,
};

function isStatic(name: FactName): name is StaticFactName {
  return Object.hasOwn(definitions, name);
}

function definitionOf(name: FactName): FactDefinition<NonNullable<Facts[FactName]>> {
  return isStatic(name) ? definitions[name] : dynamicFact(name);
}

/** What was read and found of a timeline, which never changes: every rule asks for the same few facts. */
interface Memory {
  /** By the target, how long results count, the fact and the moment: four short looks, and no key to be made. */
  readonly facts: Map<Target, Map<Span, Map<FactName, Map<number, Known<unknown>>>>>;
  readonly changes: Map<string, readonly Change[]>;
}

const memories = new WeakMap<Timeline, Memory>();

function memoryOf(timeline: Timeline): Memory {
  let memory = memories.get(timeline);
  if (memory === undefined) memories.set(timeline, (memory = { facts: new Map(), changes: new Map() }));
  return memory;
}

/** One fact at a moment. */
export function known<Name extends FactName>(name: Name, at: Moment): Known<NonNullable<Facts[Name]>> {
  // The definitions are typed by the name under which they stand.
  type Found = Known<NonNullable<Facts[Name]>>;
  // What set a rule going is that rule’s own.
  if (name === 'began' || name === 'answered') return definitionOf(name).read(at) as Found;
  const bySpan = within(memoryOf(at.timeline).facts, at.target);
  const byMoment = within(within(bySpan, at.staleAfter), name);
  const before = byMoment.get(at.ms);
  if (before !== undefined) return before as Found;
  const found = definitionOf(name).read(at) as Found;
  byMoment.set(at.ms, found);
  return found;
}

/** The map that stands under a key, made where there is none. */
function within<Key, InnerKey, Value>(maps: Map<Key, Map<InnerKey, Value>>, key: Key): Map<InnerKey, Value> {
  let inner = maps.get(key);
  if (inner === undefined) maps.set(key, (inner = new Map()));
  return inner;
}

/** The facts that conditions ask for, at a moment. */
export function factsAt(names: readonly FactName[], at: Moment): Facts {
  const facts: Partial<Record<FactName, unknown>> = {};
  for (const name of names) {
    const { value } = known(name, at);
    if (value !== undefined) facts[name] = value;
  }
  // Each reader gives what its fact’s name stands for.
  return facts as Facts;
}

/** The moments at which one of the facts may have changed: newest first. */
export function changesOf(
  names: readonly FactName[],
  timeline: Timeline,
  staleAfter: Span,
): readonly Change[] {
  const memory = memoryOf(timeline);
  const key = `${staleAfter.value}${staleAfter.unit} ${names.join()}`;
  const before = memory.changes.get(key);
  if (before !== undefined) return before;
  const changes = new Map<number, Change>();
  for (const name of names) {
    definitionOf(name).changes(
      timeline,
      (sinceMs, ms = sinceMs) => {
        if (sinceMs === undefined || ms === undefined || !Number.isFinite(ms) || ms > timeline.asOfMs) return;
        changes.set(ms, { ms, sinceMs });
      },
      staleAfter,
    );
  }
  const found = [...changes.values()].sort((a, b) => b.ms - a.ms);
  memory.changes.set(key, found);
  return found;
}
