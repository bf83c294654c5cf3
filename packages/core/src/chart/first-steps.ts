import type { Policy, Priority, Rule, Trigger } from '@dwellward/policy';
import { findingRow, saysWell, valuesOf, type LineFinding } from '@dwellward/profiles';
import { choiceOf } from '../board/asks.js';
import type { BoardChoice } from '../board/model.js';
import { dueCare } from '../due/due-care.js';
import type { AsOf, DueItem, LineCare } from '../model/care.js';
import type { Finding, LineRecord, Ref } from '../model/record.js';
import { priorityOf } from '../rules/priority.js';
import { holdRows } from '../table/hold-rows.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { speaker, type Say } from '../words/say.js';

/** A trouble that the policy knows, and what it would ask for and forbid if it were found now. */
export interface TroubleSteps {
  readonly finding: LineFinding;
  readonly value?: string;
  /** What it may be more exactly, where the steps are the same: whoever records it chooses. */
  readonly kinds: readonly BoardChoice[];
  readonly name: string;
  readonly ofLumen: boolean;
  readonly items: readonly {
    readonly text: string;
    readonly emergency: boolean;
    readonly steps: readonly string[];
    readonly cautions: readonly string[];
    /** Doses, volumes and supplies. */
    readonly take: readonly string[];
  }[];
  readonly holds: readonly string[];
}

const hypothetical: Ref = 'Observation/if-it-were-found';

/**
 * The first steps in every trouble that a policy answers at once, for one line as it is now: worked out as if it were
 * found at that moment. The record stays as it is.
 * @param lumen what is of a lumen is taken as found on this one; the line’s first where absent or not one of its own.
 * @example
 * ```ts
 * firstStepsOf(records.lines[0]!, policy, when).some(({ finding }) => finding === 'bleeding'); // true
 * ```
 */
export function firstStepsOf(
  line: LineRecord,
  policy: Policy,
  when: AsOf,
  lumen?: Ref,
  language: Language = english,
): TroubleSteps[] {
  const calendar = new Calendar(when.zone);
  const say = speaker(language, calendar);
  const text = calendar.text(instantMs(when.asOf));
  const before = dueCare(line, policy, when);
  const known = new Set(before.holds.map(({ id }) => id));
  const on = (line.lumens.find(({ ref }) => ref === lumen) ?? line.lumens[0])?.ref;
  return troublesIn(policy).flatMap(({ finding, value }): TroubleSteps[] => {
    const ofLumen = findingRow(finding).scope === 'lumen';
    const kinds =
      value === undefined ? (valuesOf(finding) ?? []).filter((one) => !saysWell(finding, one)) : [];
    const found: Finding = {
      ref: hypothetical,
      finding,
      status: 'final',
      at: { text, precision: 'instant' },
      site: 'exit-site',
      values: [value ?? kinds[0] ?? 'present'],
      ...(ofLumen && on !== undefined ? { lumen: on } : {}),
    };
    const after = dueCare({ ...line, findings: [...line.findings, found] }, policy, when);
    const items = askedFor(after, finding, found.values);
    if (items.length === 0) return [];
    return [
      {
        finding,
        ...(value === undefined ? {} : { value }),
        kinds: kinds.map((kind) => choiceOf(finding, kind, say)),
        name: say({ code: 'finding-with', finding, values: value === undefined ? [] : [value] }),
        ofLumen,
        items: items.map((item) => ({
          text: say({ code: 'activity-on', activity: item.activity, targets: [item.target.name] }),
          emergency: priorityOf(item) === 'stat',
          steps: textsOf(item, 'step', say),
          cautions: textsOf(item, 'caution', say),
          take: textsOf(item, 'take', say),
        })),
        holds: holdRows(
          after.holds.filter(({ id }) => !known.has(id)),
          line.lumens.length > 1,
        ).map(say),
      },
    ];
  });
}

/** What is told under a heading of its own; all else of the work is to be taken along. */
const told: ReadonlySet<string> = new Set(['step', 'caution']);

function textsOf({ work }: DueItem, of: 'step' | 'caution' | 'take', say: Say): string[] {
  return work.filter(({ kind }) => (told.has(kind) ? kind : 'take') === of).map(({ text }) => say(text));
}

const pressing: ReadonlySet<Priority> = new Set(['stat', 'asap', 'urgent']);

/**
 * What the finding asks for at once: also where it stands already, so that the steps are there for whoever looks for them
 * again; then they count from the first time that it was found.
 */
function askedFor({ items }: LineCare, finding: LineFinding, values: readonly string[]): DueItem[] {
  return items.filter(
    (item) =>
      pressing.has(priorityOf(item)) &&
      [item, ...item.others].some(({ rule }) => isBegunBy(rule, finding, values)),
  );
}

function isBegunBy({ begins }: Rule, finding: LineFinding, values: readonly string[]): boolean {
  const by = begins.kind === 'triggered' ? begins.by : [];
  return by.some(
    (one) =>
      one.kind === 'finding' &&
      one.finding === finding &&
      (one.values.length === 0 || one.values.some((value) => values.includes(value))),
  );
}

/** The findings that a rule for what is pressing begins with: each value once. */
function troublesIn({ rules }: Policy) {
  const triggers = rules
    .filter(({ effect, priority }) => effect === 'ask' && pressing.has(priority))
    .flatMap(({ begins }): readonly Trigger[] => (begins.kind === 'triggered' ? begins.by : []));
  const found = new Map<string, { readonly finding: LineFinding; readonly value?: string }>();
  for (const trigger of triggers) {
    if (trigger.kind !== 'finding' || findingRow(trigger.finding).kind === 'quantity') continue;
    const values = trigger.values.length === 0 ? [undefined] : trigger.values;
    for (const value of values)
      found.set(`${trigger.finding} ${value ?? ''}`, {
        finding: trigger.finding,
        ...(value === undefined ? {} : { value }),
      });
  }
  return [...found.values()];
}
