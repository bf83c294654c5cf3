// Spoils JSON the way that exports, editors and attackers do: what is left out, doubled, of another type, too long, too deep,
// moved to another place, or a little wrong.

const deepest = 60;

/** Every place of a value down to a depth, as the path that leads to it; the root has an empty one. */
export function placesOf(value, path = [], places = []) {
  places.push(path);
  if (path.length >= deepest || value === null || typeof value !== 'object') return places;
  const keys = Array.isArray(value) ? value.keys() : Object.keys(value);
  for (const key of keys) placesOf(value[key], [...path, key], places);
  return places;
}

export const at = (value, path) => path.reduce((found, key) => found?.[key], value);

const deep = (levels) => JSON.parse('['.repeat(levels) + ']'.repeat(levels));

const nasty = [
  () => null,
  () => true,
  () => false,
  () => 0,
  () => -1,
  () => 1e308,
  () => 1e-320,
  () => 0.1 + 0.2,
  () => 2 ** 53,
  () => '',
  () => ' ',
  () => 'NaN',
  () => '__proto__',
  () => 'constructor',
  () => '0226-11-24T08:00:00Z',
  () => '2026-02-30',
  () => '2026-11-24T08:00:00+25:00',
  () => '2026-11-24T08:00:00.1234567890123Z',
  () => '\u001b[2J\u202e\u0000\r\n',
  () => 'a'.repeat(10_000),
  () => '(((((((((('.repeat(100),
  () => "%labs.anc < 0.2 '10*9/L' and ".repeat(50),
  () => '𝕊 ك 漢 \ud800',
  () => [],
  () => ({}),
  () => [null],
  () => ({ constructor: { prototype: {} } }),
  () => JSON.parse('{"__proto__":{"polluted":true}}'),
  () => deep(200),
  () => deep(20_000),
];

const nearly = {
  string: (text, { below, pick }) =>
    pick([
      () => text.slice(0, below(text.length + 1)),
      () => text.toUpperCase(),
      () => `${text}${text}`,
      () => ` ${text} `,
      () => text.split('').reverse().join(''),
      () => text.replace(/\d/g, () => String(below(10))),
      () => `${text}\u200b`,
    ])(),
  number: (value, { below, pick }) =>
    pick([
      () => -value,
      () => value * 1000,
      () => value / 1000,
      () => value + 1,
      () => below(100),
      () => String(value),
    ])(),
  boolean: (value) => !value,
};

/** A copy; of what is nested too deep to be copied the value itself. */
function copyOf(value) {
  try {
    return structuredClone(value) ?? null;
  } catch {
    return value;
  }
}

/** One change at one place; the value itself is changed. Gives the place that was changed. */
function change(root, random) {
  const { below, pick, chance } = random;
  const places = placesOf(root).filter((path) => path.length > 0);
  if (places.length === 0) return [];
  const path = pick(places);
  const parent = at(root, path.slice(0, -1));
  const key = path.at(-1);
  const put = (value) =>
    Object.defineProperty(parent, key, { value, writable: true, enumerable: true, configurable: true });
  const remove = () => (Array.isArray(parent) ? parent.splice(key, 1) : Reflect.deleteProperty(parent, key));
  const value = parent[key];
  const kind = below(7);
  if (kind === 0) remove();
  else if (kind === 1) put(pick(nasty)());
  else if (kind === 2 && Array.isArray(parent)) parent.splice(below(parent.length + 1), 0, copyOf(value));
  else if (kind === 3) put(copyOf(at(root, pick(places))));
  else if (kind === 4) {
    remove();
    if (!Array.isArray(parent)) parent[chance(0.5) ? `_${key}` : `${key}X`] = value;
  } else if (kind === 5 && Array.isArray(value)) value.reverse();
  else put((nearly[typeof value] ?? (() => pick(nasty)()))(value, random));
  return path;
}

/** A spoiled copy, and the places that were changed: one to four. */
export function mutate(original, random) {
  const value = structuredClone(original);
  const changed = Array.from({ length: 1 + random.below(4) }, () => change(value, random));
  return { value, changed };
}
