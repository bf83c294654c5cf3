import { versionOfProfiles, type ResourceEntry } from '@dwellward/core';
import { CliError } from './errors.js';

const bundleTypes = ['collection', 'searchset', 'transaction', 'batch'];

/**
 * The entries of a Bundle (collection, searchset, transaction or batch), and what it says itself of being only a part: a
 * further page, more matches than entries, a server that tells of errors.
 * @throws CliError `unreadable-input` where it is no such Bundle.
 */
export function bundleEntries(content: unknown, path: string): ResourceEntry[] {
  if (!isObject(content) || typeof content['resourceType'] !== 'string') {
    throw new CliError(
      'unreadable-input',
      `${path}: this is JSON but no FHIR resource: there is no resourceType. A Bundle is wanted.`,
    );
  }
  if (content['resourceType'] !== 'Bundle') {
    throw new CliError(
      'unreadable-input',
      `${path}: resourceType is ${content['resourceType']}, and a Bundle is wanted (${bundleTypes.join(', ')}).`,
    );
  }
  const type = content['type'];
  if (typeof type !== 'string' || !bundleTypes.includes(type)) {
    throw new CliError(
      'unreadable-input',
      `${path}: Bundle.type is ${JSON.stringify(type) ?? 'not given'}; one of ${bundleTypes.join(', ')} is wanted.`,
    );
  }
  const list = content['entry'] ?? [];
  if (!Array.isArray(list)) {
    throw new CliError('unreadable-input', `${path}: Bundle.entry is not a list.`);
  }
  const fhirVersion = versionOfProfiles(content);
  const versioned = fhirVersion === undefined ? {} : { fhirVersion };
  return [
    ...list.flatMap((entry: unknown, i) => entryOf(entry, i).map((one) => ({ ...one, ...versioned }))),
    ...missingFrom(content, list),
  ];
}

function entryOf(entry: unknown, i: number): ResourceEntry[] {
  const place = `Bundle.entry[${i}].resource`;
  if (!isObject(entry)) return [{ resource: undefined, place: `Bundle.entry[${i}]` }];
  const { fullUrl, resource, request, search } = entry;
  if (isOutcome(resource)) return outcomeOf(resource, place);
  // What a search says about itself, and what a transaction deletes, are no part of the record.
  if (isObject(search) && search['mode'] === 'outcome') return [];
  if (resource === undefined && isObject(request) && request['method'] === 'DELETE') return [];
  return [{ resource, place, ...(typeof fullUrl === 'string' ? { fullUrl } : {}) }];
}

/** What a page says of those that are not here. */
function missingFrom(bundle: Record<string, unknown>, list: readonly unknown[]): ResourceEntry[] {
  const { link, total } = bundle;
  const next = Array.isArray(link) && link.some((one) => isObject(one) && one['relation'] === 'next');
  const matches = list.filter(
    (entry) =>
      isObject(entry) &&
      !isOutcome(entry['resource']) &&
      !(isObject(entry['search']) && ['include', 'outcome'].includes(String(entry['search']['mode']))),
  ).length;
  const found: ResourceEntry[] = [];
  if (next)
    found.push({
      resource: undefined,
      place: 'Bundle.link',
      missing:
        'It is one page of a search, and there is a next one: put the entries of all pages into one Bundle',
    });
  if (typeof total === 'number' && total > matches)
    found.push({
      resource: undefined,
      place: 'Bundle.total',
      missing: `The search found ${total}, and ${matches} are here: put the entries of all pages into one Bundle`,
    });
  return found;
}

/** Whether it is an OperationOutcome: what a server or an export says of itself. */
export function isOutcome(resource: unknown): resource is Record<string, unknown> {
  return isObject(resource) && resource['resourceType'] === 'OperationOutcome';
}

/** What an OperationOutcome says is missing; what it only informs of is no concern. */
export function outcomeOf(outcome: Record<string, unknown>, place: string): ResourceEntry[] {
  const issues = Array.isArray(outcome['issue']) ? (outcome['issue'] as unknown[]) : [];
  return issues.filter(isObject).flatMap((issue, i): ResourceEntry[] => {
    const { severity, code, diagnostics, details } = issue;
    if (severity === 'information') return [];
    const said = [diagnostics, isObject(details) ? details['text'] : undefined, code].find(
      (one) => typeof one === 'string' && one !== '',
    );
    return [
      {
        resource: undefined,
        place: `${place}.issue[${i}]`,
        missing: `Who sent this says so (${String(severity)}): ${String(said ?? 'no reason given').slice(0, 200)}`,
      },
    ];
  });
}

export function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
