// Mutated policies: read over the base, checked by themselves, and where they are read laid over an invented unit.
import { readFileSync } from 'node:fs';
import { dueCare, readRecords } from '@dwellward/core';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import { bundledPlan, bundledPlanNames, lintPlan, policyExamples, readPolicy } from '@dwellward/policy';
import { at } from './mutate.mjs';

export const name = 'policies';
export const count = 20_000;
export const quick = 1_500;

/** What a mutation starts from: every bundled plan, the examples, the plan of the invented unit. */
export function bases() {
  const unit = new URL('../../fixtures/policy/PlanDefinition-lanternfern.json', import.meta.url);
  return [
    ...bundledPlanNames.map((plan) => bundledPlan(plan)),
    policyExamples(),
    JSON.parse(readFileSync(unit, 'utf8')),
  ];
}

const records = readRecords(demoUnit().entry.map(({ resource }) => ({ resource })));
const when = { asOf: demoInstant, zone: demoZone };

// What describes a plan or an action to people, and is not looked at: a change there may go by.
const descriptive = new Set([
  ...[
    'id',
    'meta',
    'text',
    'language',
    'identifier',
    'name',
    'title',
    'subtitle',
    'type',
    'date',
    'publisher',
  ],
  ...[
    'contact',
    'description',
    'jurisdiction',
    'purpose',
    'usage',
    'copyright',
    'approvalDate',
    'lastReviewDate',
  ],
  ...[
    'topic',
    'author',
    'editor',
    'reviewer',
    'endorser',
    'relatedArtifact',
    'experimental',
    'display',
    'label',
  ],
  ...['textEquivalent', 'prefix', 'reason', 'url', 'citation', 'userSelected', 'resourceType', 'intent'],
]);

/** What a reading comes to, as text. */
function told(reading) {
  return JSON.stringify(reading, (key, value) => (typeof value === 'function' ? undefined : value));
}

/** A layer is read over the base, the base by itself. */
function readOver(plan, base) {
  return readPolicy(base.id === 'base' ? [plan] : [bundledPlan('base'), plan]);
}

const known = new Map();
function unchanged(base) {
  if (!known.has(base)) known.set(base, told(readPolicy([bundledPlan('base'), base])));
  return known.get(base);
}

/**
 * @param mutated the plan @param base what it was made from @param changed the places that were changed
 * @returns what was dropped in silence
 */
/** A policy is spoiled as a whole. */
export const spoiled = () => 1;

export function check(mutated, base, changed) {
  const reading = readOver(mutated, base);
  lintPlan(mutated);
  if (reading.ok) for (const line of records.lines.slice(0, 2)) dueCare(line, reading.policy, when);
  const dropped = actionsUnheard(mutated, reading);
  const matters = changed.filter(
    (path) =>
      !path.some((key) => descriptive.has(String(key).replace(/^_/, ''))) &&
      // How sure a source is stands in its own words too: where the code is gone, they are read.
      !(path.includes('documentation') && isEmpty(at(mutated, path))) &&
      !defaulted(mutated, path) &&
      !besideOurs(mutated, base, path) &&
      // Of a definition that nothing points to it is said once that it is not used, whatever stands in it.
      !reading.findings.some(
        ({ code, path: said }) =>
          code === 'unused-definition' && said === `PlanDefinition.${path[0]}[${path[1]}]`,
      ) &&
      !alike(listAround(mutated, path), listAround(base, path)),
  );
  // A plan that is refused is refused whole: nothing of it is used.
  if (
    reading.ok &&
    matters.length > 0 &&
    matters.length === changed.length &&
    told(reading) === unchanged(base)
  )
    dropped.push(...matters.map((path) => `changed at ${path.join('.')} and nobody says so`));
  return dropped;
}

/**
 * Whether what was taken away is what the standard assumes where it is missing (HL7 FHIR R4, Timing.repeat.frequency: once
 * a period), or what the code next to it needs no system for: a word of time, the value of a finding.
 */
function defaulted(mutated, path) {
  const key = path.at(-1);
  if (at(mutated, path) !== undefined) return false;
  const around = at(mutated, path.slice(0, -1));
  return (
    (key === 'frequency' && around?.period !== undefined) ||
    (key === 'system' && typeof around?.value === 'number') ||
    (key === 'system' && path.includes('codeFilter') && around?.code !== undefined)
  );
}

/** Whether all that changed is that codings of others stand beside the one that is read: the standard means them to. */
function besideOurs(mutated, base, path) {
  const end = path.indexOf('coding') + 1;
  if (end === 0) return false;
  const [now, before] = [at(mutated, path.slice(0, end)), at(base, path.slice(0, end))];
  return (
    Array.isArray(now) && Array.isArray(before) && before.every((one) => now.some((two) => alike(one, two)))
  );
}

const isEmpty = (value) => value === undefined || (Array.isArray(value) && value.length === 0);

/** What stands at a place; of a member of a list the list, for what it says counts and not at which place. */
function listAround(value, path) {
  const list = at(value, path.slice(0, -1));
  return Array.isArray(list) ? list : at(value, path);
}

/** Whether two values say the same: blanks at the ends, the order of a list and what it says twice say nothing; what is very deep never does. */
function alike(one, other) {
  try {
    return JSON.stringify(plain(one)) === JSON.stringify(plain(other));
  } catch {
    return false;
  }
}

function plain(value) {
  if (typeof value === 'string') return value.trim();
  if (Array.isArray(value)) {
    const texts = value.map(plain).map((one) => [JSON.stringify(one), one]);
    return [...new Map(texts).entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, one]) => one);
  }
  if (value === null || typeof value !== 'object') return value;
  return Object.entries(value).map(([key, one]) => [key, plain(one)]);
}

/** The actions that became no rule, switch nothing off and are spoken of by no finding. */
function actionsUnheard(plan, reading) {
  if (!Array.isArray(plan?.action)) return [];
  const rules = reading.ok ? new Set(reading.policy.rules.map(({ id }) => id)) : undefined;
  const said = reading.findings.map(({ path }) => path);
  return plan.action.flatMap((action, index) => {
    const path = `PlanDefinition.action[${index}]`;
    if (rules === undefined || said.some((one) => one.startsWith(path))) return [];
    const ids = [action?.id, ...(Array.isArray(action?.action) ? action.action.map((one) => one?.id) : [])];
    const off = (reading.policy.replaced ?? []).some(({ id }) => ids.includes(id));
    return off || ids.some((id) => rules.has(id)) ? [] : [`${path} became nothing`];
  });
}
