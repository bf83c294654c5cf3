// What the runs so far say: each mutant's last outcome, the score, the survivors and who of them is explained.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './packages.mjs';

/** Where the outcomes of a package are kept: a line of JSON for each mutant that met its tests. */
export const outcomesFile = (name) => join(root, 'packages', name, 'reports/mutants.ndjson');

const detected = new Set(['Killed', 'Timeout']);
const missed = new Set(['Survived', 'NoCoverage']);

/** The last outcome of each mutant, by id, of those whose source file is still what it was when they ran. */
export function outcomesOf(name, mutants) {
  const file = outcomesFile(name);
  const last = new Map();
  if (!existsSync(file)) return last;
  const digests = new Map(mutants.map(({ id, digest }) => [id, digest]));
  for (const line of readFileSync(file, 'utf8').split('\n')) {
    if (line === '') continue;
    const outcome = JSON.parse(line);
    if (digests.get(outcome.id) === outcome.digest) last.set(outcome.id, outcome);
  }
  return last;
}

/** Score in percent, cut off after two places so that it never looks better than it is. Undefined where none counts. */
export function scoreOf(mutants, outcomes) {
  const statuses = mutants.map(({ id }) => outcomes.get(id)?.status);
  const killed = statuses.filter((status) => detected.has(status)).length;
  const survived = statuses.filter((status) => missed.has(status)).length;
  const counted = killed + survived;
  const score = counted === 0 ? undefined : Math.floor((killed / counted) * 10_000) / 100;
  return {
    killed,
    survived,
    counted,
    invalid: statuses.filter((status) => status !== undefined).length - counted,
    score,
  };
}

/** Wilson's 95 % interval of a share, in percent. E. B. Wilson, J. Am. Stat. Assoc. 1927, 22, 209-212 (from memory). */
export function wilson(hits, count) {
  const z = 1.959964;
  const share = hits / count;
  const middle = share + (z * z) / (2 * count);
  const half = z * Math.sqrt((share * (1 - share)) / count + (z * z) / (4 * count * count));
  const whole = 1 + (z * z) / count;
  return [(100 * (middle - half)) / whole, (100 * (middle + half)) / whole];
}

const likeness = ({ file, mutator, original, replacement }) =>
  [file, mutator, original, replacement].join('\u0000');

/** The survivors with their reasons from the package's mutants.json, and the reasons that no longer name a survivor. */
export function survivorsOf(name, mutants, outcomes) {
  const list = join(root, 'packages', name, 'mutants.json');
  const explained = existsSync(list) ? JSON.parse(readFileSync(list, 'utf8')).survivors : [];
  const inPackage = (file) => file.slice(`packages/${name}/`.length);
  const reasons = new Map(explained.map((each) => [likeness(each), each.reason]));
  const like = (mutant) => likeness({ ...mutant, file: inPackage(mutant.file) });
  const ran = mutants.filter(({ id }) => outcomes.has(id));
  const survivors = ran
    .filter(({ id }) => missed.has(outcomes.get(id).status))
    .map((mutant) => ({
      ...mutant,
      status: outcomes.get(mutant.id).status,
      reason: reasons.get(like(mutant)),
    }));
  const alive = new Set(survivors.map(like));
  const met = new Set(ran.map(like));
  const all = new Set(mutants.map(like));
  return {
    survivors,
    unexplained: survivors.filter(({ reason }) => reason === undefined),
    killedSince: explained.filter((each) => met.has(likeness(each)) && !alive.has(likeness(each))),
    gone: explained.filter((each) => !all.has(likeness(each))),
  };
}
