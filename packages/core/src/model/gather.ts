/** Adds to the list that stands under a key. In place: a list that is copied for each that comes takes the square of their number. */
export function addTo<Key, Value>(lists: Map<Key, Value[]>, key: Key, ...values: readonly Value[]): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [...values]);
  else for (const value of values) list.push(value);
}

/** A list by a key of each; of one that has none, nothing. */
export function grouped<Key, Value>(
  values: Iterable<Value>,
  keyOf: (value: Value) => Key | undefined,
): Map<Key, Value[]> {
  const lists = new Map<Key, Value[]>();
  for (const value of values) {
    const key = keyOf(value);
    if (key !== undefined) addTo(lists, key, value);
  }
  return lists;
}
