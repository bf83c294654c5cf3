import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { dueCare, readRecords } from '@dwellward/core';
import { demoZone } from '@dwellward/fixtures';
import { bundledPlan, readPolicy } from '@dwellward/policy';
import { describe, expect, it } from 'vitest';
import { said } from '../said.js';

const folder = fileURLToPath(new URL('../../fixtures/bad/', import.meta.url));
const text = (path: string) => readFileSync(folder + path, 'utf8');
const resourceTypeOf = (path: string) => (JSON.parse(text(path)) as { resourceType?: string }).resourceType;

describe('the bad input', () => {
  it('is bad in the way its table says', () => {
    expect(() => JSON.parse(text('not-json.json')) as unknown).toThrow(SyntaxError);
    expect(resourceTypeOf('not-fhir.json')).toBeUndefined();
    expect(resourceTypeOf('wrong-resource-type.json')).toBe('Bundel');
    expect(resourceTypeOf('not-a-bundle.json')).toBe('Questionnaire');
    const lines = text('truncated-ndjson/Procedure.ndjson').split('\n');
    expect(lines).toHaveLength(3);
    expect(() => JSON.parse(lines[1]!) as unknown).not.toThrow();
    expect(() => JSON.parse(lines[2]!) as unknown).toThrow(SyntaxError);
    for (const [, path] of text('README.md').matchAll(/^\| `([^`]+)` \|/gm))
      expect(existsSync(folder + path!), path).toBe(true);
  });
});

describe('a Bundle with bad resources among good ones', () => {
  const { entry } = JSON.parse(text('bad-among-good.json')) as { entry: ({ resource: unknown } | null)[] };
  // Taking a Bundle apart is the caller's part: a null entry holds no resource.
  const { lines, issues } = readRecords(entry.map((each) => each ?? { resource: undefined }));
  const picc = lines.find(({ ref }) => ref === 'Device/maple-picc')!;
  const isReported = (part: string) =>
    issues.some((issue) => [issue.resource, issue.path, ...said([issue.sentence])].join(' ').includes(part));

  it('is computed from the good ones', () => {
    const policy = readPolicy([bundledPlan('base')]);
    if (!policy.ok) throw new Error('The base is refused.');
    const { items } = dueCare(picc, policy.policy, { asOf: '2026-11-25T12:00:00+01:00', zone: demoZone });
    const dressing = items.filter(({ activity }) => activity === 'dressing-change');
    expect(dressing).toHaveLength(1);
    // 20 November 10:00 and seven days, for a transparent dressing.
    expect(new Date(dressing[0]!.dueBy).toISOString()).toBe('2026-11-27T09:00:00.000Z');
  });

  it('has every entry without a readable resource reported with its place', () => {
    for (const place of [1, 9, 10, 11]) expect(isReported(`entry[${place}]`), `entry ${place}`).toBe(true);
    expect(isReported('https://lanternfern.example/fhir/Procedure/lost')).toBe(true);
  });

  it('has an element of the wrong type reported with its path, and the event does not count', () => {
    expect(isReported('Procedure.performedDateTime')).toBe(true);
  });

  it('uses none of two values of one result, and reports it', () => {
    expect(picc.patient.measurements).toEqual([]);
    expect(isReported('maple-anc-two-values')).toBe(true);
  });

  it('has a resource type that is none reported', () => {
    expect(isReported('Proceduer')).toBe(true);
  });
});
