import { createHash, randomBytes, randomUUID } from 'node:crypto';

/** A calendar that somebody subscribed to. */
export interface CalendarGiven {
  readonly id: string;
  /** The id of the patient. */
  readonly patient: string;
  readonly tells: 'care' | 'name';
}

/** So many at once; a fault that asks for more and more must not fill the memory. */
const mostCalendars = 10_000;

/**
 * The calendars that were given out, by their tokens. A token is 256 random bits and is kept as its hash alone: whoever
 * reads the memory can’t subscribe. They end with the process: a calendar that was given out before is not found then.
 */
export class Calendars {
  readonly #byHash = new Map<string, CalendarGiven>();

  /** @returns undefined where there are as many as there may be. */
  create(
    patient: string,
    tells: CalendarGiven['tells'],
  ): { readonly id: string; readonly token: string } | undefined {
    if (this.#byHash.size >= mostCalendars) return undefined;
    const token = randomBytes(32).toString('base64url');
    const id = randomUUID();
    this.#byHash.set(hashOf(token), { id, patient, tells });
    return { id, token };
  }

  find(token: string): CalendarGiven | undefined {
    return this.#byHash.get(hashOf(token));
  }

  /** @returns false where the patient has no such calendar. */
  revoke(patient: string, id: string): boolean {
    for (const [hash, given] of this.#byHash)
      if (given.id === id && given.patient === patient) return this.#byHash.delete(hash);
    return false;
  }
}

function hashOf(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}
