import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { bundledPlan, readPolicy } from '@dwellward/policy';
import { pino } from 'pino';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { readConfig, variables } from './config.js';
import { startDemoServer } from '@dwellward/demo-server';
import { realMachine } from './machine.js';
import { main, type Outside } from './main.js';
import { startService } from './service.js';

let demo: Awaited<ReturnType<typeof startDemoServer>>;
let folder: string;
beforeAll(async () => {
  demo = await startDemoServer();
  folder = await mkdtemp(join(tmpdir(), 'adapter-'));
});
afterAll(async () => {
  await demo.close();
  await rm(folder, { recursive: true });
});

let printed: string[];
let complained: string[];
beforeEach(() => {
  printed = [];
  complained = [];
});
const run = (args: string[], environment: Record<string, string> = {}, more: Partial<Outside> = {}) =>
  main(args, {
    environment,
    print: (text) => void printed.push(text),
    printError: (text) => void complained.push(text),
    interrupted: Promise.resolve(),
    ...more,
  });
const settings = (more: Record<string, string> = {}) => ({
  DWELLWARD_FHIR_URL: demo.baseUrl,
  DWELLWARD_ZONE: 'Europe/Berlin',
  DWELLWARD_LOG_LEVEL: 'silent',
  DWELLWARD_PORT: '0',
  ...more,
});

it('--help gives examples, exit codes and every setting', async () => {
  expect(await run(['--help'])).toBe(0);
  for (const word of ['dwellward-adapter --once', 'Exit codes', ...Object.keys(variables)])
    expect(printed[0]).toContain(word);
});

it.each([[['--nonsense']], [['--serve']], [['file.json']]])(
  '%j is refused with exit code 2',
  async (args) => {
    expect(await run(args)).toBe(2);
    expect(complained[0]).toContain('--help');
  },
);

it('starts with no unusable setting: exit code 2 and every problem', async () => {
  expect(await run([], { DWELLWARD_PORT: 'x' })).toBe(2);
  expect(complained[0]!.split('\n')).toHaveLength(3);
});

describe('the policy', () => {
  it('may be a file', async () => {
    const file = join(folder, 'base.json');
    await writeFile(file, JSON.stringify(bundledPlan('base')));
    const over = { DWELLWARD_POLICY: file, DWELLWARD_POLICY_WITHOUT: 'base' };
    expect(await run(['--once'], settings(over))).not.toBe(2);
  });

  it.each([
    ['no file', undefined, 'can’t be read'],
    ['no JSON', '{', 'is not JSON'],
    ['no PlanDefinition', '{"resourceType":"Patient"}', 'PlanDefinition'],
  ])('is refused where it is %s', async (_, text, why) => {
    const file = join(folder, 'bad.json');
    await rm(file, { force: true });
    if (text !== undefined) await writeFile(file, text);
    expect(await run(['--once'], settings({ DWELLWARD_POLICY: `base,${file}` }))).toBe(2);
    expect(complained[0]).toContain(file);
    expect(complained[0]).toContain(why);
  });
});

/** A unit’s plan that switches the review of the line’s need off. */
const unitPlan = (more: object) => ({
  ...bundledPlan('base'),
  url: 'https://unit.example/fhir/PlanDefinition/unit',
  title: 'Line care of our unit',
  action: [
    {
      id: 'necessity-review',
      title: 'Ask if the line is still needed',
      condition: [{ kind: 'applicability', expression: { language: 'text/fhirpath', expression: 'false' } }],
      documentation: [
        {
          type: 'justification',
          display: 'The physicians ask for it in their daily round and chart it there.',
        },
      ],
    },
  ],
  ...more,
});

it('P1: a rule that is switched off is said at the start and in the status', async () => {
  const reading = readPolicy([bundledPlan('base'), unitPlan({})]);
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  const config = readConfig(settings({ DWELLWARD_POLICY_WITHOUT: 'trouble' }));
  const lines: string[] = [];
  const log = pino({ level: 'warn' }, { write: (text: string) => void lines.push(text) });
  const service = await startService({ config, policy: reading.policy, machine: realMachine, log });
  const response = await fetch(`${service.url}/readyz`);
  const { policy } = (await response.json()) as { policy: string[] };
  await service.stop();
  expect(policy).toEqual([
    expect.stringMatching(/asks for less than its published source.*switched off.*Line care of our unit/),
    expect.stringContaining('“trouble” of the default is left out'),
  ]);
  for (const text of policy)
    expect(lines.map((line) => (JSON.parse(line) as { msg: string }).msg)).toContain(text);
});

describe('a policy that nobody has approved', () => {
  const written = async (name: string, more: object) => {
    const file = join(folder, name);
    await writeFile(file, JSON.stringify(unitPlan(more)));
    return file;
  };

  it.each([
    ['draft', { status: 'draft', experimental: false }],
    ['experimental', { status: 'active', experimental: true }],
    ['retired', { status: 'retired', experimental: false }],
  ])('P1: a plan that is %s is refused unless it is allowed by name', async (state, more) => {
    const file = await written(`${state}.json`, more);
    expect(await run(['--once'], settings({ DWELLWARD_POLICY: file }))).toBe(2);
    expect(complained[0]).toContain(`“${file}” is ${state}.`);
    expect(complained[0]).toContain('DWELLWARD_POLICY_UNAPPROVED');
    const allowed = { DWELLWARD_POLICY: file, DWELLWARD_POLICY_UNAPPROVED: file };
    expect(await run(['--once'], settings(allowed))).not.toBe(2);
  });

  it('P1: a name that is allowed must be one that is used', async () => {
    expect(await run(['--once'], settings({ DWELLWARD_POLICY_UNAPPROVED: 'other.json' }))).toBe(2);
    expect(complained[0]).toContain('“other.json” is not in DWELLWARD_POLICY');
  });
});

describe('a file that a setting names and that can’t be used ends with 2, naming both', () => {
  it.each<[string, Record<string, string>]>([
    ['DWELLWARD_FHIR_TOKEN_FILE', {}],
    ['DWELLWARD_FHIR_CLIENT_KEYS', { DWELLWARD_FHIR_CLIENT_ID: 'dwellward' }],
  ])('%s', async (name, more) => {
    const file = join(folder, 'nowhere');
    for (const args of [['--once'], []]) {
      expect(await run(args, settings({ ...more, [name]: file }))).toBe(2);
      expect(complained.pop()).toMatch(new RegExp(`^${name} is “.*nowhere”, and can’t be used: ENOENT`));
    }
  });

  it('DWELLWARD_GUARD_KEYS', async () => {
    const more = { DWELLWARD_GUARD_ISSUER: 'i', DWELLWARD_GUARD_AUDIENCE: 'a' };
    const file = join(folder, 'nowhere');
    expect(await run([], settings({ ...more, DWELLWARD_GUARD_KEYS: file }))).toBe(2);
    expect(complained[0]).toMatch(/^DWELLWARD_GUARD_KEYS is “.*nowhere”.*ENOENT/);
  });
});

describe('--once', () => {
  it('ends with 3 after a round that found nobody, with 0 after one over a patient with a line', async () => {
    expect(await run(['--once'], settings())).toBe(3);
    await demo.repository.createResource({ resourceType: 'Patient', id: 'p' } as never, undefined, true);
    const line = { resourceType: 'Device', id: 'd', type: { coding: [{ code: 'picc' }] } };
    await demo.repository.createResource(
      { ...line, patient: { reference: 'Patient/p' } } as never,
      undefined,
      true,
    );
    expect(await run(['--once'], settings())).toBe(0);
  });

  it('ends with 1 where the server can’t be reached', async () => {
    const nowhere = settings({ DWELLWARD_FHIR_URL: `${demo.baseUrl}/nowhere` });
    expect(await run(['--once'], nowhere)).toBe(1);
  });
});

describe('as a service', () => {
  it('ends with 0 when it is interrupted', async () => {
    expect(await run([], settings())).toBe(0);
  });

  it('says with exit code 2 that its port is taken', async () => {
    const { port } = new URL(demo.baseUrl);
    expect(await run([], settings({ DWELLWARD_PORT: port }))).toBe(2);
    expect(complained[0]).toContain(`port ${port}`);
  });
});
