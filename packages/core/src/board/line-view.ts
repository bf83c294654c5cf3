import type { Policy } from '@dwellward/policy';
import { explanationSections } from '../explain/sections.js';
import { allIssues } from '../fhir/due-bundle.js';
import type { AsOf, LineCare } from '../model/care.js';
import type { LineRecord, Records, Ref } from '../model/record.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
import { timelineOf, type Timeline } from '../timeline/timeline.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { speaker, type Say } from '../words/say.js';
import { laneOf } from './lane.js';
import type { BoardEvent, BoardResult, BoardWhy, LineView } from './model.js';

/**
 * One line, whole, in words: what it is like, what happened to it since it is in, and of everything that is due why.
 * Times that the record knows by their day alone stand at its start.
 * @param care the care of the line at `when`.
 * @example
 * ```ts
 * lineView(records, cares[0]!, policy, when).whys.length === cares[0]!.items.length; // true
 * ```
 */
export function lineView(
  records: Records,
  care: LineCare,
  policy: Policy,
  when: AsOf,
  language: Language = english,
): LineView {
  const calendar = new Calendar(when.zone);
  const say = speaker(language, calendar);
  const line = records.lines.find(({ ref }) => ref === care.line);
  const patient = line?.patient;
  const issues = allIssues({ ...records, issues: records.issues.filter((one) => one.line === care.line) }, [
    care,
  ]);
  return {
    at: calendar.text(instantMs(when.asOf)),
    zone: when.zone,
    patient: {
      ref: care.patient,
      name: patient?.name ?? say({ code: 'name-not-known' }),
      ...(patient?.unit === undefined ? {} : { unit: patient.unit }),
      ...(patient?.bed === undefined ? {} : { bed: patient.bed }),
    },
    inPlace: care.inPlace,
    line: laneOf({ care, line, when, say }),
    ...(line ? ofRecord(line, when, calendar, say) : { lengths: [], events: [], neutrophils: [] }),
    neutrophilLimits: limitsIn(policy),
    whys: care.items.map((item): BoardWhy => {
      const why = explanationSections(item, policy, care.lumens, say, false);
      return {
        id: item.id,
        head: [why.item, ...why.questions, why.window, why.rule, ...why.ofRule, why.countedFrom],
        sections: why.sections.map(({ heading, lines }) => ({
          heading: say({ code: 'heading', heading }),
          lines,
        })),
      };
    }),
    issues: issues
      .filter(({ code }) => code !== 'unanswered-finding')
      .map(({ resource, path, sentence }) =>
        say({ code: 'wrong-in-record', resource, path, issue: sentence }),
      ),
  };
}

type OfRecord = Pick<
  LineView,
  | 'insertedAt'
  | 'removedAt'
  | 'site'
  | 'lengthText'
  | 'lengths'
  | 'dressing'
  | 'externalLength'
  | 'events'
  | 'neutrophils'
>;

/**
 * What is on record of the line up to the moment, as the engine itself places it in time: a record keeps its events in the
 * order of its resources, and the same act may be on record twice.
 */
function ofRecord(line: LineRecord, { asOf }: AsOf, calendar: Calendar, say: Say): OfRecord {
  const timeline = timelineOf(line, calendar, instantMs(asOf));
  const { events, findings, measurements, insertion, removals } = timeline;
  const text = ({ ms }: { readonly ms: number }) => calendar.text(ms);
  const removed = removals.at(-1);
  const dressing = events.findLast(({ fact }) => fact.dressing !== undefined)?.fact.dressing;
  const measured = findings.findLast(
    ({ fact: { finding, quantity } }) => finding === 'external-length' && quantity !== undefined,
  )?.fact.quantity;
  const { wholeCm } = timeline.line.length ?? {};
  return {
    ...(insertion ? { insertedAt: text(insertion) } : {}),
    ...(removed ? { removedAt: text(removed) } : {}),
    ...(line.bodySite === undefined ? {} : { site: line.bodySite.text }),
    ...(wholeCm === undefined ? {} : { lengthText: say({ code: 'amount', value: wholeCm, unit: 'cm' }) }),
    lengths: line.lumens.flatMap(({ ref, primingVolume }) =>
      primingVolume === undefined ? [] : [{ lumen: ref, text: say({ code: 'range', value: primingVolume }) }],
    ),
    ...(dressing === undefined ? {} : { dressing: say({ code: 'dressing-is', dressing }) }),
    ...(measured === undefined ? {} : { externalLength: say({ code: 'range', value: measured }) }),
    events: eventsOf(timeline, say),
    neutrophils: measurements.flatMap(({ fact: { kind, value }, ms }): BoardResult[] => {
      const count = value.high ?? value.low;
      return kind === 'anc' && count !== undefined
        ? [{ at: calendar.text(ms), value: Number(count), text: say({ code: 'range', value }) }]
        : [];
    }),
  };
}

function eventsOf({ line, calendar, asOfMs, events, findings, infusions }: Timeline, say: Say): BoardEvent[] {
  const lumenName = (ref: Ref | undefined) => {
    const lumen = line.lumens.length > 1 ? line.lumens.find((one) => one.ref === ref) : undefined;
    return lumen ? { on: say({ code: 'short-name', of: lumen.name }) } : {};
  };
  const done = events.map(({ fact: { ref, activity, lumen }, ms }) => ({
    ms,
    text: say({ code: 'activity', activity }),
    ...lumenName(lumen),
    kind: 'care' as const,
    activity,
    ref,
  }));
  const found = findings.map(({ fact: { ref, finding, lumen, values, flag, quantity }, ms }) => ({
    ms,
    text: say({
      code: 'finding-with',
      finding,
      values,
      ...(flag === undefined ? {} : { flag }),
      ...(quantity === undefined ? {} : { quantity }),
    }),
    ...lumenName(lumen),
    kind: 'finding' as const,
    finding,
    ref,
  }));
  const ran = infusions.flatMap(({ fact: { ref, lumen, drug }, ms, untilMs }) =>
    Number.isFinite(ms)
      ? [
          {
            ms,
            ...(untilMs === undefined || untilMs > asOfMs ? {} : { until: calendar.text(untilMs) }),
            text: drug?.text ?? say({ code: 'lumen-state', state: 'infusing' }),
            ...lumenName(lumen),
            kind: 'infusion' as const,
            ref,
          },
        ]
      : [],
  );
  return [...done, ...found, ...ran]
    .sort((a, b) => a.ms - b.ms)
    .map(({ ms, ...event }) => ({ at: calendar.text(ms), ...event }));
}

/** The neutrophil counts that the policy’s rules decide by, in 10*9/L. */
function limitsIn({ rules }: Policy): number[] {
  const limits = rules.flatMap(({ applicability, start }) =>
    [applicability, start].flatMap((condition) =>
      [...(condition?.meaning ?? '').matchAll(/%labs\.anc\s*(?:<=|>=|<|>)\s*([\d.]+)\s*'10\*9\/L'/g)].map(
        ([, limit]) => Number(limit),
      ),
    ),
  );
  return [...new Set(limits)].sort((a, b) => a - b);
}
