import { activityRow, type SecurementType } from '@dwellward/profiles';
import { targetsOf } from '../timeline/targets.js';
import { lumenUse, runningInfusions } from './lumen-use.js';
import { putsDressingOn } from '../timeline/dressings.js';
import { atEvents, atEventsAndFindings, atUse, everyDay, never, type FactGroup } from './definition.js';
import { externalLengthChangeAt } from './external-length.js';
import { firstEvent, lastEvent, lastNeedle, nothing, type Event, type Pick } from './moment.js';

/** What is known of the line as a whole. */
export const lineFacts: FactGroup<'line'> = {
  'line.type': {
    read: ({ timeline: { line } }) =>
      line.type ? { value: line.type, refs: [line.ref] } : { refs: [line.ref] },
    changes: never,
  },
  'line.cuffed': {
    read: ({ timeline: { line } }) =>
      line.cuffed === undefined ? { refs: [line.ref] } : { value: line.cuffed, refs: [line.ref] },
    changes: never,
  },
  'line.lumenCount': {
    read: ({ timeline: { line } }) => ({ value: line.lumens.length, refs: [line.ref] }),
    changes: never,
  },
  'line.clamp': {
    read: ({ timeline: { line } }) =>
      line.clamp ? { value: line.clamp, refs: [line.ref] } : { refs: [line.ref] },
    changes: never,
  },
  'line.dwellDays': {
    read: ({ timeline, ms }) => {
      const start = timeline.insertion;
      if (!start || start.ms > ms) return nothing;
      return { value: timeline.calendar.daysBetween(start.ms, ms), refs: [start.fact.ref] };
    },
    changes: everyDay,
  },
  'line.removedDays': {
    read: ({ timeline, ms }) => {
      const removal = timeline.removals.filter((one) => one.ms <= ms).at(-1);
      const again = timeline.insertions.some(
        (one) => one.ms <= ms && removal !== undefined && one.ms > removal.ms,
      );
      if (!removal || again) return nothing;
      return { value: timeline.calendar.daysBetween(removal.ms, ms), refs: [removal.fact.ref] };
    },
    changes: everyDay,
  },
  'line.dressing': {
    read: (at) => {
      const last = lastEvent(at, putsDressingOn);
      if (!last) return nothing;
      const known = { refs: [last.fact.ref], sinceMs: last.ms };
      return last.fact.dressing
        ? { ...known, value: last.fact.dressing }
        : { ...known, remark: { code: 'dressing-not-said' } };
    },
    changes: atEvents,
  },
  'line.accessed': {
    read: (at) => {
      const { line } = at.timeline;
      if (line.type === undefined) return { refs: [line.ref] };
      if (line.type !== 'implanted-port') return { value: true, refs: [line.ref] };
      const last = lastNeedle(at);
      return last
        ? { value: last.fact.activity === 'access-needle-change', refs: [last.fact.ref], sinceMs: last.ms }
        : nothing;
    },
    changes: atEvents,
  },
  'line.used': {
    read: (at) => {
      const { insertion, infusions } = at.timeline;
      const [earliest] = infusions;
      const infusion = earliest !== undefined && earliest.ms <= at.ms ? earliest : undefined;
      const drawn = firstEvent(at, putsToUse);
      const [first] = [infusion, drawn].filter((one) => one !== undefined).sort((a, b) => a.ms - b.ms);
      if (first) {
        const since = Number.isFinite(first.ms) ? { sinceMs: first.ms } : {};
        return { value: true, refs: [first.fact.ref], ...since };
      }
      return insertion && insertion.ms <= at.ms
        ? { value: false, refs: [insertion.fact.ref], sinceMs: insertion.ms }
        : nothing;
    },
    changes: atUse,
  },
  'line.infusing': {
    read: (at) => {
      const uses = targetsOf(at.timeline.line, 'lumen').map((target) => lumenUse({ ...at, target }));
      const through = runningInfusions({ ...at, target: { ...at.target, scope: 'line' } });
      const running = uses.filter(({ value }) => value === 'infusing');
      const refs = [...through.map(({ fact }) => fact.ref), ...running.flatMap((use) => use.refs)];
      if (refs.length > 0) return { value: true, refs: [...new Set(refs)] };
      const all = [...new Set(uses.flatMap((use) => use.refs))];
      return uses.every(({ value }) => value !== undefined) ? { value: false, refs: all } : { refs: all };
    },
    changes: atUse,
  },
  'line.securement': {
    read: (at) => {
      const last = lastEvent(at, isHolding);
      const value = holding(last?.fact.securement);
      return last && value ? { value, refs: [last.fact.ref], sinceMs: last.ms } : nothing;
    },
    changes: atEvents,
  },
  'line.sutured': {
    read: (at) => {
      const last = lastEvent(at, tellsOfSutures);
      if (!last) return nothing;
      const value =
        last.fact.activity !== 'suture-removal' && last.fact.securement?.includes('sutures') === true;
      return { value, refs: [last.fact.ref], sinceMs: last.ms };
    },
    changes: atEvents,
  },
  'line.externalLengthChange': { read: externalLengthChangeAt, changes: atEventsAndFindings },
};

// A port that somebody put a needle in was put to use.
const putsToUse: Pick = ({ activity }) => activityRow(activity).putsToUse === true;

const isHolding: Pick = ({ securement }) => holding(securement) !== undefined;

const tellsOfSutures: Pick = ({ activity, securement }) =>
  activity === 'suture-removal' ||
  securement?.includes('sutures') === true ||
  (activityRow(activity).role === 'begins-line' && securement !== undefined);

function holding(securement: Event['fact']['securement']): Exclude<SecurementType, 'sutures'> | undefined {
  return securement?.find((one) => one !== 'sutures');
}
