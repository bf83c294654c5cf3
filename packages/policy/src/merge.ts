import { Findings, type LintFinding } from './findings.js';
import { loosening } from './loosening.js';
import type { Policy, ReplacedRule, Rule, Schedule, Span } from './model.js';
import { suggestion } from './nearest.js';
import type { DraftRule, SwitchOff } from './read-action.js';
import type { Layer } from './read-layer.js';
import { comparableMinutes } from './spans.js';

/** What stands under one rule id after a layer. */
interface Entry {
  /** Absent where a layer switched it off. */
  draft?: DraftRule;
  /** The rule itself, its link followed. */
  rule?: Rule;
  /** The last version of it that cites a published source. */
  published?: Rule;
  /** The action that switched it off. */
  off?: SwitchOff;
}

const sevenDays: Span = { value: 7, unit: 'd' };

/** How much of the policy is at hand: a link that leads nowhere is only certain to be wrong where all of it is. */
export type Extent = 'whole' | 'parts' | 'alone';

/** Merges layers, the lowest first, and says what is wrong between them. */
export function merge(layers: readonly Layer[], list: LintFinding[], extent: Extent): Policy {
  const entries = new Map<string, Entry>();
  const replaced: ReplacedRule[] = [];
  for (const layer of layers) {
    const below = new Map([...entries].map(([id, entry]) => [id, { ...entry }]));
    for (const action of layer.actions) place(action, entries);
    for (const action of layer.actions) {
      const findings = new Findings(list, layer.index, action.path, action.id);
      const entry = entries.get(action.id);
      if (action.kind === 'rule' && entry !== undefined) follow(action, entry, entries, findings, extent);
      if (action.kind === 'off' && below.get(action.id)?.draft === undefined && extent !== 'parts') {
        const known = [...below].filter(([, { draft }]) => draft !== undefined).map(([id]) => id);
        const cure = known.length === 0 ? 'It has to stand in a layer below.' : suggestion(action.id, known);
        const message = `switches off ${action.id}, which is not in a layer below`;
        if (extent === 'alone') findings.information('', message, cure);
        else findings.warning('', message, cure);
      }
      compare(action, below.get(action.id), entry?.rule, findings);
      const before = below.get(action.id)?.rule;
      if (before !== undefined) replaced.push(replacement(action, before, layer));
      if (entry?.rule?.citations.some(({ unsourced }) => !unsourced) === true) entry.published = entry.rule;
    }
  }
  const rules = settle(entries, list);
  // The sort is stable: of one id the lowest layer stays first.
  replaced.sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  return { layers: layers.map(({ origin }) => origin), rules, labStaleAfter: shortest(layers), replaced };
}

function replacement(action: DraftRule | SwitchOff, before: Rule, { origin }: Layer): ReplacedRule {
  return action.kind === 'off'
    ? { id: action.id, how: 'switched-off', before, by: origin, notes: action.notes }
    : { id: action.id, how: 'replaced', before, by: origin, notes: action.rule.notes };
}

function place(action: DraftRule | SwitchOff, entries: Map<string, Entry>): void {
  const entry = entries.get(action.id) ?? {};
  delete entry.draft;
  delete entry.rule;
  delete entry.off;
  if (action.kind === 'rule') entry.draft = action;
  else entry.off = action;
  entries.set(action.id, entry);
}

function scheduleOf(draft: DraftRule, entries: ReadonlyMap<string, Entry>): Schedule | undefined {
  const { link, rule } = draft;
  if (link === undefined) return rule.schedule;
  const after = entries.get(link.actionId)?.draft?.rule.activity;
  if (after === undefined) return undefined;
  const { offset } = link;
  const until = link.until === undefined ? {} : { until: link.until };
  if (link.kind === 'hold') {
    const from = link.from === undefined ? {} : { from: link.from };
    return { kind: 'hold', after, ...(offset === undefined ? {} : { offset }), ...from, ...until };
  }
  if (offset === undefined) return undefined;
  return link.kind === 'chain'
    ? { kind: 'chain', after, offset, ...until }
    : {
        kind: 'before',
        of: after,
        offset,
        ...(link.timesOfDay === undefined ? {} : { timesOfDay: link.timesOfDay }),
      };
}

/** Gives an entry its rule; says where its link leads nowhere. */
function follow(
  draft: DraftRule,
  entry: Entry,
  entries: ReadonlyMap<string, Entry>,
  findings: Findings,
  extent: Extent,
): void {
  const schedule = scheduleOf(draft, entries);
  if (schedule !== undefined) {
    entry.rule = { ...draft.rule, schedule };
    const other =
      schedule.kind === 'chain' ? schedule.after : schedule.kind === 'before' ? schedule.of : undefined;
    if (other === draft.rule.activity) {
      findings.error(
        'relatedAction[0].actionId',
        `${other} would ${schedule.kind === 'chain' ? 'follow' : 'come before'} itself without end`,
        'Name an action of another activity.',
      );
    }
    return;
  }
  const target = draft.link?.actionId ?? '';
  const off = entries.get(target)?.off;
  if (off !== undefined) {
    findings.error(
      'relatedAction[0].actionId',
      `${target} is switched off by layer ${off.index}`,
      'Switch this rule off as well, or keep the other.',
    );
    return;
  }
  const ids = [...entries]
    .filter(([id, { draft: known }]) => known !== undefined && id !== draft.id)
    .map(([id]) => id);
  const cure = ids.length === 0 ? 'Add that action to the plan.' : suggestion(target, ids);
  const message = `there is no action with the id ${target}`;
  if (extent === 'whole') findings.error('relatedAction[0].actionId', message, cure);
  else findings.warning('relatedAction[0].actionId', `${message} here; a layer below has to have it`, cure);
}

function compare(
  action: DraftRule | SwitchOff,
  below: Entry | undefined,
  rule: Rule | undefined,
  findings: Findings,
): void {
  const published = below?.published;
  const current = below?.rule;
  const upper = action.kind === 'off' ? 'off' : rule;
  if (published === undefined || current === undefined || upper === undefined || action.justified) return;
  // Only what is looser than the source and than what held so far: a layer may repeat or tighten what one below it
  // has given its reason for.
  const found = loosening(published, upper);
  if (found === undefined || loosening(current, upper) === undefined) return;
  const source = published.citations.filter(({ unsourced }) => !unsourced).map(({ text }) => text);
  findings.error(
    '',
    `${action.id} is loosened from "${found.from}" to "${found.to}"; the published source is: ${source.join('; ')}`,
    'Give the reason as documentation of type justification; or stay within the published rule; or give the rule an id of its own, so that it stands beside it.',
  );
}

/** The rules as all layers leave them, in the order of their ids; links and cycles checked once more over all. */
function settle(entries: ReadonlyMap<string, Entry>, list: LintFinding[]): readonly Rule[] {
  const rules: Rule[] = [];
  for (const [id, { draft, rule }] of entries) {
    if (draft === undefined || rule === undefined) continue;
    const schedule = scheduleOf(draft, entries);
    const target = draft.link?.actionId ?? '';
    const off = entries.get(target)?.off;
    if (schedule !== undefined) rules.push({ ...rule, schedule });
    else if (off !== undefined && off.origin.layer > rule.origin.layer) {
      new Findings(list, off.index, off.path, off.id).error(
        '',
        `switches off ${target}, but ${id} of layer ${draft.index} counts from it`,
        `Switch ${id} off as well, or keep ${target}.`,
      );
    }
  }
  checkCycles(entries, list);
  return rules.sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
}

function checkCycles(entries: ReadonlyMap<string, Entry>, list: LintFinding[]): void {
  const done = new Set<string>();
  for (const start of entries.keys()) {
    const way: string[] = [];
    let id: string | undefined = start;
    while (id !== undefined && !done.has(id) && !way.includes(id)) {
      way.push(id);
      id = entries.get(id)?.draft?.link?.actionId;
    }
    if (id !== undefined && way.includes(id)) reportCycle([...way.slice(way.indexOf(id)), id], entries, list);
    for (const seen of way) done.add(seen);
  }
}

function reportCycle(
  cycle: readonly string[],
  entries: ReadonlyMap<string, Entry>,
  list: LintFinding[],
): void {
  const drafts = cycle.flatMap((id) => entries.get(id)?.draft ?? []);
  // The layer that closed the circle is the one to change.
  const last = drafts.reduce(
    (a, b) => (b.rule.origin.layer > a.rule.origin.layer ? b : a),
    drafts[0] as DraftRule,
  );
  new Findings(list, last.index, last.path, last.id).error(
    'relatedAction[0].actionId',
    `the actions wait for one another in a circle: ${cycle.join(' after ')}`,
    'Let one of them stand without relatedAction: it is the event the others count from.',
  );
}

function shortest(layers: readonly Layer[]): Span {
  const stated = layers.flatMap(({ labStaleAfter }) => labStaleAfter ?? []);
  return stated.reduce(
    (a, b) => (comparableMinutes(b) < comparableMinutes(a) ? b : a),
    stated[0] ?? sevenDays,
  );
}
