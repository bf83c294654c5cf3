import type { Choice } from './choice-model.js';
import { computedChoices } from './choices-computed.js';
import { scheduledChoices } from './choices-scheduled.js';

export type { Choice, ChoicePlace, ChoiceReading } from './choice-model.js';

/** Every point on which the published sources differ: what they say, what is taken, and where another is chosen. */
export const choices: readonly Choice[] = [...scheduledChoices, ...computedChoices];
