import type { Heading } from '../model/sentences/pages.js';
import { Calendar } from '../timeline/calendar.js';
import type { AsOf } from '../model/care.js';
import type { LineRecord } from '../model/record.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { section } from '../words/layout.js';
import { speaker, type Say } from '../words/say.js';
import { sourceTexts } from '../words/sources.js';
import type { RepairJudgement } from './repair-judgement.js';

/**
 * A judgement of a repair for people, with its checklist.
 * @param line what the line and its lumens are called.
 * @example
 * ```ts
 * const [line] = records.lines;
 * line && renderRepair(repairJudgement(line, { lumen: line.lumens[0]!.ref }, policy, when), line, when).length > 0; // true
 * ```
 */
export function renderRepair(
  judgement: RepairJudgement,
  line: Pick<LineRecord, 'name' | 'lumens'>,
  { asOf, zone }: AsOf,
  language: Language = english,
): string {
  const say = speaker(language, new Calendar(zone));
  const { lumen, verdict } = judgement;
  const part = (heading: Heading, lines: readonly string[], numbered = false) =>
    section(say({ code: 'heading', heading }), lines, numbered);
  const damaged = verdict !== 'no-damage';
  return [
    say({
      code: 'repair-head',
      name: line.name,
      line: judgement.line,
      ...(lumen ? { lumen: lumen.name } : {}),
      patient: judgement.patient,
      at: asOf,
    }),
    '',
    say({ code: 'repair-verdict', verdict }),
    ...part('before-first-step', judgement.questions.map(say)),
    ...part('damage', damageText(judgement, say)),
    ...part(
      'preconditions',
      (damaged ? judgement.preconditions : []).map((one) => say({ code: 'precondition', ...one })),
    ),
    ...part('measures', measuresText(judgement, say)),
    ...part(verdict === 'not-possible' ? 'now' : 'checklist', judgement.steps.map(say), true),
    ...part('take', judgement.supplies.map(say)),
    ...part('mind', damaged ? judgement.cautions.map(say) : []),
    ...part(
      'repaired-before',
      judgement.earlierRepairs.map(({ ref, at, lumen: which }) => {
        const name = line.lumens.find((one) => one.ref === which)?.name;
        return say({ code: 'repaired-at', at, ...(name ? { lumen: name } : {}), ref });
      }),
    ),
    ...part('source', [...sourceTexts(judgement.sources, say), ...judgement.notes.map(say)]),
    '',
    say({ code: 'not-read' }),
    say({ code: 'advice-not-order' }),
    '',
  ].join('\n');
}

function damageText({ damage }: RepairJudgement, say: Say): string[] {
  if (!damage) return [];
  const { values: kinds, ...rest } = damage;
  return [say({ code: 'damage-on-record', kinds, ...rest })];
}

function measuresText({ measures }: RepairJudgement, say: Say): string[] {
  if (!measures) return [];
  return [
    say({ code: 'cut-at', cm: measures.cutAtCm }),
    say({ code: 'outside-afterwards', cm: measures.externalLengthAfterCm }),
    say({ code: 'air-to-withdraw', ml: measures.airToWithdrawMl }),
  ];
}
