import {
  Calendar,
  careCards,
  english,
  notReadCard,
  speaker,
  type CardHook,
  type CareCard,
} from '@dwellward/core';
import express, { type ErrorRequestHandler, type RequestHandler, type Router } from 'express';
import type { Logger } from 'pino';
import { serviceBase } from '../fhir-server/index.js';
import type { Machine } from '../machine.js';
import type { DispensableType } from '../slice.js';
import { described } from '../status.js';
import { cardJson } from './card-json.js';
import type { FeedbackCounts } from './feedback.js';
import { cardsOfOrders, ordersOf } from './orders.js';
import { NotRead, type PatientReader } from './patient-reader.js';
import { givenBy, prefetchTemplates } from './prefetch.js';
import { readCall, readFeedback, type HookCall } from './request.js';

export interface HooksApiOptions {
  readonly reader: PatientReader;
  readonly feedback: FeedbackCounts;
  readonly machine: Machine;
  readonly log: Logger;
  /** Types that the server does not have. */
  readonly without: readonly DispensableType[];
  /** Other service bases by which clients name the same server. */
  readonly servers: readonly string[];
  /** How long a client waits at most, milliseconds. */
  readonly waitMs: number;
  /**
   * Lets pass whom it knows and answers everybody else: the place where the client’s JSON Web Token is verified, which
   * comes with every call, the discovery too. Absent: everybody who can connect.
   */
  readonly guard?: RequestHandler;
}

/** The hooks that are answered; a service goes by the name of its hook. */
const hooks: readonly CardHook[] = ['patient-view', 'order-select', 'order-sign'];

/**
 * A whole record may be given along: as large as it may be. Too small: a client that prefetches gets no cards at all;
 * too large: one call may take up the memory of all others.
 */
const bodyLimit = '32mb';

/** CDS Hooks 2.0: discovery, three services, and their feedback. */
export function hooksApi(options: HooksApiOptions): Router {
  const { reader, without, feedback, guard } = options;
  const api = express.Router();
  api.use((_request, response, next) => {
    response.set('cache-control', 'no-store');
    next();
  });
  if (guard) api.use(guard);
  api.get('/', (_request, response) => {
    const say = speaker(english, new Calendar(reader.when.zone));
    response.json({
      services: hooks.map((hook) => ({
        hook,
        id: hook,
        title: say({ code: 'cards-title', hook }),
        description: say({ code: 'cards-description', hook }),
        prefetch: prefetchTemplates(without),
      })),
    });
  });
  for (const hook of hooks) {
    api.post(`/${hook}`, express.json({ limit: bodyLimit }), (request, response, next) => {
      const read = readCall(request.body, hook);
      if ('problems' in read) {
        response.status(400).json(read);
        return;
      }
      cardsFor(read.value, hook, options)
        .then((cards) => response.json({ cards: cards.map(cardJson) }))
        .catch(next);
    });
    api.post(`/${hook}/feedback`, express.json({ limit: '1mb' }), (request, response) => {
      const read = readFeedback(request.body);
      if ('problems' in read) {
        response.status(400).json(read);
        return;
      }
      feedback.add(hook, read.value);
      response.json({});
    });
  }
  api.use(unreadable);
  return api;
}

/** A body that is no JSON, or too large: what the parser says, without the body. */
export const unreadable: ErrorRequestHandler = (error: unknown, _request, response, next) => {
  const { status, type } = error as { status?: unknown; type?: unknown };
  if (typeof status !== 'number' || status < 400 || status >= 500) {
    next(error);
    return;
  }
  response.status(status).json({ problems: [`body: ${typeof type === 'string' ? type : 'unreadable'}`] });
};

/** The cards of a call. Whatever keeps the record from being read is a card, too: no answer at all reads as all clear. */
async function cardsFor(
  call: HookCall,
  hook: CardHook,
  { reader, without, servers, machine, waitMs, log }: HooksApiOptions,
): Promise<CareCard[]> {
  const { patientId } = call.context;
  const over = new AbortController();
  const late = machine.sleep(waitMs, over.signal).then(() => {
    throw new NotRead('no-answer');
  });
  // Once there is an answer, nobody waits for it any more.
  late.catch(() => undefined);
  try {
    if (!isOurs(call.fhirServer, [reader.server.baseUrl, ...servers])) throw new NotRead('other-server');
    const orders = hook === 'patient-view' ? undefined : ordersOf(call, hook, reader.server.baseUrl);
    if (orders?.length === 0) return [];
    const given = givenBy(call.prefetch ?? {}, patientId, reader.server, without);
    const care = await Promise.race([reader.read(patientId, given), late]);
    return orders
      ? cardsOfOrders(orders, care)
      : careCards(care.records, care.cares, reader.policy, care.when, care);
  } catch (error) {
    const because = error instanceof NotRead ? error.because : 'error';
    const cause = error instanceof NotRead ? error.cause : error;
    log.error(
      { hook, because, ...described(cause) },
      'A CDS client was told that the record could not be read.',
    );
    return [notReadCard(because, reader.when)];
  } finally {
    over.abort();
  }
}

/** Whether a client means the server that is read here: a patient’s id on another one is another patient. */
function isOurs(named: string | undefined, bases: readonly string[]): boolean {
  if (named === undefined) return true;
  try {
    return bases.includes(serviceBase(named));
  } catch {
    return false;
  }
}
