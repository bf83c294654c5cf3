// Mutated records: read, worked out, and said in every output. Nothing that was counted may be gone in silence.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import {
  dueBundle,
  dueCare,
  explain,
  handover,
  nextChange,
  readRecords,
  renderHandover,
  renderTable,
  transactionFor,
} from '@dwellward/core';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import { bundledPlan, bundledPlanNames, readPolicy } from '@dwellward/policy';

export const name = 'resources';
/** Records; two resources of each are spoiled on the average. */
export const count = 150_000;
export const quick = 3_000;
/** Every so many records go on from the reading to all that is made of it, which costs fifty times as much. */
const outputsEvery = 10;

const reading = readPolicy(
  bundledPlanNames.filter((one) => one !== 'template').map((one) => bundledPlan(one)),
);
if (!reading.ok) throw new Error('The bundled policies are refused.');
const { policy } = reading;
const when = { asOf: demoInstant, zone: demoZone };
const shift = {
  from: demoInstant,
  to: new Date(Date.parse(demoInstant) + 43_200_000).toISOString(),
  zone: demoZone,
};

/** What a mutation starts from: each patient of the invented unit, and the record of each case. */
export function bases() {
  const cases = new URL('../cases/', import.meta.url);
  const stored = readdirSync(cases, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(new URL(`${entry.name}/input.ndjson`, cases)))
    .map(({ name: folder }) => readFileSync(new URL(`${folder}/input.ndjson`, cases), 'utf8'))
    .map((text) =>
      text
        .split('\n')
        .filter((line) => line.trim() !== '')
        .map((line) => JSON.parse(line)),
    );
  return [...patients(), ...stored];
}

function patients() {
  const all = demoUnit().entry.map(({ resource }) => resource);
  const texts = new Map(all.map((one) => [one, JSON.stringify(one)]));
  const speaking = (of) => all.filter((one) => texts.get(one).includes(of));
  const shared = all.filter(({ resourceType }) => ['Location', 'Medication'].includes(resourceType));
  return all
    .filter(({ resourceType }) => resourceType === 'Patient')
    .map((patient) => {
      const own = speaking(`"Patient/${patient.id}"`);
      const lumens = own
        .filter(({ resourceType }) => resourceType === 'Device')
        .flatMap(({ id }) => speaking(`"Device/${id}"`));
      return [...new Set([patient, ...own, ...lumens, ...shared])];
    });
}

const known = new Map();
function unchanged(base) {
  if (!known.has(base)) known.set(base, readRecords(base.map((resource) => ({ resource }))));
  return known.get(base);
}

/** How many resources of a record were spoiled, of places that were changed. */
export const spoiled = (changed) => new Set(changed.map(([position]) => position)).size;

/**
 * @param mutated the resources @param base what they were made from @param number of the case
 * @returns what was dropped in silence
 */
export function check(mutated, base, changed, number) {
  const entries = (Array.isArray(mutated) ? mutated : [mutated]).map((resource) => ({ resource }));
  const records = readRecords(entries);
  if (number % outputsEvery === 0) sayAll(records);
  return silent(entries, records, unchanged(base), base);
}

function sayAll(records) {
  const cares = records.lines.map((line) => dueCare(line, policy, when));
  const options = { colour: false, columns: 80 };
  renderTable(records, cares, when, options);
  renderHandover(handover(records, cares, policy, shift), options);
  dueBundle(records, cares, policy, when);
  transactionFor({ records, cares, policy, when, existing: [] });
  records.lines.forEach((line, i) => nextChange(line, cares[i], policy, when));
  for (const { items, lumens } of cares) for (const item of items.slice(0, 2)) explain(item, policy, lumens);
}

const looked = new Set(['Device', 'Procedure', 'Observation', 'MedicationAdministration', 'ServiceRequest']);
const states = new Set(['inactive', 'entered-in-error', 'cancelled', 'revoked', 'not-done', 'registered']);

/**
 * Resources that are gone: in no line, no issue and no list. One that points to a line by itself may be of no other business,
 * unless its status withdraws it; one that counted before must be counted among what is of other business now.
 */
function silent(entries, records, before, base) {
  const now = told(records);
  const counted = sources(before);
  const lines = [...records.lines.flatMap(({ ref, lumens }) => [ref, ...lumens.map((one) => one.ref)])];
  const more = new Map(records.otherBusiness.map(({ resourceType, count: n }) => [resourceType, n]));
  for (const { resourceType, count: n } of before.otherBusiness)
    more.set(resourceType, (more.get(resourceType) ?? 0) - n);
  // What is not given any more was one of them, perhaps.
  const given = new Set(
    entries.map(({ resource }) =>
      typeof resource?.id === 'string' && looked.has(resource.resourceType)
        ? `${resource.resourceType}/${resource.id}`
        : '',
    ),
  );
  for (const { resourceType, id } of base)
    if (!given.has(`${resourceType}/${id}`)) more.set(resourceType, (more.get(resourceType) ?? 0) + 1);
  // One that was of other business and is now an issue of its own is no longer among them.
  const named = new Map(base.map((one) => [`${one.resourceType}/${one.id}`, one]));
  const toldBefore = told(before);
  for (const place of new Set(records.issues.map(({ resource }) => resource))) {
    const was = base[/^Bundle\.entry\[(\d+)\]/.exec(place)?.[1]] ?? named.get(place);
    if (was !== undefined && !toldBefore.has(`${was.resourceType}/${was.id}`))
      more.set(was.resourceType, (more.get(was.resourceType) ?? 0) + 1);
  }
  const copies = new Map();
  for (const { resource } of entries)
    if (resource !== null && typeof resource === 'object')
      copies.set(content(resource), (copies.get(content(resource)) ?? 0) + 1);
  const gone = [];
  for (const { resource } of entries) {
    if (resource === null || typeof resource !== 'object' || !looked.has(resource.resourceType)) continue;
    const { resourceType, id, status } = resource;
    // One without an id that references can have goes by its content: it has no name to look for.
    if (typeof id !== 'string' || id === '' || /[#/\s]/.test(id) || states.has(status)) continue;
    const ref = `${resourceType}/${id}`;
    // What is given twice, under two names, counts once.
    if (now.has(ref) || (copies.get(content(resource)) ?? 0) > 1) continue;
    if (pointsTo(resource, lines)) gone.push(`${ref} points to a line and is nowhere`);
    else if (counted.has(ref) && (more.get(resourceType) ?? 0) <= 0)
      gone.push(`${ref} counted and is nowhere`);
  }
  return gone;
}

/** What a resource says, whatever it is called. */
function content(resource) {
  try {
    const { id: _, _id: __, ...rest } = resource;
    return JSON.stringify(rest);
  } catch {
    // Nested too deep to be compared: it stands for itself.
    return resource;
  }
}

/** The elements by which a resource points to a line. */
function pointsTo(resource, lines) {
  const elements = {
    Device: [resource.parent],
    Procedure: list(resource.focalDevice).map((one) => one?.manipulated),
    Observation: [...list(resource.focus), resource.device],
    MedicationAdministration: list(resource.device),
    ServiceRequest: [],
  }[resource.resourceType];
  return elements.some((one) => lines.includes(one?.reference));
}

const list = (value) => (Array.isArray(value) ? value : []);

/** Everything that the reading has, says, or lists. */
function told(records) {
  return new Set([
    ...sources(records),
    ...records.issues.flatMap(({ resource, related }) => [resource, ...related]),
    ...records.notUnderstood.flatMap(({ patients: whose }) => whose.flatMap(({ resources }) => resources)),
  ]);
}

function sources({ lines }) {
  return new Set(
    lines.flatMap((line) => [
      line.ref,
      ...line.lumens.flatMap(({ ref, device }) => [ref, device]),
      ...[...line.events, ...line.findings, ...line.infusions, ...line.orders].map(({ ref }) => ref),
      ...(line.planned === undefined
        ? []
        : [...line.planned.refs, ...line.planned.insertions.map(({ ref }) => ref)]),
      ...line.patient.measurements.flatMap(({ refs }) => refs),
      ...line.patient.drawn.map(({ ref }) => ref),
    ]),
  );
}
