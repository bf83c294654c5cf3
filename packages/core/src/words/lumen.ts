import { runsAgainstHold } from '../lumens/use-against-holds.js';
import type { LumenFact, LumenState } from '../model/care.js';
import type { Sentence } from '../model/sentences.js';

/** What keeps a lumen from being used, or needs somebody to look: said with its reason. */
const serious: ReadonlySet<LumenFact['state']> = new Set([
  'not-to-be-used',
  'damaged',
  'blocked',
  'sluggish',
  'unknown',
]);

/** “Lumen red: blocked since Wed 25 Nov 08:00; locked since Tue 24 Nov 20:00”. */
export function lumenIs({ name, also, ...own }: LumenState): Sentence {
  const facts = [own, ...also].map(({ state, since }) => ({
    state,
    ...(since === undefined ? {} : { since }),
  }));
  return { code: 'lumen-is', name, facts };
}

/** Why, of what is more than its name says; empty where the state is an ordinary one. */
export function lumenReasons({ also, ...state }: LumenState): readonly Sentence[] {
  const against = runsAgainstHold({ also, ...state });
  return [state, ...also].filter((fact) => serious.has(fact.state) || fact === against).map(({ why }) => why);
}
