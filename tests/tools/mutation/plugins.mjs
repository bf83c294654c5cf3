// Plugins of the mutation tester. The checker lets through only the mutants that a part or a sample has chosen, for the
// tester itself can choose by file and place, not by mutant. The reporter writes down each outcome as it comes, so a run
// that is stopped loses nothing.
import { appendFileSync, readFileSync } from 'node:fs';
import { InProcessRunner } from './in-process.mjs';
import { idOfTested } from './mutants.mjs';
import { strykerPlugins as wordings } from '../ignore-wordings.mjs';

const orders = () => JSON.parse(readFileSync(process.env['DWELLWARD_MUTANTS'], 'utf8'));
const notChosen = 'not of this part or sample';

class Chosen {
  #ids;
  async init() {
    this.#ids = new Set(Object.keys(orders().chosen));
  }
  async check(mutants) {
    const result = (mutant) =>
      this.#ids.has(idOfTested(mutant))
        ? { status: 'passed' }
        : { status: 'compileError', reason: notChosen };
    return Object.fromEntries(mutants.map((mutant) => [mutant.id, result(mutant)]));
  }
  async group(mutants) {
    return [mutants.map(({ id }) => id)];
  }
}

class Kept {
  #orders = orders();
  onMutantTested(result) {
    if (result.statusReason === notChosen || result.status === 'Ignored') return;
    const id = idOfTested(result, 1);
    const digest = this.#orders.chosen[id];
    // A mutant without coverage is not checked: of those, too, only the chosen ones are written down.
    if (digest === undefined) return;
    const { status } = result;
    const on = new Date().toISOString().slice(0, 10);
    const by = result.killedBy?.[0] === undefined ? {} : { by: result.killedBy[0] };
    appendFileSync(
      this.#orders.outcomes,
      `${JSON.stringify({ id, digest, status, on, static: result.static === true, ...by })}\n`,
    );
  }
}

export const strykerPlugins = [
  ...wordings,
  { kind: 'Checker', name: 'chosen', factory: () => new Chosen() },
  { kind: 'TestRunner', name: 'in-process', injectableClass: InProcessRunner },
  { kind: 'Reporter', name: 'kept', factory: () => new Kept() },
];
