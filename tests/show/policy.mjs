// Shows what the language of policy promises: a line with its figure for each promise, non-zero where one falls short.
// The figures come from the tests that hold it. `--quick` leaves out what takes minutes, and says so.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Show } from './check.mjs';
import { root, run, tested } from './run.mjs';

const quick = process.argv.includes('--quick');
const show = new Show();

const file = {
  elements: 'tests/conformance/elements.test.ts',
  valid: 'tests/conformance/bundled-plans.test.ts',
  apply: 'tests/conformance/other-apply.test.ts',
  fsh: 'packages/policy/src/fsh.test.ts',
  unit: 'tests/policy/unit-layer.test.ts',
};
const folder = {
  cases: 'tests/cases',
  published: 'tests/published',
  flows: 'tests/interop',
};

/** What the tests of a path say, those with a name like this alone where one is given. */
function outcome(tests, path, like = /./) {
  const those = tests.filter((one) => one.path.startsWith(path) && like.test(one.fullName));
  const failed = those.filter(({ passed }) => !passed);
  return {
    ok: those.length > 0 && failed.length === 0,
    passed: `${those.length - failed.length} of ${those.length}`,
    figures: those.flatMap(({ figure }) => figure ?? []),
    failed: failed.map(({ fullName }) => `; fails: ${fullName}`).join(''),
  };
}

/** A promise that tests hold: its line ends with the figures that they left, or with how many passed. */
const line = (what, tests, path, { like, figure = ({ figures }) => figures.join('; ') } = {}) =>
  show.line(what, async () => {
    const found = outcome(tests, path, like);
    return { ok: found.ok, figure: `${figure(found)}${found.failed}` };
  });

/** A promise that a command of the README tells in its last line; where it falls short, with all that it says. */
const told = (what, script) =>
  show.line(what, async () => {
    const { exit, stdout, stderr } = await run('npm', ['run', '--silent', script]);
    const last = stdout.trim().split('\n').at(-1);
    return exit === 0 ? { ok: last !== '', figure: last } : { ok: false, figure: `${stdout}\n${stderr}` };
  });

const passed = ({ passed }) => `${passed} tests pass`;
const tests = await tested([...Object.values(file), ...(quick ? [] : Object.values(folder))]);

await line('no element is used against its R4 meaning', tests, file.elements, {
  like: /what each element means/,
  figure: ({ ok, figures }) =>
    `${ok ? '0 against' : 'not so'}; in use ${figures.join(', ')}, each beside R4’s own sentence in docs/policy-elements.md, and no other`,
});
await line('at most 20 lines of FSH a rule on average', tests, file.fsh, { like: /lines a rule/ });
await line('no rule differs from another only in activity, finding or scope', tests, file.fsh, {
  like: /differ only/,
});

if (quick)
  console.log('left out: cases, story, coverage, published tests and the flows over FHIR servers (--quick)');
else {
  await line('every case passes', tests, folder.cases, {
    figure: ({ passed }) =>
      `${new Set(tests.filter(({ path }) => path.startsWith(folder.cases)).map(({ fullName }) => fullName.split(' ')[0])).size} cases, ${passed} tests pass`,
  });
  await told('the story of sixty days passes', 'story');
  await told('every computable recommendation is kept', 'policy:coverage');
  await line('the published tests pass', tests, folder.published, { figure: passed });
  await line('the flows over both FHIR servers pass', tests, folder.flows, { figure: passed });
}

await line('a unit layer of at most 40 lines is checked, previewed and in force', tests, file.unit, {
  like: /^(?!the same layer)/,
  figure: ({ figures }) =>
    `${figures.join('; ')}: fever from 38.3 Cel (38.1 asks nothing, 38.3 asks), first steps at debris in a connector, no flush and no lock until it is changed; in the library, the command and the adapter`,
});
await line('written by hand and by SUSHI it gives the same, byte for byte', tests, file.unit, {
  like: /^the same layer/,
});
await show.line('SUSHI compiles with 0 errors, and the JSON is what it makes', async () => {
  if (!existsSync(join(root, 'packages/policy/fsh/node_modules')))
    return { ok: true, figure: 'not looked at: npm ci in packages/policy/fsh installs the compiler' };
  const { exit, stdout, stderr } = await run('npm', ['run', '--silent', 'plans', '--', '--check']);
  return { ok: exit === 0, figure: (exit === 0 ? stdout : stderr || stdout).trim() };
});
await line('two independent validators accept every definition', tests, file.valid, {
  figure: ({ ok, figures }) => `${figures.join(', ')}${ok ? ', 0 errors' : ''}`,
});
await line('an $apply that nobody here wrote proposes nothing that is forbidden', tests, file.apply, {
  figure: ({ figures }) =>
    `${figures.join('; ')}; ${tests.filter(({ path, fullName }) => path === file.apply && fullName.includes('not yet')).length} gaps of its own are listed`,
});
show.end();
