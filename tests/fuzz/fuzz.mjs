// `npm run fuzz [-- options]`: mutated resources and mutated policies go through all that reads them. Nothing may throw, take
// over a second of CPU, or drop in silence what it was given.
//
//   --quick         a few thousand of each, as CI does
//   --only NAME     resources or policies
//   --count N       so many of each
//   --seed N        other cases (default 1); a case is found again by seed and number
//   --from N        begin with this number; without it a run that was broken off goes on where it was
//
// A kind of input is a module with count, quick, bases() and check(mutated, base, changed, number) -> what was
// dropped, and spoiled(changed) -> how many were.
import { fork } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const { values } = parseArgs({
  options: {
    quick: { type: 'boolean', default: false },
    only: { type: 'string' },
    count: { type: 'string' },
    seed: { type: 'string', default: '1' },
    from: { type: 'string' },
    help: { type: 'boolean', default: false },
  },
});
if (values.help) {
  const text = readFileSync(new URL(import.meta.url), 'utf8').split('\nimport ')[0];
  console.log(text.replaceAll(/^\/\/ ?/gm, ''));
  process.exit(0);
}
const kinds = ['resources', 'policies'].filter(
  (kind) => (values.only ?? kind) === kind && existsSync(new URL(`${kind}.mjs`, import.meta.url)),
);
const mostMs = 1000;
/** A case that takes so long is stopped, and its process with it: by the clock, so that on a busy machine it has to be long. */
const deadlineMs = 120_000;
const rangeOf = 50;
const reports = new URL('../../reports/', import.meta.url);

/** The cases of one kind, shared among processes. */
class Run {
  constructor(kind, total) {
    this.module = new URL(`${kind}.mjs`, import.meta.url).href;
    this.state = new URL(`fuzz-${kind}-${values.seed}-${total}.json`, reports);
    const before =
      values.from === undefined && existsSync(this.state) ? JSON.parse(readFileSync(this.state, 'utf8')) : {};
    Object.assign(
      this,
      {
        kind,
        total,
        spoiled: 0,
        longest: 0,
        throws: [],
        slow: [],
        dropped: [],
        next: Number(values.from ?? 0),
      },
      before,
    );
    this.done = this.next;
    this.open = new Set();
  }

  /** The next range; undefined where none is left. */
  take() {
    if (this.next >= this.total) return undefined;
    const range = { from: this.next, to: Math.min(this.total, this.next + rangeOf) };
    this.next = range.to;
    this.open.add(range);
    return range;
  }

  note({ number, ms, thrown, dropped = [], spoiled = 0 }) {
    this.spoiled += spoiled;
    if (thrown !== undefined) this.throws.push({ number, thrown });
    this.longest = Math.max(this.longest, Math.round(ms));
    if (ms > mostMs) this.slow.push({ number, ms: Math.round(ms) });
    if (dropped.length > 0) this.dropped.push({ number, dropped });
    this.done += 1;
    if (this.done % 1000 === 0) this.save();
  }

  save() {
    const { throws, slow, dropped, done, kind, total, spoiled, longest } = this;
    const next = Math.min(this.next, ...[...this.open].map(({ from }) => from));
    mkdirSync(reports, { recursive: true });
    writeFileSync(this.state, JSON.stringify({ throws, slow, dropped, spoiled, longest, next }));
    process.stderr.write(`${kind}: ${done} of ${total}\n`);
  }

  /** One process after another until no range is left. */
  async work() {
    for (let range = this.take(); range !== undefined; range = await this.#process(range));
  }

  /** Gives the range that is still to be done where the process ended before its time; undefined at the end. */
  #process(first) {
    return new Promise((resolve) => {
      const child = fork(fileURLToPath(new URL('worker.mjs', import.meta.url)), [this.module, values.seed], {
        stdio: ['ignore', 'inherit', 'pipe', 'ipc'],
      });
      let said = '';
      child.stderr.on('data', (text) => (said = `${said}${text}`.slice(-2000)));
      let range = first;
      let at;
      let late;
      const watch = (number) => {
        at = number;
        clearTimeout(late);
        late = number === undefined ? undefined : setTimeout(() => child.kill('SIGKILL'), deadlineMs);
      };
      child.on('message', (message) => {
        if ('begins' in message) return watch(message.begins);
        watch(undefined);
        if (!('ready' in message)) return this.note(message);
        if (range.given) {
          this.open.delete(range);
          range = this.take();
        }
        if (range === undefined) return child.kill();
        range.given = true;
        child.send({ from: range.from, to: range.to });
      });
      child.on('exit', (code, signal) => {
        clearTimeout(late);
        if (range === undefined) return resolve(undefined);
        const number = at ?? range.from;
        this.note(
          signal === 'SIGKILL'
            ? { number, ms: deadlineMs }
            : { number, ms: 0, thrown: `exit ${code}: ${said}` },
        );
        this.open.delete(range);
        const rest = { from: number + 1, to: range.to };
        if (rest.from < rest.to) this.open.add(rest);
        resolve(rest.from < rest.to ? rest : this.take());
      });
    });
  }
}

let short = false;
for (const kind of kinds) {
  const { count, quick } = await import(new URL(`${kind}.mjs`, import.meta.url).href);
  const run = new Run(kind, Number(values.count ?? (values.quick ? quick : count)));
  await Promise.all(Array.from({ length: availableParallelism() }, () => run.work()));
  rmSync(run.state, { force: true });
  const { throws, slow, dropped, total, spoiled, longest } = run;
  for (const { number, thrown } of throws.slice(0, 5)) console.log(`${kind} ${number} throws ${thrown}`);
  for (const { number, ms } of slow.slice(0, 5)) console.log(`${kind} ${number} takes ${ms} ms`);
  for (const one of dropped.slice(0, 8)) console.log(`${kind} ${one.number} drops ${one.dropped.join('; ')}`);
  console.log(
    `${spoiled} mutated ${kind} in ${total} cases (seed ${values.seed}): ${throws.length} throws, ${slow.length} over 1 s of CPU (longest ${longest} ms), ${dropped.length} silent drops`,
  );
  short ||= throws.length + slow.length + dropped.length > 0;
}
process.exitCode = short ? 1 : 0;
