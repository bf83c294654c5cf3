import {
  applyPlan,
  calendarFeed,
  careCards,
  bloodDraw,
  dueBundle,
  handover,
  hasDrawSteps,
  hasRepairSteps,
  homeSheet,
  Refusal,
  renderDraw,
  renderExplanation,
  renderHandover,
  renderHomeHtml,
  renderHomeText,
  renderRepair,
  renderTable,
  previewPolicy,
  renderPreview,
  repairJudgement,
  speaker,
  Calendar,
  type AsOf,
  type Language,
  type LineCare,
  type LineRecord,
  type Records,
} from '@dwellward/core';
import { bundledPlan, readPolicy, type Policy } from '@dwellward/policy';

/** A record with what is due of it at a moment. */
export interface Unit {
  readonly records: Records;
  readonly cares: readonly LineCare[];
  readonly policy: Policy;
  readonly when: AsOf;
}

/** One thing that people or programs get to see, in whichever language. */
export interface Output {
  readonly name: string;
  readonly kind: 'text' | 'html' | 'fhir' | 'calendar';
  readonly in: (language: Language) => string;
}

/** The answer of a piece of work, or its refusal: either is said to somebody. */
function orRefusal<Answer>(
  work: () => Answer,
  say: (answer: Answer, language: Language) => string,
  when: AsOf,
) {
  try {
    const answer = work();
    return (language: Language) => say(answer, language);
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return (language: Language) => speaker(language, new Calendar(when.zone))(cause.sentence);
  }
}

const merged = readPolicy(
  ['base', 'blood-sampling', 'repair-care'].map((name) => bundledPlan(name as 'base')),
);
if (!merged.ok) throw new Error(JSON.stringify(merged.findings));
/** The policy by which a draw or a repair is told where a unit’s own has no steps of it. */
export const bundled = merged.policy;

/** Everything that is made of a unit for people, but for what only a shift and a sheet need. */
export function outputsOf(unit: Unit): Output[] {
  const { records, cares, policy, when } = unit;
  const text = (name: string, say: Output['in']): Output => ({ name, kind: 'text', in: say });
  const lineOf = new Map(records.lines.map((line) => [line.ref, line]));
  return [
    text('table', (language) => renderTable(records, cares, when, { colour: false, columns: 0, language })),
    text('cards', (language) =>
      careCards(records, cares, policy, when, { language })
        // A summary is cut at a length, and so at another place in another language.
        .flatMap(({ parts, acts }) => [
          ...parts.flatMap((part) => [part.text, ...part.more]),
          ...acts.map(({ label }) => label),
        ])
        .join('\n'),
    ),
    {
      name: 'bundle',
      kind: 'fhir',
      in: (language) => json(dueBundle(records, cares, policy, when, language)),
    },
    {
      name: 'calendar',
      kind: 'calendar',
      in: (language) =>
        calendarFeed(
          cares.flatMap(({ items }) => items),
          {
            stamp: when.asOf,
            sequence: 1,
            zone: when.zone,
            lines: records.lines,
            tells: 'full',
            policy,
            language,
          },
        ),
    },
    ...cares.map((care): Output => {
      const line = lineOf.get(care.line);
      return text(`explain ${care.line}`, (language) =>
        renderExplanation({ care, ...(line ? { line } : {}), policy, when }, language),
      );
    }),
    ...patientsOf(records).map((subject): Output => ({
      name: `apply ${subject}`,
      kind: 'fhir',
      in: (language) => json(applyPlan(records, policy, { subject, language }, when)),
    })),
    ...records.lines.flatMap((line) => [...drawsOf(line, unit), ...repairsOf(line, unit)]),
  ];
}

/** What would change for whom if the base alone took the place of the unit’s policy. */
export function previewOf({ records, policy, when }: Unit): Output {
  const base = readPolicy([bundledPlan('base')]);
  if (!base.ok) throw new Error(JSON.stringify(base.findings));
  const preview = previewPolicy(records, policy, base.policy, when);
  return {
    name: 'preview',
    kind: 'text',
    in: (language) =>
      renderPreview(preview, records, { plan: 'base', zone: when.zone, columns: 0, language }),
  };
}

/** The hand-over of twelve hours, and the sheet for every patient. */
export function shiftOutputsOf({ records, cares, policy, when }: Unit): Output[] {
  const to = new Calendar(when.zone).text(Date.parse(when.asOf) + 12 * 3_600_000);
  const shift = handover(records, cares, policy, { from: when.asOf, to, zone: when.zone });
  return [
    {
      name: 'hand-over',
      kind: 'text',
      in: (language) => renderHandover(shift, { colour: false, columns: 10_000, language }),
    },
    ...patientsOf(records).flatMap((patient): Output[] => {
      const sheet = homeSheet(records, cares, policy, when, patient);
      return [
        { name: `home ${patient}`, kind: 'text', in: (language) => renderHomeText(sheet, language) },
        { name: `home page ${patient}`, kind: 'html', in: (language) => renderHomeHtml(sheet, language) },
      ];
    }),
  ];
}

function json(answer: object): string {
  return JSON.stringify(answer, undefined, 1);
}

function patientsOf({ lines }: Records): string[] {
  return [...new Set(lines.map(({ patient }) => patient.ref))];
}

function drawsOf(line: LineRecord, { policy, when }: Unit): Output[] {
  const by = hasDrawSteps(policy, when) ? policy : bundled;
  const tests = [{ test: 'coagulation', volumeMl: '40' }, { test: 'drug-level' }] as const;
  return line.lumens.map(({ ref }): Output => ({
    name: `draw ${ref}`,
    kind: 'text',
    in: orRefusal(
      () => bloodDraw(line, { tests, lumen: ref }, by, when),
      (plan, language) => renderDraw(plan, line.name, when.zone, language),
      when,
    ),
  }));
}

function repairsOf(line: LineRecord, { policy, when }: Unit): Output[] {
  const by = hasRepairSteps(policy, when) ? policy : bundled;
  const known = { intactExternalLengthCm: '6', trimCm: '0.5', newSegmentLengthCm: '10' };
  return [known, { ...known, performerAllowed: false }].flatMap((options, i) =>
    line.lumens.map(({ ref }): Output => ({
      name: `repair ${i} ${ref}`,
      kind: 'text',
      in: orRefusal(
        () => repairJudgement(line, { ...options, lumen: ref }, by, when),
        (judgement, language) => renderRepair(judgement, line, when, language),
        when,
      ),
    })),
  );
}
