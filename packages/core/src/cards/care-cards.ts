import type { Policy, Rule } from '@dwellward/policy';
import { laneOf } from '../board/lane.js';
import type { BoardLine, BoardRow } from '../board/model.js';
import { allIssues } from '../fhir/due-bundle.js';
import type { AsOf, DueItem, Hold, LineCare } from '../model/care.js';
import type { LineRecord, Records, Ref } from '../model/record.js';
import type { NotReadBecause } from '../model/sentences/cards.js';
import { holdRows } from '../table/hold-rows.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { noLineFound, notUnderstoodSaid } from '../words/not-understood.js';
import { speaker, type Say } from '../words/say.js';
import { sourceTexts } from '../words/sources.js';
import { actsOf } from './acts.js';
import { fitted } from './fitted.js';
import type { CardPart, CardUrgency, CareCard } from './model.js';

export interface CareCardOptions {
  /** Whether care of a line may be recorded: false for one that no Device on the server stands for. */
  readonly recordable?: (line: Ref) => boolean;
  /** What the record as it was read may lack, in words of whoever read it. */
  readonly doubts?: readonly string[];
  /** English where none is given. */
  readonly language?: Language;
}

/**
 * What a card says whose patient could not be read: that nothing is known, and why.
 * @example
 * ```ts
 * notReadCard('no-answer', when).urgency; // 'warning'
 * ```
 */
export function notReadCard(because: NotReadBecause, { zone }: AsOf, language: Language = english): CareCard {
  const say = speaker(language, new Calendar(zone));
  return plainCard('not-read', say({ code: 'record-not-read', because }), [], say);
}

/**
 * What a patient’s lines need, as cards: on top what was not understood or may be missing, then one a line with what is
 * overdue and due, emergencies first, then what must not be done, with its source. Nothing that is due only later makes
 * a card. It decides nothing: all of it is in the care already.
 * @param records what the care was computed from. @param cares the care of each line by the policy, at `when`.
 * @example
 * ```ts
 * careCards(records, cares, policy, when).every(({ summary }) => summary.length < 140); // true
 * ```
 */
export function careCards(
  records: Records,
  cares: readonly LineCare[],
  policy: Policy,
  when: AsOf,
  options: CareCardOptions = {},
): CareCard[] {
  const { recordable = () => true, doubts = [], language = english } = options;
  const say = speaker(language, new Calendar(when.zone));
  const lines = new Map(records.lines.map((line) => [line.ref, line]));
  const lanes = cares.map((care) => {
    const line = lines.get(care.line);
    return { care, line, lane: laneOf({ care, line, when, say }) };
  });
  return [
    ...(doubts.length > 0 ? [notWholeCard(doubts, when, language)] : []),
    ...notUnderstoodCards(records, say),
    ...lanes.flatMap(({ lane }) => [...warningCards(lane, say), ...unansweredCards(lane, say)]),
    ...lanes
      .flatMap(({ care, line, lane }) => careCard(care, line, lane, { policy, when, say, recordable }))
      .sort((a, b) => pressing[a.urgency] - pressing[b.urgency]),
    ...lanes.flatMap(({ care, line, lane }) => holdCards(care, line, lane, { when, say })),
    ...issueCards(records, cares, say),
  ];
}

const pressing: Readonly<Record<CardUrgency, number>> = { critical: 0, warning: 1, info: 2 };

/** A card that no rule of the policy stands behind. */
export function plainCard(
  kind: CareCard['kind'],
  text: string,
  parts: readonly CardPart[],
  say: Say,
  urgency: CardUrgency = 'warning',
): CareCard {
  const summary = fitted(text);
  return {
    kind,
    urgency,
    summary,
    parts: [...(summary === text ? [] : [{ text, more: [] }]), ...parts],
    source: { label: say({ code: 'worked-out' }) },
    acts: [],
  };
}

/**
 * That the record as it was read may lack something, with what.
 * @param doubts in words of whoever read it.
 * @example
 * ```ts
 * notWholeCard(['Two pages are missing.'], when).kind; // 'not-whole'
 * ```
 */
export function notWholeCard(
  doubts: readonly string[],
  { zone }: AsOf,
  language: Language = english,
): CareCard {
  const say = speaker(language, new Calendar(zone));
  const parts = doubts.map((text) => ({ text: say({ code: 'outside-text', text }), more: [] }));
  return plainCard('not-whole', say({ code: 'record-not-whole' }), parts, say);
}

function notUnderstoodCards(records: Records, say: Say): CareCard[] {
  const not = notUnderstoodSaid(records.notUnderstood, Infinity);
  if (!not) return [];
  const resources = new Set(
    records.notUnderstood.flatMap(({ patients }) => patients.flatMap((one) => one.resources)),
  ).size;
  const none = noLineFound(records);
  const summary = say({ code: 'card-not-understood', resources, kinds: records.notUnderstood.length });
  const parts = [...(none ? [none] : []), ...not.kinds].map((one) => ({ text: say(one), more: [] }));
  return [plainCard('not-understood', summary, parts, say)];
}

/** What has to be known before anything is done to the line; also that its care could not be worked out. */
function warningCards({ name, line, warnings }: BoardLine, say: Say): CareCard[] {
  const [first] = warnings;
  if (first === undefined) return [];
  const parts = warnings.map((text) => ({ text, more: [] }));
  return [{ ...plainCard('warning', `${name}: ${first}`, [], say), parts, line }];
}

function unansweredCards({ name, line, unanswered }: BoardLine, say: Say): CareCard[] {
  return unanswered.map((text) => ({ ...plainCard('unanswered', `${name}: ${text}`, [], say), line }));
}

interface Spoken {
  readonly when: AsOf;
  readonly say: Say;
}

/** What is overdue and due of a line; an emergency counts once it is no longer to come. */
function isOpen({ state, emergency }: BoardRow): boolean {
  return state === 'overdue' || state === 'due' || (emergency && state !== 'upcoming');
}

function careCard(
  care: LineCare,
  line: LineRecord | undefined,
  lane: BoardLine,
  {
    policy,
    when,
    say,
    recordable,
  }: Spoken & { readonly policy: Policy; readonly recordable: (line: Ref) => boolean },
): CareCard[] {
  const rows = lane.rows.filter(isOpen);
  const [first] = rows;
  const itemsOf = ({ ids }: BoardRow) => care.items.filter(({ id }) => ids.includes(id));
  const items = first ? itemsOf(first) : [];
  const [item] = items;
  if (!first || !item) return [];
  const emergencies = rows.filter(({ emergency }) => emergency).length;
  const count = (state: DueItem['state']) =>
    rows.filter((row) => !row.emergency && row.state === state).length;
  const targets = items.filter(({ activity }) => activity === item.activity).map(({ target }) => target.name);
  const overdue = count('overdue');
  const summary = say({
    code: 'card-of-line',
    name: line?.name ?? { code: 'named', name: care.line },
    emergencies,
    overdue,
    due: count('due'),
    first: { activity: item.activity, targets },
  });
  const parts = [
    { text: lane.text, more: lane.notKnown },
    ...rows.map(({ text, dueText, relativeText, why, firstSteps }) => ({
      text: `${text} · ${dueText} · ${relativeText}`,
      more: [...why, ...firstSteps],
    })),
    advice(say),
  ];
  return [
    {
      kind: 'care',
      urgency: emergencies > 0 ? 'critical' : overdue > 0 ? 'warning' : 'info',
      summary: fitted(summary),
      parts,
      source: sourceOf(item.rule, say),
      line: care.line,
      acts:
        line && recordable(care.line)
          ? rows.flatMap((row) => actsOf(row, itemsOf(row), { line, care, policy, when, say }))
          : [],
    },
  ];
}

function advice(say: Say): CardPart {
  return { text: say({ code: 'advice-not-order' }), more: [] };
}

/** What must not be done to a line: one card for the holds of one source, target and end. */
function holdCards(
  care: LineCare,
  line: LineRecord | undefined,
  { name }: BoardLine,
  { when, say }: Spoken,
): CareCard[] {
  return bySource(holdsInForce(care, when), say).flatMap((holds) =>
    holdRows(holds, (line?.lumens.length ?? 0) > 1).map((row): CareCard => {
      const text = `${name}: ${say(row)}`;
      return {
        kind: 'hold',
        urgency: 'warning',
        summary: fitted(text),
        parts: [{ text, more: citedBy(holds, say) }, advice(say)],
        source: sourceOf(holds[0]?.rule, say),
        line: care.line,
        acts: [],
      };
    }),
  );
}

/** The holds that bind at a moment. */
export function holdsInForce({ holds }: LineCare, { asOf }: AsOf): Hold[] {
  const nowMs = instantMs(asOf);
  return holds.filter(
    ({ from, until }) => instantMs(from) <= nowMs && (until === undefined || nowMs < instantMs(until)),
  );
}

/** Holds by the source that is named with them: a card has one. */
export function bySource(holds: readonly Hold[], say: Say): Hold[][] {
  const groups = new Map<string, Hold[]>();
  for (const hold of holds) {
    const key = JSON.stringify(sourceOf(hold.rule, say));
    groups.set(key, [...(groups.get(key) ?? []), hold]);
  }
  return [...groups.values()];
}

/** Every source of the rules of some holds, each once. */
export function citedBy(holds: readonly Hold[], say: Say): string[] {
  return [...new Set(holds.flatMap(({ rule }) => sourceTexts(rule.citations, say)))];
}

/** The first source that a rule cites; the layer that it stands in where it cites none. */
export function sourceOf(rule: Rule | undefined, say: Say): CareCard['source'] {
  const [first] = rule?.citations ?? [];
  if (!rule) return { label: say({ code: 'worked-out' }) };
  const label = say({ code: 'policy-text', text: first?.text ?? rule.origin.title });
  // Only what a browser opens is a link.
  return { label, ...(first?.url && isWeb(first.url) ? { url: first.url } : {}) };
}

function isWeb(url: string): boolean {
  return /^https?:\/\/[^\s/]+\S*$/i.test(url);
}

/** What is to be put right in the record: a warning where something of it is grave. */
function issueCards(records: Records, cares: readonly LineCare[], say: Say): CareCard[] {
  const issues = allIssues(records, cares).filter(({ code }) => code !== 'unanswered-finding');
  if (issues.length === 0) return [];
  const grave = issues.some(({ severity }) => severity === 'high');
  const parts = issues.map(({ resource, path, sentence }) => ({
    text: say({ code: 'issue-at', resource, path, issue: sentence }),
    more: [],
  }));
  const summary = say({ code: 'things-to-put-right', count: issues.length });
  return [plainCard('issues', summary, parts, say, grave ? 'warning' : 'info')];
}
