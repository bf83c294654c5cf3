import type { Bundle, BundleEntry, Resource } from 'fhir/r4.js';
import type { Caller, Reply } from './call.js';
import type { Method } from './errors.js';

/**
 * Does the entries of a transaction as single calls, in their order, for a server that takes none: creates and updates
 * under the same conditions, references to an entry replaced by what it became. Not atomic: where one fails those before
 * it stand, and the next look at the patient finds them there.
 * @returns what a transaction would answer.
 * @throws FhirServerError of the first entry that fails.
 */
export async function writeOneByOne(bundle: Bundle, baseUrl: string, call: Caller): Promise<Bundle> {
  const became = new Map<string, string>();
  const answers: BundleEntry[] = [];
  for (const { fullUrl, resource, request } of bundle.entry ?? []) {
    const [resourceType = 'Bundle'] = (request?.url ?? '').split(/[/?]/);
    const body = resource === undefined ? undefined : pointTo(resource, became);
    const { ifNoneExist, ifMatch } = request ?? {};
    const reply = await call({
      method: (request?.method ?? 'POST') as Method,
      url: `${baseUrl}/${request?.url ?? ''}`,
      resourceType,
      ...(body === undefined ? {} : { body }),
      headers: {
        prefer: 'return=representation',
        ...(ifNoneExist === undefined ? {} : { 'if-none-exist': ifNoneExist }),
        ...(ifMatch === undefined ? {} : { 'if-match': ifMatch }),
      },
    });
    const answer = answerOf(reply);
    answers.push(answer);
    const name = nameOf(answer);
    if (fullUrl !== undefined && name !== undefined) became.set(fullUrl, name);
  }
  return { resourceType: 'Bundle', type: 'transaction-response', entry: answers };
}

function answerOf({ status, body, location, etag }: Reply): BundleEntry {
  const resource = body as Resource;
  const stored = resource.id !== undefined && resource.resourceType !== 'OperationOutcome';
  return {
    ...(stored ? { resource: resource as NonNullable<BundleEntry['resource']> } : {}),
    response: { status: String(status), ...(location ? { location } : {}), ...(etag ? { etag } : {}) },
  };
}

/** `Task/12`, by the resource that came back or by where it is said to be. */
function nameOf({ resource, response }: BundleEntry): string | undefined {
  if (resource?.id !== undefined) return `${resource.resourceType}/${resource.id}`;
  const [at = ''] = (response?.location ?? '').split('/_history/');
  const [type, id] = at.split('/').slice(-2);
  return type && id ? `${type}/${id}` : undefined;
}

function pointTo(resource: Resource, became: ReadonlyMap<string, string>): unknown {
  if (became.size === 0) return resource;
  return JSON.parse(
    JSON.stringify(resource, (key, value: unknown) =>
      key === 'reference' && typeof value === 'string' ? (became.get(value) ?? value) : value,
    ),
  );
}
