import { createHash, timingSafeEqual } from 'node:crypto';
import express, { type Router } from 'express';
import type { Machine } from './machine.js';

/** After a notification so long for the rest of a burst, and at least so long between two rounds, milliseconds. */
const gatherMs = 1_000;

/**
 * Ends the pause between two rounds where the FHIR server says that something has changed. What has changed is asked of
 * the server all the same: a notification that is lost, comes twice, or was made up costs a look, and nothing else.
 */
export class Wake {
  #rung = new AbortController();

  ring(): void {
    this.#rung.abort();
  }

  /** Waits so long, or until it was rung and the burst is over; ends early when the signal fires. */
  async pause(pauseMs: number, machine: Machine, stop: AbortSignal): Promise<void> {
    await machine.sleep(pauseMs, AbortSignal.any([stop, this.#rung.signal]));
    if (!this.#rung.signal.aborted) return;
    await machine.sleep(Math.min(gatherMs, pauseMs), stop);
    this.#rung = new AbortController();
  }
}

/**
 * Where a server’s rest-hook Subscriptions lead (FHIR R4; the backport of R5’s subscriptions to R4 has the same channel):
 * any call under the secret path rings, whatever it holds. What it holds is not read: it may be a patient’s.
 */
export function notified(token: string, wake: Wake): Router {
  const routes = express.Router();
  const known = digest(token);
  // A server that sends the resource puts its type and id behind the path.
  routes.all(['/:token', '/:token/{*rest}'], (request, response, next) => {
    if (!timingSafeEqual(digest(String(request.params['token'])), known)) return next();
    request.resume();
    if (request.method === 'POST' || request.method === 'PUT') wake.ring();
    response.status(200).end();
  });
  return routes;
}

function digest(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}
