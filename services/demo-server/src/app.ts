import express, { type ErrorRequestHandler, type Express, type Request, type Response } from 'express';
import type { Bundle, CapabilityStatement, Resource } from 'fhir/r4.js';
import {
  allOk,
  badRequest,
  FhirRouter,
  getStatus,
  MemoryRepository,
  normalizeOperationOutcome,
  OperationOutcomeError,
  type FhirRequest,
} from './medplum.js';
import { DemoRepository } from './repository.js';
import { settleConditionalCreates } from './transaction.js';

const fhirJson = 'application/fhir+json';
const root = '/fhir';

/** The router alone, with JSON in and JSON out: independent evidence of what a server makes of our requests. */
export function makeRawApp(repository = new MemoryRepository()): Express {
  const router = new FhirRouter();
  const app = jsonApp();
  app.use(root, async (request, response) => {
    const [outcome, resource] = await router.handleRequest(routed(request), repository);
    response
      .status(getStatus(outcome))
      .type(fhirJson)
      .send(JSON.stringify(resource ?? outcome));
  });
  return app;
}

/** The router with what a server needs beside it; one request at a time, so that none sees half a transaction. */
export function makeDemoApp(repository = new DemoRepository({ validate: true })): Express {
  const router = new FhirRouter();
  const app = jsonApp();
  let queue: Promise<void> = Promise.resolve();
  app.get(`${root}/metadata`, (request, response) => {
    response.type(fhirJson).send(JSON.stringify(capabilities(baseOf(request))));
  });
  app.use(root, (request, response) => {
    queue = queue.then(async () => {
      try {
        const body = request.body as Bundle | undefined;
        const isTransaction =
          request.method === 'POST' && request.path === '/' && body?.type === 'transaction';
        const [outcome, resource] = isTransaction
          ? await repository.orNothing(() => transact(router, routed(request), body, repository))
          : await router.handleRequest(routed(request), repository);
        send(request, response, getStatus(outcome), resource ?? outcome);
      } catch (error) {
        const outcome = normalizeOperationOutcome(error);
        send(request, response, getStatus(outcome), outcome);
      }
    });
  });
  app.use(unreadable);
  return app;
}

/** One transaction with its conditional creates decided; throws where it failed, so that it is rolled back. */
async function transact(router: FhirRouter, request: FhirRequest, body: Bundle, repository: DemoRepository) {
  const settled = await settleConditionalCreates(body, repository);
  if (settled.bundle.entry?.length === 0) {
    return [allOk, settled.complete({ resourceType: 'Bundle', type: 'transaction-response' })] as const;
  }
  const [outcome, resource] = await router.handleRequest({ ...request, body: settled.bundle }, repository);
  if (resource === undefined || getStatus(outcome) >= 400) throw new OperationOutcomeError(outcome);
  return [outcome, settled.complete(resource as Bundle)] as const;
}

function jsonApp(): Express {
  const app = express();
  app.disable('x-powered-by');
  app.disable('etag');
  app.use(express.json({ type: ['application/json', 'application/*+json'], limit: '20mb' }));
  return app;
}

/** The request in the shape that the router takes. */
function routed(request: Request): FhirRequest {
  return {
    method: request.method as FhirRequest['method'],
    url: request.url.replace(/^\//, ''),
    pathname: '',
    body: request.body as unknown,
    params: {},
    query: {},
    headers: request.headers,
    config: { transactions: true },
  };
}

/** Adds what HTTP and absolute URLs need: ETag, Location, links, fullUrl, the versions of a transaction’s entries. */
function send(request: Request, response: Response, status: number, body: unknown): void {
  const base = baseOf(request);
  const { resourceType, id, meta } = body as Resource;
  if (id !== undefined && meta?.versionId !== undefined) {
    response.set('ETag', `W/"${meta.versionId}"`);
    if (status === 201) response.set('Location', `${base}/${resourceType}/${id}/_history/${meta.versionId}`);
  }
  if (resourceType === 'Bundle') complete(body as Bundle, base);
  response.status(status).type(fhirJson).send(JSON.stringify(body));
}

/** The same for a Bundle, and for the searches that a batch holds. */
function complete(bundle: Bundle, base: string): void {
  for (const link of bundle.link ?? []) link.url = `${base}/${link.url}`;
  for (const entry of bundle.entry ?? []) {
    const { resource } = entry;
    if (bundle.type === 'searchset' && resource !== undefined) {
      entry.fullUrl ??= `${base}/${resource.resourceType}/${resource.id}`;
    }
    if (entry.response !== undefined && resource?.meta?.versionId !== undefined) {
      entry.response.etag ??= `W/"${resource.meta.versionId}"`;
    }
    if (bundle.type === 'batch-response' && resource?.resourceType === 'Bundle')
      complete(resource as Bundle, base);
  }
}

/** A body that is not JSON or too large, answered in FHIR’s words. */
const unreadable: ErrorRequestHandler = (
  error: { status?: number; message?: string },
  _request,
  response,
  next,
) => {
  if (response.headersSent) return next(error);
  const outcome = badRequest(error.message ?? 'unreadable request');
  response
    .status(error.status ?? 500)
    .type(fhirJson)
    .send(JSON.stringify(outcome));
};

function baseOf(request: Request): string {
  return `http://${request.headers.host ?? 'localhost'}${root}`;
}

function capabilities(url: string): CapabilityStatement {
  return {
    resourceType: 'CapabilityStatement',
    status: 'active',
    date: '2026-01-01',
    kind: 'instance',
    implementation: {
      description: 'Embedded demo server: in memory, for one process, with no access control',
      url,
    },
    fhirVersion: '4.0.1',
    format: ['json'],
    rest: [{ mode: 'server', interaction: [{ code: 'transaction' }, { code: 'batch' }] }],
  };
}
