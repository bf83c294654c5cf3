import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bundledPlan, bundledPlanNames, choices, defaultPolicy, type Rule } from '@dwellward/policy';
import { codeSystem, policyExtension } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { run } from './index.js';

const unit = fileURLToPath(new URL('../../../fixtures/lanternfern-unit.json', import.meta.url));
const at = ['--at', '2026-11-25T07:30:00+01:00', '--zone', 'Europe/Berlin'];
const folder = mkdtempSync(join(tmpdir(), 'dwellward-policy-'));

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

async function policy(args: readonly string[], columns = 0) {
  let out = '';
  let err = '';
  const exit = await run(['policy', ...args], {
    stdin: (async function* () {})(),
    write: (text) => void (out += text),
    warn: (text) => void (err += text),
    colour: false,
    columns,
    progress: false,
    now: () => '2026-11-25T06:30:00Z',
  });
  return { exit, out, err };
}

/** The rules of the default policy. */
function bundledRules(): readonly Rule[] {
  return defaultPolicy().rules;
}

/** The examples of rules as JSON, their sources and reasons written. */
async function examples(): Promise<unknown> {
  const { out } = await policy(['new', '--examples', '--format', 'json']);
  const written = out
    .replaceAll(/Replace this by your unit’s reason[^"]*/g, 'The unit decided it for a reason of its own.')
    .replaceAll('replace this by the source that your unit goes by.', 'decided by the unit.');
  return JSON.parse(written) as unknown;
}

const source = {
  type: 'documentation',
  display: 'Common practice, no source: invented for a test.',
  extension: [{ url: policyExtension.sourceCertainty, valueCode: 'common-practice' }],
};

function action(id: string, activity: string, more: object = {}): object {
  return {
    id,
    title: id,
    code: [{ coding: [{ system: codeSystem.lineCareActivity, code: activity }] }],
    documentation: [source],
    ...more,
  };
}

function plan(name: string, actions: readonly object[], more: object = {}): object {
  return {
    resourceType: 'PlanDefinition',
    url: `https://unit.example/PlanDefinition/${name}`,
    version: '1',
    title: name,
    status: 'active',
    action: actions,
    ...more,
  };
}

const when = (expression: string) => ({
  condition: [{ kind: 'applicability', expression: { language: 'text/fhirpath', expression } }],
});
const every = (period: number, periodUnit: string) => ({
  timingTiming: { repeat: { frequency: 1, period, periodUnit } },
});
const after = (actionId: string) => ({
  relatedAction: [{ actionId, relationship: 'after-end', offsetDuration: { value: 1, code: 'h' } }],
});

describe('policy check refuses, with path and cure', () => {
  it.each<[string, object, string, string]>([
    [
      'a typo in the name of a fact',
      plan('typo', [action('ours', 'bath', { ...when("%labs.ank < 0.5 '10*9/L'"), ...every(1, 'd') })]),
      'PlanDefinition.action[0].condition[0].expression.expression (rule ours)',
      'Did you mean',
    ],
    [
      'a unit that is not known',
      plan('unit', [action('ours', 'bath', { ...when("%labs.anc < 0.5 '10*9/Litre'"), ...every(1, 'd') })]),
      'PlanDefinition.action[0].condition[0].expression.expression (rule ours)',
      '10*9/L',
    ],
    [
      'a chain in the language of the first edition',
      plan('chain', [action('first', 'bath', every(1, 'd')), action('second', 'teaching', after('first'))]),
      'PlanDefinition.action[1].relatedAction[0].relationship (rule second)',
      'Give the action a trigger of type data-added with data of type Procedure',
    ],
    [
      'two rules with one id',
      plan('twice', [action('ours', 'bath', every(1, 'd')), action('ours', 'bath', every(2, 'd'))]),
      'PlanDefinition.action[1].id (rule ours)',
      'an id of its own',
    ],
    [
      'a published maximum that is loosened without a reason',
      plan('loose', [
        action('dressing-change-chlorhexidine', 'dressing-change', {
          extension: [
            {
              url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope',
              valueCode: 'exit-site',
            },
          ],
          ...every(10, 'd'),
        }),
      ]),
      'PlanDefinition.action[0] (rule dressing-change-chlorhexidine)',
      'documentation of type justification',
    ],
    [
      'a policy that is in force from no day that there is',
      plan('never', [action('ours', 'bath', every(1, 'd'))], { effectivePeriod: { start: '2026-02-30' } }),
      'PlanDefinition.effectivePeriod.start',
      'Give start and end as dates',
    ],
  ])('%s', async (name, content, path, cure) => {
    const own = file(`${name.replaceAll(' ', '-')}.json`, content);
    const { exit, out } = await policy(['check', own]);
    expect(exit).toBe(4);
    const line = out.split('\n').find((one) => one.startsWith('error: ') && one.includes(path));
    expect(line).toContain(own);
    expect(line).toContain(cure);
    expect(out).toContain('refused');
  });

  it('both intervals and the source, where a published maximum is loosened', async () => {
    const own = file(
      'intervals.json',
      plan('intervals', [
        action('dressing-change-gauze', 'dressing-change', {
          extension: [
            {
              url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope',
              valueCode: 'exit-site',
            },
          ],
          ...every(4, 'd'),
        }),
      ]),
    );
    const { out } = await policy(['check', own]);
    expect(out).toContain('every 4 days instead of every 2 days');
    // CDC-HICPAC 2011 is what the base cites for gauze.
    expect(out).toContain('CDC-HICPAC 2011');
  });

  it('two layers with one url', async () => {
    const one = file('one.json', plan('same', [action('ours', 'bath', every(1, 'd'))]));
    const two = file(
      'two.json',
      plan('same', [action('others', 'teaching', every(1, 'd'))], { version: '2' }),
    );
    const { exit, out } = await policy(['check', one, two]);
    expect(exit).toBe(4);
    expect(out).toContain(`error: ${two}, PlanDefinition.url`);
    expect(out).toContain('Give every layer a url of its own');
  });

  it('two versions of one layer that are in force on one day, and says when the first has to end', async () => {
    const rule = action('ours', 'bath', every(1, 'd'));
    const one = file('v1.json', plan('versions', [rule], { effectivePeriod: { end: '2026-12-31' } }));
    const two = file(
      'v2.json',
      plan('versions', [rule], { version: '2', effectivePeriod: { start: '2026-12-01' } }),
    );
    const { exit, out } = await policy(['check', one, two]);
    expect(exit).toBe(4);
    expect(out).toContain('PlanDefinition.effectivePeriod');
    expect(out).toContain('End version 1 on 2026-11-30');
  });
});

describe('policy show', () => {
  it('groups by activity and gives what, on what, how often, when, source and layer', async () => {
    const { exit, out, err } = await policy(['show', 'neutropenia']);
    expect({ exit, err }).toEqual({ exit: 0, err: '' });
    const [, dressings = ''] = out.split('\nDressing change\n');
    const rule = dressings.split('  Change a gauze dressing daily')[1]?.split('\n').slice(0, 4).join('\n');
    expect(rule).toContain('| exit site | every day');
    expect(rule).toContain('the neutrophil count is below 0.2 10^9/L');
    expect(rule).toContain('source    [common practice] Common practice, no source');
    expect(rule).toContain('layer     Daily gauze dressing while neutrophils are very low');
  });

  it('P3: shows conditions in words, and as the plan writes them only where that is asked for', async () => {
    const { out } = await policy(['show', 'neutropenia', '--activity', 'dressing-change']);
    expect(out).not.toMatch(/%\w+\.\w/);
    expect(out).toContain('the dressing is a gauze dressing');
    const { out: both } = await policy([
      ...['show', 'neutropenia', '--activity', 'dressing-change', '--expressions'],
    ]);
    expect(both).toContain('the dressing is a gauze dressing');
    expect(both).toMatch(/FHIRPath\s+.*%labs\.anc < 0\.2 '10\*9\/L'/);
  });

  it('P3: tells what differs between two policies in words', async () => {
    const { out } = await policy(['diff', 'base', 'neutropenia']);
    expect(out).toContain('the neutrophil count is below 0.2 10^9/L');
    expect(out).not.toMatch(/%\w+\.\w/);
    const { out: both } = await policy(['diff', 'base', 'neutropenia', '--expressions']);
    expect(both).toContain("%labs.anc < 0.2 '10*9/L'");
  });

  it('shows one activity, and wraps to the terminal', async () => {
    const { out } = await policy(['show', '--activity', 'dressing-change'], 60);
    expect(out).toContain('\nDressing change\n');
    expect(out).not.toContain('\nFlush\n');
    // A single word may be longer than what is left of the line; ids of rules are.
    for (const line of out.split('\n').filter((one) => !one.startsWith('1') && !one.includes('Advice')))
      if (line.trim().split(' ').length > 1 && !line.includes('(rule'))
        expect(line.length).toBeLessThanOrEqual(60);
  });

  it('shows what a layer replaced and what it switched off, in the table and in JSON', async () => {
    const ours = file('template.json', await examples());
    const { out } = await policy(['show', ours]);
    expect(out).toMatch(/before {4}replaced by Examples of rules, version 0\.1\.0: .* had it every 7 days/);
    expect(out).toMatch(/Switched off\n {2}access-needle-change: /);
    const { replaced } = JSON.parse((await policy(['show', ours, '--format', 'json'])).out) as {
      replaced: { id: string; how: string; before: { schedule: string } }[];
    };
    expect(replaced).toMatchObject([
      { id: 'access-needle-change', how: 'switched-off', before: { schedule: 'every 7 days' } },
      { id: 'external-length-measurement', how: 'replaced', before: { schedule: 'every 7 days' } },
    ]);
  });

  it('P2: gives every source whole, with how sure it is, and those from memory alone where they are asked for', async () => {
    const { out } = await policy(['show']);
    expect(out).not.toContain('…');
    const all = bundledRules().length;
    const unsure = bundledRules().filter(({ citations }) =>
      citations.some(({ certainty }) => certainty === 'from-memory'),
    ).length;
    expect(unsure).toBeGreaterThan(20);
    expect(out).toContain(`${all} rules, ${unsure} of them with a source from memory`);
    expect(out.split('[from memory, to be checked]').length - 1).toBeGreaterThanOrEqual(unsure);
    const alone = await policy(['show', '--from-memory']);
    expect(alone.out).toContain(`${unsure} rules, ${unsure} of them with a source from memory`);
  });

  it('P2: every bundled layer and choice is listed with what it does', async () => {
    const { exit, out } = await policy(['list']);
    expect(exit).toBe(0);
    for (const name of bundledPlanNames) expect(out).toContain(name);
    for (const { name, taken } of choices) {
      expect(out).toContain(name);
      expect(out).toContain(taken);
    }
    const { layers } = JSON.parse((await policy(['list', '--format', 'json'])).out) as {
      layers: { name: string; does: string; rules: number }[];
    };
    for (const { does, rules } of layers) expect([does.length > 20, rules > 0]).toEqual([true, true]);
  });

  it.each([
    [['show', '--activity', 'dance']],
    [['show', '--format', 'xml']],
    [['sing']],
    [['diff', 'base']],
    [['diff', 'base', 'base', '--format', 'xml']],
    [['check']],
    [['new', '--url', 'not a url']],
    [['new', '--format', 'xml']],
    [['preview']],
    [['preview', 'neutropenia']],
    [['preview', 'neutropenia', '--on', unit]],
  ])('%j is refused with exit code 2', async (args) => {
    const { exit, out, err } = await policy(args);
    expect({ exit, out }).toEqual({ exit: 2, out: '' });
    expect(err).toContain('--help tells how');
  });

  it.each(['show', 'list', 'check', 'diff', 'preview', 'replay', 'new'])(
    '%s --help has an example',
    async (verb) => {
      const { exit, out } = await policy([verb, '--help']);
      expect(exit).toBe(0);
      expect(out).toMatch(/Examples?\n {2}dwellward policy/);
    },
  );
});

describe('policy diff', () => {
  it('finds no difference between a policy and itself, and exits 0', async () => {
    const { exit, out } = await policy(['diff', 'base', 'base']);
    expect(exit).toBe(0);
    expect(out).toContain('0 added, 0 removed, 0 switched off, 0 changed');
    expect(out).toContain('No rule differs.');
  });

  it('shows both sides of what is replaced, and the reason of what is switched off', async () => {
    const ours = file('ours.json', await examples());
    const { exit, out } = await policy(['diff', 'base', ours]);
    expect(exit).toBe(0);
    expect(out).toContain('11 added, 0 removed, 1 switched off, 1 changed');
    const [, changed = ''] = out.split('\nChanged\n');
    expect(changed).toContain('- schedule: every 7 days\n    + schedule: every 2 weeks');
    expect(changed).toMatch(
      /- source: .*\n {4}\+ source: \[common practice\] Common practice, no source: decided by the unit/,
    );
    expect(out).toContain('The unit decided it for a reason of its own.');
    const back = await policy(['diff', ours, 'base']);
    expect(back.out).toContain('1 added, 11 removed, 0 switched off, 1 changed');
  });

  it('compares plans by themselves, and gives JSON', async () => {
    const one = file(
      'a.json',
      plan('a', [action('x', 'bath', every(1, 'd')), action('y', 'bath', every(2, 'd'))]),
    );
    const two = file('b.json', plan('b', [action('x', 'bath', every(12, 'h'))]));
    const { out } = await policy(['diff', one, two, '--only-policy', '--format', 'json']);
    expect(JSON.parse(out)).toMatchObject({
      added: [],
      removed: [{ id: 'y' }],
      switchedOff: [],
      changed: [
        {
          id: 'x',
          differences: ['beginning'],
          before: { schedule: 'every day' },
          after: { schedule: 'every 12 hours' },
        },
      ],
      same: 0,
    });
  });
});

describe('policy diff of steps', () => {
  const work = (...expressions: string[]) => ({
    resourceType: 'ActivityDefinition',
    id: 'work',
    status: 'active',
    kind: 'Task',
    code: { coding: [{ system: codeSystem.lineCareActivity, code: 'flush' }] },
    extension: expressions.map((expression) => ({
      url: policyExtension.workStep,
      valueExpression: { language: 'text/fhirpath', expression },
    })),
  });
  const withSteps = (name: string, ...expressions: string[]) =>
    file(
      `${name}.json`,
      plan(name, [action('x', 'flush', { ...every(1, 'd'), definitionCanonical: '#work' })], {
        contained: [work(...expressions)],
      }),
    );
  const one = withSteps(
    'steps-1',
    "'Scrub the connector.'",
    "'Let it dry.'",
    "'Flush with ' & %calculated.flushVolume & '.'",
  );
  const two = withSteps(
    'steps-2',
    "'Wash your hands.'",
    "'Scrub the connector.'",
    "'Let it dry for 15 seconds.'",
    "'Flush with ' & %calculated.flushVolume & '.'",
  );

  it('shows those that were added, removed or changed, and no other', async () => {
    const { exit, out } = await policy(['diff', one, two, '--only-policy']);
    expect(exit).toBe(0);
    expect(out).toContain('  ~ x: work');
    expect(out).not.toMatch(/^ +[-+]? work: /m);
    expect(out.split('\n').filter((text) => text.includes('step '))).toEqual([
      '    + step 1. Wash your hands.',
      '    - step 2. Let it dry.',
      '    + step 3. Let it dry for 15 seconds.',
    ]);
    const back = await policy(['diff', two, one, '--only-policy']);
    expect(back.out).toContain('    - step 1. Wash your hands.\n');
  });

  it('shows all steps of a rule that was added', async () => {
    const none = file('steps-0.json', plan('steps-0', [action('y', 'bath', every(1, 'd'))]));
    const { out } = await policy(['diff', none, one, '--only-policy']);
    expect(out).toContain('step 1. Scrub the connector.\n');
    expect(out).toContain('step 3. Flush with (the flush volume).\n');
  });

  it('gives them in JSON too', async () => {
    const { out } = await policy(['diff', one, two, '--only-policy', '--format', 'json']);
    expect(JSON.parse(out)).toMatchObject({
      changed: [
        {
          id: 'x',
          steps: [
            { after: { number: 1, text: 'Wash your hands.' } },
            {
              before: { number: 2, text: 'Let it dry.' },
              after: { number: 3, text: 'Let it dry for 15 seconds.' },
            },
          ],
        },
      ],
    });
  });
});

interface Preview {
  readonly changes: readonly {
    readonly kind: string;
    readonly patient: string;
    readonly line: string;
    readonly activity: string;
    readonly before?: { readonly dueBy: string };
    readonly after?: { readonly dueBy: string };
    readonly dueByShiftMs?: number;
    readonly rule: { readonly id: string };
    readonly notKnown: readonly string[];
  }[];
  readonly same: number;
  readonly changedPatients: readonly string[];
  readonly unchangedPatients: readonly string[];
}

async function preview(...args: string[]): Promise<Preview> {
  const { exit, out } = await policy(['preview', ...args, '--on', unit, ...at, '--format', 'json']);
  expect(exit).toBe(0);
  return JSON.parse(out) as Preview;
}

describe('policy replay', () => {
  const over = ['--on', unit, '--from', '2026-11-24', '--to', '2026-11-25', '--zone', 'Europe/Berlin'];

  it('tells what a plan would have asked beside the policy in use, as a table, CSV and JSON', async () => {
    const json = await policy(['replay', 'common-practice', ...over, '--format', 'json']);
    expect(json.exit).toBe(0);
    const { before, after } = JSON.parse(json.out) as Record<'before' | 'after', { items: number }>;
    expect(after.items).not.toBe(before.items);
    const table = await policy(['replay', 'common-practice', ...over]);
    expect(table.out).toMatch(new RegExp(`Items +${before.items} +${after.items} `));
    expect(table.out).toContain('A model: everything is done at the moment it is due.');
    const csv = await policy(['replay', 'common-practice', ...over, '--format', 'csv']);
    expect(csv.out).toContain(`Items,,${before.items},${after.items},`);
  }, 60_000);

  it('says nothing of a plan that changes nothing', async () => {
    const { out } = await policy(['replay', 'base', '--only-policy', '--policy', 'base', ...over]);
    expect(out).not.toMatch(/[+-]\d/);
  }, 60_000);
});

describe('policy preview', () => {
  /*
   * Worked out by hand from the record of the unit and the layer’s rule (a gauze dressing every day while neutrophils
   * are below 0.2 10*9/L; what is not known is read as low). Lines with gauze are these four:
   *   Larch Lapwing     gauze on 24 Nov 09:00; 0.18 on 24 Nov, 0.12 on 25 Nov: low. Two days -> one day.
   *   Spindle Wagtail   gauze on 24 Nov 06:30; 0.9 with 15 % segmented and 5 % bands = 0.18: low.
   *   Dogwood Dipper    gauze on 24 Nov 11:10; the laboratory wrote 0.8 "per field": not known, read as low.
   *   Hemlock Heron     gauze on 24 Nov 10:00; 0.4 on 24 Nov: not low, stays.
   * Alder Nuthatch has a low count too (<0.1), but a chlorhexidine dressing. Every other dressing is on record and no
   * gauze, so that no count of theirs matters.
   */
  it('of the neutropenia layer moves exactly the patients with low or unknown counts under gauze', async () => {
    const { changes, changedPatients, unchangedPatients } = await preview('neutropenia');
    expect(
      changes.map(({ patient, line, kind, activity, before, after, dueByShiftMs, rule, notKnown }) => ({
        patient,
        line,
        kind,
        activity,
        before: before?.dueBy,
        after: after?.dueBy,
        dueByShiftMs,
        rule: rule.id,
        notKnown,
      })),
    ).toEqual(
      [
        ['dogwood-dipper', 'dogwood-tunneled', '11:10', ['labs.anc']] as const,
        ['larch-lapwing', 'larch-tunneled', '09:00', []] as const,
        ['spindle-wagtail', 'spindle-picc', '06:30', []] as const,
      ].map(([patient, line, clock, notKnown]) => ({
        patient: `Patient/${patient}`,
        line: `Device/${line}`,
        kind: 'earlier',
        activity: 'dressing-change',
        before: `2026-11-26T${clock}:00+01:00`,
        after: `2026-11-25T${clock}:00+01:00`,
        dueByShiftMs: -86_400_000,
        rule: 'dressing-change-gauze-low-neutrophils',
        notKnown,
      })),
    );
    expect(changedPatients).toHaveLength(3);
    expect(unchangedPatients).toHaveLength(13);
    expect(unchangedPatients).toContain('Patient/hemlock-heron');
    expect(unchangedPatients).toContain('Patient/alder-nuthatch');
  });

  it('says which is which, and that all others stay', async () => {
    const { out } = await policy(['preview', 'neutropenia', '--on', unit, ...at]);
    expect(out).toContain('3 items of 3 patients would change, 1 of them by what is not known.');
    const [, dogwood = ''] = out.split('Dogwood Dipper');
    expect(dogwood.split('\n\n')[0]).toContain('by what is not known: the neutrophil count');
    const [, larch = ''] = out.split('Larch Lapwing');
    expect(larch.split('\n\n')[0]).not.toContain('not known');
    expect(larch.split('\n\n')[0]).toContain('earlier by 1 d');
    expect(out).toMatch(/All other items stay as they are: \d+ items; of 13 patients nothing changes\./);
  });

  it('of a layer that is in use already changes nothing', async () => {
    const copy = { ...bundledPlan('neutropenia'), url: 'https://unit.example/PlanDefinition/copy' };
    const { changes, same } = await preview(file('copy.json', copy), '--policy', 'neutropenia');
    expect(changes).toEqual([]);
    expect(same).toBeGreaterThan(0);
  });

  const lower = () =>
    file(
      'lower.json',
      plan('lower', [
        action('look', 'site-assessment', every(1, 'd')),
        action('review', 'necessity-review', every(1, 'd')),
      ]),
    );

  it('shows what appears, what vanishes and by which layer', async () => {
    const own = file(
      'preview.json',
      plan('preview', [
        action('our-teaching', 'teaching', every(1, 'wk')),
        {
          id: 'review',
          ...when('false'),
          documentation: [{ type: 'justification', display: 'Done by another team.' }],
        },
      ]),
    );
    const { changes } = await preview(own, '--only-policy', '--policy', lower());
    const kinds = (kind: string) => changes.filter((one) => one.kind === kind);
    // 18 lines are in place: each gets an item of teaching and loses the review.
    expect(kinds('appears')).toHaveLength(18);
    expect(new Set(kinds('appears').map(({ rule }) => rule.id))).toEqual(new Set(['our-teaching']));
    expect(kinds('vanishes')).toHaveLength(18);
    expect(kinds('vanishes')[0]).toMatchObject({
      activity: 'necessity-review',
      because: { how: 'switched-off', by: { title: 'preview' }, notes: ['Done by another team.'] },
    });
    expect(changes).toHaveLength(36);
  });

  it('shows what would be put off, and by how much', async () => {
    const own = file('later.json', plan('later', [action('look', 'site-assessment', every(3, 'd'))]));
    const { out } = await policy(['preview', own, '--only-policy', '--policy', lower(), '--on', unit, ...at]);
    expect(out).toContain('Site assessment, the line (Device/alder-tunneled): later by 2 d');
    expect(out).toContain('replaced by later, version 1');
  });

  it('starts from nothing where the base is left out', async () => {
    const own = file('alone.json', plan('alone', [action('ours', 'teaching', every(1, 'd'))]));
    const { changes, same } = await preview(own, '--only-policy');
    expect(new Set(changes.map(({ kind }) => kind))).toEqual(new Set(['appears']));
    // A patient’s own orders stand beside every policy.
    expect(same).toBe(2);
  });
});

describe('policy new', () => {
  it('P1: writes a plan that is a draft, has no rule and changes nothing', async () => {
    const { exit, out } = await policy([
      'new',
      '--format',
      'json',
      '--title',
      'Ward 3',
      '--url',
      'https://ward.example/PlanDefinition/ward-3',
    ]);
    expect(exit).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      title: 'Ward 3',
      url: 'https://ward.example/PlanDefinition/ward-3',
    });
    const checked = await policy(['check', file('ward-3.json', out)]);
    expect(checked.exit).toBe(0);
    expect(checked.out).toContain('0 errors, 2 warnings, 0 rules of its own');
    expect(checked.out).toContain('The plan has no action');
  });

  it('is read from a file as it was written', () => {
    expect(readFileSync(join(folder, 'ward-3.json'), 'utf8')).toContain('"resourceType": "PlanDefinition"');
  });

  it('writes FSH where nothing else is asked for', async () => {
    const { exit, out } = await policy(['new', '--title', 'Ward 3']);
    expect(exit).toBe(0);
    expect(out).toContain('InstanceOf: PlanDefinition');
    expect(out).toContain('* title = "Ward 3"');
  });
});

describe('what asks for less than its published source', () => {
  const loose = () =>
    file(
      'loose.json',
      plan('loose', [
        action('dressing-change-transparent', 'dressing-change', {
          extension: [
            { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
          ],
          ...every(10, 'd'),
          documentation: [{ type: 'justification', display: 'Our council decided it in May.' }],
        }),
      ]),
    );
  const ask = async (...args: string[]) => {
    let [out, err] = ['', ''];
    const io = {
      stdin: (async function* () {})(),
      write: (text: string) => void (out += text),
      warn: (text: string) => void (err += text),
      ...{ colour: false, columns: 0, progress: false, now: () => '2026-11-25T06:30:00Z' },
    };
    await run([...args, ...at, '--policy', loose()], io);
    return { out, err };
  };

  it('P1: stands on top of due care and hand-over with its reason, and in the JSON', async () => {
    const words =
      /asks for less than its published source: .* 10 days instead of .*7 days.*Our council decided it in May\./;
    for (const args of [
      ['due', unit],
      ['handover', unit, '--shift', '8h'],
    ]) {
      const { out, err } = await ask(...args);
      expect(out.replaceAll(/\s+/g, ' ')).toMatch(words);
      expect(err).toContain('Our council decided it in May.');
    }
    const { loosened } = JSON.parse((await ask('due', unit, '--format', 'json')).out) as {
      loosened: object[];
    };
    expect(loosened).toMatchObject([{ id: 'dressing-change-transparent', how: 'loosened' }]);
  });
});

describe('what asks for less, in words', () => {
  const ours = (reasons: readonly object[]) =>
    file(
      'less.json',
      plan('less', [
        action('necessity-review', 'necessity-review', {
          condition: [
            "%patient.setting in ('inpatient' | 'intensive-care')",
            "%line.type = 'picc' and %line.accessed.not()",
          ].map((expression) => ({
            kind: 'applicability',
            expression: { language: 'text/fhirpath', expression },
          })),
          timingTiming: { repeat: { frequency: 1, period: 2, periodUnit: 'd' } },
          documentation: reasons,
        }),
      ]),
    );
  const reason = { type: 'justification', display: 'Our council decided it in May.' };
  const words =
    'every 2 days instead of every day, only where the line is a peripherally inserted central catheter, and no needle is in the port';
  const told = async (args: string[]) => {
    let text = '';
    const write = (part: string) => void (text += part);
    const io = {
      stdin: (async function* () {})(),
      ...{
        write,
        warn: write,
        colour: false,
        columns: 0,
        progress: false,
        now: () => '2026-11-25T06:30:00Z',
      },
    };
    const code = await run(args, io);
    return { code, text: text.replaceAll(/\s+/g, ' ') };
  };

  it.each([
    ['a warning with its reason', [reason], 0],
    ['a refusal without one', [], 4],
  ] as const)(
    'P3: policy check says the conditions of a loosened rule in words, %s',
    async (_, reasons, exit) => {
      const { code, text } = await told(['policy', 'check', ours(reasons)]);
      expect(code).toBe(exit);
      expect(text).toContain(`It asks for less than its published source: ${words}.`);
      expect(text).not.toMatch(/%[a-z]/);
    },
  );

  it('C19: on top of due care stands what differs, and no more', async () => {
    const { text } = await told(['due', unit, ...at, '--policy', ours([reason])]);
    const [line] = /The policy asks for less [^]*?in May\./.exec(text) ?? [];
    expect(line).toContain(`Ask whether the line is still needed, ${words}. By `);
    // What both have in common, where it applies, is not said.
    expect(line).not.toMatch(/looked after/);
    expect(line?.length).toBeLessThan(320);
  });
});

describe('versions of one layer', () => {
  const dressing = (period: number) =>
    action('dressing-change-gauze', 'dressing-change', {
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      ...when("%line.dressing = 'gauze-dressing'"),
      ...every(period, 'd'),
    });
  const files = () => [
    file('unit-1.json', plan('unit', [dressing(2)], { effectivePeriod: { end: '2026-11-25' } })),
    file(
      'unit-2.json',
      plan('unit', [dressing(1)], {
        version: '2',
        effectivePeriod: { start: '2026-11-26', end: '2026-12-31' },
      }),
    ),
  ];

  async function dressings(asOf: string) {
    let out = '';
    let err = '';
    const layers = files().flatMap((path) => ['--policy', path]);
    const exit = await run(
      ['due', unit, '--only-policy', ...layers, '--at', asOf, '--zone', 'Europe/Berlin', '--format', 'json'],
      {
        stdin: (async function* () {})(),
        write: (text) => void (out += text),
        warn: (text) => void (err += text),
        colour: false,
        columns: 0,
        progress: false,
        now: () => asOf,
      },
    );
    const { lines } = JSON.parse(out) as {
      lines: {
        line: string;
        items: { activity: string; dueBy: string; rule: { plan: string }; remarks: string[] }[];
      }[];
    };
    const items = lines.find(({ line }) => line === 'Device/larch-tunneled')?.items ?? [];
    return { exit, err, items: items.filter(({ activity }) => activity === 'dressing-change') };
  }

  // Larch Lapwing: gauze on 24 Nov 09:00; by version 1 due by 26 Nov 09:00, open from 25 Nov 21:00.
  it('are taken by repeating --policy: the item stays with the version in which its window opened', async () => {
    expect(await dressings('2026-11-26T08:00:00+01:00')).toMatchObject({
      exit: 0,
      err: '',
      items: [
        { dueBy: '2026-11-26T09:00:00+01:00', rule: { plan: 'https://unit.example/PlanDefinition/unit|1' } },
      ],
    });
  });

  it('are told of where none is in force', async () => {
    const { exit, err } = await dressings('2027-01-01T08:00:00+01:00');
    expect(exit).toBe(0);
    expect(err).toContain('no version of unit (https://unit.example/PlanDefinition/unit) is in force');
  });

  it('are shown with their days', async () => {
    const { out } = await policy(['show', '--only-policy', ...files()]);
    expect(out).toContain('Layer 0: unit, version 2, in force from 2026-11-26 to the end of 2026-12-31');
    const json = JSON.parse(
      (await policy(['show', '--only-policy', ...files(), '--format', 'json'])).out,
    ) as {
      versions: { from?: string }[];
    };
    expect(json.versions.map(({ from }) => from)).toEqual([undefined, '2026-11-26', '2027-01-01']);
  });
});

describe('explain', () => {
  it('names the layer, the rule of the lower layer that it replaced, and what is switched off', async () => {
    const lower = file(
      'below.json',
      plan('below', [
        action('look', 'site-assessment', every(1, 'd')),
        action('twice', 'site-assessment', every(12, 'h')),
      ]),
    );
    const upper = file(
      'above.json',
      plan('above', [
        action('look', 'site-assessment', every(8, 'h')),
        {
          id: 'twice',
          ...when('false'),
          documentation: [{ type: 'justification', display: 'Thrice is enough.' }],
        },
      ]),
    );
    let out = '';
    const exit = await run(
      [
        'explain',
        unit,
        '--line',
        'larch-tunneled',
        '--only-policy',
        '--policy',
        lower,
        '--policy',
        upper,
        ...at,
      ],
      {
        stdin: (async function* () {})(),
        write: (text) => void (out += text),
        warn: () => undefined,
        colour: false,
        columns: 0,
        progress: false,
        now: () => '',
      },
    );
    expect(exit).toBe(0);
    expect(out).toContain('above, https://unit.example/PlanDefinition/above|1');
    expect(out).toContain('in place of every day of below, https://unit.example/PlanDefinition/below|1');
    expect(out).toContain('twice (every 12 hours; rule twice), by above: Thrice is enough.');
  });
});
