import { Findings, type LintFinding } from './findings.js';
import { loosening } from './loosening.js';
import { reportWithoutEffect } from './without-effect.js';
import type { AskedWhen, Begins, Citation, LoosenedRule, Policy, ReplacedRule, Rule, Span } from './model.js';
import { suggestion } from './nearest.js';
import type { DraftRule, SwitchOff } from './read-action.js';
import { isLink } from './beginning.js';
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
  /** How it asks for less than its published source, as the layers so far leave it, and the rule of that source. */
  loosened?: { readonly rule: LoosenedRule; readonly published: Rule };
}

type Entries = Map<string, Entry>;

const sevenDays: Span = { value: 7, unit: 'd' };

/** How much of the policy is at hand: a link that leads nowhere is only certain to be wrong where all of it is. */
export type Extent = 'whole' | 'parts' | 'alone';

/** Merges layers, the lowest first, and says what is wrong between them. */
export function merge(layers: readonly Layer[], list: LintFinding[], extent: Extent): Policy {
  const entries: Entries = new Map();
  const replaced: ReplacedRule[] = [];
  for (const layer of layers) {
    const below: Entries = new Map([...entries].map(([id, entry]) => [id, { ...entry }]));
    const actions = resolved(layer, below, list, extent);
    for (const action of actions) place(action, entries);
    for (const action of actions) {
      const findings = new Findings(list, layer.index, action.path, action.id);
      const entry = entries.get(action.id);
      if (action.kind === 'rule' && entry !== undefined) follow(action, entry, entries, list, extent);
      const looser = compare(action, below.get(action.id), entry?.rule, findings);
      if (entry !== undefined) keep(entry, looser);
      const before = below.get(action.id)?.rule;
      if (before !== undefined) replaced.push(replacement(action, before));
      if (entry?.rule?.citations.some(isPublished) === true) entry.published = entry.rule;
    }
  }
  const rules = settle(entries, list);
  reportWithoutEffect(rules, layers, list);
  const loosened = [...entries.values()].flatMap((entry) => entry.loosened?.rule ?? []);
  loosened.sort((a, b) => (a.id < b.id ? -1 : 1));
  // The sort is stable: of one id the lowest layer stays first.
  replaced.sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  return {
    layers: layers.map(({ origin }) => origin),
    rules,
    labStaleAfter: shortest(layers),
    replaced,
    loosened,
  };
}

function isPublished({ certainty }: Citation): boolean {
  return certainty !== 'common-practice';
}

/**
 * The rules that a layer adds or replaces and those that it switches off, one by one: an action with the id of a group
 * below stands for all the rules of that group, and what it has not itself is switched off.
 */
function resolved(
  layer: Layer,
  below: Entries,
  list: LintFinding[],
  extent: Extent,
): readonly (DraftRule | SwitchOff)[] {
  const own = new Set(layer.actions.flatMap(({ id, kind }) => (kind === 'group' ? [] : [id])));
  return layer.actions.flatMap((action): (DraftRule | SwitchOff)[] => {
    const members = membersOf(action.id, below).filter((id) => !own.has(id));
    // A group in place of a rule: the rule of that id goes as well.
    const dropped = action.kind === 'group' && stands(action.id, below) ? [action.id] : [];
    const offs = [...dropped, ...members].map((id): SwitchOff => ({ ...action, kind: 'off', id }));
    if (action.kind === 'rule') return [action, ...offs];
    if (action.kind === 'group') return offs;
    if (stands(action.id, below)) return [action, ...offs];
    if (offs.length === 0 && membersOf(action.id, below).length === 0)
      reportNothing(action, below, list, extent);
    return offs.length > 0 ? offs : [action];
  });
}

function stands(id: string, entries: Entries): boolean {
  return entries.get(id)?.draft !== undefined;
}

/** The rules of a group that stand. */
function membersOf(group: string, entries: Entries): readonly string[] {
  return [...entries].flatMap(([id, { draft }]) => (draft?.rule.group === group ? [id] : []));
}

/** Says that what is switched off is not there. */
function reportNothing(action: SwitchOff, below: Entries, list: LintFinding[], extent: Extent): void {
  if (extent === 'parts') return;
  const findings = new Findings(list, action.index, action.path, action.id);
  const drafts = [...below.values()].flatMap(({ draft }) => draft ?? []);
  const known = [
    ...new Set(drafts.flatMap(({ id, rule: { group } }) => (group === undefined ? [id] : [group, id]))),
  ];
  const cure = known.length === 0 ? 'It has to stand in a layer below.' : suggestion(action.id, known);
  const message = `{element} switches off ${action.id}, which is not in a layer below`;
  if (extent === 'alone') findings.information('', 'nothing-to-switch-off', message, cure);
  else findings.warning('', 'nothing-to-switch-off', message, cure);
}

function replacement(action: DraftRule | SwitchOff, before: Rule): ReplacedRule {
  const { id, origin, notes } = action;
  return { id, how: action.kind === 'off' ? 'switched-off' : 'replaced', before, by: origin, notes };
}

function place(action: DraftRule | SwitchOff, entries: Entries): void {
  const entry = entries.get(action.id) ?? {};
  delete entry.draft;
  delete entry.rule;
  delete entry.off;
  if (action.kind === 'rule') entry.draft = action;
  else entry.off = action;
  entries.set(action.id, entry);
}

/** When a rule begins; undefined where it is counted back from what is not there, or is planned by no order. */
function begun({ begins }: DraftRule, entries: Entries): Begins | undefined {
  if (!isLink(begins)) return begins;
  const of = entries.get(begins.actionId)?.draft;
  if (of === undefined || isLink(of.begins) || of.begins.kind !== 'planned') return undefined;
  const { offset, timesOfDay } = begins;
  return {
    kind: 'before',
    of: of.rule.activity,
    offset,
    ...(timesOfDay === undefined ? {} : { timesOfDay }),
  };
}

/** Gives an entry its rule; says where its link leads nowhere. */
function follow(draft: DraftRule, entry: Entry, entries: Entries, list: LintFinding[], extent: Extent): void {
  const begins = begun(draft, entries);
  if (begins !== undefined) entry.rule = { ...draft.rule, begins };
  if (!isLink(draft.begins)) return;
  const at = new Findings(list, draft.index, draft.begins.path, draft.id);
  if (begins === undefined) reportLink(draft.id, draft.begins.actionId, entries, at, extent);
  else if (begins.kind === 'before' && begins.of === draft.rule.activity) {
    at.error(
      'actionId',
      'before-itself',
      `${begins.of} would come before itself without end`,
      'Name an action of another activity.',
    );
  }
}

function reportLink(id: string, actionId: string, entries: Entries, at: Findings, extent: Extent): void {
  const { draft, off } = entries.get(actionId) ?? {};
  if (draft !== undefined) {
    at.error(
      'actionId',
      'not-planned',
      `${actionId} is planned by no order`,
      'Give that action a trigger of type data-added with data of type ServiceRequest and its own code.',
    );
    return;
  }
  if (off !== undefined) {
    at.error(
      'actionId',
      'switched-off',
      `${actionId} is switched off by layer ${off.index}`,
      'Switch this rule off as well, or keep the other.',
    );
    return;
  }
  const ids = [...entries].flatMap(([known, entry]) =>
    entry.draft !== undefined && known !== id ? [known] : [],
  );
  const cure = ids.length === 0 ? 'Add that action to the plan.' : suggestion(actionId, ids);
  const message = `There is no action with the id ${actionId}`;
  if (extent === 'whole') at.error('actionId', 'unknown-action', message, cure);
  else at.warning('actionId', 'unknown-action', `${message} here; a layer below has to have it`, cure);
}

/**
 * How an action asks for less than the published rule under its id; undefined where it does not. Without a reason it is
 * refused; with one it is warned of, for whoever reads the due list has to know.
 */
function compare(
  action: DraftRule | SwitchOff,
  below: Entry | undefined,
  now: Rule | undefined,
  findings: Findings,
): Entry['loosened'] {
  // What a layer has loosened stays measured by the source that it left.
  const published = below?.loosened?.published ?? below?.published;
  const upper = action.kind === 'off' ? 'off' : now;
  if (published === undefined || upper === undefined) return undefined;
  const found = loosening(published, upper);
  if (found === undefined) return undefined;
  const sources = published.citations.filter(isPublished).map(({ text }) => text);
  const { id, reasons, origin } = action;
  const { title, activity } = published;
  const how = upper === 'off' ? 'switched-off' : 'loosened';
  const rule: LoosenedRule = {
    ...{ id, how, title, activity, ...found, sources, reasons, by: origin },
    published: askedWhen(published),
    ...(upper === 'off' ? {} : { now: askedWhen(upper) }),
  };
  // Only what is looser than the source and than what held so far: a layer may repeat or tighten what one below it
  // has given its reason for.
  const current = below?.rule;
  if (current === undefined || loosening(current, upper) === undefined)
    return {
      published,
      rule: { ...rule, reasons: reasons.length > 0 ? reasons : (below?.loosened?.rule.reasons ?? []) },
    };
  const what = `${id} is loosened from "${found.from}" to "${found.to}"`;
  const { published: was, now: is } = rule;
  const loosened = { published: was, sources, reasons, ...(is === undefined ? {} : { now: is }) };
  const source = `the published source is: ${sources.join('; ')}`;
  if (reasons.length === 0) {
    return findings.error(
      '',
      'loosened',
      `${what}; ${source}`,
      'Give the reason as documentation of type justification; or stay within the published rule; or give the rule an id of its own, so that it stands beside it.',
      { loosened },
    );
  }
  findings.warning(
    '',
    'loosened-with-reason',
    `${what}: ${reasons.join(' ')} But ${source}`,
    'Every output says so. Stay within the published rule, and nothing has to be said.',
    { loosened },
  );
  return { published, rule };
}

/** What stands under an id after a layer asks for less, or no longer does. */
function askedWhen(rule: Rule): AskedWhen {
  const { activity, effect, scopes, begins, stop, lasts, applicability, start, whenUnknown } = rule;
  return {
    ...{ activity, effect, scopes, begins, applicability, whenUnknown },
    ...(stop ? { stop } : {}),
    ...(lasts ? { lasts } : {}),
    ...(start ? { start } : {}),
  };
}

function keep(entry: Entry, looser: Entry['loosened']): void {
  if (looser === undefined) delete entry.loosened;
  else entry.loosened = looser;
}

/** The rules as all layers leave them, in the order of their ids; links checked once more over all. */
function settle(entries: Entries, list: LintFinding[]): readonly Rule[] {
  const rules: Rule[] = [];
  for (const [id, { draft, rule }] of entries) {
    if (draft === undefined || rule === undefined) continue;
    const begins = begun(draft, entries);
    if (begins !== undefined) {
      rules.push({ ...rule, begins });
      continue;
    }
    const target = isLink(draft.begins) ? draft.begins.actionId : '';
    const { off, draft: now } = entries.get(target) ?? {};
    const by = off ?? now;
    // What took the act away stands in a higher layer: that is the one to change.
    if (by === undefined || by.origin.layer <= rule.origin.layer) continue;
    const what = off === undefined ? 'is left without an order' : 'is switched off';
    new Findings(list, by.index, by.path, by.id).error(
      '',
      off === undefined ? 'not-planned' : 'switched-off',
      `${target} ${what}, but ${id} of layer ${draft.index} is counted back from it`,
      `Switch ${id} off as well, or keep ${target}.`,
    );
  }
  return rules.sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
}

function shortest(layers: readonly Layer[]): Span {
  const stated = layers.flatMap(({ labStaleAfter }) => labStaleAfter ?? []);
  return stated.reduce(
    (a, b) => (comparableMinutes(b) < comparableMinutes(a) ? b : a),
    stated[0] ?? sevenDays,
  );
}
