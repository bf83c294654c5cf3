import { readFileSync } from 'node:fs';
import { readTiming, type Recurrence } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';

// The Timing examples of the HL7 FHIR R4 specification and of its official example package, typed in with their place.
// What each is to be read as comes from the example’s own words, not from the reader.

interface Example {
  readonly source: string;
  readonly file?: string;
  readonly words: string;
  readonly timing: object;
}
interface Kept extends Example {
  readonly every?: string;
  readonly until?: string;
  readonly times?: number;
  readonly at?: readonly string[];
  readonly days?: readonly number[];
  readonly noted?: boolean;
}
interface Examples {
  readonly sources: Readonly<Record<string, { readonly text: string; readonly mark: string }>>;
  readonly kept: readonly Kept[];
  readonly keptByACallerWhoReadsTheBounds: readonly Kept[];
  readonly refused: readonly (Example & { readonly path: string })[];
}

const { sources, kept, keptByACallerWhoReadsTheBounds, refused } = JSON.parse(
  readFileSync(new URL('../../fixtures/published/fhir-r4-timing-examples.json', import.meta.url), 'utf8'),
) as Examples;

function span(text: string) {
  const [value, unit] = text.split(' ');
  return { value: Number(value), unit };
}

function wanted({ every, until, times, at, days }: Kept): unknown {
  if (at) return { kind: 'fixed-times', daysOfWeek: days ?? [], timesOfDay: at };
  return {
    kind: 'interval',
    every: span(every!),
    ...(until === undefined ? {} : { untilAfterInsertion: span(until) }),
    ...(times === undefined ? {} : { atMost: times }),
  };
}

function beginsOf(timing: object, options = {}): { begins: Recurrence; notes: readonly string[] } {
  const reading = readTiming(timing, options);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading;
}

const named = (examples: readonly Example[]) =>
  examples.map((example) => [`${example.file ?? example.source}: ${example.words}`, example] as const);

describe('Timing examples of HL7 FHIR R4', () => {
  it('each name a source that stands in the list', () => {
    for (const { source } of [...kept, ...keptByACallerWhoReadsTheBounds, ...refused])
      expect(sources[source]?.mark, source).toMatch(/^(seen|from memory)$/);
  });

  it.each(named(kept))('%s: is kept as its words say', (_, example) => {
    const { begins, notes } = beginsOf(example.timing);
    expect(begins).toEqual(wanted(example as Kept));
    // Where the words give a range the shorter reading is taken, and said.
    expect(notes.length > 0).toBe((example as Kept).noted === true);
  });

  it.each(named(keptByACallerWhoReadsTheBounds))(
    '%s: is refused in a policy for its dates, and kept in an order that keeps them itself',
    (_, example) => {
      const plain = readTiming(example.timing);
      expect(plain.ok ? [] : plain.problems.map(({ path }) => path)).toEqual(['repeat.boundsPeriod']);
      const { begins } = beginsOf(example.timing, { callerReadsBoundsPeriod: true });
      expect(begins).toEqual(wanted(example as Kept));
    },
  );

  it.each(named(refused))('%s: can’t be kept and is refused with its path', (_, example) => {
    const reading = readTiming(example.timing);
    expect(reading.ok).toBe(false);
    const problems = reading.ok ? [] : reading.problems;
    expect(problems.map(({ path }) => path)).toContain((example as (typeof refused)[number]).path);
    for (const { message } of problems) expect(message.length).toBeGreaterThan(10);
  });

  it('does not change what it reads', () => {
    const before = JSON.stringify([kept, refused]);
    for (const { timing } of [...kept, ...refused]) readTiming(timing);
    expect(JSON.stringify([kept, refused])).toBe(before);
  });
});
