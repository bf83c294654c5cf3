import {
  dueBundle,
  dueCare,
  readRecords,
  transactionFor,
  type LineCare,
  type Records,
} from '@dwellward/core';
import {
  demoInstant,
  demoPolicyLayers,
  demoUnit,
  demoUpdate,
  demoUpdateInstant,
  demoZone,
} from '@dwellward/fixtures';
import { bundledPlan, bundledPlanNames, readPolicy, type Policy } from '@dwellward/policy';
import { base, codeSystem, codeSystems } from '@dwellward/profiles';
import type { Bundle, FhirResource, Task } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { caseNames, readCase, type Entry } from '../cases/read-case.js';
import { faultsOf } from './r4-validators.js';

interface Answer {
  readonly name: string;
  readonly input: readonly Entry[];
  readonly records: Records;
  readonly cares: readonly LineCare[];
  readonly policy: Policy;
  readonly when: { readonly asOf: string; readonly zone: string };
}

function policyOf(layers: readonly unknown[]): Policy {
  const reading = readPolicy(layers);
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}

function answerTo(name: string, input: readonly Entry[], policy: Policy, when: Answer['when']): Answer {
  const records = readRecords(input);
  return {
    name,
    input,
    records,
    cares: records.lines.map((line) => dueCare(line, policy, when)),
    policy,
    when,
  };
}

const entriesOf = (...bundles: readonly Bundle[]): Entry[] =>
  bundles.flatMap(({ entry }) =>
    (entry ?? []).map(({ resource, fullUrl }) => ({ resource, ...(fullUrl ? { fullUrl } : {}) })),
  );

const demoPolicy = policyOf(demoPolicyLayers.map((name) => bundledPlan(name)));
const demo = answerTo('the demo unit', entriesOf(demoUnit()), demoPolicy, {
  asOf: demoInstant,
  zone: demoZone,
});
const updated = answerTo(
  'the demo unit with what came later',
  entriesOf(demoUnit(), demoUpdate()),
  demoPolicy,
  {
    asOf: demoUpdateInstant,
    zone: demoZone,
  },
);

const cases = caseNames.map((name): Answer => {
  const { entries, expected, policy } = readCase(name);
  return answerTo(name, entries, policy, { asOf: expected.asOf, zone: expected.zone });
});
// Every fourth, and those whose records are odd enough to be reported or held.
const sample = cases.filter(
  ({ name, records, cares }, i) =>
    i % 4 === 0 ||
    records.issues.length > 0 ||
    cares.some(({ holds, issues }) => holds.length + issues.length > 0) ||
    name.includes('urn'),
);
const answers = [demo, updated, ...sample];

const bundleOf = ({ records, cares, policy, when }: Answer) => dueBundle(records, cares, policy, when);
const resourcesOf = (bundle: Bundle): FhirResource[] =>
  (bundle.entry ?? []).flatMap(({ resource }) => (resource ? [resource as FhirResource] : []));
const transactionOf = ({ records, cares, policy, when }: Answer, existing: readonly FhirResource[] = []) =>
  transactionFor({ records, cares, policy, when, existing });

/** Every object of a resource, with its path. */
function* objects(value: unknown, path: string): Generator<[string, unknown]> {
  yield [path, value];
  if (typeof value !== 'object' || value === null) return;
  for (const [key, part] of Object.entries(value)) yield* objects(part, `${path}.${key}`);
}

const choices = [
  'value',
  'effective',
  'performed',
  'occurred',
  'identified',
  'onset',
  'timing',
  'medication',
  'deceased',
];

/** What both validators miss: several of one choice, impossible dates, empty parts, nothing for a value. */
function missedFaults(resource: FhirResource | Bundle): string[] {
  const faults: string[] = [];
  for (const [path, value] of objects(resource, resource.resourceType)) {
    if (value === null || value === undefined || value === '') faults.push(`${path}: nothing stands here`);
    if (typeof value === 'number' && !Number.isFinite(value)) faults.push(`${path}: no number`);
    if (typeof value === 'string') {
      if (value.trim() !== value) faults.push(`${path}: blanks at an end of “${value}”`);
      const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})(?:T|$)/.exec(value) ?? [];
      if (year !== undefined) {
        const date = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day)));
        if (date.toISOString().slice(0, 10) !== value.slice(0, 10))
          faults.push(`${path}: ${value} is no day`);
        if (
          value.length > 10 &&
          !/T([01]\d|2[0-3]):[0-5]\d:[0-5]\d(\.\d+)?(Z|[+-](0\d|1[0-4]):[0-5]\d)$/.test(value)
        )
          faults.push(`${path}: ${value} is no instant with an offset`);
      }
    }
    if (typeof value !== 'object' || value === null) continue;
    const keys = Object.keys(value);
    if (keys.length === 0) faults.push(`${path}: empty`);
    for (const choice of choices) {
      const taken = keys.filter((key) => new RegExp(`^${choice}[A-Z]`).test(key));
      if (taken.length > 1) faults.push(`${path}: ${taken.join(' and ')}`);
    }
  }
  return faults;
}

function references(resource: unknown): string[] {
  return [...objects(resource, '')].flatMap(([path, value]) =>
    path.endsWith('.reference') && typeof value === 'string' ? [value] : [],
  );
}

/** By what names the resources of an input can be pointed to. */
function namesOf(input: readonly Entry[]): Set<string> {
  return new Set(
    input.flatMap(({ resource, fullUrl }) => {
      const { resourceType, id } = (resource ?? {}) as { resourceType?: string; id?: string };
      return [...(resourceType && id ? [`${resourceType}/${id}`] : []), ...(fullUrl ? [fullUrl] : [])];
    }),
  );
}

describe('what both R4 validators miss', () => {
  it('would be found here', () => {
    const task = resourcesOf(bundleOf(demo)).find((one): one is Task => one.resourceType === 'Task')!;
    expect(missedFaults(task)).toEqual([]);
    const spoiled = (more: object) => missedFaults({ ...task, ...more } as Task);
    expect(spoiled({ input: [] })).not.toEqual([]);
    expect(spoiled({ focus: {} })).not.toEqual([]);
    expect(spoiled({ authoredOn: '2026-02-30T10:00:00Z' })).not.toEqual([]);
    expect(spoiled({ authoredOn: '2026-02-20T10:00' })).not.toEqual([]);
    expect(spoiled({ description: '' })).not.toEqual([]);
    expect(spoiled({ input: [{ type: { text: 'x' }, valueString: 'a', valueBoolean: true }] })).not.toEqual(
      [],
    );
  });
});

describe('the due care of', () => {
  it('a good sample is looked at', () => {
    expect(sample.length).toBeGreaterThan(60);
    const types = new Set(
      answers.flatMap((answer) => resourcesOf(bundleOf(answer)).map(({ resourceType }) => resourceType)),
    );
    expect([...types].sort()).toEqual(['DetectedIssue', 'Flag', 'Provenance', 'Task']);
  });

  it.each([demo, updated].map((answer) => [answer.name, answer] as const))(
    '%s is valid R4 in every resource and as a Bundle, by two independent validators',
    (_, answer) => {
      const bundle = bundleOf(answer);
      expect(resourcesOf(bundle).length).toBeGreaterThan(100);
      expect(
        resourcesOf(bundle).flatMap((one) => faultsOf(one).map((fault) => `${one.resourceType}: ${fault}`)),
      ).toEqual([]);
      expect(faultsOf(bundle)).toEqual([]);
    },
  );

  it('a sample of the cases is valid R4, by two independent validators', () => {
    const against = sample.flatMap((answer) =>
      resourcesOf(bundleOf(answer)).flatMap((one) =>
        faultsOf(one).map((fault) => `${answer.name}: ${one.resourceType}: ${fault}`),
      ),
    );
    expect(against).toEqual([]);
    expect(
      sample.flatMap((answer) => faultsOf(bundleOf(answer)).map((fault) => `${answer.name}: ${fault}`)),
    ).toEqual([]);
  });

  it('all of them has none of the faults that validators miss', () => {
    expect(
      answers.flatMap((answer) => missedFaults(bundleOf(answer)).map((fault) => `${answer.name}: ${fault}`)),
    ).toEqual([]);
    expect(
      answers.flatMap((answer) => resourcesOf(bundleOf(answer)).flatMap((one) => missedFaults(one))),
    ).toEqual([]);
  });

  it('all of them gives every entry a full URL of its own: a urn:uuid', () => {
    for (const answer of [demo, updated, ...cases]) {
      const urls = (bundleOf(answer).entry ?? []).map(({ fullUrl }) => fullUrl);
      expect(new Set(urls).size, answer.name).toBe(urls.length);
      for (const url of urls)
        expect(url).toMatch(/^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    }
  });

  it('all of them points only to what is in the Bundle or in the input', () => {
    const loose = [demo, updated, ...cases].flatMap((answer) => {
      const bundle = bundleOf(answer);
      const names = namesOf(answer.input);
      for (const { fullUrl } of bundle.entry ?? []) names.add(fullUrl ?? '');
      return references(bundle)
        .filter((reference) => !names.has(reference))
        .map((reference) => `${answer.name}: ${reference}`);
    });
    // References of the input itself that lead nowhere are passed on as they are: the record says so in an issue.
    const dangling = new Set(
      [demo, updated, ...cases].flatMap((answer) => {
        const names = namesOf(answer.input);
        return references(answer.input.map(({ resource }) => resource))
          .filter((reference) => !names.has(reference))
          .map((reference) => `${answer.name}: ${reference}`);
      }),
    );
    expect(loose.filter((one) => !dangling.has(one))).toEqual([]);
    expect(loose.length).toBeLessThan(10);
  });

  it('all of them has a Provenance for every Task, that names the Task, the policy or the order, and its sources', () => {
    for (const answer of answers) {
      const bundle = bundleOf(answer);
      const tasks = (bundle.entry ?? []).filter(({ resource }) => resource?.resourceType === 'Task');
      const provenances = resourcesOf(bundle).filter((one) => one.resourceType === 'Provenance');
      expect(provenances.flatMap(({ target }) => target.map(({ reference }) => reference)).sort()).toEqual(
        tasks.map(({ fullUrl }) => fullUrl).sort(),
      );
      for (const { policy, entity, recorded } of provenances) {
        expect(recorded).toBe(answer.when.asOf);
        expect((entity ?? []).length).toBeGreaterThan(0);
        if (policy) for (const canonical of policy) expect(canonical).toMatch(/^https:\/\/\S+\|\S+$/);
        else expect(JSON.stringify(entity)).toContain('ServiceRequest/');
      }
    }
  });
});

describe('the codes of the output', () => {
  const systems = codeSystems();
  const known = new Map(
    systems.map(({ url, concept }) => [url, new Set((concept ?? []).map(({ code }) => code))]),
  );

  it('come from code systems that are valid R4 and have each code once', () => {
    for (const system of systems) {
      expect(faultsOf(system), system.id).toEqual([]);
      expect(missedFaults(system), system.id).toEqual([]);
      const codes = (system.concept ?? []).map(({ code }) => code);
      expect(new Set(codes).size).toBe(codes.length);
      // The texts of hospitals have a system, and nobody lists them.
      const complete = system.id !== 'charted-text';
      expect(system.content).toBe(complete ? 'complete' : 'not-present');
      expect(system.count).toBe(complete ? codes.length : undefined);
    }
    expect(systems.map(({ url }) => url).sort()).toEqual(Object.values(codeSystem).sort());
  });

  it('are all in them, each with its display', () => {
    const used = [demo, updated, ...cases].flatMap((answer) =>
      [...objects([bundleOf(answer), transactionOf(answer)], '')].flatMap(([, value]) => {
        const { system, code, display } = (value ?? {}) as {
          system?: string;
          code?: string;
          display?: string;
        };
        return system?.startsWith(`${base}/CodeSystem/`) ? [{ system, code: code ?? '', display }] : [];
      }),
    );
    expect(used.length).toBeGreaterThan(1000);
    for (const { system, code, display } of used) {
      expect(known.get(system)?.has(code), `${system}|${code}`).toBe(true);
      expect(
        systems.find(({ url }) => url === system)?.concept?.find((one) => one.code === code)?.display,
      ).toBe(display);
    }
  });
});

describe('the bundled plans', () => {
  it.each(bundledPlanNames)('%s is a valid R4 PlanDefinition', (name) => {
    const plan = bundledPlan(name);
    expect(faultsOf(plan)).toEqual([]);
    expect(missedFaults(plan)).toEqual([]);
  });
});

describe('the transaction', () => {
  /** Constraints of Bundle in HL7 FHIR R4 4.0.1, by their keys. */
  function broken(bundle: Bundle): string[] {
    const entries = bundle.entry ?? [];
    const fullUrls = entries.flatMap(({ fullUrl, resource }) =>
      fullUrl ? [`${fullUrl} ${resource?.meta?.versionId ?? ''}`] : [],
    );
    return [
      ...(bundle.total !== undefined ? ['bdl-1: total only of a search or a history'] : []),
      ...(entries.some(({ search }) => search) ? ['bdl-2: entry.search only of a search'] : []),
      ...(entries.some(({ request }) => !request) ? ['bdl-3: entry.request of every entry'] : []),
      ...(entries.some(({ response }) => response)
        ? ['bdl-4: entry.response only of a response or a history']
        : []),
      ...(entries.some(({ resource, request, response }) => !resource && !request && !response)
        ? ['bdl-5']
        : []),
      ...(new Set(fullUrls).size !== fullUrls.length ? ['bdl-7: a full URL twice'] : []),
      ...(entries.some(({ fullUrl }) => fullUrl?.includes('/_history/'))
        ? ['bdl-8: a version in a full URL']
        : []),
    ];
  }

  /** As a server would hold what was created. */
  const held = (bundle: Bundle): FhirResource[] =>
    resourcesOf(bundle).map(
      (one, i) => ({ ...one, id: `s${i}`, meta: { ...one.meta, versionId: String(i + 1) } }) as FhirResource,
    );

  const first = transactionOf(demo)!;
  const second = transactionOf(updated, held(first))!;

  it.each([
    ['of the first run', first],
    ['of the next one', second],
  ] as const)('%s is a valid Bundle that keeps the constraints of one', (_, bundle) => {
    expect(bundle.type).toBe('transaction');
    expect(broken(bundle)).toEqual([]);
    expect(faultsOf(bundle)).toEqual([]);
    expect(missedFaults(bundle)).toEqual([]);
    for (const resource of resourcesOf(bundle)) expect(faultsOf(resource), resource.resourceType).toEqual([]);
  });

  it('creates by a condition on what makes a resource the same one, each condition once', () => {
    const conditions = (first.entry ?? []).map(({ request, resource }) => {
      expect(request).toMatchObject({ method: 'POST', url: resource?.resourceType });
      expect(resource).not.toHaveProperty('id');
      const [, parameter, value] = /^(identifier|_tag)=(.+)$/.exec(request?.ifNoneExist ?? '') ?? [];
      expect(parameter).toBe(resource?.resourceType === 'Provenance' ? '_tag' : 'identifier');
      const [system, code] = decodeURIComponent(value!).split('|');
      expect(system).toMatch(/^https:\/\/dwellward\.example\/fhir\/[a-z-]+$/);
      expect(code).toMatch(/^[0-9a-f]{32}$/);
      return `${resource?.resourceType ?? ''}?${request?.ifNoneExist ?? ''}`;
    });
    expect(conditions.length).toBeGreaterThan(100);
    expect(new Set(conditions).size).toBe(conditions.length);
  });

  it('changes what is there by its version, and only what has changed', () => {
    const puts = (second.entry ?? []).filter(({ request }) => request?.method === 'PUT');
    expect(puts.length).toBeGreaterThan(0);
    expect(puts.length).toBeLessThan(40);
    for (const { request, resource } of puts) {
      expect(request?.url).toBe(`${resource?.resourceType ?? ''}/${resource?.id ?? ''}`);
      expect(request?.ifMatch).toBe(`W/"${resource?.meta?.versionId ?? ''}"`);
      expect(request).not.toHaveProperty('ifNoneExist');
    }
  });

  it('points from a Provenance to its Task: by the full URL of a new one, by the id of one that is there', () => {
    for (const bundle of [first, second]) {
      const urls = new Set((bundle.entry ?? []).flatMap(({ fullUrl, request }) => [fullUrl, request?.url]));
      for (const one of resourcesOf(bundle))
        if (one.resourceType === 'Provenance')
          for (const { reference } of one.target) expect(urls.has(reference), reference).toBe(true);
    }
  });
});
