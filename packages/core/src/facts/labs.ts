import type { QuantityRange } from '@dwellward/policy';
import { atMeasurements, type FactGroup } from './definition.js';
import { nothing, type Known, type Moment } from './moment.js';
import type { Timed } from '../timeline/timed.js';
import { compareText } from '../timeline/timeline.js';
import type { Measurement } from '../model/record.js';

/** Laboratory results. */
export const labFacts: FactGroup<'labs'> = {
  'labs.anc': { read: atMostLeucocytes, changes: atMeasurements },
  'labs.platelets': { read: (at) => counted(at, 'platelets'), changes: atMeasurements },
  'labs.inr': { read: (at) => counted(at, 'inr'), changes: atMeasurements },
};

/** The newest collection; of one collection the most trusted. */
export function latestMeasurement(
  { timeline, ms }: Pick<Moment, 'timeline' | 'ms'>,
  kind: Measurement['kind'],
): Timed<Measurement> | undefined {
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

/** A result that counts for as long as there is no newer one. */
export function fresh(result: Timed<Measurement> | undefined): Known<QuantityRange> {
  return result ? { value: result.fact.value, refs: result.fact.refs, sinceMs: result.ms } : nothing;
}

/**
 * A stale count says only that it was so low once: anything from zero up to it. So a stale low value stays low for
 * every threshold above it, and a stale normal one no longer shows that a count is not low. Of the INR it is the high
 * value that stays: a stale one is anything from what it was up.
 */
function counted(at: Moment, kind: 'anc' | 'platelets' | 'inr'): Known<QuantityRange> {
  const result = latestMeasurement(at, kind);
  if (!result) return nothing;
  const staleMs = at.timeline.calendar.add(result.ms, at.staleAfter);
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

/**
 * The neutrophil count; or, where leucocytes that were counted after it are fewer, at most as many as they: a laboratory
 * often makes no differential of the lowest counts, which are those that bring protection. More leucocytes tell of no
 * more neutrophils, so a fall holds until there is a differential, or until it is as old as a result may be. Arithmetic;
 * no source is needed.
 */
function atMostLeucocytes(at: Moment): Known<QuantityRange> {
  const known = counted(at, 'anc');
  const since = latestMeasurement(at, 'anc')?.ms ?? -Infinity;
  const fewest = fewestLeucocytes(at, since);
  if (fewest === undefined) return known;
  const { high } = fewest.fact.value;
  // A stale count is anything from zero up to what it was: there is no lowest of it to fall below.
  const { low, high: most } = known.value ?? {};
  const floor = known.remark === undefined ? (low ?? most) : most;
  if (known.value !== undefined && !(Number(high) < Number(floor ?? Infinity))) return known;
  const { highIncluded, unit } = fewest.fact.value;
  return {
    value: { low: '0', lowIncluded: true, ...(high === undefined ? {} : { high }), highIncluded, unit },
    refs: fewest.fact.refs,
    sinceMs: fewest.ms,
    remark: { code: 'neutrophils-at-most', sent: fewest.fact.asSent },
  };
}

/** Of the leucocyte counts after a moment that are not stale the lowest; where all are, the newest. */
function fewestLeucocytes(
  { timeline, ms, staleAfter }: Moment,
  sinceMs: number,
): Timed<Measurement> | undefined {
  const later = timeline.measurements.filter(
    ({ fact, ms: when }) => fact.kind === 'leucocytes' && when > sinceMs && when <= ms,
  );
  const current = later.filter((one) => ms <= timeline.calendar.add(one.ms, staleAfter));
  return current.sort((a, b) => upper(a.fact.value) - upper(b.fact.value) || b.ms - a.ms)[0] ?? later.at(-1);
}
