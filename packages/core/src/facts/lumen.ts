import { drugRow, type DrugRow } from '@dwellward/profiles';
import { atEventsAndFindings, atFindings, atUse, never, type FactGroup } from './definition.js';
import { dosesSinceOpen } from './doses.js';
import { infusionPattern, lumenUse, runningInfusions } from './lumen-use.js';
import { nothing, type Known, type Moment } from './moment.js';
import { lastFoundOpen } from '../timeline/patency.js';
import { intermittentMs } from '../timeline/implied-sets.js';

// The shortest-lived set first.
const setLifetimes = [
  'propofol',
  'blood',
  'fat-emulsion',
  'nutrition-with-fat',
  'parenteral-nutrition',
  'pressure-monitoring',
] as const;

/** What is known of the lumen that a rule is about. */
export const lumenFacts: FactGroup<'lumen'> = {
  'lumen.use': { read: lumenUse, changes: atUse },
  'lumen.infusionPattern': {
    read: infusionPattern,
    changes: (timeline, note, staleAfter) => {
      const withLapse = (ms: number | undefined) => {
        note(ms);
        // What ended longer ago no longer tells of intermittent use.
        if (ms !== undefined) note(ms + intermittentMs, ms + intermittentMs + 1);
      };
      atUse(timeline, withLapse, staleAfter);
    },
  },
  'lumen.infusate': {
    read: (at) => {
      const running = runningInfusions(at);
      const kinds = [...new Set(running.map(({ fact }) => fact.infusate))];
      const refs = running.map(({ fact }) => fact.ref);
      // Several at once: the one with the shortest-lived set decides, and one that isn't known leaves all unknown.
      const strictest = setLifetimes.find((kind) => kinds.includes(kind));
      if (strictest) return { value: strictest, refs };
      return kinds.length === 1 && kinds[0] ? { value: kinds[0], refs } : { refs };
    },
    changes: atUse,
  },
  'lumen.keepsCirculation': {
    read: (at) => drugRuns(at, ({ ifStopped }) => ifStopped !== undefined),
    changes: atUse,
  },
  'lumen.vesicantRuns': {
    read: (at) => drugRuns(at, ({ inTissue }) => inTissue === 'vesicant'),
    changes: atUse,
  },
  'lumen.primingVolume': {
    read: ({ timeline: { line }, target }) => {
      const lumen =
        line.lumens.find(({ ref }) => ref === target.ref) ??
        (line.lumens.length === 1 ? line.lumens[0] : undefined);
      return lumen?.primingVolume ? { value: lumen.primingVolume, refs: [lumen.device] } : nothing;
    },
    changes: never,
  },
  'lumen.foundOpen': {
    read: ({ timeline, target, ms }) => {
      if (target.scope !== 'lumen') return nothing;
      const open = lastFoundOpen(timeline, target, ms);
      if (!open) return nothing;
      return {
        value: { lowMs: open.ms, highMs: open.latestMs },
        refs: [open.fact.ref],
        sinceMs: open.ms,
      };
    },
    changes: atFindings,
  },
  'lumen.dosesGiven': {
    read: ({ timeline, target, ms }) => {
      if (target.scope !== 'lumen') return nothing;
      const doses = dosesSinceOpen(timeline, target, ms);
      const last = doses.at(-1);
      return {
        value: doses.length,
        refs: doses.map(({ fact }) => fact.ref),
        ...(last ? { sinceMs: last.ms } : {}),
      };
    },
    changes: atEventsAndFindings,
  },
};

/** Whether a drug of which the table says so runs; not known where what runs, or whether anything does, is not. */
function drugRuns(at: Moment, says: (row: DrugRow) => boolean): Known<boolean> {
  const running = runningInfusions(at);
  const refs = running.map(({ fact }) => fact.ref);
  const such = running.filter(({ fact }) => fact.drug?.codes.some((code) => says(drugRow(code))));
  if (such.length > 0) return { value: true, refs: such.map(({ fact }) => fact.ref) };
  if (running.some(({ fact }) => !fact.drug?.known)) return { refs };
  const use = lumenUse(at);
  if (running.length === 0 && (use.value === undefined || use.value === 'infusing'))
    return { refs: use.refs };
  return { value: false, refs: refs.length > 0 ? refs : use.refs };
}
