import { useEffect, useRef, useState } from 'preact/hooks';

/** So many are drawn anew in one frame: on a slow ward computer more would be seen as a halt. */
const perFrame = 3;

/**
 * A long list that is replaced a few items a frame, so that the page answers meanwhile. What was not there before comes
 * at once, and what is gone goes at once.
 */
export function useGradually<Item extends { readonly key: string }>(
  wanted: readonly Item[],
): readonly Item[] {
  const drawn = useRef<ReadonlyMap<string, Item>>(new Map());
  const [, again] = useState(0);
  let left = perFrame;
  let waits = false;
  const list = wanted.map((item) => {
    const before = drawn.current.get(item.key);
    if (before === undefined || before === item) return item;
    if (left > 0) {
      left -= 1;
      return item;
    }
    waits = true;
    return before;
  });
  drawn.current = new Map(list.map((item) => [item.key, item]));
  useEffect(() => {
    if (!waits) return undefined;
    const frame = requestAnimationFrame(() => again((count) => count + 1));
    return () => cancelAnimationFrame(frame);
  });
  return list;
}
