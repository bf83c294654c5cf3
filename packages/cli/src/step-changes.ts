import { stepText, type Rule } from '@dwellward/policy';

/** One step that is not in both rules, with its number in the one that has it; a changed one is in both. */
export interface StepChange {
  /** Counted from 1; absent where the first rule does not have it. */
  readonly before?: { readonly number: number; readonly text: string };
  /** The same of the second rule. */
  readonly after?: { readonly number: number; readonly text: string };
}

/** The steps of a rule as sentences, in the order in which they are done. */
export const stepTexts = ({ work }: Rule): readonly string[] =>
  (work.steps ?? []).map((step) => stepText(step));

/**
 * The steps that were added, removed or changed, in their order; the fewest that turn the first list into the second.
 * A step that only has another number since is none of them, one that was moved past another is removed and added.
 * Between two steps that stay, the first that went and the first that came are one that was changed, and so on.
 */
export function stepChanges(before: readonly string[], after: readonly string[]): readonly StepChange[] {
  const kept = commonFrom(before, after);
  const changes: StepChange[] = [];
  let [i, j] = [0, 0];
  let gone: { number: number; text: string }[] = [];
  let come: { number: number; text: string }[] = [];
  const close = () => {
    for (let k = 0; k < Math.max(gone.length, come.length); k += 1) {
      const [was, is] = [gone[k], come[k]];
      changes.push({ ...(was ? { before: was } : {}), ...(is ? { after: is } : {}) });
    }
    gone = [];
    come = [];
  };
  while (i < before.length || j < after.length) {
    const [was, is] = [before[i], after[j]];
    if (was !== undefined && was === is) {
      close();
      i += 1;
      j += 1;
    } else if (is === undefined || (was !== undefined && kept(i + 1, j) >= kept(i, j + 1))) {
      gone.push({ number: i + 1, text: was ?? '' });
      i += 1;
    } else {
      come.push({ number: j + 1, text: is });
      j += 1;
    }
  }
  close();
  return changes;
}

/** How many steps can stay from these two places on: the length of the longest common subsequence. */
function commonFrom(before: readonly string[], after: readonly string[]): (i: number, j: number) => number {
  const rows: number[][] = Array.from({ length: before.length + 1 }, () =>
    new Array<number>(after.length + 1).fill(0),
  );
  const at = (i: number, j: number) => rows[i]?.[j] ?? 0;
  for (let i = before.length - 1; i >= 0; i -= 1) {
    const row = rows[i] ?? [];
    for (let j = after.length - 1; j >= 0; j -= 1)
      row[j] = before[i] === after[j] ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
  }
  return at;
}
