import { externalLengthChange } from '@dwellward/calculators';
import { activityRow } from '@dwellward/profiles';
import type { QuantityRange } from '@dwellward/policy';
import type { Finding, Ref } from '../model/record.js';
import type { FactRemark } from '../model/sentences.js';
import { nothing, type Known, type Moment } from './moment.js';
import type { Timed } from '../timeline/timed.js';

/** A length outside the skin, cm as decimal text, and what tells of it. */
interface Measured {
  readonly cm: string;
  readonly ref: Ref;
  readonly ms?: number;
  readonly remark?: FactRemark;
}

const mostCm = 100;

/**
 * How far the length outside the skin has changed, in cm without a sign: the latest measurement against the length when
 * the tip was confirmed last, else at the insertion. That length is the measurement nearest before it, else what the
 * Device says of the insertion, else the first measurement after it. A repair changes the length outside by itself: it
 * is counted anew from the first measurement after it.
 *
 * Not known without a measurement or without anything to compare it with. INS 2016, 2021: measured at the insertion, at
 * every dressing change and when dislodgement is suspected; imaging of the tip before use if changed (from memory).
 */
export function externalLengthChangeAt(at: Moment): Known<QuantityRange> {
  const lengths = at.timeline.findings.filter(({ ms }) => ms <= at.ms).flatMap(measured);
  const now = lengths.at(-1);
  if (!now) return nothing;
  const then = baseline(at, lengths);
  if (!then) return { refs: [now.ref] };
  const refs = [...new Set([then.ref, now.ref])];
  if (Number(now.cm) > mostCm || Number(then.cm) > mostCm)
    return { refs, remark: { code: 'external-length-impossible', mostCm } };
  // Whose limit counts is the policy’s matter: here the size alone is asked for.
  const { value } = externalLengthChange({ atInsertionCm: then.cm, nowCm: now.cm, limitCm: '0.1' });
  return {
    value: { low: value, lowIncluded: true, high: value, highIncluded: true, unit: 'cm' },
    refs,
    sinceMs: now.ms,
    ...(then.remark ? { remark: then.remark } : {}),
  };
}

function measured({ fact, ms }: Timed<Finding>): (Measured & { readonly ms: number })[] {
  const { finding, quantity } = fact;
  if (finding !== 'external-length' || quantity?.low === undefined || quantity.low !== quantity.high)
    return [];
  return [{ cm: quantity.low, ref: fact.ref, ms }];
}

function baseline(
  { timeline, ms: nowMs }: Moment,
  all: readonly (Measured & { readonly ms: number })[],
): Measured | undefined {
  const { events, line } = timeline;
  const done = events.filter(({ ms }) => ms <= nowMs);
  const repairedMs = done.filter(({ fact }) => fact.activity === 'repair').at(-1)?.ms ?? -Infinity;
  const starts = done.filter(
    ({ fact, ms }) => activityRow(fact.activity).setsExternalLength && ms >= repairedMs,
  );
  const startMs = starts.at(-1)?.ms ?? repairedMs;
  const lengths = all.filter(({ ms }) => ms >= repairedMs);
  const before = lengths.filter(({ ms }) => ms <= startMs).at(-1);
  if (before) return before;
  const confirmed = starts.filter(({ fact }) => fact.activity === 'tip-confirmation').length;
  const externalCm = line.length?.externalCm;
  if (externalCm !== undefined && repairedMs === -Infinity && confirmed <= 1)
    return { cm: externalCm, ref: line.ref };
  const [after] = lengths;
  return (
    after && {
      ...after,
      remark: { code: 'first-length-since-stands-for-it' },
    }
  );
}
