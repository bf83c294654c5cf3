import { activityCodes, codeSystem, type LineCareActivity } from '@dwellward/profiles';
import { reportFirstEdition } from './first-edition.js';
import type { Findings } from './findings.js';
import { elementsOf, shown } from './json.js';
import type { Effect, Participant, Rule, RuleOrigin } from './model.js';
import type { NamedExpressions } from './named-expressions.js';
import { suggestion } from './nearest.js';
import type { Definitions } from './read-activity.js';
import { isLink, type Link, type When } from './beginning.js';
import { readBegins } from './read-begins.js';
import { readConditions } from './read-conditions.js';
import { readDocumentation, unsourcedWords, type Sources } from './read-documentation.js';
import { reportUnused, type WholeAction } from './read-group.js';
import { checkWindow, readSettings, type Settings } from './read-settings.js';
import type { Concept } from './shapes.js';

/** What a layer says under one id. */
interface Stated {
  readonly id: string;
  /** Why it loosens a published rule. */
  readonly reasons: readonly string[];
  /** What people should know of it, the reasons among it. */
  readonly notes: readonly string[];
  readonly origin: RuleOrigin;
  /** Which of the plans that were given it stands in, and where. */
  readonly index: number;
  readonly path: string;
}

/** A rule of one layer before its link is followed. */
export interface DraftRule extends Stated {
  readonly kind: 'rule';
  readonly rule: Omit<Rule, 'begins'>;
  readonly begins: Rule['begins'] | Link;
}

/** An action that switches a rule or a group of a lower layer off: its condition is `false`. */
export interface SwitchOff extends Stated {
  readonly kind: 'off';
}

/** A group: it takes the place of what stands under its id in a lower layer. Its rules stand beside it. */
export interface GroupOf extends Stated {
  readonly kind: 'group';
}

/** What the actions of a plan are read with. */
export interface Surroundings {
  readonly origin: RuleOrigin;
  readonly definitions: Definitions;
  readonly named: NamedExpressions;
}

const read: ReadonlySet<string> = new Set([
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
  'participant',
  'definitionCanonical',
]);

/** What is said under the id of an action, whatever it is. */
export function statedBy(
  whole: WholeAction,
  { origin }: Surroundings,
): { readonly stated: Stated; readonly sources: Sources } {
  const { action, findings } = whole;
  const sources = readDocumentation(action.documentation ?? [], whole.placeOf('documentation'));
  const { reasons, notes } = sources;
  const { id = '' } = action;
  const { layer: index, path } = findings;
  return { stated: { id, reasons, notes, origin, index, path }, sources };
}

/** Reads an action as a rule. Undefined where it can’t be kept; the findings say why. */
export function readRule(whole: WholeAction, surroundings: Surroundings): DraftRule | undefined {
  const { action, findings } = whole;
  const before = findings.errors;
  reportElements(whole);
  const { stated, sources } = statedBy(whole, surroundings);
  const activity = readActivity(action.code ?? [], findings);
  const settings = readSettings(whole.extensions);
  const definition = surroundings.definitions.of(action.definitionCanonical, activity, findings);
  const conditions = readConditions(whole, settings, surroundings.named);
  const participants = readParticipants(whole);
  reportSources(sources, settings, whole);
  const when = readBegins({ whole, effect: definition?.effect, conditions, activity });
  if (findings.errors > before || definition === undefined || conditions === undefined) return undefined;
  if (activity === undefined || when === undefined) return undefined;
  const { effect, work } = definition;
  reportSettings(settings, effect, when, whole);
  const { id } = stated;
  const { whenUnknown, lead, minimumSpacing, scopes } = settings;
  return {
    ...stated,
    kind: 'rule',
    begins: when.begins,
    rule: {
      id,
      ...(whole.group === undefined ? {} : { group: whole.group }),
      title: action.title ?? id,
      effect,
      activity,
      scopes,
      ...conditions,
      ...(when.lasts === undefined ? {} : { lasts: when.lasts }),
      whenUnknown,
      ...(lead === undefined ? {} : { lead }),
      ...(minimumSpacing === undefined ? {} : { minimumSpacing }),
      priority: action.priority ?? 'routine',
      ...(participants.length > 0 ? { participants } : {}),
      citations: sources.citations,
      notes: [...sources.notes, ...when.notes],
      work,
      origin: surroundings.origin,
    },
  };
}

/** An action that switches off what stands under its id in a layer below. */
export function readOff(whole: WholeAction, surroundings: Surroundings): SwitchOff {
  reportElements(whole);
  if (whole.action.action !== undefined) {
    whole.findings.warning(
      'action',
      'unused-element',
      '{element} is not used, the group is switched off',
      'Leave it out.',
    );
  }
  return { ...statedBy(whole, surroundings).stated, kind: 'off' };
}

/** What is refused or not used of an action’s own elements; those of its group are spoken of there. */
function reportElements({ action, findings, placeOf }: WholeAction): void {
  const own = Object.fromEntries(
    Object.entries(action).filter(([key]) => placeOf(key).path === findings.path),
  );
  reportFirstEdition(own, findings);
  for (const key of elementsOf(own)) {
    if (!read.has(key) && !key.startsWith('timing') && key !== 'action') reportUnused(key, findings);
  }
}

function reportSources(sources: Sources, settings: Settings, whole: WholeAction): void {
  const { findings } = whole;
  if (sources.citations.length === 0) {
    findings.warning(
      'documentation',
      'no-source',
      '{element} names no source',
      `Add documentation of type citation with the source, or of type documentation with the words "${unsourcedWords}" and the extension source-certainty, valueCode common-practice.`,
    );
  }
  if (settings.whenUnknown === 'default' && sources.notes.length === 0) {
    findings.warning(
      'documentation',
      'no-reason',
      'An unknown fact counts as false, and no reason is given',
      'Give the reason as documentation of type justification, or leave rule-when-unknown out.',
    );
  }
}

function reportSettings(
  settings: Settings,
  effect: Effect,
  { begins }: When,
  { findings }: WholeAction,
): void {
  const windowed = settings.lead !== undefined || settings.minimumSpacing !== undefined;
  const empty = effect === 'forbid' || (!isLink(begins) && begins.kind === 'planned');
  if (windowed && empty) {
    findings.warning(
      'extension',
      'unused-extension',
      'rule-lead and rule-minimum-spacing have no meaning where nothing is asked for',
      'Leave them out.',
    );
  } else if (!isLink(begins) && begins.kind === 'interval') checkWindow(begins.every, settings, findings);
}

function readActivity(concepts: readonly Concept[], findings: Findings): LineCareActivity | undefined {
  const ours = concepts
    .flatMap(({ coding }) => coding ?? [])
    .filter(({ system }) => system === codeSystem.lineCareActivity);
  const [first] = ours;
  const cure = `Give one coding of system ${codeSystem.lineCareActivity}.`;
  if (first === undefined)
    return findings.error('code', 'no-activity', '{element} names no line-care activity', cure);
  if (ours.length > 1)
    return findings.error('code', 'no-activity', '{element} names several line-care activities', cure);
  const activity = activityCodes.find((code) => code === first.code);
  if (activity !== undefined) return activity;
  return findings.error(
    'code',
    'unknown-activity',
    `${first.code ?? 'nothing'} is not a line-care activity`,
    suggestion(first.code ?? '', activityCodes),
  );
}

const participantTypes: readonly Participant['type'][] = [
  'patient',
  'practitioner',
  'related-person',
  'device',
];

function readParticipants(whole: WholeAction): readonly Participant[] {
  const place = whole.placeOf('participant');
  return (whole.action.participant ?? []).flatMap((one, index): Participant[] => {
    const at = place.at(`participant[${index}]`);
    const type = participantTypes.find((known) => known === one.type);
    if (type === undefined) {
      at.error(
        'type',
        'participant-type',
        `${shown(one.type)} is none`,
        `Use one of: ${participantTypes.join(', ')}.`,
      );
      return [];
    }
    const [coding] = one.role?.coding ?? [];
    const role = one.role?.text ?? coding?.display ?? coding?.code;
    return [{ type, ...(role === undefined ? {} : { role }) }];
  });
}
