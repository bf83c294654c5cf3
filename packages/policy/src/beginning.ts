import type { LineCareActivity } from '@dwellward/profiles';
import type { Begins, Effect, Span } from './model.js';
import type { Conditions } from './read-conditions.js';
import type { WholeAction } from './read-group.js';

/** A rule that is counted back from an act that another action plans, which is found when the layers are merged. */
export interface Link {
  readonly actionId: string;
  readonly offset: Span;
  readonly timesOfDay?: readonly string[];
  /** Where the element stands that names the other action. */
  readonly path: string;
}

/** When a rule begins, and how long a ban lasts. */
export interface When {
  readonly begins: Begins | Link;
  readonly lasts?: Span;
  readonly notes: readonly string[];
}

/** What is known of an action when it is read how it begins. */
export interface Beginning {
  readonly whole: WholeAction;
  // Undefined where it could not be read, which was said.
  readonly effect: Effect | undefined;
  readonly activity: LineCareActivity | undefined;
  readonly conditions: Conditions | undefined;
}

/** Whether a rule is counted back from an act that another action plans. */
export function isLink(begins: Begins | Link): begins is Link {
  return !('kind' in begins);
}
