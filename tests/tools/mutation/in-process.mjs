// A test runner for the mutation tester. The tests are loaded once, and a mutant meets those that come by it, one after
// the other in the same process, until one fails: thousands in the time in which loading the tests anew would do ten.
//
// Two things a process that lives on must not do. A mutant in what runs while a file is loaded changes what is loaded: it
// gets the files that come by it loaded anew. And what a mutant has left behind must not fail the tests of the next: the
// test that found a mutant is run again without it, and where it fails, all is loaded anew and the mutant tried again.
import { createRequire } from 'node:module';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Script } from 'node:vm';
import * as assertions from '@vitest/expect';
import * as vitestRunner from '@vitest/runner';
import { INSTRUMENTER_CONSTANTS } from '@stryker-mutator/api/core';
import { bundleOf, cheapestFirst, filesLike } from './bundle.mjs';
import { packages } from './packages.mjs';

const host = '__mutationHost';
const coverageFile = 'mutation-coverage.json';

/** What the tests import from Vitest. */
function vitestHost() {
  const { chai, ASYMMETRIC_MATCHERS_OBJECT, getState, setState, customMatchers } = assertions;
  chai.use(assertions.JestExtend);
  chai.use(assertions.JestChaiExpect);
  chai.use(assertions.JestAsymmetricMatchers);
  const expect = (value, message) => chai.expect(value, message);
  Object.assign(expect, chai.expect, globalThis[ASYMMETRIC_MATCHERS_OBJECT]);
  expect.getState = () => getState(expect);
  expect.setState = (state) => setState(state, expect);
  expect.extend = (matchers) => chai.expect.extend(expect, matchers);
  setState({ assertionCalls: 0, isExpectingAssertions: false, testPath: '' }, expect);
  expect.extend(customMatchers);
  globalThis[assertions.GLOBAL_EXPECT] = expect;
  return { ...vitestRunner, expect };
}

/** The tests of one evaluation of the script. */
class Environment {
  #loaded = new Map();
  #suites = [];

  constructor(script, root) {
    const module = { exports: {} };
    const require = createRequire(join(root, 'package.json'));
    script.runInThisContext()(require, module, module.exports, join(root, 'bundle.js'), root);
    this.files = module.exports.files;
    this.root = root;
  }

  /** The tests of a file, each with an id that is the same in every process; loads it where that is still to be done. */
  async load(file) {
    if (!this.#loaded.has(file)) this.#loaded.set(file, await this.#collect(file));
    return this.#loaded.get(file);
  }

  async #collect(file) {
    const runner = {
      config: {
        ...{ root: this.root, setupFiles: [], name: undefined, passWithNoTests: false, allowOnly: true },
        ...{ sequence: { seed: 1, hooks: 'stack', setupFiles: 'list' }, chaiConfig: undefined, retry: 0 },
        ...{ maxConcurrency: 1, testTimeout: 60_000, hookTimeout: 60_000, tags: [], strictTags: false },
      },
      importFile: () => this.files[file](),
    };
    const [collected] = await vitestRunner.collectTests([join(this.root, file)], runner);
    if (collected.result?.state === 'fail') throw collected.result.errors[0];
    const tests = [];
    const walk = (suite, suites) => {
      for (const task of suite.tasks) {
        if (task.type === 'suite') walk(task, [...suites, task]);
        else if (task.mode === 'run' || task.mode === 'queued')
          tests.push({ id: `${file}#${tests.length}`, name: task.fullName ?? task.name, task, suites });
      }
    };
    walk(collected, [collected]);
    this.#suites.push(...new Set([collected, ...tests.flatMap(({ suites }) => suites)]));
    return tests;
  }

  /** Lets the files that were loaded clear up behind them. */
  async end() {
    for (const suite of this.#suites) {
      const { beforeAll, afterAll } = vitestRunner.getHooks(suite);
      if (beforeAll.length === 0 || begun.has(suite)) for (const hook of afterAll) await hook(suite);
    }
  }
}

/** Runs a test with the hooks around it; gives what it threw. */
async function failureOf({ task, suites }) {
  const hooks = (name) => suites.flatMap((suite) => vitestRunner.getHooks(suite)[name] ?? []);
  try {
    for (const suite of suites.filter((one) => !begun.has(one))) {
      begun.add(suite);
      for (const hook of vitestRunner.getHooks(suite).beforeAll) await hook(suite);
    }
    for (const hook of hooks('beforeEach')) await hook(task.context);
    await vitestRunner.getFn(task)();
    return undefined;
  } catch (error) {
    return error ?? new Error('threw nothing');
  } finally {
    for (const hook of hooks('afterEach')) await hook(task.context);
  }
}

/** Suites whose `beforeAll` has run. */
const begun = new WeakSet();

// What fails while a file is loaded comes as a plain object with the error’s message.
const textOf = (error) => (typeof error?.message === 'string' ? error.message : typeof error).slice(0, 300);

export class InProcessRunner {
  #root = process.cwd();
  #coverage;

  constructor() {
    const { tests, withoutTests } = packages[process.env['DWELLWARD_MUTATED']];
    this.order = cheapestFirst(this.#root, filesLike(this.#root, tests, withoutTests));
    this.context = globalThis[INSTRUMENTER_CONSTANTS.NAMESPACE] ??= {};
  }

  capabilities() {
    // Files that a mutant changes while they are loaded are loaded anew here, without the tester’s help.
    return { reloadEnvironment: true };
  }

  async init() {
    globalThis[host] = vitestHost();
    const text = await bundleOf(this.#root, this.order, host);
    this.script = new Script(`(function (require, module, exports, __filename, __dirname) {${text}\n})`, {
      filename: join(this.#root, 'bundle.js'),
    });
  }

  /** All files loaded without a mutant. */
  async #main() {
    if (this.main === undefined) {
      this.#activate(undefined);
      this.main = new Environment(this.script, this.#root);
      this.tests = new Map();
      for (const file of this.order)
        for (const test of await this.main.load(file)) this.tests.set(test.id, test);
    }
    return this.tests;
  }

  async dispose() {
    this.#activate(undefined);
    await this.main?.end();
    this.main = undefined;
  }

  #activate(id, hitLimit) {
    Object.assign(this.context, {
      activeMutant: id,
      hitCount: hitLimit === undefined ? undefined : 0,
      hitLimit,
    });
  }

  async dryRun() {
    const coverage = { static: {}, perTest: {}, ms: {}, order: [] };
    const cost = new Map(this.order.map((file) => [file, 0]));
    const timed = async (file, work) => {
      const before = process.hrtime.bigint();
      const outcome = await work();
      const ms = Number(process.hrtime.bigint() - before) / 1e6;
      cost.set(file, cost.get(file) + ms);
      return { outcome, ms };
    };
    const mutants = () => Object.keys(this.context.mutantCoverage?.perTest[this.context.currentTestId] ?? {});
    // Each file by itself: what two files load alike comes by both.
    for (const file of this.order) {
      this.context.currentTestId = `file ${file}`;
      const alone = new Environment(this.script, this.#root);
      await timed(file, () => alone.load(file));
      await alone.end();
      for (const id of mutants()) (coverage.static[id] ??= []).push(file);
    }
    this.context.currentTestId = 'loading';
    const tests = [];
    for (const test of (await this.#main()).values()) {
      this.context.currentTestId = test.id;
      const { outcome: failure, ms } = await timed(test.id.split('#')[0], () => failureOf(test));
      coverage.ms[test.id] = ms;
      for (const id of mutants()) (coverage.perTest[id] ??= []).push(test.id);
      const common = { id: test.id, name: `${test.id} ${test.name}`, timeSpentMs: ms };
      tests.push(
        failure === undefined
          ? { ...common, status: 0 }
          : { ...common, status: 1, failureMessage: textOf(failure) },
      );
    }
    this.context.currentTestId = undefined;
    coverage.order = [...this.order].sort((a, b) => cost.get(a) - cost.get(b));
    writeFileSync(join(this.#root, coverageFile), JSON.stringify(coverage));
    const perTest = {};
    for (const [id, covering] of Object.entries(coverage.perTest))
      for (const test of covering) (perTest[test] ??= {})[id] = 1;
    const loaded = Object.fromEntries(Object.keys(coverage.static).map((id) => [id, 1]));
    return { status: 'complete', tests, mutantCoverage: { static: loaded, perTest } };
  }

  get coverage() {
    const path = join(this.#root, coverageFile);
    this.#coverage ??= existsSync(path)
      ? JSON.parse(readFileSync(path, 'utf8'))
      : { static: {}, perTest: {}, ms: {}, order: [] };
    return this.#coverage;
  }

  async mutantRun({ activeMutant: { id }, hitLimit }) {
    await this.#main();
    const found = (await this.#byTests(id, hitLimit)) ?? (await this.#byLoading(id, hitLimit));
    this.#activate(undefined);
    return found ?? { status: 'survived', nrOfTests: (this.coverage.perTest[id] ?? []).length };
  }

  /** The quick way: the tests that come by a mutant, as they are loaded. */
  async #byTests(id, hitLimit) {
    const { perTest, ms } = this.coverage;
    for (const test of (perTest[id] ?? []).sort((a, b) => ms[a] - ms[b])) {
      this.#activate(id, hitLimit);
      const failure = await failureOf(this.tests.get(test));
      if (failure === undefined) continue;
      const outcome = this.#outcome(test, failure);
      this.#activate(undefined);
      if ((await failureOf(this.tests.get(test))) === undefined) return outcome;
      // What the mutant changed stays changed: only a fresh start tells whether it is found.
      await this.dispose();
      const fresh = (await this.#main()).get(test);
      this.#activate(id, hitLimit);
      const again = await failureOf(fresh);
      await this.dispose();
      await this.#main();
      if (again !== undefined) return outcome;
    }
    return undefined;
  }

  /** The slow way: what a mutant changes while a file is loaded is found by loading it with the mutant. */
  async #byLoading(id, hitLimit) {
    const files = new Set(this.coverage.static[id]);
    if (files.size === 0) return undefined;
    const anew = new Environment(this.script, this.#root);
    try {
      this.#activate(id, hitLimit);
      return await this.#inFiles(anew, files);
    } finally {
      this.#activate(undefined);
      await anew.end();
    }
  }

  async #inFiles(anew, files) {
    for (const file of this.coverage.order.filter((one) => files.has(one))) {
      let tests;
      try {
        tests = await anew.load(file);
      } catch (error) {
        return this.#outcome(`${file}#0`, error);
      }
      for (const test of tests) {
        const failure = await failureOf(test);
        if (failure !== undefined) return this.#outcome(test.id, failure);
      }
    }
    return undefined;
  }

  #outcome(test, failure) {
    return this.context.hitCount > this.context.hitLimit
      ? { status: 'timeout', reason: 'a loop was gone through too often' }
      : { status: 'killed', killedBy: [test], failureMessage: textOf(failure), nrOfTests: 1 };
  }
}
