import { displayOf } from '@dwellward/profiles';
import { runsAgainstHold, stopAndClamp } from '../lumens/use-against-holds.js';
import { instantMs, type Calendar } from '../timeline/calendar.js';
import type { LumenFact, LumenState } from '../model/care.js';
import { clockText } from './layout.js';

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
  const against = runsAgainstHold({ also, ...state });
  return [state, ...also].filter((fact) => serious.has(fact.state) || fact === against).map(({ why }) => why);
}

/** The warning to stand on top of a line through which something runs against a hold; each lumen named. */
export function againstHoldText(lumens: readonly LumenState[]): readonly string[] {
  const names = lumens.filter((state) => runsAgainstHold(state)).map(({ name }) => name.replace(/^the /, ''));
  return names.length === 0
    ? []
    : [`WARNING, ${names.join(', ')}: an infusion runs against a hold: ${stopAndClamp}.`];
}
