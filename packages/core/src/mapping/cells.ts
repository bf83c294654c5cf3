import { Temporal } from 'temporal-polyfill';
import {
  activityRow,
  chartedItems,
  codeSystem,
  findingRow,
  type ChartedItem,
  type LineCareActivity,
  type LineFinding,
  type LineType,
} from '@dwellward/profiles';
import type { CodeMaps, MapTarget, Product } from './code-maps.js';
import { answerOf, meaningOf } from './concepts.js';
import { isObject, objectsOf, referenceOf, textOf, type Json } from './json.js';

/** What one cell of a chart says: the value of an Observation, or of one of its components. */
export type Said =
  | { readonly kind: 'act'; readonly activity: LineCareActivity }
  | { readonly kind: 'finding'; readonly finding: LineFinding }
  | { readonly kind: ReturnType<typeof tellsOf> };

export interface Cell {
  /** The Observation, or the component with what the Observation says of all of it. */
  readonly value: Json;
  /** Which component it is; absent of the Observation itself. */
  readonly component?: number;
  readonly target: MapTarget;
  readonly said: Said;
  readonly text?: string;
  /** Of an act: the element that holds its time. */
  readonly time: Json;
  /** Of an act: that the cell says no, or says nothing that could be read as yes. */
  readonly answer: 'yes' | 'no' | 'unclear';
}

function tellsOf(item: ChartedItem) {
  return chartedItems[item].tells;
}

/** The cells of an Observation that the maps read as rows of a chart; none where they do not. */
export function cellsOf(observation: Json, maps: CodeMaps): readonly Cell[] {
  const whole = cellOf(observation, observation, undefined, maps);
  const parts = objectsOf(observation['component']).flatMap(
    (component, i) => cellOf(component, { ...timesOf(observation), ...component }, i, maps) ?? [],
  );
  return [...(whole ? [whole] : []), ...parts];
}

function cellOf(cell: Json, value: Json, component: number | undefined, maps: CodeMaps): Cell | undefined {
  const { code } = cell;
  const meaning = isObject(code) ? meaningOf(code, 'charted', cell, maps) : undefined;
  const target = meaning?.targets.find(({ system }) => saidBySystem.has(system));
  const said = target && saidOf(target);
  if (target === undefined || said === undefined) return undefined;
  const byValue = product(target, 'Procedure.performed') === 'Observation.value';
  return {
    value,
    ...(component === undefined ? {} : { component }),
    target,
    said,
    ...(meaning?.text === undefined ? {} : { text: meaning.text }),
    time: byValue ? valueTime(cell) : timesOf(value),
    answer: byValue ? 'yes' : answer(cell, target),
  };
}

const saidBySystem: ReadonlySet<string> = new Set([
  codeSystem.lineCareActivity,
  codeSystem.lineFinding,
  codeSystem.chartedItem,
  codeSystem.lineType,
]);

function saidOf({ system, code }: MapTarget): Said | undefined {
  if (system === codeSystem.lineCareActivity) return { kind: 'act', activity: code as LineCareActivity };
  if (system === codeSystem.lineFinding) {
    const finding = code as LineFinding;
    return findingRow(finding).ofPatient ? undefined : { kind: 'finding', finding };
  }
  if (system === codeSystem.lineType) return { kind: 'line' };
  return { kind: tellsOf(code as ChartedItem) };
}

/** Whether the act was done: the map asks for a value that is there, or the cell says yes or no. */
function answer(cell: Json, { conditions }: MapTarget): Cell['answer'] {
  if (conditions.some(({ property }) => property === 'Observation.value')) return 'yes';
  return answerOf(cell) ?? 'unclear';
}

function timesOf({ effectiveDateTime, effectiveInstant, effectivePeriod }: Json): Json {
  return {
    ...(effectiveDateTime === undefined ? {} : { effectiveDateTime }),
    ...(effectiveInstant === undefined ? {} : { effectiveInstant }),
    ...(effectivePeriod === undefined ? {} : { effectivePeriod }),
  };
}

// A time that was charted as a text, as FHIR writes it.
const timeText = /^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2}))?$/;

function valueTime({ valueDateTime, valuePeriod, valueString }: Json): Json {
  const text = textOf(valueString);
  if (valueDateTime !== undefined) return { effectiveDateTime: valueDateTime };
  if (valuePeriod !== undefined) return { effectivePeriod: valuePeriod };
  return text !== undefined && timeText.test(text) ? { effectiveDateTime: text } : {};
}

/** What a target says beside its code. */
export function product(target: MapTarget, property: Product['property']): string | undefined {
  return target.products.find((one) => one.property === property)?.value;
}

/** The type of line that a row is of: named by its map, or the target itself. */
export function lineTypeOfTarget(target: MapTarget): LineType | undefined {
  const type = target.system === codeSystem.lineType ? target.code : product(target, 'Device.type');
  return type === 'lumen' ? undefined : (type as LineType | undefined);
}

/** The time of a cell as milliseconds, to tell which came first; undefined where there is none. */
export function momentOf({ effectiveDateTime, effectiveInstant, effectivePeriod }: Json): number | undefined {
  const { end, start } = isObject(effectivePeriod) ? effectivePeriod : {};
  const text = [effectiveDateTime, effectiveInstant, end, start].flatMap((one) => textOf(one) ?? [])[0];
  if (text === undefined || !timeText.test(text)) return undefined;
  try {
    // A day counts from its start; in which zone does not matter between days.
    return Temporal.Instant.from(text.includes('T') ? text : `${text}T00:00Z`).epochMilliseconds;
  } catch {
    return undefined;
  }
}

/** Whether an act puts a dressing on, so that a later row can tell which. */
export function putsDressingOn(activity: LineCareActivity): boolean {
  return activityRow(activity).putsDressingOn !== undefined;
}

/** Whether a row names by itself what it is of. */
export function hasFocus(observation: Json): boolean {
  return objectsOf(observation['focus']).some((one) => referenceOf(one) !== undefined);
}
