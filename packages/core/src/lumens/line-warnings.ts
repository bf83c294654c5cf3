import { drugRow, tipInSmallVein } from '@dwellward/profiles';
import type { Hold, LineCare, LumenState } from '../model/care.js';
import type { RecordIssue } from '../model/record.js';
import type { Timeline } from '../timeline/timeline.js';
import { heparinOfDay } from '../facts/heparin-of-day.js';
import { holdsUse } from './lumen-states.js';
import { aboutWhatRuns, stopBy, whatRuns, type Running } from './stopping.js';
import { runsAgainstHold } from './use-against-holds.js';

/** What stands on top of a line, and what of it is an issue of the record too. */
export interface LineWarnings {
  readonly warnings: LineCare['warnings'];
  readonly issues: readonly RecordIssue[];
}

/**
 * What has to be known before anything is done to a line: what runs against a hold, what harms tissue in a small vein,
 * what runs while it is still asked for where the tip lies, heparin above the limit of a small infant.
 * @param tipIsAskedFor whether an item that confirms the tip is open.
 */
export function lineWarnings(
  timeline: Timeline,
  lumens: readonly LumenState[],
  holds: readonly Hold[],
  tipIsAskedFor: boolean,
): LineWarnings {
  const heparin = heparinOfDay(timeline);
  // What is within its limit, or has none, stands with the lock.
  const tooMuch = heparin?.limitCheck === 'above' ? [{ code: 'heparin-of-day', ...heparin } as const] : [];
  const running = whatRuns(timeline);
  if (running.length === 0) return { warnings: tooMuch, issues: [] };
  const against = lumens.filter((state) => runsAgainstHold(state));
  const held = running.filter(({ ref }) => against.some(({ lumen }) => lumen === ref));
  const rules = against.flatMap((state) => holdsUse(timeline, state.lumen, holds)).map(({ rule }) => rule);
  const vesicants = vesicantsIn(timeline, running);
  const unconfirmed = tipIsAskedFor ? running.filter((one) => !held.includes(one)) : [];
  const small = vesicants.map((one) => smallVein([one]));
  const tip = { code: 'runs-before-tip-is-confirmed', running: plain(unconfirmed) } as const;
  const issue = (
    code: 'drug-not-for-line' | 'tip-not-confirmed',
    sentence: RecordIssue['sentence'],
    { of }: Running,
  ): RecordIssue => ({
    code,
    severity: 'high',
    resource: of,
    path: of.startsWith('Procedure/') ? 'Procedure.performed' : 'MedicationAdministration.device',
    sentence,
    patient: timeline.line.patient.ref,
    line: timeline.line.ref,
    related: [],
  });
  return {
    warnings: [
      ...tooMuch,
      ...(against.length > 0
        ? [
            {
              code: 'warning-against-hold',
              lumens: against.map(({ name }) => name),
              rest: aboutWhatRuns(held, stopBy(rules)),
            } as const,
          ]
        : []),
      ...small,
      ...(unconfirmed.length > 0 ? [tip] : []),
    ],
    issues: [
      ...vesicants.map((one) => issue('drug-not-for-line', smallVein([one]), one)),
      ...unconfirmed.map((one) =>
        issue('tip-not-confirmed', { code: 'runs-before-tip-is-confirmed', running: plain([one]) }, one),
      ),
    ],
  };
}

function vesicantsIn({ line }: Timeline, running: readonly Running[]): Running[] {
  if (line.type === undefined || !tipInSmallVein.has(line.type)) return [];
  return running.filter(({ drug }) =>
    [...(drug?.codes ?? []), ...(drug?.mayBe ?? [])].some((code) => drugRow(code).inTissue === 'vesicant'),
  );
}

function smallVein(running: readonly Running[]) {
  const sources = running.flatMap(({ drug }) =>
    [...(drug?.codes ?? []), ...(drug?.mayBe ?? [])]
      .filter((code) => drugRow(code).inTissue === 'vesicant')
      // What says that it is a vesicant stands last.
      .flatMap((code) => drugRow(code).sources.slice(1)),
  );
  const once = [...new Map(sources.map((source) => [source.text, source])).values()];
  return { code: 'vesicant-in-small-vein', running: plain(running), sources: once } as const;
}

function plain(running: readonly Running[]) {
  return aboutWhatRuns(running, 'or-say-why').running;
}
