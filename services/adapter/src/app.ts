import express, { type ErrorRequestHandler, type Express, type Request, type Router } from 'express';
import type { JSONWebKeySet } from 'jose';
import type { Logger } from 'pino';
import { localGuard, need, scopes, sendProblem, type Guard } from './guard/index.js';
import { healthOf } from './health.js';
import type { Interfaces } from './interfaces.js';
import { realMachine, type Machine } from './machine.js';
import { metricsText } from './metrics.js';
import type { Poller } from './poll.js';
import { described } from './status.js';

/** At most so many patients are listed of a kind; all are counted. */
const listed = 50;

/** Who may ask for more than health, and what of the app's own is said. */
export interface Doors {
  /** Where a server’s notifications lead, by a secret path. */
  readonly notified?: Router;
  /** What else is served. */
  readonly interfaces?: Interfaces;
  /** Who may see details; callers from this machine where absent. */
  readonly guard?: Guard;
  /** Where errors of the program go. */
  readonly log?: Logger;
  /** The public keys by which the FHIR server knows the adapter, for everybody; none where absent. */
  readonly publicKeys?: () => Promise<JSONWebKeySet>;
  /** The machine's own clock where absent. */
  readonly machine?: Pick<Machine, 'now' | 'sleep'>;
}

/**
 * The HTTP face of the service; it does not listen.
 * `/livez` says that the process answers, and nothing of its work: who restarts it by this must not restart it for a
 * server that is down. `/readyz` says whether care is kept in step, with codes and counts for everybody; why not, whom it
 * could not bring in step (by reference, never by name), and what was done, for whom the guard admits. `/metrics` has
 * the numbers for a monitor.
 * @param oldestMs age from which on the last completed round is too old, milliseconds.
 * @param policy asked for what has to be known of the policy in force, one sentence each.
 * @param board what the unit’s board asks for, under `/board-api`; none where absent.
 */
export function createApp(
  poller: Pick<Poller, 'status'>,
  oldestMs: number,
  policy: () => readonly string[] = () => [],
  board?: Router,
  { interfaces = {}, notified, ...doors }: Doors = {},
): Express {
  const { guard = localGuard(true), log, machine = realMachine, publicKeys } = doors;
  const app = express();
  app.disable('x-powered-by');
  app.get(['/livez', '/healthz'], (_request, response) => {
    response.json({ up: true, because: 'The process answers. Whether care is kept in step says /readyz.' });
  });
  app.get('/readyz', async (request, response) => {
    const admission = await guard.admit(request, scopes.statusRead);
    // Who shows a token wants what it is for; who shows none may still know whether care is kept in step.
    if (!admission.admitted && !admission.anonymous) return sendProblem(response, admission.problem);
    const { status } = poller;
    const { ready, codes, because, warnings } = healthOf(status, oldestMs);
    const counts = { ready, codes, ...countsOf(status) };
    const body = admission.admitted
      ? { ...counts, because, warnings, policy: policy(), ...detailsOf(status) }
      : counts;
    response.set({ 'cache-control': 'no-store', vary: 'authorization' });
    response.status(ready ? 200 : 503).json(body);
  });
  app.get('/metrics', (_request, response) => {
    const { status } = poller;
    const text = metricsText(status, healthOf(status, oldestMs).ready);
    response.type('text/plain; version=0.0.4').send(text + (interfaces.metrics?.() ?? ''));
  });
  if (publicKeys)
    app.get('/.well-known/jwks.json', async (_request, response) => {
      // Whoever changes keys publishes the new one this long before it signs.
      response.set('cache-control', 'public, max-age=300').json(await publicKeys());
    });
  if (notified) app.use('/notified', notified);
  if (board) app.use('/board-api', need(guard, scopeOfBoard, machine), board);
  if (interfaces.hooks) app.use('/cds-services', interfaces.hooks);
  if (interfaces.rest) app.use(interfaces.rest);
  app.use((_request, response) => {
    const detail = 'There are /livez, /readyz and /metrics here.';
    sendProblem(response, { status: 404, code: 'not-found', detail });
  });
  app.use(onError(log));
  return app;
}

/** What a method may do, not what it does: one that is not known as reading counts as writing. */
function scopeOfBoard({ method }: Request) {
  return method === 'GET' || method === 'HEAD' ? scopes.boardRead : scopes.boardWrite;
}

/** Numbers alone: they are for everybody who can reach the service. */
function countsOf(status: Poller['status']) {
  const { nowMs, completedMs, failing, held, patients, openTasks, clockSkewMs } = status;
  return {
    lastCompletedSecondsAgo: completedMs === undefined ? null : Math.round((nowMs - completedMs) / 1000),
    patients,
    openTasks,
    failing: failing.length,
    held: held.length,
    clockSkewSeconds: Math.round(clockSkewMs / 1000),
    callsTimedOut: status.callsTimedOut,
    writesOneByOne: status.writesOneByOne,
    counters: status.counters,
  };
}

/** Sentences and references of patients. */
function detailsOf({ lastRound, failing, held, gaps, fit }: Poller['status']) {
  return {
    lastRound: lastRound ?? null,
    failingPatients: failing.slice(0, listed),
    heldPatients: held.slice(0, listed),
    gaps,
    fhirVersion: fit?.fhirVersion ?? null,
  };
}

/** An error says its status and no more: its message may hold what was sent, or what stands in a record. */
function onError(log: Logger | undefined): ErrorRequestHandler {
  // Express knows a handler of errors by its four parameters.
  return (error: unknown, _request, response, next) => {
    void next;
    if (response.headersSent) {
      log?.error(described(error), 'A request failed half answered.');
      return void response.destroy();
    }
    const { status } = (error ?? {}) as { status?: unknown };
    if (typeof status === 'number' && status >= 400 && status < 500) {
      const detail = 'The request can’t be read.';
      return sendProblem(response, { status, code: 'bad-request', detail });
    }
    log?.error(described(error), 'A request failed.');
    sendProblem(response, { status: 500, code: 'failed', detail: 'The program failed at this request.' });
  };
}
