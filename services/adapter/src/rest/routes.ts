import { Calendar, calendarFeed, english, instantMs, speaker, type NotReadBecause } from '@dwellward/core';
import { readPolicy } from '@dwellward/policy';
import express, { type RequestHandler, type Response, type Router } from 'express';
import type { Logger } from 'pino';
import { z } from 'zod';
import type { Unit } from '../board-api/index.js';
import { NotRead, problemsOf, unreadable, type PatientReader } from '../hooks/index.js';
import { described } from '../status.js';
import { dueFhir, dueJson, explanationJson, handoverJson, previewJson } from './answers.js';
import type { Calendars } from './calendars.js';
import { openApi } from './openapi.js';

export interface RestApiOptions {
  readonly reader: PatientReader;
  /** The unit as it was read last. */
  readonly unit: Unit;
  readonly calendars: Calendars;
  readonly log: Logger;
  /** Why what is told of the unit may be old or missing. */
  readonly doubts: () => readonly string[];
  /** The plans that the policy in use is made of, the lowest first. */
  readonly plans: () => Promise<readonly unknown[]>;
  /** Lets pass whom it knows and answers everybody else. */
  readonly guard?: RequestHandler;
}

const statusOf: Readonly<Record<NotReadBecause, number>> = {
  'no-such-patient': 404,
  'no-answer': 503,
  refused: 502,
  'several-patients': 502,
  'other-server': 502,
  error: 500,
};

const calendarRequest = z.strictObject({ tells: z.enum(['care', 'name']).default('care') });
const previewRequest = z.strictObject({
  plans: z
    .array(z.looseObject({ resourceType: z.literal('PlanDefinition'), url: z.string().min(1) }))
    .min(1)
    .max(50),
});

const fhirJson = 'application/fhir+json';

/** Due care over HTTP, the calendar feed, and the description of both. */
export function restApi(options: RestApiOptions): Router {
  const { reader, guard } = options;
  const api = express.Router();
  api.use(['/openapi.json', '/calendar', '/patients', '/handover', '/policy'], (_request, response, next) => {
    response.set('cache-control', 'no-store');
    next();
  });
  api.get('/openapi.json', (_request, response) => void response.json(openApi));
  // The token lets in: a calendar on a telephone has no other way to say who it is.
  api.get('/calendar/:token', (request, response) => {
    feedOf(request.params.token.replace(/\.ics$/, ''), options, response).catch(notRead(options, response));
  });
  if (guard) api.use(['/patients', '/handover', '/policy'], guard);
  api.get('/patients/:id/due', (request, response) => {
    reader
      .read(request.params.id)
      .then((care) => {
        response.vary('accept');
        if (request.accepts(['application/json', fhirJson]) === fhirJson)
          response.type(fhirJson).send(JSON.stringify(dueFhir(care, reader.policy)));
        else response.json(dueJson(care, reader.policy));
      })
      .catch(notRead(options, response));
  });
  api.get('/patients/:id/lines/:line/explanation', (request, response) => {
    reader
      .read(request.params.id)
      .then((care) => {
        const answer = explanationJson(care, `Device/${request.params.line}`, reader.policy);
        if (answer) response.json(answer);
        else response.status(404).json({ problems: [sayOf(options)({ code: 'charts-on-unknown' })] });
      })
      .catch(notRead(options, response));
  });
  api.get('/handover', ({ query }, response) => {
    const hours = Number(query['hours'] ?? 8);
    if (!Number.isFinite(hours) || hours <= 0 || hours > 72) {
      response.status(400).json({ problems: ['hours: a number above 0, up to 72.'] });
      return;
    }
    const ofUnit = typeof query['unit'] === 'string' ? query['unit'] : undefined;
    response.json(handoverJson(options.unit, hours, ofUnit, options.doubts()));
  });
  api.post('/policy/preview', express.json({ limit: '8mb' }), (request, response, next) => {
    preview(request.body, options, response).catch(next);
  });
  calendarsOf(api, options);
  api.use(unreadable);
  return api;
}

function calendarsOf(api: Router, options: RestApiOptions): void {
  const { reader, calendars } = options;
  api.post('/patients/:id/calendars', express.json({ limit: '4kb' }), (request, response) => {
    const read = calendarRequest.safeParse(request.body ?? {});
    if (!read.success) {
      response.status(400).json({ problems: problemsOf(read.error) });
      return;
    }
    const { id } = request.params;
    // Only of somebody who is there: a slip in the id would ring for nothing, for ever.
    reader
      .read(id)
      .then(() => {
        const made = calendars.create(id, read.data.tells);
        if (made)
          response.status(201).json({ id: made.id, path: `/calendar/${made.token}.ics`, lasting: false });
        else response.status(503).json({ problems: ['calendars: as many as there may be are given out.'] });
      })
      .catch(notRead(options, response));
  });
  api.delete('/patients/:id/calendars/:calendar', ({ params }, response) => {
    if (calendars.revoke(params.id, params.calendar)) response.status(204).end();
    else response.status(404).json({ problems: [noCalendar] });
  });
}

const noCalendar = 'calendar: there is none of this name, or none any more.';

/** A calendar by its token. One whose care may be incomplete is not sent: the calendar keeps what it has. */
async function feedOf(
  token: string,
  { calendars, reader }: RestApiOptions,
  response: Response,
): Promise<void> {
  const given = calendars.find(token);
  if (!given) {
    response.status(404).json({ problems: [noCalendar] });
    return;
  }
  const { cares, records, when, doubts } = await reader.read(given.patient);
  if (doubts.length > 0 || cares.some(({ notComputed }) => notComputed)) throw new NotRead('no-answer');
  const feed = calendarFeed(
    cares.flatMap(({ items }) => items),
    {
      stamp: when.asOf,
      // A later feed has a higher one, whichever process makes it.
      sequence: Math.floor(instantMs(when.asOf) / 60_000),
      zone: when.zone,
      lines: records.lines,
      tells: given.tells,
    },
  );
  response.type('text/calendar; charset=utf-8').send(feed);
}

async function preview(
  body: unknown,
  { unit, plans, doubts }: RestApiOptions,
  response: Response,
): Promise<void> {
  const read = previewRequest.safeParse(body);
  if (!read.success) {
    response.status(400).json({ problems: problemsOf(read.error) });
    return;
  }
  const given = read.data.plans;
  // A plan that is in use already is tried in its place, any other on top.
  const urls = new Set(given.map(({ url }) => url));
  const others = (await plans()).filter((plan) => !urls.has((plan as { url?: string }).url ?? ''));
  const after = readPolicy([...others, ...given]);
  if (after.ok) {
    response.json(previewJson(unit, after.policy, given.map(({ url }) => url).join(', '), doubts()));
    return;
  }
  const problems = after.findings.filter(({ severity }) => severity === 'error');
  response
    .status(422)
    .json({ problems: problems.map(({ path, message, cure }) => `${path}: ${message} ${cure}`) });
}

function sayOf({ reader }: Pick<RestApiOptions, 'reader'>) {
  return speaker(english, new Calendar(reader.when.zone));
}

/** Says that a record could not be read, and why: never an empty answer. */
function notRead(options: RestApiOptions, response: Response) {
  return (error: unknown) => {
    const because = error instanceof NotRead ? error.because : 'error';
    const cause = error instanceof NotRead ? error.cause : error;
    if (because !== 'no-such-patient')
      options.log.error({ because, ...described(cause) }, 'A record could not be read.');
    response
      .status(statusOf[because])
      .json({ problems: [sayOf(options)({ code: 'record-not-read', because })] });
  };
}
