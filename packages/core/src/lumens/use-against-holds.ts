import type { LumenFact, LumenState } from '../model/care.js';

/** What runs through a lumen that must not be used; undefined where nothing does. */
export function runsAgainstHold(state: Pick<LumenState, 'state' | 'also'>): LumenFact | undefined {
  if (state.state !== 'not-to-be-used') return undefined;
  return state.also.find((fact) => fact.state === 'infusing');
}

/** Whether nobody should use the lumen before somebody has looked at it. */
export function keepsFromUse({ state }: LumenFact): boolean {
  return state === 'not-to-be-used' || state === 'damaged' || state === 'blocked';
}
