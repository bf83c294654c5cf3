import { CalculatorError, laboratoryPlausibility, weightPlausibility } from '@dwellward/calculators';
import { Temporal } from 'temporal-polyfill';
import { dayNumber, plainDayOf } from '../model/civil.js';
import type { IssueList } from './issues.js';
import type { Measurement, RecordedTime, Ref } from '../model/record.js';
import type { Collections } from './collections.js';
import { compareTimes } from './times.js';

const laboratory = { anc: 'neutrophils', platelets: 'platelets', inr: 'inr' } as const;

/** What may be believed of a value: in the unit of its kind, as decimal text. */
interface Judged {
  readonly verdict: 'plausible' | 'questionable' | 'implausible';
  readonly lowest: string;
  readonly highest: string;
  readonly ageDays?: number;
}

/**
 * A count or an INR as far as it may be believed: one that no patient has is read as not known, and an older one does not
 * take its place; an unusual one is used, with a question. A neutrophil count needs its leucocytes beside it where it is
 * very high, and can’t be more than they are.
 */
export function believedCount(
  one: Measurement,
  results: Collections,
  patient: Ref,
  issues: IssueList,
): Measurement {
  if (one.kind === 'weight' || one.kind === 'leucocytes') return one;
  const of = laboratory[one.kind];
  const own = results.firstOf(one.refs);
  const together = own && results.with(own).find(({ analyte }) => analyte === 'leucocytes')?.range;
  // Of “below 0.5” leucocytes there may be as many as that.
  const leucocytes = together?.high ?? together?.low;
  return believed(one, patient, issues, (amount) => {
    const beside = one.kind === 'anc' && leucocytes !== undefined ? { leucocytes } : {};
    const key = `${of} ${amount} ${beside.leucocytes ?? ''}`;
    const known = verdicts.get(key);
    if (known !== undefined) return known;
    const { value, lowest, highest } = laboratoryPlausibility({ of, amount, ...beside });
    const verdict = { verdict: value, lowest, highest };
    if (verdicts.size >= mostVerdicts) verdicts.clear();
    verdicts.set(key, verdict);
    return verdict;
  });
}

// Counts are of few digits and come again and again; what laboratories send must not make it grow without end.
const verdicts = new Map<string, Judged>();
const mostVerdicts = 2_000;

/** A weight is compared with one that is at most so many days older (common practice, no source). */
const lastWeightDays = 30;

/**
 * The weights of a patient as far as they may be believed at the age at which each was taken, and beside the one before
 * it: where one is less than half, or more than twice as much, pounds and kilograms may be mixed up in either of the two,
 * and until they are weighed again the weight is anything between them.
 */
export function believedWeights(
  measurements: readonly Measurement[],
  birthDate: RecordedTime | undefined,
  patient: Ref,
  issues: IssueList,
): Measurement[] {
  const inOrder = measurements
    .filter(({ kind }) => kind === 'weight')
    .sort((a, b) => compareTimes(a.at, b.at));
  const read = new Map<Measurement, Measurement>();
  let last: Measurement | undefined;
  for (const one of inOrder) {
    const ageDays = ageAt(one.at, birthDate);
    const alone = believed(one, patient, issues, (weightKg) => {
      const age = ageDays === undefined ? {} : { ageDays };
      const { value, lowestKg, highestKg } = weightPlausibility({ weightKg, ...age });
      return { verdict: value, lowest: lowestKg, highest: highestKg, ...age };
    });
    read.set(one, last === undefined ? alone : besideLast(alone, last, patient, issues));
    if (alone.value.low !== undefined && alone.value.low === alone.value.high) last = alone;
  }
  return measurements.map((one) => read.get(one) ?? one);
}

/** Of two weights that can’t both be right anything between them. */
function besideLast(one: Measurement, last: Measurement, patient: Ref, issues: IssueList): Measurement {
  const { low: now, high } = one.value;
  const before = last.value.low;
  const days = daysBetween(last.at, one.at);
  if (now === undefined || now !== high || before === undefined) return one;
  if (days === undefined || days > lastWeightDays) return one;
  if (!hasJumped(now, before)) return one;
  issues.add(
    'implausible-value',
    one.refs[0] ?? patient,
    'Observation.value',
    { code: 'weight-jumped', sent: one.asSent, before: last.asSent, beforeAt: last.at },
    { patient, severity: 'high', related: [...one.refs.slice(1), ...last.refs] },
  );
  const [lower, higher] = Number(now) < Number(before) ? [now, before] : [before, now];
  return { ...one, value: { ...one.value, low: lower, lowIncluded: true, high: higher, highIncluded: true } };
}

function hasJumped(weightKg: string, lastWeightKg: string): boolean {
  try {
    return weightPlausibility({ weightKg, lastWeightKg }).jumped === true;
  } catch (error) {
    // A weight beyond what the calculator takes at all is said to be so by itself.
    if (!(error instanceof CalculatorError)) throw error;
    return false;
  }
}

function believed(
  one: Measurement,
  patient: Ref,
  issues: IssueList,
  judge: (amount: string) => Judged,
): Measurement {
  const { low, high, unit } = one.value;
  // Of “above 8” only the low end is known, of “below 0.6” only the high one: each can be out on its own side.
  const amount = low !== undefined && Number(low) > 0 ? low : high;
  if (amount === undefined) return one;
  const found = attempted(amount, judge);
  if (found.verdict === 'plausible') return one;
  const { verdict, lowest, highest, ageDays } = found;
  const implausible = verdict === 'implausible';
  issues.add(
    'implausible-value',
    one.refs[0] ?? patient,
    'Observation.value',
    {
      code: implausible ? 'value-not-believed' : 'value-to-be-asked-about',
      sent: one.asSent,
      lowest,
      highest,
      unit,
      ...(ageDays === undefined ? {} : { ageDays }),
    },
    { patient, severity: implausible ? 'high' : 'moderate', related: one.refs.slice(1) },
  );
  return implausible ? { ...one, value: { unit, lowIncluded: false, highIncluded: false } } : one;
}

/** A value beyond what the calculator takes at all is one beyond its limits. */
function attempted(amount: string, judge: (amount: string) => Judged): Judged {
  try {
    return judge(amount);
  } catch (error) {
    if (!(error instanceof CalculatorError)) throw error;
    return { ...judge('1'), verdict: 'implausible' };
  }
}

function ageAt(at: RecordedTime, birthDate: RecordedTime | undefined): number | undefined {
  const days = birthDate && daysBetween(birthDate, at);
  return days === undefined || days < 0 ? undefined : days;
}

/** Undefined where either is less precise than a day. */
function daysBetween(from: RecordedTime, to: RecordedTime): number | undefined {
  const [first, second] = [dayOf(from), dayOf(to)];
  if (first === undefined || second === undefined) return undefined;
  const [from1970, to1970] = [plainDayOf(first), plainDayOf(second)];
  if (from1970 && to1970) return dayNumber(to1970) - dayNumber(from1970);
  return Temporal.PlainDate.from(first).until(second, { largestUnit: 'days' }).days;
}

function dayOf({ precision, text }: RecordedTime): string | undefined {
  return precision === 'day' || precision === 'instant' ? text.slice(0, 10) : undefined;
}
