// One process of the fuzz run: takes ranges of cases, says what each came to. A process of its own, for its CPU time.
import { mutate } from './mutate.mjs';
import { randomOf } from './random.mjs';

const [, , module, seed] = process.argv;
const { bases, check, spoiled } = await import(module);
const given = bases();
// The first calls of everything compile it: that is no time of a case.
for (const base of given.slice(0, 3)) check(structuredClone(base), base, [], 0);

process.on('message', ({ from, to }) => {
  for (let number = from; number < to; number += 1) {
    process.send({ begins: number });
    process.send({ number, ...caseOf(number) });
  }
  process.send({ ready: true });
});
process.send({ ready: true });

/** What one case comes to: CPU time in ms, what was thrown, what was dropped in silence. */
function caseOf(number) {
  const random = randomOf(Number(seed), number);
  const base = random.pick(given);
  const { value, changed } = mutate(base, random);
  const before = process.cpuUsage();
  let outcome;
  try {
    outcome = { dropped: check(value, base, changed, number) };
  } catch (error) {
    outcome = {
      dropped: [],
      thrown: error instanceof Error ? (error.stack ?? error.message) : String(error),
    };
  }
  const { user, system } = process.cpuUsage(before);
  return { ...outcome, spoiled: spoiled(changed), ms: (user + system) / 1000 };
}
