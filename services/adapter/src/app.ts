import express, { type Express } from 'express';
import type { Poller } from './poll.js';

/** At most so many failing patients are listed; all are counted. */
const listedFailing = 50;

/**
 * The HTTP face of the service; it does not listen.
 * `/healthz` says that the process answers. `/readyz` says whether the last round could ask the FHIR server, whom it
 * could not bring in step, by reference and never by name, and what was done since the start.
 */
export function createApp(poller: Poller): Express {
  const app = express();
  app.disable('x-powered-by');
  app.get('/healthz', (_request, response) => {
    response.json({ up: true });
  });
  app.get('/readyz', (_request, response) => {
    const { lastRound, failing, patients, counters } = poller;
    const ready = lastRound?.ok === true;
    response.status(ready ? 200 : 503).json({
      ready,
      lastRound: lastRound?.at ?? null,
      patients,
      failing: failing.length,
      failingPatients: failing.slice(0, listedFailing),
      counters,
    });
  });
  app.use((_request, response) => {
    response.status(404).json({ error: 'There are /healthz and /readyz here.' });
  });
  return app;
}
