import type { LayerName } from '../../model/sentences.js';
import type { PreviewSentences, PreviewedAs, PreviewedWindow } from '../../model/sentences/preview.js';
import type { Speech, Wordings } from '../language.js';
import { display, lowerDisplay } from './common.js';

const kinds: Readonly<Record<PreviewedAs, string>> = {
  earlier: 'earlier',
  later: 'later',
  opens: 'opens at another time',
  appears: 'appears',
  vanishes: 'vanishes',
  held: 'comes under a hold',
  released: 'is no longer held',
  reason: 'same time, another reason',
};

export const previews: Wordings<keyof PreviewSentences> = {
  'preview-head': ({ plan, items, patients, byNotKnown }) =>
    `With ${plan}: ${items} items of ${patients} patients would change, ${byNotKnown} of them by what is not known.`,
  'preview-hold': ({ kind, activity, target, until, title }, { say, instant }) =>
    `hold ${kinds[kind]}: no ${lowerDisplay('lineCareActivity', activity)} on ${say(target)}${until === undefined ? '' : ` until ${instant(until)}`} (${title})`,
  'preview-item': ({ activity, target, line, kind, shiftMs }, { say }) =>
    `${display('lineCareActivity', activity)}, ${say(target)} (${line}): ${kinds[kind]}${shiftMs === 0 ? '' : ` by ${lengthText(shiftMs)}`}`,
  'preview-window': ({ before, after }, speech) =>
    `${windowText(before, speech)} -> ${windowText(after, speech)}`,
  'preview-rule': ({ asks, title, schedule, id, layer }, { say }) =>
    `${asks ? 'by' : 'no longer asked for by'} “${title}” (${say({ code: 'schedule', schedule })}; rule ${id}, ${layerText(layer)})`,
  'preview-because': ({ how, by, notes }) =>
    `${how === 'replaced' ? 'replaced' : 'switched off'} by ${layerText(by)}: ${notes.join(' ') || 'no reason is given'}`,
  'preview-not-known': ({ facts }, { list }) =>
    `by what is not known: ${list(
      facts.map((fact) => ({ code: 'fact', fact })),
      ', ',
    )}. The protective reading is taken.`,
  'preview-rest': ({ items, patients }) =>
    `All other items stay as they are: ${items} items; of ${patients} patients nothing changes.`,
  'nothing-was-written': () =>
    'Nothing was written. Advice, not an order: local policy and the licensed clinician come first.',
};

function windowText(window: PreviewedWindow | undefined, { say, instant }: Speech): string {
  if (window === undefined) return 'not asked for';
  const { dueBy, state } = window;
  return `due by ${instant(dueBy)}${state === undefined ? '' : `, ${say({ code: 'due-state', state })}`}`;
}

function layerText({ title, version }: LayerName): string {
  return version === '' ? title : `${title}, version ${version}`;
}

/** `2 d 6 h`, `45 min`: a length of time by the clock, down to the minute. */
function lengthText(ms: number): string {
  const minutes = Math.round(Math.abs(ms) / 60_000);
  const parts = [
    [Math.floor(minutes / 1440), 'd'],
    [Math.floor((minutes % 1440) / 60), 'h'],
    [minutes % 60, 'min'],
  ] as const;
  return parts
    .filter(([value]) => value > 0)
    .map(([value, unit]) => `${value} ${unit}`)
    .join(' ');
}
