import type { BoardAsk, BoardChoice, BoardLine, Recordable } from '@dwellward/core';
import type { Act, ChartedFinding } from './api.js';

/** One act that can be recorded: an activity on the line, or on one of its lumens; what was seen stands by itself. */
export interface Choice {
  /** The id of its item, or one of its own where it was not asked for. */
  readonly key: string;
  readonly activity: string | undefined;
  readonly lumen: string | undefined;
  readonly putsDressingOn: boolean;
  readonly text: string;
}

/** What a person has filled in. */
export interface Given {
  /** By ask, its answers: codes, `yes` and `no`, or a number. */
  readonly answers: ReadonlyMap<string, readonly string[]>;
  readonly by: string;
  readonly putOn: string;
  readonly note: string;
  /** An instant; now where absent. */
  readonly at: string | undefined;
}

/** What was recorded: enough to take it back. */
export interface Recorded {
  readonly line: string;
  readonly ids: readonly string[];
  readonly text: string;
  readonly at: string;
  /** False where what follows from it is not shown yet. */
  readonly shown: boolean;
}

/** What one dialog records: acts that are done together, and what is asked with them. */
export interface Recording {
  readonly text: string;
  readonly choices: readonly Choice[];
  readonly asks: readonly BoardAsk[];
  readonly dressings: readonly BoardChoice[];
  /** True where it was asked for: then all of it is taken as done, and it is told where somebody else was sooner. */
  readonly due: boolean;
}

export function recordingOf({ text, parts, asks, dressings }: Recordable, due: boolean): Recording {
  const choices = parts.flatMap(({ activity, name, putsDressingOn, targets }) =>
    targets.map(({ scope, ref, name: target, id }) => ({
      key: id,
      activity,
      lumen: scope === 'lumen' ? ref : undefined,
      putsDressingOn,
      text: `${name}: ${target}`,
    })),
  );
  return { text, choices, asks, dressings, due };
}

/** One finding, wherever on the line it may be seen. */
export function recordingOfFinding(asks: readonly BoardAsk[], { lumens }: BoardLine): Recording {
  const choices = asks.map(({ of, name, on }) => ({
    key: of,
    activity: undefined,
    lumen: lumens.some(({ ref }) => ref === of) ? of : undefined,
    putsDressingOn: false,
    text: `${name}: ${on}`,
  }));
  return { text: asks[0]?.name ?? '', choices, asks, dressings: [], due: false };
}

export const askKey = ({ of, finding }: BoardAsk): string => `${of} ${finding}`;

/** The answers to an ask as findings. */
export function findingsOf(ask: BoardAsk, { answers }: Given): ChartedFinding[] {
  const { finding, kind } = ask;
  return (answers.get(askKey(ask)) ?? []).flatMap((answer): ChartedFinding[] => {
    if (answer === '') return [];
    if (kind === 'amount') return [{ finding, quantity: answer }];
    return [kind === 'yes-or-no' ? { finding, flag: answer === 'yes' } : { finding, value: answer }];
  });
}

/** An act as it is sent. */
export function actOf(
  choice: Choice,
  id: string,
  line: string,
  asks: readonly BoardAsk[],
  given: Given,
): Act {
  const findings = asks.filter(({ of }) => of === choice.key).flatMap((ask) => findingsOf(ask, given));
  const { at, by, putOn, note } = given;
  return {
    id,
    line,
    ...(choice.activity === undefined ? {} : { activity: choice.activity }),
    ...(choice.lumen === undefined ? {} : { lumen: choice.lumen }),
    ...(findings.length > 0 ? { findings } : {}),
    ...(at === undefined ? {} : { at }),
    ...(by ? { by } : {}),
    ...(putOn && choice.putsDressingOn ? { putOn } : {}),
    ...(note ? { note } : {}),
  };
}
