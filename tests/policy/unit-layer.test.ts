import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { run } from '@dwellward/cli';
import { dueBundle, dueCare, previewPolicy, readRecords, type LineCare } from '@dwellward/core';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import { bundledPlan, lintPlan, readPolicy, type Policy } from '@dwellward/policy';
import { codeSystem } from '@dwellward/profiles';
import { startDemoServer } from '@dwellward/demo-server';
import type { FhirResource, Flag, PlanDefinition, Task } from 'fhir/r4.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { declarations } from '../conformance/declarations.js';
import { extensionFaultsOf, faultsOf } from '../conformance/r4-validators.js';
import { figure } from '../figure.js';
import { adapterOver, search, send } from '../interop/support.js';
import { said } from '../said.js';
import { debris, done, found, red, temperature, ward, white } from './ward.js';

// A unit’s own layer: its limit of a fever, first steps and a ban on two activities. It stands in FSH, as the compiler
// makes it JSON (kept in step by `npm run plans -- --check`), and once more as JSON that was written by hand.
// What is due was worked out by hand from what the layer says.

const folder = fileURLToPath(new URL('../../fixtures/policy/', import.meta.url));
const fsh = readFileSync(`${folder}lanternfern.fsh`, 'utf8');
const compiledFile = `${folder}PlanDefinition-lanternfern.json`;
const byHandFile = `${folder}lanternfern-by-hand.json`;
const planIn = (path: string) => JSON.parse(readFileSync(path, 'utf8')) as PlanDefinition;
const compiled = planIn(compiledFile);
const byHand = planIn(byHandFile);

function policyOf(...own: readonly PlanDefinition[]): Policy {
  const reading = readPolicy([bundledPlan('base'), bundledPlan('trouble'), ...own]);
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  return reading.policy;
}
const without = policyOf();
const layered = policyOf(compiled);

const at = (time: string) => ({ asOf: `2026-11-25T${time}:00+01:00`, zone: 'Europe/Berlin' });
const recordsOf = (resources: readonly FhirResource[]) =>
  readRecords(resources.map((resource) => ({ resource })));

function careAt(time: string, policy: Policy, ...charted: readonly FhirResource[]): LineCare {
  const [line] = recordsOf([...ward, ...charted]).lines;
  return dueCare(line!, policy, at(time));
}

const items = ({ items: all }: LineCare, activity: string) =>
  all
    .filter((item) => item.activity === activity)
    .map(({ rule, target, dueBy }) => `${rule.id} on ${target.ref} by ${dueBy.slice(11, 16)}`);
const holds = ({ holds: all }: LineCare) => all.map(({ activity, target }) => `${activity} ${target.ref}`);

describe('a layer of a unit', () => {
  it('takes at most 40 lines of FSH, comments and blank lines among them', (context) => {
    const lines = fsh.trimEnd().split('\n').length;
    expect(lines).toBeLessThanOrEqual(40);
    figure(context, `${lines} lines of FSH`);
  });

  it.each([
    ['as SUSHI makes it', compiled, compiledFile],
    ['as it was written by hand', byHand, byHandFile],
  ])(
    'is checked with no word but on what it loosens, by both validators, the lint and the command: %s',
    async (_, plan, file) => {
      expect([...faultsOf(plan), ...extensionFaultsOf(plan, declarations)]).toEqual([]);
      expect(lintPlan(plan)).toEqual([]);
      const { findings } = readPolicy([bundledPlan('base'), bundledPlan('trouble'), plan]);
      expect(findings.map(({ code, ruleId }) => [code, ruleId])).toEqual([
        ['loosened-with-reason', 'fever-response'],
        ['loosened-with-reason', 'fever-response-low-count'],
      ]);
      const { exit, out, err } = await command('policy', 'check', file);
      expect([exit, err]).toEqual([0, '']);
      expect(out).toContain('0 errors, 2 warnings, 5 rules of its own');
    },
  );

  it('says that it loosens a rule with a source, and why', () => {
    const replaced = (layered.replaced ?? []).map(({ id, how, notes }) => [id, how, notes[0]?.slice(0, 45)]);
    const why = 'The unit’s physicians call it a fever from 38';
    expect(replaced).toEqual([
      ['fever-response', 'replaced', why],
      ['fever-response-low-count', 'replaced', why],
    ]);
    const silent = { ...compiled, action: compiled.action!.map((one) => ({ ...one, documentation: [] })) };
    const refused = readPolicy([bundledPlan('base'), bundledPlan('trouble'), silent]);
    expect(refused.findings.filter(({ severity }) => severity === 'error').map(({ code }) => code)).toEqual([
      'loosened',
      'loosened',
    ]);
  });

  it('is previewed: what vanishes, what appears, and what would be forbidden', async () => {
    const records = recordsOf([...ward, temperature(38.1, '06:00'), debris('06:30')]);
    const { changes, holds: held } = previewPolicy(records, without, layered, at('07:00'));
    const told = changes.map(
      ({ kind, rule, before, after }) => `${kind}: ${(after ?? before)!.activity}, ${rule.id}`,
    );
    expect(told).toEqual([
      'appears: blockage-response, debris-response',
      'vanishes: fever-response, fever-response',
      // What the base asks for of that lumen waits.
      'held: flush, flush-picc-tunneled',
      'held: lock, lock-picc-tunneled',
    ]);
    expect(held.map(({ kind, hold }) => `${kind}: ${hold.activity} ${hold.target.ref}`).sort()).toEqual([
      `appears: flush ${red}`,
      `appears: lock ${red}`,
    ]);
    const unit = fileURLToPath(new URL('../../fixtures/lanternfern-unit.json', import.meta.url));
    const { exit, out } = await command(
      ...['policy', 'preview', compiledFile, '--on', unit, '--at', demoInstant, '--zone', demoZone],
    );
    expect(exit).toBe(0);
    expect(out).not.toBe('');
  });
});

describe('in force in the library', () => {
  it('asks for nothing at 38.1, where the first steps alone would', () => {
    const warm = temperature(38.1, '06:00');
    expect(items(careAt('07:00', without, warm), 'fever-response')).toEqual([
      'fever-response on Device/rowan-picc by 06:00',
    ]);
    expect(items(careAt('07:00', layered, warm), 'fever-response')).toEqual([]);
    expect(items(careAt('07:00', layered, temperature(38.2, '06:00')), 'fever-response')).toEqual([]);
  });

  it('asks at 38.3, as soon as possible, and at chills whatever the temperature', () => {
    const care = careAt('07:00', layered, temperature(38.3, '06:00'));
    expect(items(care, 'fever-response')).toEqual(['fever-response on Device/rowan-picc by 06:00']);
    const [{ rule } = { rule: undefined }] = care.items.filter(
      ({ activity }) => activity === 'fever-response',
    );
    expect(rule).toMatchObject({ title: 'Fever from 38.3 °C on: first steps', priority: 'asap' });
    const chills = found('fever', codeSystem.lineFinding, 'present', '06:20');
    expect(items(careAt('07:00', layered, temperature(37.2, '06:00'), chills), 'fever-response')).toEqual([
      'fever-response on Device/rowan-picc by 06:20',
    ]);
  });

  it('is an emergency at 38.3 where neutrophils are low, and nothing at 38.1', () => {
    const low = {
      ...ward.at(-1)!,
      valueQuantity: { value: 0.4, system: 'http://unitsofmeasure.org', code: '10*9/L' },
    };
    const atLow = (value: number) => {
      const [line] = recordsOf([...ward.slice(0, -1), low, temperature(value, '06:00')]).lines;
      return dueCare(line!, layered, at('07:00'));
    };
    expect(items(atLow(38.3), 'fever-response')).toEqual([
      'fever-response-low-count on Device/rowan-picc by 06:00',
    ]);
    expect(items(atLow(38.1), 'fever-response')).toEqual([]);
  });

  it('forbids flush and lock of the lumen with debris alone, until its connector is changed', () => {
    expect(holds(careAt('07:00', without, debris('06:30')))).toEqual([]);
    expect(holds(careAt('06:29', layered, debris('06:30')))).toEqual([]);
    expect(holds(careAt('07:00', layered, debris('06:30'))).sort()).toEqual([`flush ${red}`, `lock ${red}`]);
    const others = [
      done('needleless-connector-change', '06:45', white),
      done('flush', '06:50', white),
      done('needleless-connector-change', '06:10', red),
    ];
    expect(holds(careAt('07:00', layered, debris('06:30'), ...others)).sort()).toEqual([
      `flush ${red}`,
      `lock ${red}`,
    ]);
    const changed = done('needleless-connector-change', '06:45', red);
    expect(holds(careAt('07:00', layered, debris('06:30'), changed))).toEqual([]);
  });

  it('asks for the first steps of its own at debris, until the connector is changed', () => {
    expect(items(careAt('07:00', without, debris('06:30')), 'blockage-response')).toEqual([]);
    const care = careAt('07:00', layered, debris('06:30'));
    expect(items(care, 'blockage-response')).toEqual([`debris-response on ${red} by 06:30`]);
    const [item] = care.items.filter(({ activity }) => activity === 'blockage-response');
    expect(item!.work.filter(({ kind }) => kind === 'step').flatMap(({ text }) => said([text]))).toEqual([
      'Clamp the lumen and take the connector off; look at what is in it, and chart it.',
      'Put a new connector on, draw back until blood comes, and only then flush.',
    ]);
    const changed = done('needleless-connector-change', '06:45', red);
    expect(items(careAt('07:00', layered, debris('06:30'), changed), 'blockage-response')).toEqual([]);
  });
});

describe('in force in the adapter', () => {
  let server: Awaited<ReturnType<typeof startDemoServer>>;
  beforeAll(async () => {
    server = await startDemoServer();
    for (const one of ward) expect(await put(one)).toBeLessThan(300);
  });
  afterAll(() => server.close());

  const put = (one: FhirResource) => send(server.baseUrl, 'PUT', `${one.resourceType}/${one.id ?? ''}`, one);
  async function round(time: string): Promise<{ fever: string[]; debris: string[]; flags: string[] }> {
    const policy = ['base', 'trouble', compiledFile];
    const { failed } = await (await adapterOver(server.baseUrl, { asOf: at(time).asOf, policy })).round();
    expect(failed).toBe(0);
    const tasks = async (activity: string) =>
      (
        await search<Task>(
          server.baseUrl,
          `Task?status=requested&code=${codeSystem.lineCareActivity}|${activity}`,
        )
      ).map(
        ({ instantiatesUri = '', focus }) =>
          `${instantiatesUri.split('#').at(-1) ?? ''} ${focus?.reference ?? ''}`,
      );
    const flags = await search<Flag>(server.baseUrl, 'Flag');
    const active = flags.filter(({ status }) => status === 'active');
    return {
      fever: await tasks('fever-response'),
      debris: await tasks('blockage-response'),
      flags: active.flatMap(({ code: { coding = [] } }) =>
        coding.filter(({ system }) => system === codeSystem.hold).map(({ code = '' }) => code),
      ),
    };
  }

  it('writes nothing of a fever at 38.1 and a Task at 38.3, the first steps, and a Flag for each ban', async () => {
    await put(temperature(38.1, '06:00'));
    expect(await round('06:10')).toEqual({ fever: [], debris: [], flags: [] });
    await put(temperature(38.3, '06:15'));
    await put(debris('06:20'));
    const after = await round('06:25');
    expect(after.fever).toEqual(['fever-response Device/rowan-picc']);
    expect(after.debris).toEqual([`debris-response ${red}`]);
    expect(after.flags.sort()).toEqual(['flush', 'lock']);
    await put(done('needleless-connector-change', '06:40', red));
    expect(await round('06:45')).toMatchObject({ debris: [], flags: [] });
  });
});

describe('the same layer written by hand', () => {
  it('gives the same due care, byte for byte', (context) => {
    const handed = policyOf(byHand);
    const set = [temperature(38.3, '06:00'), debris('06:30'), done('flush', '06:40', white)];
    const several = [
      { records: readRecords(unitEntries()), when: { asOf: demoInstant, zone: demoZone } },
      { records: recordsOf([...ward, ...set]), when: at('07:00') },
      {
        records: recordsOf([...ward, ...set, done('needleless-connector-change', '06:45', red)]),
        when: at('07:00'),
      },
    ];
    const texts = (policy: Policy) =>
      several.map(({ records, when }) => {
        const cares = records.lines.map((line) => dueCare(line, policy, when));
        return JSON.stringify([cares, dueBundle(records, cares, policy, when)]);
      });
    const [unit, rules, over] = texts(layered);
    expect(texts(handed)).toEqual([unit, rules, over]);
    // The rules are at work in what is compared, and the plans are two texts.
    for (const id of ['fever-response', 'debris-response', 'flush-through-debris', 'lock-through-debris'])
      expect(rules).toContain(`"${id}"`);
    expect(texts(without)[1]).not.toBe(rules);
    expect(JSON.stringify(byHand)).not.toBe(JSON.stringify(compiled));
    const bytes = [unit, rules, over].reduce((sum, text) => sum + Buffer.byteLength(text ?? ''), 0);
    figure(context, `${bytes} bytes of due care over ${several.length} records`);
  });
});

const unitEntries = () =>
  (demoUnit().entry ?? []).flatMap(({ resource }) => (resource ? [{ resource }] : []));

async function command(...args: readonly string[]): Promise<{ exit: number; out: string; err: string }> {
  let out = '';
  let err = '';
  const exit = await run(args, {
    stdin: (async function* () {})(),
    write: (text) => void (out += text),
    warn: (text) => void (err += text),
    colour: false,
    columns: 0,
    progress: false,
    now: () => '2026-11-25T06:30:00Z',
  });
  return { exit, out, err };
}
