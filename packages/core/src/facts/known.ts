import type { FactName, Facts, QuantityRange, Span } from '@dwellward/policy';
import { externalLengthChangeAt } from './external-length.js';
import { intermittentMs } from '../timeline/implied-sets.js';
import { dosesSinceOpen, lookAfterDose } from './doses.js';
import { infusionPattern, lumenUse, runningInfusions } from './lumen-use.js';
import { signDwellDays } from './site-signs.js';
import { lastEvent, lastNeedle, nothing, type Event, type Known, type Moment } from './moment.js';
import type { Timed } from '../timeline/timed.js';
import { compareText, type Timeline } from '../timeline/timeline.js';
import type { LineFinding, SecurementType } from '@dwellward/profiles';
import type { Measurement } from '../model/record.js';

export type { Known, Moment } from './moment.js';

type Values = {
  [Name in FactName]: Name extends `${infer Group}.${infer Key}`
    ? Group extends keyof Facts
      ? Key extends keyof Facts[Group]
        ? NonNullable<Facts[Group][Key]>
        : never
      : never
    : never;
};
// The shortest-lived set first.
const setLifetimes = [
  'propofol',
  'blood',
  'fat-emulsion',
  'parenteral-nutrition',
  'pressure-monitoring',
] as const;

type Readers = { readonly [Name in FactName]: (at: Moment) => Known<Values[Name]> };

/** How each fact is read from the record. A fact that is not known has no value. */
const readers: Readers = {
  'line.type': ({ timeline: { line } }) =>
    line.type ? { value: line.type, refs: [line.ref] } : { refs: [line.ref] },
  'line.cuffed': ({ timeline: { line } }) =>
    line.cuffed === undefined ? { refs: [line.ref] } : { value: line.cuffed, refs: [line.ref] },
  'line.lumenCount': ({ timeline: { line } }) => ({ value: line.lumens.length, refs: [line.ref] }),
  'line.dwellDays': ({ timeline, ms }) => {
    const start = timeline.insertion;
    if (!start || start.ms > ms) return nothing;
    return { value: timeline.calendar.daysBetween(start.ms, ms), refs: [start.fact.ref] };
  },
  'line.dressing': (at) => {
    const last = lastEvent(
      at,
      (event) =>
        (event.activity === 'dressing-change' && event.site === 'exit-site') ||
        (event.activity === 'insertion' && event.dressing !== undefined),
    );
    if (!last) return nothing;
    const known = { refs: [last.fact.ref], sinceMs: last.ms };
    return last.fact.dressing
      ? { ...known, value: last.fact.dressing }
      : { ...known, remark: { code: 'dressing-not-said' } };
  },
  'line.incisionHealed': (at) => flagged(at, 'incision-healed'),
  'line.tipConfirmed': (at) => {
    const confirmed = lastEvent(at, ({ activity }) => activity === 'tip-confirmation');
    if (confirmed) return { value: true, refs: [confirmed.fact.ref], sinceMs: confirmed.ms };
    const { insertion } = at.timeline;
    // Nothing is known of a line whose insertion is not on record; of one that is, the confirmation is still to come.
    return insertion && insertion.ms <= at.ms
      ? { value: false, refs: [insertion.fact.ref], sinceMs: insertion.ms }
      : nothing;
  },
  'line.accessed': (at) => {
    const { line } = at.timeline;
    if (line.type === undefined) return { refs: [line.ref] };
    if (line.type !== 'implanted-port') return { value: true, refs: [line.ref] };
    const last = lastNeedle(at);
    return last
      ? { value: last.fact.activity === 'access-needle-change', refs: [last.fact.ref], sinceMs: last.ms }
      : nothing;
  },
  'line.used': (at) => {
    const { insertion, infusions } = at.timeline;
    const [infusion] = infusions.filter(({ ms }) => ms <= at.ms);
    const drawn = firstEvent(
      at,
      // A port that somebody put a needle in was put to use.
      ({ activity }) =>
        activity === 'infusion-start' || activity === 'blood-sampling' || activity === 'access-needle-change',
    );
    const [first] = [infusion, drawn].filter((one) => one !== undefined).sort((a, b) => a.ms - b.ms);
    if (first) {
      const since = Number.isFinite(first.ms) ? { sinceMs: first.ms } : {};
      return { value: true, refs: [first.fact.ref], ...since };
    }
    return insertion && insertion.ms <= at.ms
      ? { value: false, refs: [insertion.fact.ref], sinceMs: insertion.ms }
      : nothing;
  },
  'line.asepticInsertion': (at) => flagged(at, 'aseptic-insertion'),
  'line.securement': (at) => {
    const last = lastEvent(at, ({ securement }) => holding(securement) !== undefined);
    const value = holding(last?.fact.securement);
    return last && value ? { value, refs: [last.fact.ref], sinceMs: last.ms } : nothing;
  },
  'line.sutured': (at) => {
    const last = lastEvent(
      at,
      ({ activity, securement }) =>
        activity === 'suture-removal' ||
        securement?.includes('sutures') === true ||
        (activity === 'insertion' && securement !== undefined),
    );
    if (!last) return nothing;
    const value =
      last.fact.activity !== 'suture-removal' && last.fact.securement?.includes('sutures') === true;
    return { value, refs: [last.fact.ref], sinceMs: last.ms };
  },
  'line.clamp': ({ timeline: { line } }) =>
    line.clamp ? { value: line.clamp, refs: [line.ref] } : { refs: [line.ref] },
  'line.removedDays': ({ timeline, ms }) => {
    const removal = timeline.removals.filter((one) => one.ms <= ms).at(-1);
    const again = timeline.insertions.some(
      (one) => one.ms <= ms && removal !== undefined && one.ms > removal.ms,
    );
    if (!removal || again) return nothing;
    return { value: timeline.calendar.daysBetween(removal.ms, ms), refs: [removal.fact.ref] };
  },
  'line.externalLengthChange': (at) => externalLengthChangeAt(at),
  'line.signDwellDays': (at) => signDwellDays(at),
  'lumen.use': (at) => lumenUse(at),
  'lumen.infusionPattern': (at) => infusionPattern(at),
  'lumen.infusate': (at) => {
    const running = runningInfusions(at);
    const kinds = [...new Set(running.map(({ fact }) => fact.infusate))];
    const refs = running.map(({ fact }) => fact.ref);
    // Several at once: the one with the shortest-lived set decides, and one that isn't known leaves all unknown.
    const strictest = setLifetimes.find((kind) => kinds.includes(kind));
    if (strictest) return { value: strictest, refs };
    return kinds.length === 1 && kinds[0] ? { value: kinds[0], refs } : { refs };
  },
  'lumen.dosesGiven': ({ timeline, target, ms }) => {
    if (target.scope !== 'lumen') return nothing;
    const doses = dosesSinceOpen(timeline, target, ms);
    const last = doses.at(-1);
    return {
      value: doses.length,
      refs: doses.map(({ fact }) => fact.ref),
      ...(last ? { sinceMs: last.ms } : {}),
    };
  },
  'lumen.lookMinutesAfterDose': (at) => {
    if (at.target.scope !== 'lumen') return nothing;
    const look = lookAfterDose(at);
    return look ? { value: look.minutes, refs: look.refs, sinceMs: look.ms } : nothing;
  },
  'lumen.primingVolume': ({ timeline: { line }, target }) => {
    const lumen =
      line.lumens.find(({ ref }) => ref === target.ref) ??
      (line.lumens.length === 1 ? line.lumens[0] : undefined);
    return lumen?.primingVolume ? { value: lumen.primingVolume, refs: [lumen.device] } : nothing;
  },
  'patient.ageDays': ({ timeline, ms }) => {
    const { birthDate, ref } = timeline.line.patient;
    if (!birthDate) return nothing;
    const days = timeline.calendar.daysBetween(timeline.calendar.earliest(birthDate), ms);
    return days < 0
      ? { refs: [ref], remark: { code: 'birth-date-in-future' } }
      : { value: days, refs: [ref] };
  },
  'patient.setting': ({ timeline: { line, calendar }, ms }) => {
    const [stay] = line.patient.stays
      .map((one) => ({
        ...one,
        fromMs: one.from ? calendar.earliest(one.from) : -Infinity,
        untilMs: one.until ? calendar.latest(one.until) : Infinity,
      }))
      .filter(({ fromMs, untilMs }) => fromMs <= ms && ms < untilMs)
      // The place says more than the class of the Encounter, and the later stay more than the earlier.
      .sort(
        (a, b) =>
          Number(b.byPlace) - Number(a.byPlace) ||
          (a.fromMs === b.fromMs ? compareText(a.ref, b.ref) : b.fromMs > a.fromMs ? 1 : -1),
      );
    if (!stay) return nothing;
    const { value, ref, fromMs } = stay;
    return { value, refs: [ref], ...(Number.isFinite(fromMs) ? { sinceMs: fromMs } : {}) };
  },
  'patient.weight': (at) => fresh(latest(at, 'weight')),
  'labs.anc': (at) => counted(at, 'anc'),
  'labs.platelets': (at) => counted(at, 'platelets'),
  'labs.inr': (at) => counted(at, 'inr'),
};

/** One fact at a moment. */
export function known<Name extends FactName>(name: Name, at: Moment): Known<Values[Name]> {
  return readers[name](at) as Known<Values[Name]>;
}

/** The facts that conditions ask for, at a moment. */
export function factsAt(names: readonly FactName[], at: Moment): Facts {
  const facts: Record<string, Record<string, unknown>> = { line: {}, lumen: {}, patient: {}, labs: {} };
  for (const name of names) {
    const { value } = known(name, at);
    const [group = '', key = ''] = name.split('.');
    if (value !== undefined) (facts[group] ??= {})[key] = value;
  }
  return facts as unknown as Facts;
}

function firstEvent({ timeline, ms }: Moment, matches: (event: Event['fact']) => boolean): Event | undefined {
  return timeline.events.find((event) => event.ms <= ms && matches(event.fact));
}

/** The latest yes or no of a finding. */
function flagged({ timeline, ms }: Moment, finding: LineFinding): Known<boolean> {
  const last = timeline.findings
    .filter(({ fact, ms: when }) => fact.finding === finding && fact.flag !== undefined && when <= ms)
    .at(-1);
  return last?.fact.flag === undefined
    ? nothing
    : { value: last.fact.flag, refs: [last.fact.ref], sinceMs: last.ms };
}

function holding(securement: Event['fact']['securement']): Exclude<SecurementType, 'sutures'> | undefined {
  return securement?.find((one) => one !== 'sutures');
}

/** The newest collection; of one collection the most trusted. */
function latest({ timeline, ms }: Moment, kind: Measurement['kind']): Timed<Measurement> | undefined {
  const candidates = timeline.measurements.filter(({ fact, ms: when }) => fact.kind === kind && when <= ms);
  const newest = candidates.at(-1)?.ms;
  return candidates
    .filter((one) => one.ms === newest)
    .sort(
      (a, b) =>
        b.fact.trust - a.fact.trust ||
        (kind === 'inr' ? -1 : 1) * (upper(a.fact.value) - upper(b.fact.value)) ||
        compareText(a.fact.refs.join(), b.fact.refs.join()),
    )[0];
}

function upper(range: QuantityRange): number {
  return Number(range.high ?? Infinity);
}

function fresh(result: Timed<Measurement> | undefined): Known<QuantityRange> {
  return result ? { value: result.fact.value, refs: result.fact.refs, sinceMs: result.ms } : nothing;
}

/**
 * A stale count says only that it was so low once: anything from zero up to it. So a stale low value stays low for
 * every threshold above it, and a stale normal one no longer shows that a count is not low. Of the INR it is the high
 * value that stays: a stale one is anything from what it was up.
 */
function counted(at: Moment, kind: 'anc' | 'platelets' | 'inr'): Known<QuantityRange> {
  const result = latest(at, kind);
  if (!result) return nothing;
  const staleMs = staleAt(at, result);
  if (at.ms <= staleMs) return fresh(result);
  const { value } = result.fact;
  const remark = { code: 'result-is-stale', sent: result.fact.asSent } as const;
  const falling = { low: '0', lowIncluded: true, highIncluded: value.highIncluded, unit: value.unit };
  const rising = {
    low: value.low ?? '0',
    lowIncluded: value.lowIncluded,
    highIncluded: false,
    unit: value.unit,
  };
  const stale = value.high === undefined ? falling : { ...falling, high: value.high };
  return {
    value: kind === 'inr' ? rising : stale,
    refs: result.fact.refs,
    sinceMs: staleMs,
    remark,
  };
}

function staleAt({ timeline, staleAfter }: Moment, result: Timed<Measurement>): number {
  return timeline.calendar.add(result.ms, staleAfter);
}

/** A moment at which a fact may have changed. */
export interface Change {
  /** When the change shows. */
  readonly ms: number;
  /** When it came to be so: a result is not yet stale at its limit, but stale since then. */
  readonly sinceMs: number;
}

/** The moments at which one of the facts may have changed: newest first. */
export function changesOf(names: readonly FactName[], timeline: Timeline, staleAfter: Span): Change[] {
  const changes = new Map<number, Change>();
  const add = (sinceMs: number | undefined, ms = sinceMs) => {
    if (sinceMs === undefined || ms === undefined || !Number.isFinite(ms) || ms > timeline.asOfMs) return;
    changes.set(ms, { ms, sinceMs });
  };
  const { calendar } = timeline;
  for (const name of names) {
    if (name.startsWith('labs.') || name === 'patient.weight') {
      for (const one of timeline.measurements) {
        const staleMs = calendar.add(one.ms, staleAfter);
        add(staleMs, staleMs + 1);
        add(one.ms);
      }
    } else if (name === 'line.dwellDays' || name === 'patient.ageDays' || name === 'line.removedDays') {
      const start = timeline.insertion?.ms ?? timeline.earliest?.ms ?? Infinity;
      for (
        let ms = calendar.startOfDay(timeline.asOfMs);
        ms > start;
        ms = calendar.add(ms, { value: 1, unit: 'd' }, -1)
      )
        add(ms);
    } else if (name === 'line.incisionHealed' || name === 'line.asepticInsertion') {
      for (const one of timeline.findings) add(one.ms);
    } else if (name === 'line.externalLengthChange' || name === 'line.signDwellDays') {
      for (const one of [...timeline.findings, ...timeline.events]) add(one.ms);
    } else if (name === 'lumen.dosesGiven' || name === 'lumen.lookMinutesAfterDose') {
      for (const one of [...timeline.events, ...timeline.findings]) add(one.ms);
    } else if (name === 'patient.setting') {
      for (const { from, until } of timeline.line.patient.stays) {
        if (from) add(calendar.earliest(from));
        if (until) add(calendar.latest(until));
      }
    } else {
      const times = timeline.events.map(({ ms }) => ms);
      if (name.startsWith('lumen.') || name === 'line.used') {
        times.push(
          ...timeline.infusions.flatMap(({ ms, untilMs }) => [
            ms,
            ...(untilMs === undefined ? [] : [untilMs]),
          ]),
        );
      }
      for (const ms of times) add(ms);
      // What ended longer ago no longer tells of intermittent use.
      if (name === 'lumen.infusionPattern')
        for (const ms of times) add(ms + intermittentMs, ms + intermittentMs + 1);
    }
  }
  return [...changes.values()].sort((a, b) => b.ms - a.ms);
}
