import { isMoment, type Moment, type Story } from '@dwellward/fixtures';
import type { FhirResource } from 'fhir/r4.js';
import { answerOf, differences, policyOf, type Answer } from './told.js';

/** A moment with what was charted since the one before, and the whole record at it. */
export interface Scene {
  readonly moment: Moment;
  readonly charted: readonly FhirResource[];
  readonly record: readonly FhirResource[];
}

/** What came of a moment: empty differences where it is as expected. */
export interface Outcome {
  readonly moment: Moment;
  readonly differences: readonly string[];
}

/** The moments of a story in the order of time, each with the record as it stood. */
export function scenesOf({ steps }: Story): Scene[] {
  const record = new Map<string, FhirResource>();
  const scenes: Scene[] = [];
  let charted = new Map<string, FhirResource>();
  for (const step of steps) {
    if (isMoment(step)) {
      scenes.push({ moment: step, charted: [...charted.values()], record: [...record.values()] });
      charted = new Map();
      continue;
    }
    const key = `${step.resource.resourceType}/${step.resource.id ?? ''}`;
    record.set(key, step.resource);
    charted.set(key, step.resource);
  }
  return scenes;
}

/** Every moment of a story through the library. */
export function play(story: Story): (Outcome & Answer)[] {
  const policy = policyOf(story);
  return scenesOf(story).map(({ moment, record }) => {
    const answer = answerOf(story, policy, record, moment.at);
    return { moment, ...answer, differences: differences(moment, answer.told) };
  });
}
