import { displayOf } from '@dwellward/profiles';
import { instantMs, type Calendar } from '../due/calendar.js';
import type { LumenFact, LumenState } from '../due/model.js';
import { clockText } from '../table/words.js';

/** What keeps a lumen from being used, or needs somebody to look: said with its reason. */
const serious: ReadonlySet<LumenFact['state']> = new Set([
  'not-to-be-used',
  'damaged',
  'blocked',
  'sluggish',
  'unknown',
]);

/** “Lumen red: blocked since Wed 25 Nov 08:00; locked since Tue 24 Nov 20:00”. */
export function lumenText({ name, also, ...state }: LumenState, calendar: Calendar): string {
  const facts = [state, ...also].map(
    (fact) =>
      `${displayOf('lumenState', fact.state).toLowerCase()}${fact.since ? ` since ${clockText(instantMs(fact.since), calendar)}` : ''}`,
  );
  const bare = name.replace(/^(the )?lumen\b ?/i, '');
  return `Lumen${bare ? ` ${bare}` : ''}: ${facts.join('; ')}`;
}

/** Why, in sentences, of what is more than its name says; empty where the state is an ordinary one. */
export function lumenReasons({ also, ...state }: LumenState): readonly string[] {
  return [state, ...also].filter((fact) => serious.has(fact.state)).map(({ why }) => why);
}

/** Whether nobody should use the lumen before somebody has looked at it. */
export function keepsFromUse({ state }: LumenFact): boolean {
  return state === 'not-to-be-used' || state === 'damaged' || state === 'blocked';
}
