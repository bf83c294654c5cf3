import type { NotUnderstood, Records } from '../model/record.js';
import type { Sentence } from '../model/sentences.js';

/**
 * What an output says on top of what was not understood: how much, the first few kinds, and how many more there are.
 * @example
 * ```ts
 * notUnderstoodSaid([], 5); // undefined
 * ```
 */
export function notUnderstoodSaid(
  notUnderstood: readonly NotUnderstood[],
  mostKinds: number,
): { readonly head: Sentence; readonly kinds: readonly Sentence[] } | undefined {
  if (notUnderstood.length === 0) return undefined;
  const resources = new Set(
    notUnderstood.flatMap(({ patients }) => patients.flatMap((one) => one.resources)),
  );
  const more = notUnderstood.length - mostKinds;
  return {
    head: { code: 'not-understood-head', resources: resources.size, kinds: notUnderstood.length },
    kinds: [
      ...notUnderstood.slice(0, mostKinds).map(kindOf),
      ...(more > 0 ? [{ code: 'not-understood-more', kinds: more } as const] : []),
    ],
  };
}

function kindOf({ count, examples, ...element }: NotUnderstood): Sentence {
  const [example] = examples;
  return {
    code: 'not-understood-kind',
    ...elementOf(element),
    count,
    ...(example === undefined ? {} : { example }),
  };
}

/** The element as a sentence has it. */
export function elementOf({
  path,
  system,
  code,
  text,
}: Pick<NotUnderstood, 'path' | 'system' | 'code' | 'text'>) {
  return {
    path,
    ...(system === undefined ? {} : { system }),
    ...(code === undefined ? {} : { coded: code }),
    ...(text === undefined ? {} : { text }),
  };
}

/**
 * That no line was found, and how many Devices there are; undefined where there is a line.
 * @example
 * ```ts
 * noLineFound(records); // undefined
 * ```
 */
export function noLineFound({ lines, notUnderstood, otherBusiness }: Records): Sentence | undefined {
  if (lines.length > 0) return undefined;
  const seen = notUnderstood.filter(({ path }) => path === 'Device.type').map(({ count }) => count);
  const other = otherBusiness
    .filter(({ resourceType }) => resourceType === 'Device')
    .map(({ count }) => count);
  return { code: 'no-line-found', devices: [...seen, ...other].reduce((sum, one) => sum + one, 0) };
}
