import type { Policy } from '@dwellward/policy';
import { activityRow } from '@dwellward/profiles';
import { explanationSections } from '../explain/sections.js';
import { allIssues } from '../fhir/due-bundle.js';
import type { AsOf, LineCare } from '../model/care.js';
import type { LineRecord, RecordedTime, Records, Ref } from '../model/record.js';
import { Calendar, instantMs } from '../timeline/calendar.js';
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
    ...(care.closed === undefined
      ? {}
      : { closedText: say({ code: 'closed-because', because: care.closed }) }),
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

/** What is on record of the line up to the moment. */
function ofRecord(line: LineRecord, { asOf }: AsOf, calendar: Calendar, say: Say): OfRecord {
  const nowMs = instantMs(asOf);
  const known = (time: RecordedTime | undefined): time is RecordedTime =>
    time !== undefined && calendar.earliest(time) <= nowMs;
  const text = (time: RecordedTime) => calendar.text(calendar.earliest(time));
  const done = line.events.filter(({ status, at }) => status === 'completed' && known(at));
  const last = <One>(list: readonly One[]) => list.at(-1);
  const roleAt = (role: 'begins-line' | 'ends-line') => {
    const at = last(done.filter(({ activity }) => activityRow(activity).role === role))?.at;
    return at === undefined ? undefined : text(at);
  };
  const insertedAt = roleAt('begins-line');
  const removedAt = roleAt('ends-line');
  const dressing = last(done.filter((event) => event.dressing !== undefined))?.dressing;
  const measured = last(
    line.findings.filter(
      ({ finding, at, quantity }) => finding === 'external-length' && known(at) && quantity,
    ),
  );
  const { length } = line;
  const cm = (value: string) => say({ code: 'amount', value, unit: 'cm' });
  return {
    ...(insertedAt === undefined ? {} : { insertedAt }),
    ...(removedAt === undefined ? {} : { removedAt }),
    ...(line.bodySite === undefined ? {} : { site: line.bodySite.text }),
    ...(length?.wholeCm === undefined ? {} : { lengthText: cm(length.wholeCm) }),
    lengths: line.lumens.flatMap(({ ref, primingVolume }) =>
      primingVolume?.high === undefined
        ? []
        : [{ lumen: ref, text: say({ code: 'amount', value: primingVolume.high, unit: 'mL' }) }],
    ),
    ...(dressing === undefined ? {} : { dressing: say({ code: 'dressing-is', dressing }) }),
    ...(measured?.quantity?.high === undefined ? {} : { externalLength: cm(measured.quantity.high) }),
    events: eventsOf(line, known, text, say),
    neutrophils: line.patient.measurements.flatMap(({ kind, at, value }): BoardResult[] => {
      const count = value.high ?? value.low;
      return kind === 'anc' && known(at) && count !== undefined
        ? [
            {
              at: text(at),
              value: Number(count),
              text: say({ code: 'amount', value: count, unit: value.unit }),
            },
          ]
        : [];
    }),
  };
}

function eventsOf(
  line: LineRecord,
  known: (time: RecordedTime | undefined) => time is RecordedTime,
  text: (time: RecordedTime) => string,
  say: Say,
): BoardEvent[] {
  const lumenName = (ref: Ref | undefined) => {
    const lumen = line.lumens.length > 1 ? line.lumens.find((one) => one.ref === ref) : undefined;
    return lumen ? { on: say({ code: 'short-name', of: lumen.name }) } : {};
  };
  const events = line.events.flatMap(({ ref, activity, status, at, lumen }): BoardEvent[] =>
    status === 'completed' && known(at)
      ? [
          {
            at: text(at),
            text: say({ code: 'activity', activity }),
            ...lumenName(lumen),
            kind: 'care',
            activity,
            ref,
          },
        ]
      : [],
  );
  const findings = line.findings.flatMap(({ ref, finding, status, at, lumen, values }): BoardEvent[] =>
    status !== 'entered-in-error' && known(at)
      ? [
          {
            at: text(at),
            text: say({ code: 'finding-with', finding, values }),
            ...lumenName(lumen),
            kind: 'finding',
            finding,
            ref,
          },
        ]
      : [],
  );
  const infusions = line.infusions.flatMap(({ ref, from, until, lumen, drug }): BoardEvent[] =>
    known(from)
      ? [
          {
            at: text(from),
            ...(known(until) ? { until: text(until) } : {}),
            text: drug?.text ?? say({ code: 'lumen-state', state: 'infusing' }),
            ...lumenName(lumen),
            kind: 'infusion',
            ref,
          },
        ]
      : [],
  );
  return [...events, ...findings, ...infusions].sort((a, b) => instantMs(a.at) - instantMs(b.at));
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
