import type { Machine } from './machine.js';
import { Wake } from './notified.js';
import type { Poller } from './poll.js';

/**
 * Runs rounds until `drain` fires, with a pause between them, which ends early where the server says that something has
 * changed; a longer one where the server asks for it. A failed round is logged and does not end it.
 */
export async function runRounds(
  poller: Poller,
  pauseMs: number,
  machine: Machine,
  drain: AbortSignal,
  wake: Wake = new Wake(),
): Promise<void> {
  while (!drain.aborted) {
    await poller.round().catch(() => undefined);
    const { closedForMs } = poller.status;
    if (closedForMs > pauseMs) await machine.sleep(closedForMs, drain);
    else await wake.pause(pauseMs, machine, drain);
  }
}
