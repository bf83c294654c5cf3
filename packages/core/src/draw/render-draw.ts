import type { Name } from '../model/sentences.js';
import type { Heading } from '../model/sentences/pages.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { section } from '../words/layout.js';
import { speaker } from '../words/say.js';
import { policyTexts, sourceTexts } from '../words/sources.js';
import type { BloodDraw } from './model.js';

/**
 * A draw for people, step by step; what has to be known before the first of them stands above it.
 * @param line what the line is called.
 * @param zone IANA zone of the unit.
 * @example
 * ```ts
 * const wider = readPolicy([...defaultPlans(), bundledPlan('blood-sampling')]);
 * const [line] = records.lines;
 * const asked = { lumen: line!.lumens[1]!.ref, tests: [{ test: 'blood-count', volumeMl: '3' } as const] };
 * const draw = wider.ok ? bloodDraw(line!, asked, wider.policy, when) : undefined;
 * draw && renderDraw(draw, line!.name, when.zone).length > 0; // true
 * ```
 */
export function renderDraw(draw: BloodDraw, line: Name, zone: string, language: Language = english): string {
  const say = speaker(language, new Calendar(zone));
  const { loss, warnings } = draw;
  const part = (heading: Heading, lines: readonly string[], numbered = false) =>
    section(say({ code: 'heading', heading }), lines, numbered);
  // In the first line: who reads the steps in order must not learn it after the tubes are full.
  const above = loss.within === false ? warnings[0] : undefined;
  const others = above === undefined ? warnings : warnings.slice(1);
  const { last24HoursMl, last30DaysMl, last8WeeksMl, thisDrawMl, leastMl, safeTodayMl, within } = loss;
  return [
    ...(above === undefined ? [] : [say(above), '']),
    say({
      code: 'draw-head',
      name: line,
      line: draw.line,
      lumen: draw.lumen.name,
      patient: draw.patient,
      at: draw.at,
    }),
    ...part('before-first-step', [...draw.questions, ...others].map(say)),
    ...part(
      'not-now',
      draw.holds.map(({ rule: { title }, until }) =>
        say({ code: 'hold-by-title', title, ...(until === undefined ? {} : { until }) }),
      ),
    ),
    ...part('ask-first', draw.ask.map(say), true),
    ...part('steps', draw.steps.map(say), true),
    ...part('take', draw.supplies.map(say)),
    ...part('mind', draw.cautions.map(say)),
    ...part('blood-loss', [
      say({
        code: 'this-draw-takes',
        ...(thisDrawMl === undefined ? {} : { ml: thisDrawMl }),
        ...(leastMl === undefined ? {} : { leastMl }),
      }),
      say({ code: 'lost-before', last24HoursMl, last30DaysMl, last8WeeksMl }),
      ...(safeTodayMl === undefined
        ? []
        : [
            say({
              code: 'may-still-be-drawn',
              ml: safeTodayMl,
              ...(within === undefined ? {} : { within }),
            }),
          ]),
      ...loss.remarks.map(say),
    ]),
    ...part('source', [...sourceTexts(draw.sources, say), ...policyTexts(draw.notes, say)]),
    '',
    say({ code: 'not-read' }),
    say({ code: 'advice-not-order' }),
    '',
  ].join('\n');
}
