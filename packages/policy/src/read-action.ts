import { activityCodes, base, codeSystem, policyExtension, type LineCareActivity } from '@dwellward/profiles';
import { always, compileCondition } from './condition-compile.js';
import { elementsOf } from './json.js';
import type { Condition } from './condition.js';
import type { Findings } from './findings.js';
import type { Citation, Rule, RuleOrigin, Scope, Span } from './model.js';
import { suggestion } from './nearest.js';
import { readWork } from './read-activity.js';
import { readWhen, type Link } from './read-schedule.js';
import { actionShape, type Action, type Concept, type Documentation, type Extension } from './shapes.js';
import { comparableMinutes, readSpan } from './spans.js';

/** A rule of one layer before its links are followed. */
export interface DraftRule {
  readonly kind: 'rule';
  readonly id: string;
  /** Its schedule stands for nothing where there is a link. */
  readonly rule: Rule;
  readonly link?: Link;
  /** Whether the layer gives a reason for a rule that loosens a published one. */
  readonly justified: boolean;
  /** Which of the plans that were given it stands in, and where. */
  readonly index: number;
  readonly path: string;
}

/** An action that switches a rule of a lower layer off: its condition is `false`. */
export interface SwitchOff {
  readonly kind: 'off';
  readonly id: string;
  readonly justified: boolean;
  /** The reasons that are given. */
  readonly notes: readonly string[];
  readonly origin: RuleOrigin;
  readonly index: number;
  readonly path: string;
}

const scopes: readonly Scope[] = ['line', 'lumen', 'exit-site', 'incision'];
const activities = activityCodes;

/** The words by which a rule’s documentation says that no source was published. */
export const unsourcedWords = 'common practice, no source';

const read = new Set([
  'id',
  'extension',
  'title',
  'description',
  'textEquivalent',
  'prefix',
  'priority',
  'code',
  'reason',
  'documentation',
  'condition',
  'trigger',
  'relatedAction',
  'output',
  'requiredBehavior',
  'definitionCanonical',
]);

/** Reads one PlanDefinition.action. Undefined where it can’t be kept; the findings say why. */
export function readAction(
  action: unknown,
  contained: readonly unknown[],
  origin: RuleOrigin,
  findings: Findings,
): DraftRule | SwitchOff | undefined {
  const parsed = actionShape.safeParse(action);
  if (!parsed.success) {
    findings.issues(parsed.error, 'PlanDefinition.action');
    return undefined;
  }
  return readShaped(parsed.data, contained, origin, findings.at('', parsed.data.id));
}

function readShaped(
  action: Action,
  contained: readonly unknown[],
  origin: RuleOrigin,
  findings: Findings,
): DraftRule | SwitchOff | undefined {
  const before = errorsIn(findings);
  const { id = '' } = action;
  if (!/^[A-Za-z0-9.-]{1,64}$/.test(id)) {
    findings.error(
      'id',
      action.id === undefined ? 'is missing' : 'is not an id',
      'Use 1 to 64 letters, digits, hyphens and dots, such as dressing-change-gauze.',
    );
  }
  reportUnused(action, findings);
  const { citations, notes, justified } = readDocumentation(action.documentation ?? []);
  const place = { id, justified, index: findings.layer, path: findings.path };
  if ((action.condition ?? []).some(({ expression }) => expression?.expression?.trim() === 'false')) {
    return { kind: 'off', ...place, notes, origin };
  }
  const activity = readActivity(action.code ?? [], findings);
  const settings = readExtensions(action.extension ?? [], findings);
  const when = readWhen(action, findings);
  const condition = readCondition(action, settings.scope, findings);
  const work = readWork(action.definitionCanonical, contained, activity, findings);
  if (
    action.requiredBehavior !== undefined &&
    action.requiredBehavior !== 'must' &&
    action.relatedAction === undefined &&
    !(action.requiredBehavior === 'could' && action.trigger !== undefined)
  ) {
    findings.warning(
      'requiredBehavior',
      `${action.requiredBehavior} is not used here`,
      'It only has a meaning beside relatedAction.',
    );
  }
  if (citations.length === 0) {
    findings.warning(
      'documentation',
      'names no source',
      `Add documentation of type citation with the source, or with the words "${unsourcedWords}".`,
    );
  }
  if (settings.whenUnknown === 'default' && notes.length === 0) {
    findings.warning(
      'documentation',
      'an unknown fact counts as false, and no reason is given',
      'Give the reason as documentation of type justification, or leave rule-when-unknown out.',
    );
  }
  if (errorsIn(findings) > before || activity === undefined || when === undefined || condition === undefined)
    return undefined;
  const schedule = 'schedule' in when ? when.schedule : { kind: 'anchor' as const };
  if (schedule.kind === 'interval') checkWindow(schedule.every, settings, findings);
  const rule: Rule = {
    id,
    title: action.title ?? id,
    activity,
    scope: settings.scope,
    schedule,
    condition,
    whenUnknown: settings.whenUnknown,
    ...(settings.lead === undefined ? {} : { lead: settings.lead }),
    ...(settings.minimumSpacing === undefined ? {} : { minimumSpacing: settings.minimumSpacing }),
    priority: action.priority ?? 'routine',
    citations,
    notes: 'notes' in when ? [...notes, ...when.notes] : notes,
    work,
    origin,
  };
  return { kind: 'rule', ...place, rule, ...('link' in when ? { link: when.link } : {}) };
}

function errorsIn(findings: Findings): number {
  return findings.list.filter(({ severity }) => severity === 'error').length;
}

function reportUnused(action: Action, findings: Findings): void {
  for (const key of elementsOf(action)) {
    if (read.has(key) || key.startsWith('timing')) continue;
    if (key === 'modifierExtension') findings.error(key, 'its meaning is not known', 'Leave it out.');
    else if (key === 'action')
      findings.warning(key, 'nested actions are not used', 'Put every rule at the top level of the plan.');
    else findings.warning(key, 'is not used', 'Leave it out, or say in documentation what it stands for.');
  }
}

function readActivity(concepts: readonly Concept[], findings: Findings): LineCareActivity | undefined {
  const coded = concepts.flatMap(({ coding }) => coding ?? []);
  const ours = coded.filter(({ system }) => system === codeSystem.lineCareActivity);
  const [first] = ours;
  const cure = `Give one coding of system ${codeSystem.lineCareActivity}.`;
  if (first === undefined) return findings.error('code', 'names no line-care activity', cure);
  if (ours.length > 1) return findings.error('code', 'names several line-care activities', cure);
  const activity = activities.find((code) => code === first.code);
  if (activity !== undefined) return activity;
  return findings.error(
    'code',
    `${first.code ?? 'nothing'} is not a line-care activity`,
    suggestion(first.code ?? '', activities),
  );
}

interface Settings {
  scope: Scope;
  whenUnknown: 'protective' | 'default';
  lead?: Span;
  minimumSpacing?: Span;
}

function readExtensions(extensions: readonly Extension[], findings: Findings): Settings {
  const settings: Settings = { scope: 'line', whenUnknown: 'protective' };
  const seen = new Set<string>();
  extensions.forEach((extension, index) => {
    const at = findings.at(`extension[${index}]`);
    const { url } = extension;
    if (seen.has(url)) at.error('url', `${url} stands here twice`, 'Keep one.');
    seen.add(url);
    if (url === policyExtension.ruleScope) {
      const scope = scopes.find((known) => known === extension['valueCode']);
      if (scope === undefined) at.error('valueCode', 'is not a scope', `Use one of: ${scopes.join(', ')}.`);
      else settings.scope = scope;
    } else if (url === policyExtension.ruleWhenUnknown) {
      const value = extension['valueCode'];
      if (value === 'protective' || value === 'default') settings.whenUnknown = value;
      else at.error('valueCode', 'is not a reading of unknown facts', 'Use protective or default.');
    } else if (url === policyExtension.ruleLead) {
      const lead = readExtensionSpan(extension, at);
      if (lead !== undefined) settings.lead = lead;
    } else if (url === policyExtension.ruleMinimumSpacing) {
      const spacing = readExtensionSpan(extension, at);
      if (spacing !== undefined) settings.minimumSpacing = spacing;
    } else reportExtension(url, at);
  });
  return settings;
}

/** Says of an extension that it is not used; with the nearest of ours where it was meant to be one. */
export function reportExtension(url: string, findings: Findings): void {
  const cure = url.startsWith(base)
    ? suggestion(url, Object.values(policyExtension))
    : 'Leave it out, or say in documentation what it stands for.';
  findings.warning('url', `${url} is not used here`, cure);
}

/** The Duration of an extension; what is wrong with it becomes an error. */
export function readExtensionSpan(extension: Extension, findings: Findings): Span | undefined {
  const reading = readSpan(extension['valueDuration']);
  if (reading.ok) return reading.span;
  return findings.at('valueDuration').error(reading.path, reading.message, 'Give a Duration, such as 96 h.');
}

function readCondition(action: Action, scope: Scope, findings: Findings): Condition | undefined {
  const texts: string[] = [];
  const paths: string[] = [];
  const before = findings.list.length;
  (action.condition ?? []).forEach(({ kind, expression, ...others }, index) => {
    const at = findings.at(`condition[${index}]`);
    if (others['modifierExtension'] !== undefined)
      at.error('modifierExtension', 'its meaning is not known', 'Leave it out.');
    if (kind !== 'applicability')
      return at.error('kind', `${kind} can’t be kept`, 'Only applicability can be.');
    if (expression?.language !== 'text/fhirpath') {
      return at.error(
        'expression.language',
        `${expression?.language ?? 'nothing'} can’t be read`,
        'Write the condition in text/fhirpath.',
      );
    }
    if (expression.expression === undefined) {
      return at.error(
        'expression.expression',
        'is missing',
        'Write the condition itself, not a reference to it.',
      );
    }
    texts.push(expression.expression);
    paths.push(`condition[${index}].expression.expression`);
  });
  if (findings.list.length > before) return undefined;
  if (texts.length === 0) return always;
  const reading = compileCondition(texts);
  if (!reading.ok) {
    for (const { expression, message, cure } of reading.problems)
      findings.error(paths[expression] ?? 'condition', message, cure);
    return undefined;
  }
  const ofLumen = reading.condition.uses.filter((name) => name.startsWith('lumen.'));
  if (ofLumen.length > 0 && scope !== 'lumen') {
    return findings.error(
      'condition',
      `%${ofLumen.join(', %')} is never known of a rule whose scope is ${scope}`,
      `Give the action the extension ${policyExtension.ruleScope} with valueCode lumen.`,
    );
  }
  return reading.condition;
}

function readDocumentation(documentation: readonly Documentation[]) {
  const citations: Citation[] = [];
  const notes: string[] = [];
  let justified = false;
  for (const { type, citation, display, label, url } of documentation) {
    const text = [citation, display, label].find((part) => part !== undefined && part.trim() !== '')?.trim();
    if (text === undefined) continue;
    if (type === 'citation') {
      const unsourced = text.toLowerCase().includes(unsourcedWords);
      citations.push(url === undefined ? { text, unsourced } : { text, url, unsourced });
    } else notes.push(text);
    if (type === 'justification') justified = true;
  }
  return { citations, notes, justified };
}

function checkWindow(every: Span, settings: Settings, findings: Findings): void {
  const interval = comparableMinutes(every);
  if (settings.lead !== undefined && comparableMinutes(settings.lead) >= interval) {
    findings.warning(
      'extension',
      'the lead is as long as the interval',
      'Give a shorter rule-lead, or leave it out for a quarter of the interval.',
    );
  }
  if (settings.minimumSpacing !== undefined && comparableMinutes(settings.minimumSpacing) > interval) {
    findings.warning(
      'extension',
      'the minimum spacing is longer than the interval',
      'Give a shorter rule-minimum-spacing or a longer interval.',
    );
  }
}
