import express, { type Express, type Router } from 'express';
import { healthOf } from './health.js';
import type { Interfaces } from './interfaces.js';
import { metricsText } from './metrics.js';
import type { Poller } from './poll.js';

/** At most so many patients are listed of a kind; all are counted. */
const listed = 50;

/**
 * The HTTP face of the service; it does not listen.
 * `/healthz` says that the process answers, and nothing of its work: who restarts it by this must not restart it for a
 * server that is down. `/readyz` says whether care is kept in step, why not, whom it could not bring in step (by
 * reference, never by name), and what was done since the start. `/metrics` has the same numbers for a monitor.
 * @param oldestMs age from which on the last completed round is too old, milliseconds.
 * @param policy asked for what has to be known of the policy in force, one sentence each.
 * @param board what the unit’s board asks for, under `/board-api`; none where absent.
 * @param interfaces what else is served.
 */
export function createApp(
  poller: Pick<Poller, 'status'>,
  oldestMs: number,
  policy: () => readonly string[] = () => [],
  board?: Router,
  interfaces: Interfaces = {},
): Express {
  const app = express();
  app.disable('x-powered-by');
  app.get('/healthz', (_request, response) => {
    response.json({ up: true, because: 'The process answers. Whether care is kept in step says /readyz.' });
  });
  app.get('/readyz', (_request, response) => {
    const { status } = poller;
    const { ready, because, warnings } = healthOf(status, oldestMs);
    const { nowMs, completedMs, failing, held, gaps, patients, openTasks, clockSkewMs, fit } = status;
    response.status(ready ? 200 : 503).json({
      ready,
      because,
      warnings,
      policy: policy(),
      lastRound: status.lastRound ?? null,
      lastCompletedSecondsAgo: completedMs === undefined ? null : Math.round((nowMs - completedMs) / 1000),
      patients,
      openTasks,
      failing: failing.length,
      failingPatients: failing.slice(0, listed),
      held: held.length,
      heldPatients: held.slice(0, listed),
      gaps,
      fhirVersion: fit?.fhirVersion ?? null,
      clockSkewSeconds: Math.round(clockSkewMs / 1000),
      callsTimedOut: status.callsTimedOut,
      writesOneByOne: status.writesOneByOne,
      counters: status.counters,
    });
  });
  app.get('/metrics', (_request, response) => {
    const { status } = poller;
    const text = metricsText(status, healthOf(status, oldestMs).ready);
    response.type('text/plain; version=0.0.4').send(text + (interfaces.metrics?.() ?? ''));
  });
  if (board) app.use('/board-api', board);
  if (interfaces.hooks) app.use('/cds-services', interfaces.hooks);
  if (interfaces.rest) app.use(interfaces.rest);
  app.use((_request, response) => {
    response.status(404).json({ error: 'There are /healthz, /readyz and /metrics here.' });
  });
  return app;
}
