import { findingRow, findingsWhere, type LineCareActivity } from '@dwellward/profiles';
import type { CareEvent, Finding, LineRecord, Ref } from '../model/record.js';
import { shows } from './shows.js';
import type { Timed } from './timed.js';

/** A damage that was found, and when it was answered. */
export interface Damage {
  readonly found: Timed<Finding>;
  /** The damaged lumen; absent where it is on record of the line as a whole, or the line has no other lumen. */
  readonly lumen?: Ref;
  /** Infinity while it stands. */
  readonly endMs: number;
}

/** A repair that left damage standing because what it names does not fit. */
export interface UnclearRepair {
  readonly repair: Timed<CareEvent>;
  readonly left: readonly Damage[];
}

/** What the record tells of damage and its repair. */
export interface DamageReading {
  /** The same events; a repair that names no lumen is read as one of the only lumen that was damaged then. */
  readonly events: readonly Timed<CareEvent>[];
  readonly damages: readonly Damage[];
  readonly unclearRepairs: readonly UnclearRepair[];
}

/**
 * Whether a repair, or a look that finds no damage, answers a damage. One that names a lumen answers the damage of that
 * lumen. One of the line as a whole answers the damage of the line as a whole, and that of a lumen only where no other
 * damage stood: else which it was of is not known.
 *
 * Source: common practice, no source, for the repair; that the damaged part is what is clamped: home sheet (seen).
 *
 * @param standing every damage that stood at that time, this one among them.
 */
export function answersDamage(
  act: { readonly lumen?: Ref | undefined },
  damage: { readonly lumen?: Ref | undefined },
  standing: readonly { readonly lumen?: Ref | undefined }[],
): boolean {
  if (damage.lumen === undefined || act.lumen !== undefined) return act.lumen === damage.lumen;
  return standing.every(({ lumen }) => lumen === damage.lumen);
}

interface Open {
  readonly found: Timed<Finding>;
  readonly lumen?: Ref;
  /** Lumens that were not repaired since, of a damage of the line as a whole: with the last of them it is answered. */
  readonly left: Set<Ref>;
  endMs: number;
}

/**
 * Reads every damage with its end. A damage of the line as a whole stands until the line was repaired, or each of its
 * lumens was: a repair of one lumen does not free the others. Damage that is known by its day is not answered by what
 * was done on that day, and a look at the same moment answers nothing.
 */
export function readDamage(
  line: LineRecord,
  events: readonly Timed<CareEvent>[],
  findings: readonly Timed<Finding>[],
): DamageReading {
  // What each of the findings that an act puts right tells is read by itself.
  return findingsWhere(({ answeredBy }) => answeredBy).reduce<DamageReading>(
    (read, finding) => {
      const { answeredBy } = findingRow(finding);
      const looks = findings.filter(({ fact }) => fact.finding === finding);
      if (looks.length === 0 || answeredBy === undefined) return read;
      const own = readOne(line, read.events, looks, answeredBy);
      return {
        events: own.events,
        damages: [...read.damages, ...own.damages],
        unclearRepairs: [...read.unclearRepairs, ...own.unclearRepairs],
      };
    },
    { events, damages: [], unclearRepairs: [] },
  );
}

function readOne(
  line: LineRecord,
  events: readonly Timed<CareEvent>[],
  looks: readonly Timed<Finding>[],
  answeredBy: LineCareActivity,
): DamageReading {
  const all: Open[] = [];
  const read = new Map<Timed<CareEvent>, Timed<CareEvent>>();
  const unclear: { readonly repair: Timed<CareEvent>; readonly left: readonly Open[] }[] = [];
  const lumenOf = ({ lumen }: { readonly lumen?: Ref }) => (line.lumens.length > 1 ? lumen : undefined);
  const repairs = events.filter(({ fact }) => fact.activity === answeredBy);
  const steps = [
    // At one moment what was found comes first: a repair charted with it is of it.
    ...looks.map((look) => ({ ms: look.ms, order: 0, look })),
    ...repairs.map((repair) => ({ ms: repair.ms, order: 1, repair })),
  ].sort((a, b) => a.ms - b.ms || a.order - b.order);
  for (const step of steps) {
    if ('look' in step && shows(step.look.fact, [])) {
      const lumen = lumenOf(step.look.fact);
      const left = new Set(lumen === undefined ? line.lumens.map(({ ref }) => ref) : []);
      all.push({ found: step.look, ...(lumen === undefined ? {} : { lumen }), left, endMs: Infinity });
      continue;
    }
    const act = 'look' in step ? step.look : step.repair;
    const lumen = lumenOf(act.fact);
    const standing = all.filter(({ endMs }) => endMs === Infinity);
    const before = standing.filter(
      ({ found }) => act.ms >= found.latestMs && ('repair' in step || act.ms > found.ms),
    );
    const answered = before.filter((damage) => {
      if (answersDamage({ lumen }, damage, standing)) return true;
      if (lumen === undefined || damage.lumen !== undefined) return false;
      damage.left.delete(lumen);
      return damage.left.size === 0;
    });
    for (const damage of answered) damage.endMs = act.ms;
    if (!('repair' in step)) continue;
    const [only] = answered;
    if (lumen === undefined && only?.lumen !== undefined)
      read.set(step.repair, { ...step.repair, fact: { ...step.repair.fact, lumen: only.lumen } });
    const left = before.filter(
      (damage) => !answered.includes(damage) && (lumen === undefined || damage.lumen === undefined),
    );
    if (left.length > 0) unclear.push({ repair: step.repair, left });
  }
  return {
    events: read.size === 0 ? events : events.map((event) => read.get(event) ?? event),
    damages: all,
    unclearRepairs: unclear
      .map(({ repair, left }) => ({ repair, left: left.filter(({ endMs }) => endMs === Infinity) }))
      .filter(({ left }) => left.length > 0),
  };
}

/** When what was found was put right by the act that answers it; undefined while it stands, or where none does. */
export function answeredMs(
  { damages }: { readonly damages: readonly Damage[] },
  found: Timed<Finding>,
): number | undefined {
  const endMs = damages.find((damage) => damage.found === found)?.endMs;
  return endMs === Infinity ? undefined : endMs;
}

/** The damages that stand at a moment: of a lumen and of the line as a whole where a lumen is named, else all. */
export function standingDamages(
  { damages }: { readonly damages: readonly Damage[] },
  ms: number,
  lumen?: Ref,
): readonly Damage[] {
  return damages.filter(
    (damage) =>
      damage.found.fact.finding === 'damage' &&
      damage.found.ms <= ms &&
      ms < damage.endMs &&
      (lumen === undefined || damage.lumen === undefined || damage.lumen === lumen),
  );
}
