import {
  Calendar,
  english,
  handover,
  inWords,
  instantMs,
  renderHandover,
  speaker,
  unitView,
} from '@dwellward/core';
import { withoutPatients, type FiguresView } from '@dwellward/figures';
import express, { type NextFunction, type Request, type Response, type Router } from 'express';
import type { Logger } from 'pino';
import { ConfigError } from '../config.js';
import { FhirServerError } from '../fhir-server/index.js';
import { isLoopbackHost } from '../local.js';
import { described } from '../status.js';
import type { Charting } from './charting.js';
import { lineRoutes } from './line-routes.js';
import { readCharting } from './request.js';
import type { Minutes } from './settings.js';
import type { ShownUnit, Unit } from './unit.js';
import type { Viewer, Viewers } from './viewers.js';

export interface BoardApiOptions {
  readonly unit: Unit;
  readonly charting: Charting;
  readonly log: Logger;
  /** Minutes that the unit takes each activity to need. */
  readonly minutes?: Minutes;
  /** Hours of the day at which shifts begin. */
  readonly shifts?: readonly number[];
  readonly figures?: () => Promise<FiguresView>;
  /** True where a guard asks everybody who they are: then it is answered by any name. */
  readonly guarded?: boolean;
  /** Why care may not be in step with the record; empty while it is. */
  readonly doubts: (mayRead?: (patient: string) => boolean) => readonly string[];
  /** Who may see what, where users are signed in; without it everybody who can ask sees everything. */
  readonly viewers?: Viewers;
}

/** What a client waits for between two signs of life, milliseconds: shorter than proxies cut an idle connection. */
const signOfLifeMs = 20_000;

/** Header in which a board gives the token with which its user is signed in to the record system. */
export const userHeader = 'x-fhir-authorization';

/** What the unit's board asks for: everything in words, and what is charted. */
export function boardApi(options: BoardApiOptions): Router {
  const { unit, charting, viewers } = options;
  const api = express.Router();
  api.use((request, response, next) => {
    response.set('cache-control', 'no-store');
    // A page from elsewhere may have its own name point here; it asks by that name.
    if (options.guarded || isLoopbackHost(request.hostname)) next();
    else response.status(403).json({ problems: ['This is answered by a loopback address only.'] });
  });
  if (viewers) {
    const routes = new WeakMap<Viewer, Router>();
    api.use((request, response, next) => {
      routesOfUser(options, viewers, routes, request, response, next).catch(next);
    });
  } else api.use(unitRoutes(options, unit, charting));
  api.use((error: unknown, _request: Request, response: Response, next: NextFunction) => {
    void next;
    const { status, problem } = problemOf(error);
    const { code, message } = described(error);
    // What is wrong with a request is told with a piece of it, and that may name a patient.
    options.log.error({ status, code, ...(status < 500 ? {} : { message }) }, 'The board was not answered.');
    if (response.headersSent) response.end();
    else response.status(status).json({ problems: [problem] });
  });
  return api;
}

/** The same for a user: of the patients whom the record system gives them, and written with their rights. */
async function routesOfUser(
  options: BoardApiOptions,
  viewers: Viewers,
  routes: WeakMap<Viewer, Router>,
  request: Request,
  response: Response,
  next: NextFunction,
): Promise<void> {
  const viewer = await viewers.of(request.get(userHeader));
  if (viewer === undefined) {
    response.status(401).json({ problems: ['Nobody is signed in to the record system.'] });
    return;
  }
  const unit = options.unit.only(viewer.mayRead);
  const own =
    routes.get(viewer) ?? unitRoutes(options, unit, options.charting.by(unit, viewer.server), viewer);
  routes.set(viewer, own);
  own(request, response, next);
}

function unitRoutes(options: BoardApiOptions, unit: ShownUnit, charting: Charting, viewer?: Viewer): Router {
  const api = express.Router();
  api.get('/unit', (_request, response) => {
    const { records } = unit;
    const view = unitView(records, unit.cares, unit.policy, unit.when, {
      minutes: options.minutes ?? {},
      ...(options.shifts ? { shifts: options.shifts } : {}),
    });
    response.json({ ...view, doubts: options.doubts(viewer?.mayRead) });
  });
  api.use(lineRoutes(unit));
  api.get('/handover', (request, response) => {
    handoverOf(unit, request, response);
  });
  api.get('/figures', (_request, response, next) => {
    figuresOf(options, viewer !== undefined, response).catch(next);
  });
  api.get('/changes', (request, response) => changes(unit, request, response));
  api.post('/charted', express.json({ limit: '64kb' }), (request, response, next) => {
    chart(unit, charting, request, response).catch(next);
  });
  api.post('/taken-back', express.json({ limit: '4kb' }), (request, response, next) => {
    takeBack(unit, charting, request, response).catch(next);
  });
  return api;
}

/** What went wrong, as the board may show it: no word of the server’s, which may hold a patient’s. */
function problemOf(error: unknown): { readonly status: number; readonly problem: string } {
  if (error instanceof FhirServerError && error.status === 403)
    return { status: 403, problem: 'The record system does not let you do it.' };
  if (error instanceof FhirServerError)
    return {
      status: 502,
      problem: `The record system did not do it (${error.code}). The same may be sent again.`,
    };
  const { status } = error as { status?: unknown };
  if (typeof status === 'number' && status >= 400 && status < 500)
    return { status, problem: 'The request can’t be read.' };
  return { status: 500, problem: 'An error of this service; it is in its log.' };
}

/** The hand-over of the next hours, eight where nothing is asked for. */
function handoverOf(unit: ShownUnit, { query }: Request, response: Response): void {
  const hours = Number(query['hours'] ?? 8);
  if (!Number.isFinite(hours) || hours <= 0 || hours > 72) {
    response.status(400).json({ problems: ['hours: a number above 0, up to 72.'] });
    return;
  }
  const { asOf, zone } = unit.when;
  const calendar = new Calendar(zone);
  const { records } = unit;
  const shift = { from: asOf, to: calendar.text(instantMs(asOf) + hours * 3_600_000), zone };
  const given = handover(records, unit.cares, unit.policy, shift);
  const say = speaker(english, calendar);
  response.json({
    text: renderHandover(given, { colour: false, columns: 96 }),
    supplies: inWords(given.supplies, say),
    patients: given.patients.map(({ patient, name, bed, supplies }) => ({
      patient,
      name: name ?? say({ code: 'name-not-known' }),
      ...(bed === undefined ? {} : { bed }),
      supplies: inWords(supplies, say),
    })),
    from: shift.from,
    to: shift.to,
    zone,
    cautions: [say({ code: 'together-fewer' }), say({ code: 'not-read' }), say({ code: 'advice-not-order' })],
  });
}

/** The unit’s figures; whoever reads them is told where there are none, or where they can’t be read by now. */
async function figuresOf({ figures }: BoardApiOptions, ofUser: boolean, response: Response): Promise<void> {
  try {
    const view = await figures?.();
    // A user who may read some patients may not read of all who were here in a year.
    response.json({ figures: view === undefined ? null : ofUser ? withoutPatients(view) : view });
  } catch (error) {
    if (!(error instanceof ConfigError)) throw error;
    response.status(422).json({ problems: error.problems });
  }
}

/** Tells a client that something has changed, as it does: server-sent events, one word each. */
function changes(unit: ShownUnit, request: Request, response: Response): void {
  response.set({ 'content-type': 'text/event-stream', 'x-accel-buffering': 'no' });
  response.flushHeaders();
  response.write('retry: 2000\n\n');
  const end = unit.listen(() => response.write('event: changed\ndata: {}\n\n'));
  const alive = setInterval(() => response.write(': still here\n\n'), signOfLifeMs);
  request.on('close', () => {
    end();
    clearInterval(alive);
  });
}

async function takeBack(
  unit: ShownUnit,
  charting: Charting,
  request: Request,
  response: Response,
): Promise<void> {
  const { line, id } = (request.body ?? {}) as { line?: unknown; id?: unknown };
  if (typeof line !== 'string' || typeof id !== 'string') {
    response.status(400).json({ problems: ['line, id: both say what is to be taken back.'] });
    return;
  }
  const done = await charting.takeBack(line, id);
  const say = speaker(english, new Calendar(unit.when.zone));
  if (done) response.json({ done: true, shown: done.shown });
  else response.status(404).json({ problems: [say({ code: 'charts-of-others' })] });
}

async function chart(
  unit: ShownUnit,
  charting: Charting,
  request: Request,
  response: Response,
): Promise<void> {
  const read = readCharting(request.body, unit.when.asOf);
  if ('problems' in read) {
    response.status(400).json(read);
    return;
  }
  const answer = await charting.chart(read.request);
  const say = speaker(english, new Calendar(unit.when.zone));
  if (answer.kind === 'written')
    response.status(201).json({ refs: answer.refs, id: read.request.charted.id, shown: answer.shown });
  else if (answer.kind === 'unknown-line')
    response.status(404).json({ problems: [say({ code: 'charts-on-unknown' })] });
  else
    response.status(409).json({
      questions: answer.questions.map(({ code, refused, sentence }) => ({
        code,
        refused,
        text: say(sentence),
      })),
    });
}
